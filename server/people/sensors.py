"""Sensors: a key for each, 256 random bits shown once, its SHA-256 here. A key stands for one place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from flask import Request
from sqlalchemy import Connection, insert, select, update

from server.clock import Clock
from server.db import reading, writing
from server.people import throttle
from server.people.digests import digest
from server.people.tables import sensor

PER_MINUTE, WRONG_PER_MINUTE = 60, 30
PREFIX = "rls_"
SHOWN = ("id", "name", "module", "room", "made_by", "made_at", "heard_at", "revoked_at")
Sensor = dict[str, Any]


@dataclass(frozen=True)
class Knock:
    """`sensor` when the key is one of ours, revoked or not; `wait` seconds when it came too early."""

    sensor: Sensor | None = None
    wait: int = 0


def make_sensor(
    conn: Connection, name: str, module: str | None, room: str | None, by: str, clock: Clock
) -> tuple[Sensor, str]:
    """A new sensor at a room, a module or (without a module) outside in the yard; and its key, shown this once."""
    key = PREFIX + clock.token()
    row = {
        "id": clock.new_id(),
        "name": name,
        "module": module,
        "room": room,
        "made_by": by,
        "made_at": int(clock.now().timestamp()),
        "heard_at": None,
        "revoked_at": None,
    }
    conn.execute(insert(sensor).values(key=digest(key), **row))
    return row, key


def sensors(conn: Connection) -> list[Sensor]:
    """Every sensor, revoked ones too, the newest last; times in seconds since 1970."""
    rows = conn.execute(select(*(sensor.c[name] for name in SHOWN)).order_by(sensor.c.made_at, sensor.c.id)).mappings()
    return [{name: row[name] for name in SHOWN} for row in rows]


def revoke_sensor(conn: Connection, sensor_id: str, clock: Clock) -> bool:
    """The key is dead from now on; False when there is no such sensor. A second time changes nothing."""
    now = int(clock.now().timestamp())
    conn.execute(update(sensor).where(sensor.c.id == sensor_id, sensor.c.revoked_at.is_(None)).values(revoked_at=now))
    return conn.execute(select(sensor.c.id).where(sensor.c.id == sensor_id)).first() is not None


def sensor_of(request: Request, clock: Clock) -> Knock:
    """Whose key this request carries. A wrong one counts against its address, a right one against its own minute."""
    scheme, _, key = request.headers.get("Authorization", "").partition(" ")
    if scheme.lower() != "bearer" or not key.strip():
        return Knock()
    now = int(clock.now().timestamp())
    with reading() as conn:
        row = conn.execute(select(sensor).where(sensor.c.key == digest(key.strip()))).mappings().first()
    with writing() as conn:
        if row is None:
            return Knock(wait=throttle.rate(conn, f"k:{request.remote_addr}"[:80], WRONG_PER_MINUTE, now))
        wait = throttle.rate(conn, f"s:{row['id']}", PER_MINUTE, now)
        if not wait and row["revoked_at"] is None:
            conn.execute(update(sensor).where(sensor.c.id == row["id"]).values(heard_at=now))
    return Knock({name: row[name] for name in SHOWN}, wait)
