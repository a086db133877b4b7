"""Accounts: a passcode for a person whom the journal names."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from server.people.passcodes import fold, hashed
from server.people.tables import account, session


def accounts(conn: Connection) -> list[dict[str, str]]:
    """Person and name of everybody who may sign in, by name."""
    rows = conn.execute(
        select(account.c.person, account.c.name).where(account.c.disabled.is_(False)).order_by(account.c.folded)
    )
    return [{"person": row.person, "name": row.name} for row in rows]


def usable(conn: Connection, people: list[str]) -> set[str]:
    """Those of these people who may sign in."""
    found = select(account.c.person).where(account.c.person.in_(people), account.c.disabled.is_(False))
    return set(conn.scalars(found))


def account_of(conn: Connection, name: str) -> Any | None:
    """The account row under that name, disabled ones too; None when there is none."""
    return conn.execute(select(account).where(account.c.folded == fold(name))).one_or_none()


def set_passcode(conn: Connection, person: str, name: str, passcode: str) -> bool:
    """Opens the account or changes its passcode; ends every session of the person. False when the name is another's."""
    other = account_of(conn, name)
    if other is not None and other.person != person:
        return False
    values = {"name": name, "folded": fold(name), "passcode": hashed(passcode), "disabled": False}
    changed = conn.execute(update(account).where(account.c.person == person).values(**values))
    if changed.rowcount == 0:
        conn.execute(insert(account).values(person=person, **values))
    conn.execute(delete(session).where(session.c.person == person))
    return True


def disable(conn: Connection, person: str) -> None:
    """The account stays, to be seen; its sessions end at once."""
    conn.execute(update(account).where(account.c.person == person).values(disabled=True))
    conn.execute(delete(session).where(session.c.person == person))
