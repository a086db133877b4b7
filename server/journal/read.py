"""Reading parts and entries."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import Connection, select

from server.journal import tables as t
from server.rules import DAY, SLOTS, air_id, stream_id

Part = dict[str, Any]
# A server keeps one yard. The key begins with it: a look-up that leaves it out reads the whole index.
_HERE = select(t.yard.c.id).scalar_subquery()


def yard_facts(connection: Connection) -> dict[str, Any] | None:
    """{yard, epoch, seq, chain} of the yard that this server keeps; None before one is opened."""
    row = connection.execute(select(t.yard)).mappings().first()
    return {"yard": row["id"], "epoch": row["epoch"], "seq": row["seq"], "chain": row["chain"]} if row else None


def part(connection: Connection, kind: str, part_id: str) -> Part | None:
    """One part."""
    body = connection.execute(
        select(t.part.c.body).where(t.part.c.yard == _HERE, t.part.c.kind == kind, t.part.c.id == part_id)
    ).scalar_one_or_none()
    return json.loads(body) if body is not None else None


def parts_named(connection: Connection, kind: str) -> list[Part]:
    """Every part of a kind, by id."""
    rows = connection.execute(
        select(t.part.c.body).where(t.part.c.yard == _HERE, t.part.c.kind == kind).order_by(t.part.c.id)
    )
    return [json.loads(row[0]) for row in rows]


def parts_of(connection: Connection, module: str) -> list[Part]:
    """A module's parts, by kind and id."""
    rows = connection.execute(
        select(t.part.c.body).where(t.part.c.module == module).order_by(t.part.c.kind, t.part.c.id)
    )
    return [json.loads(row[0]) for row in rows]


def gate_parts(connection: Connection, module: str) -> list[Part]:
    """What the gate reads: the module's parts, the phones and the plans, and what tells how its coats dry."""
    yards = [part for kind in ("device", "plan") for part in parts_named(connection, kind)]
    return [*parts_of(connection, module), *yards, *drying_parts(connection)]


def drying_parts(connection: Connection) -> list[Part]:
    """What coats of every module dry by: the yard, its air, its nights, what its coats taught."""
    yards = parts_named(connection, "yard")
    days = [air_id(stream_id(yard["id"]), slot * DAY) for yard in yards for slot in range(SLOTS)]
    rows = connection.execute(
        select(t.part.c.body).where(t.part.c.yard == _HERE, t.part.c.kind == "air", t.part.c.id.in_(days))
    )
    said = [part for kind in ("forecast", "learned") for part in parts_named(connection, kind)]
    return [*yards, *(json.loads(row[0]) for row in rows), *said]


def entries(connection: Connection) -> list[dict[str, Any]]:
    """The whole journal, in order."""
    return [json.loads(row[0]) for row in connection.execute(select(t.entry.c.canon).order_by(t.entry.c.seq))]


def set_aside_bytes(connection: Connection, sha256: str) -> bytes | None:
    """A set-aside entry as it came."""
    found: bytes | None = connection.execute(
        select(t.set_aside.c.bytes).where(t.set_aside.c.sha256 == sha256)
    ).scalar_one_or_none()
    return found
