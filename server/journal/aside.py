"""Entries that were not taken: kept whole with the reason, and let in or kept out later."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import Connection, insert, select, update

from server.clock import Clock
from server.db import writing
from server.journal import tables as t
from server.journal.writer import SERVER, Entry, Writer, phone_fields

NEVER = ("malformed", "unknown_kind", "same_id_other_bytes")


class CannotLetIn(Exception):
    """The entry cannot be let in; `reason` is why it was set aside, or `unknown`."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def waiting_on(connection: Connection) -> set[str]:
    """The things that set-aside entries wait for."""
    rows = connection.execute(
        select(t.set_aside.c.rests_on).where(t.set_aside.c.state == "waiting", t.set_aside.c.rests_on.is_not(None))
    )
    return {row[0] for row in rows}


def put_aside(
    writer: Writer, raw: bytes, fields: Entry, digest: str, reason: str, rests_on: str | None, time: str, seen_to: int
) -> None:
    """Keeps an entry whole and writes `entry.set_aside`, so that phones and the gate see it."""
    told = {
        name: fields[name] if isinstance(fields.get(name), str) else ""
        for name in ("id", "kind", "by", "device", "module", "about")
    }
    n = fields.get("n") if isinstance(fields.get("n"), int) and 0 <= fields["n"] < 10**12 else 0
    writer.connection.execute(
        insert(t.set_aside),
        [
            {
                "sha256": digest,
                "id": told["id"],
                "device": told["device"],
                "n": n,
                "bytes": raw,
                "reason": reason,
                "about": told["about"],
                "rests_on": rests_on,
                "time": time,
                "seen_to": seen_to,
                "state": "waiting",
            }
        ],
    )
    _remember_photo(writer, fields)
    body = {
        "entry": told["id"],
        "sha256": digest,
        "reason": reason,
        "kind": told["kind"][:64],
        "by": told["by"][:64],
        "device": told["device"][:64],
        "n": n,
    }
    module = told["module"] if writer.work.part("module", told["module"]) is not None else None
    writer.say("entry.set_aside", module, told["id"] or digest, body)


def let_in_waiting(writer: Writer, about: str) -> None:
    """Lets in, in order of n, what was waiting for a thing that has just arrived."""
    rows = (
        writer.connection.execute(
            select(t.set_aside)
            .where(t.set_aside.c.rests_on == about, t.set_aside.c.state == "waiting")
            .order_by(t.set_aside.c.device, t.set_aside.c.n)
        )
        .mappings()
        .all()
    )
    for row in rows:
        _enter(writer, dict(row), SERVER)


def let_in(entry_id: str, by: str, clock: Clock) -> Entry:
    """A manager lets a set-aside entry in: it gets the next seq and keeps n, seen and author. CannotLetIn otherwise."""
    with writing() as connection:
        writer = Writer(connection, clock)
        entry = _enter(writer, _waiting(connection, entry_id), by)
        if entry["about"]:
            let_in_waiting(writer, entry["about"])
        writer.flush()
        return entry


def keep_out(entry_id: str, by: str, reason: str, clock: Clock) -> None:
    """A manager decides that a set-aside entry stays out; the record stays. CannotLetIn when there is none."""
    with writing() as connection:
        writer = Writer(connection, clock)
        row = _waiting(connection, entry_id)
        connection.execute(update(t.set_aside).where(t.set_aside.c.sha256 == row["sha256"]).values(state="kept_out"))
        body = {"entry": row["id"], "sha256": row["sha256"], "by": by, "reason": reason}
        writer.say("entry.kept_out", _module_of(writer, row), row["id"] or row["sha256"], body)
        writer.flush()


def _waiting(connection: Connection, entry_id: str) -> dict[str, Any]:
    row = (
        connection.execute(
            select(t.set_aside).where(
                (t.set_aside.c.id == entry_id) | (t.set_aside.c.sha256 == entry_id), t.set_aside.c.state == "waiting"
            )
        )
        .mappings()
        .first()
    )
    if row is None:
        raise CannotLetIn("unknown")
    return dict(row)


def _enter(writer: Writer, row: dict[str, Any], by: str) -> Entry:
    if row["reason"] in NEVER:
        raise CannotLetIn(row["reason"])
    fields = phone_fields(json.loads(row["bytes"]))
    taken = writer.connection.execute(select(t.entry.c.seq).where(t.entry.c.id == fields["id"])).first()
    if taken is not None:
        raise CannotLetIn("same_id_other_bytes")
    writer.connection.execute(update(t.set_aside).where(t.set_aside.c.sha256 == row["sha256"]).values(state="let_in"))
    body = {"entry": row["id"], "sha256": row["sha256"], "by": by}
    writer.say("entry.let_in", _module_of(writer, row), row["id"], body)
    return writer.append(fields, seen_to=row["seen_to"], time=row["time"], let_in=1, digest=row["sha256"])


def _module_of(writer: Writer, row: dict[str, Any]) -> str | None:
    part = writer.work.part("set_aside", row["sha256"])
    module: str | None = part["module"] if part else None
    return module


def _remember_photo(writer: Writer, fields: Entry) -> None:
    """The bytes of a set-aside photo are wanted too."""
    body = fields.get("body")
    if fields.get("kind") == "photo.added" and isinstance(body, dict) and isinstance(body.get("sha256"), str):
        known = select(t.photo_ref.c.photo).where(
            t.photo_ref.c.sha256 == body["sha256"], t.photo_ref.c.photo == str(fields.get("about"))
        )
        if writer.connection.execute(known).first() is None:
            row = {"sha256": body["sha256"], "photo": str(fields.get("about")), "module": None, "arrived": 0}
            writer.connection.execute(insert(t.photo_ref), [row])
