"""Sessions: 256 random bits at the browser or the script, their SHA-256 here.

A session lasts 30 days, or 7 without a request. That is longer than an office would allow, and on purpose: a phone in a
steel frame may meet no signal for days, and a sign-in that has run out there would only keep its work from arriving.
"""

from __future__ import annotations

from dataclasses import dataclass

from flask import Request
from sqlalchemy import Connection, delete, insert, or_, select, update

from server.clock import Clock
from server.db import reading, writing
from server.people.digests import digest
from server.people.tables import account, session

COOKIE = "rakelight"
ABSOLUTE, IDLE, NOTED = 30 * 86_400, 7 * 86_400, 600


@dataclass(frozen=True)
class Session:
    """`kind` is how the token came, cookie or bearer: what a browser sends by itself needs more proof of its origin."""

    person: str
    device: str
    kind: str


def start_session(conn: Connection, person: str, device: str, kind: str, clock: Clock) -> str:
    """A new token, shown this once; sweeps out sessions that have run out."""
    token, now = clock.token(), int(clock.now().timestamp())
    conn.execute(delete(session).where(or_(session.c.created_at < now - ABSOLUTE, session.c.last_at < now - IDLE)))
    conn.execute(
        insert(session).values(
            token=digest(token), person=person, device=device, kind=kind, created_at=now, last_at=now
        )
    )
    return token


def person_of(request: Request, clock: Clock) -> Session | None:
    """Whose request this is; None when it carries no token that is good today and the account is in force."""
    token, kind = _token(request)
    if not token:
        return None
    key, now = digest(token), int(clock.now().timestamp())
    with reading() as conn:
        row = conn.execute(
            select(session)
            .join(account, account.c.person == session.c.person)
            .where(session.c.token == key, session.c.kind == kind, account.c.disabled.is_(False))
        ).one_or_none()
    if row is None or row.created_at < now - ABSOLUTE or row.last_at < now - IDLE:
        return None
    if now > row.last_at + NOTED:
        # Not at every request: that would make each reading request a durable write.
        with writing() as conn:
            conn.execute(update(session).where(session.c.token == key).values(last_at=now))
    return Session(row.person, row.device, row.kind)


def end_session(request: Request) -> None:
    """Signing out: the token is dead from now on; nothing happens when there is none."""
    token, _kind = _token(request)
    if token:
        with writing() as conn:
            conn.execute(delete(session).where(session.c.token == digest(token)))


def _token(request: Request) -> tuple[str, str]:
    header = request.headers.get("Authorization", "")
    if header:
        scheme, _, token = header.partition(" ")
        return (token.strip(), "bearer") if scheme.lower() == "bearer" else ("", "bearer")
    return request.cookies.get(COOKIE, ""), "cookie"
