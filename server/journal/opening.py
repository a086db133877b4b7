"""The first entries of a journal, and the first of a new epoch."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, insert, select

from server.clock import Clock, stamp
from server.db import writing
from server.journal import tables as t
from server.journal.devices import insert_device, new_device_id
from server.journal.writer import Writer
from server.rules import FIRST_LINK, FORM


class YardExists(Exception):
    """This server keeps a yard already."""


def open_yard(
    connection: Connection,
    clock: Clock,
    *,
    name: str,
    zone: str,
    bays: list[str],
    crews: list[dict[str, str]],
    admin_name: str,
) -> dict[str, str]:
    """Opens the yard with its first administrator (also a manager); {yard, person}. YardExists when there is one."""
    if connection.execute(select(t.yard.c.id)).first() is not None:
        raise YardExists
    yard, person, device = clock.new_id(), clock.new_id(), new_device_id(clock)
    connection.execute(
        insert(t.yard),
        [
            {
                "id": yard,
                "epoch": clock.new_id(),
                "seq": 0,
                "chain": FIRST_LINK.hex(),
                "server_device": device,
                "form": FORM,
            }
        ],
    )
    insert_device(connection, yard, device, stamp(clock.now()))
    writer = Writer(connection, clock)
    writer.say("yard.opened", None, yard, {"name": name, "zone": zone, "bays": bays, "crews": crews})
    writer.say("person.named", None, person, {"name": admin_name, "roles": ["administrator", "manager"]})
    writer.flush()
    return {"yard": yard, "person": person}


def restored(by: str, clock: Clock) -> dict[str, Any]:
    """The manager confirms that an older backup stands in: a new epoch begins with `journal.restored`."""
    with writing() as connection:
        writer = Writer(connection, clock)
        old, cut, chain = writer.epoch, writer.seq, writer.chain.hex()
        writer.epoch, writer.server_device = clock.new_id(), new_device_id(clock)
        insert_device(connection, writer.yard, writer.server_device, writer.received_at)
        connection.execute(insert(t.epoch), [{"yard": writer.yard, "epoch": writer.epoch, "old": old, "cut": cut}])
        entry = writer.say("journal.restored", None, writer.yard, {"old": old, "cut": cut, "chain": chain, "by": by})
        writer.flush()
        return entry
