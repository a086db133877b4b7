"""Enrolments of phones: minted by the server, never used twice."""

from __future__ import annotations

import base64
import hashlib
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from server.clock import Clock, stamp
from server.db import writing
from server.journal import tables as t
from server.journal.writer import Writer

# In the place of what a phone told last: any call of it, even an old one that comes late, is word from it. To await too
# much is safe.
UNHEARD = "[0, null]"


def enrol(connection: Connection, person: str, clock: Clock) -> str:
    """A new enrolment for a phone that a person has signed in on; its id."""
    writer = Writer(connection, clock)
    device = new_device_id(clock)
    insert_device(connection, writer.yard, device, stamp(clock.now()))
    connection.execute(insert(t.device_person), [{"device": device, "person": person}])
    writer.say("device.enrolled", None, device, {"person": person})
    writer.flush()
    return device


def admit(connection: Connection, device: str, person: str, clock: Clock) -> str:
    """Lets a person sign in on an enrolment; one that a restore has forgotten goes on where it is.

    Asked for the server's own device, the phone gets a new enrolment instead: nobody signs in as the server.
    """
    known = connection.execute(select(t.device.c.id).where(t.device.c.id == device)).first()
    if connection.execute(select(t.yard.c.id).where(t.yard.c.server_device == device)).first() is not None:
        return enrol(connection, person, clock)
    if known is None:
        writer = Writer(connection, clock)
        insert_device(connection, writer.yard, device, stamp(clock.now()), any_first=1)
        writer.say("device.enrolled", None, device, {"person": person})
        writer.flush()
    there = connection.execute(
        select(t.device_person).where(t.device_person.c.device == device, t.device_person.c.person == person)
    ).first()
    if there is None:
        connection.execute(insert(t.device_person), [{"device": device, "person": person}])
    return device


def people_on(connection: Connection, device: str) -> set[str]:
    """Everyone who has signed in on an enrolment."""
    rows = connection.execute(select(t.device_person.c.person).where(t.device_person.c.device == device))
    return {row[0] for row in rows}


def expel(connection: Connection, person: str) -> None:
    """Ends a person's place on every enrolment: what still comes in their name is set aside."""
    connection.execute(delete(t.device_person).where(t.device_person.c.person == person))


def write_off(device: str, by: str, reason: str, clock: Clock) -> None:
    """A phone that will not come back. Should it come back, its next call tells anew how it stands.

    KeyError when there is no such enrolment.
    """
    with writing() as connection:
        writer = Writer(connection, clock)
        if writer.work.part("device", device) is None:
            raise KeyError(device)
        writer.say("device.written_off", None, device, {"reason": reason, "by": by})
        writer.flush()
        connection.execute(update(t.device).where(t.device.c.id == device).values(behind=UNHEARD))


def insert_device(connection: Connection, yard: str, device: str, now: str, any_first: int = 0) -> None:
    """A row for an enrolment that has sent nothing yet."""
    connection.execute(
        insert(t.device),
        [
            {
                "id": device,
                "yard": yard,
                "last_n": 0,
                "last_id": None,
                "any_first": any_first,
                "blind_n": 0,
                "behind": "",
                "heard_at": now,
                "clock_error_ms": 0,
            }
        ],
    )


def new_device_id(clock: Clock) -> str:
    """Ten base32 characters of a random token."""
    return base64.b32encode(hashlib.sha256(clock.token().encode()).digest()).decode()[:10].lower()


def save_device(connection: Connection, row: dict[str, Any]) -> None:
    """Writes back what a call changed of its device."""
    kept = {
        name: row[name]
        for name in ("last_n", "last_id", "any_first", "blind_n", "behind", "heard_at", "clock_error_ms")
    }
    connection.execute(update(t.device).where(t.device.c.id == row["id"]).values(**kept))
