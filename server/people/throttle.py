"""Slowing down whoever guesses: a growing delay for a name, a rate for an address, never a lock.

Every try is counted before its passcode is looked at and taken back when it was right, so that many tries at once
count like tries one after another.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select, update

from server.people.digests import digest
from server.people.passcodes import fold
from server.people.tables import throttle

FREE, LONGEST, FORGET = 5, 900, 86_400
MINUTE, PER_MINUTE = 60, 30


def name_key(name: str) -> str:
    """Hashed, because people type passcodes into the name field."""
    return "n:" + digest(fold(name))


def enter(conn: Connection, name: str, address: str, now: int) -> int:
    """Counts one try; seconds to wait when it comes too early (then it is not counted), else 0."""
    conn.execute(delete(throttle).where(throttle.c.last_at < now - FORGET))
    by_name, by_address = name_key(name), f"a:{address}"[:80]
    rows = {row.key: row for row in conn.execute(select(throttle).where(throttle.c.key.in_((by_name, by_address))))}
    wait = max((row.until - now for row in rows.values()), default=0)
    if wait > 0:
        return wait
    failures = rows[by_name].failures + 1 if by_name in rows else 1
    delay = min(LONGEST, 2 ** min(failures - FREE + 1, 20)) if failures >= FREE else 0
    _keep(conn, by_name, failures, now, now + delay, known=by_name in rows)
    _count_minute(conn, rows.get(by_address), by_address, now, PER_MINUTE)
    return 0


def passed(conn: Connection, name: str, address: str) -> None:
    """The passcode was right: the name starts afresh, the address gets its try back."""
    conn.execute(delete(throttle).where(throttle.c.key == name_key(name)))
    conn.execute(
        update(throttle)
        .where(throttle.c.key == f"a:{address}"[:80])
        .values(failures=throttle.c.failures - 1, until=throttle.c.last_at)
    )


def rate(conn: Connection, key: str, most: int, now: int) -> int:
    """Counts one call of so many a minute; seconds to wait when it comes too early (then it is not counted), else 0."""
    row = conn.execute(select(throttle).where(throttle.c.key == key)).one_or_none()
    if row is not None and row.until > now:
        return int(row.until - now)
    _count_minute(conn, row, key, now, most)
    return 0


def _count_minute(conn: Connection, row: Row[Any] | None, key: str, now: int, most: int) -> None:
    tries, start = 1, now
    if row is not None and now < row.last_at + MINUTE:
        tries, start = row.failures + 1, row.last_at
    _keep(conn, key, tries, start, start + MINUTE if tries >= most else start, known=row is not None)


def _keep(conn: Connection, key: str, failures: int, last_at: int, until: int, *, known: bool) -> None:
    values = {"failures": failures, "last_at": last_at, "until": until}
    if known:
        conn.execute(update(throttle).where(throttle.c.key == key).values(**values))
    else:
        conn.execute(insert(throttle).values(key=key, **values))
