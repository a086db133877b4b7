"""Entries that were not taken: kept whole with the reason, and let in or kept out later."""

from __future__ import annotations

import json
import re
from typing import Any

from sqlalchemy import Connection, insert, select, update

from server.clock import Clock
from server.db import writing
from server.journal import tables as t
from server.journal.folding import Entry
from server.journal.looks import say_learned
from server.journal.rests import astray, missing
from server.journal.writer import SERVER, Writer, phone_fields
from server.rules import kind_of, may

NEVER = ("malformed", "unknown_kind", "same_id_other_bytes")
LONGEST_NAME = 64
HASH = re.compile(r"[0-9a-f]{64}\Z")


class CannotLetIn(Exception):
    """The entry cannot be let in; `reason` is why it was set aside, or `unknown`."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def readable(fields: Entry, name: str) -> str:
    """A field of what may be junk, as far as it can stand in an entry, an answer and a table; else nothing."""
    value = fields.get(name)
    return value if isinstance(value, str) and len(value) <= LONGEST_NAME and value.isprintable() else ""


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
    told = {name: readable(fields, name) for name in ("id", "kind", "by", "device", "module", "about")}
    n = fields.get("n") if type(fields.get("n")) is int and 0 <= fields["n"] < 10**12 else 0
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
        "kind": told["kind"],
        "by": told["by"],
        "device": told["device"],
        "n": n,
    }
    module = told["module"] if writer.work.part("module", told["module"]) is not None else None
    writer.say("entry.set_aside", module, told["id"] or digest, body)


def let_in_waiting(writer: Writer, about: str) -> None:
    """Lets in, in order of n, what was waiting for a thing that has just arrived, and what waits for that in turn."""
    arrived = [about]
    while arrived:
        rows = (
            writer.connection.execute(
                select(t.set_aside)
                .where(t.set_aside.c.rests_on == arrived.pop(0), t.set_aside.c.state == "waiting")
                .order_by(t.set_aside.c.device, t.set_aside.c.n)
            )
            .mappings()
            .all()
        )
        for row in rows:
            if _why_not(writer, dict(row), SERVER) is None:
                arrived.append(_enter(writer, dict(row), SERVER)["about"])


def let_in(entry_id: str, by: str, clock: Clock) -> Entry:
    """A manager lets a set-aside entry in: it gets the next seq and keeps n, seen and author. CannotLetIn otherwise."""
    with writing() as connection:
        writer = Writer(connection, clock)
        entry = _enter(writer, _waiting(connection, entry_id), by)
        if entry["about"]:
            let_in_waiting(writer, entry["about"])
        say_learned(writer)
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


def _why_not(writer: Writer, row: dict[str, Any], by: str) -> str | None:
    """Why an entry can never be let in, not by this person or not yet; None when it can."""
    if row["reason"] in NEVER:
        return str(row["reason"])
    fields = json.loads(row["bytes"])
    kind = kind_of(fields)
    if kind is None:
        return "unknown_kind"
    if kind.get("server") and fields["kind"] != "release.given":
        return "not_your_role"
    if astray(writer.work, writer.yard, fields):
        return "malformed"
    if writer.connection.execute(select(t.entry.c.seq).where(t.entry.c.id == fields["id"])).first() is not None:
        return "same_id_other_bytes"
    if fields["kind"] == "person.named" and by != SERVER:
        # Else whoever may let in could give themselves any role.
        existing = writer.work.part("person", fields["about"])
        return may(writer.work.part("person", by), fields["kind"], fields["body"], existing, fields["rules"])
    # Let in before the thing it is about, it would have no effect for good: not even its hands would be remembered.
    return "not_arrived" if missing(writer.work, fields) else None


def _enter(writer: Writer, row: dict[str, Any], by: str) -> Entry:
    why_not = _why_not(writer, row, by)
    if why_not:
        raise CannotLetIn(why_not)
    fields = phone_fields(json.loads(row["bytes"]))
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
    body, about = fields.get("body"), readable(fields, "about")
    digest = readable(body, "sha256") if isinstance(body, dict) else ""
    if fields.get("kind") == "photo.added" and HASH.match(digest):
        writer.remember_photo(digest, about, None)
