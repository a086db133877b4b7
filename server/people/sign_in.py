"""One try to sign in: the passcode is compared outside any transaction, because that takes long on purpose."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import update

from server.clock import Clock
from server.db import reading, writing
from server.people import throttle
from server.people.accounts import account_of
from server.people.passcodes import LONGEST, hashed, matches, nobody, outdated
from server.people.tables import account


@dataclass(frozen=True)
class Checked:
    """`person` when name and passcode belong together; `wait` seconds when the try came too early."""

    person: str | None = None
    wait: int = 0


def check_passcode(name: str, passcode: str, address: str, clock: Clock) -> Checked:
    """The same answer, after the same time, for a wrong name and for a wrong passcode."""
    now = int(clock.now().timestamp())
    with writing() as conn:
        wait = throttle.enter(conn, name, address, now)
    if wait:
        return Checked(wait=wait)
    with reading() as conn:
        row = account_of(conn, name)
    usable = row is not None and not row.disabled and len(passcode) <= LONGEST
    right = matches(row.passcode if row is not None else nobody(), passcode[:LONGEST])
    if row is None or not usable or not right:
        return Checked()
    with writing() as conn:
        throttle.passed(conn, name, address)
        if outdated(row.passcode):
            conn.execute(update(account).where(account.c.person == row.person).values(passcode=hashed(passcode)))
    return Checked(person=row.person)
