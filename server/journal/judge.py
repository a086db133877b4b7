"""One verdict for each entry that a phone sends, in order; one bad entry never holds up the ones behind it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import select

from server.clock import read_stamp, stamp
from server.journal import tables as t
from server.journal.aside import let_in_waiting, put_aside, readable, waiting_on
from server.journal.folding import Entry
from server.journal.rests import astray, missing
from server.journal.writer import Writer, phone_fields
from server.rules import kind_of, may, sha256, tables

LAST_N = 2**53 - 1
FREE_IN_N = ("malformed", "same_id_other_bytes", "used_number", "broken_sequence", "wrong_device", "release_offered")


@dataclass(frozen=True)
class Offered:
    """An entry as it came: its fields when they could be read at all, the bytes, and what the schema found wrong.

    `raw`: where nothing is wrong, the canonical bytes of the phone's fields; their SHA-256 is the verdict's.
    """

    fields: Entry | None
    raw: bytes
    problem: str | None = None


@dataclass
class Bench:
    """What the verdicts of one call rest on. `before`: what the phone says was set aside once."""

    writer: Writer
    device: dict[str, Any]
    signed_in: set[str]
    clock_error: timedelta
    cuts: dict[str, int]
    cursor: int
    before: set[str] = field(default_factory=set)
    waiting: set[str] = field(default_factory=set)
    known: dict[str, tuple[int, str]] = field(default_factory=dict)
    aside: dict[str, tuple[str, str, str]] = field(default_factory=dict)
    received: dict[int, str] = field(default_factory=dict)


def prepare(bench: Bench, offered: list[Offered]) -> None:
    """Looks up, in a few statements, what the call's entries will be judged against."""
    connection = bench.writer.connection
    ids = [entry_id for one in offered if one.fields and (entry_id := readable(one.fields, "id"))]
    # What has no id is known again by its bytes.
    junk = [sha256(one.raw) for one in offered if one.fields is None or one.problem]
    for start in range(0, max(len(ids), len(junk)), 400):
        block = ids[start : start + 400]
        rows = connection.execute(select(t.entry.c.id, t.entry.c.seq, t.entry.c.sha256).where(t.entry.c.id.in_(block)))
        bench.known.update({row[0]: (row[1], row[2]) for row in rows})
        asides = connection.execute(
            select(t.set_aside.c.id, t.set_aside.c.sha256, t.set_aside.c.reason, t.set_aside.c.state).where(
                t.set_aside.c.id.in_(block) | t.set_aside.c.sha256.in_(junk[start : start + 400])
            )
        )
        bench.aside.update({row[1]: (row[0], row[2], row[3]) for row in asides})
    bench.waiting = waiting_on(connection)
    keys: list[tuple[str, str]] = []
    for one in offered:
        if one.fields is None or one.problem:
            continue
        kind = kind_of(one.fields)
        keys += [(kind["part"], one.fields["about"])] if kind else []
        keys += [("module", one.fields["module"])] if one.fields["module"] else []
        keys.append(("person", one.fields["by"]))
    bench.writer.prefetch(keys)
    bench.writer.prefetch_photos(
        one.fields["body"]["sha256"] for one in offered if one.fields and not one.problem and _is_photo(one.fields)
    )


def _is_photo(fields: Entry) -> bool:
    return bool(fields["kind"] == "photo.added" and isinstance(fields["body"].get("sha256"), str))


def verdict(bench: Bench, one: Offered) -> dict[str, Any]:
    """Takes an entry or sets it aside; the answer that its phone gets.

    A taken one that was let in carries `let_in`: why it had been set aside, which tells whether it used a number.
    """
    digest = sha256(one.raw)
    fields = one.fields or {}
    entry_id = readable(fields, "id")
    found = bench.known.get(entry_id)
    if found and found[1] == digest:
        was = {"let_in": bench.aside[digest][1]} if digest in bench.aside else {}
        return {"id": entry_id, "sha256": digest, "seq": found[0], **was}
    if digest in bench.aside:
        return {"id": entry_id, "sha256": digest, "set_aside": bench.aside[digest][1]}
    reason, rests_on = _reason(bench, one, bool(found) or any(row[0] == entry_id for row in bench.aside.values()))
    if reason is None and entry_id in bench.before:
        # A restored journal does not know of it; but what its phone wrote later had not seen it.
        reason = "set_aside_before"
    if reason not in FREE_IN_N or (reason == "malformed" and _next(bench, fields)):
        bench.device["last_n"], bench.device["last_id"], bench.device["any_first"] = fields["n"], fields["id"], 0
    seen_to = _seen_to(bench, fields) if not one.problem else 0
    time = _time(bench, fields, seen_to)
    if reason is not None:
        put_aside(bench.writer, one.raw, fields, digest, reason, rests_on, time, seen_to)
        bench.aside[digest] = (entry_id, reason, "waiting")
        bench.waiting |= {rests_on} if rests_on else set()
        return {"id": entry_id, "sha256": digest, "set_aside": reason}
    entry = bench.writer.append(phone_fields(fields), seen_to=seen_to, time=time, digest=digest)
    bench.known[fields["id"]] = (entry["seq"], digest)
    if fields["about"] in bench.waiting:
        let_in_waiting(bench.writer, fields["about"])
    return {"id": entry_id, "sha256": digest, "seq": entry["seq"]}


def _reason(bench: Bench, one: Offered, clash: bool) -> tuple[str | None, str | None]:
    """Why an entry cannot be taken, and which missing thing it rests on; (None, None) when it can."""
    if one.fields is None or one.problem:
        return "malformed", None
    fields, device = one.fields, bench.device
    if clash:
        return "same_id_other_bytes", None
    if fields["device"] != device["id"]:
        return ("release_offered" if fields["kind"] == "release.given" else "wrong_device"), None
    if fields["n"] <= device["last_n"]:
        return "used_number", None
    if not _next(bench, fields):
        return "broken_sequence", None
    if kind_of(fields) is None:
        return "unknown_kind", None
    if fields["by"] not in bench.signed_in:
        return "not_signed_in", None
    return _rests(bench, fields)


def _rests(bench: Bench, fields: Entry) -> tuple[str | None, str | None]:
    work = bench.writer.work
    row = tables(fields["rules"])["kinds"][fields["kind"]]
    existing = work.part(row["part"], fields["about"])
    why_not = may(work.part("person", fields["by"]), fields["kind"], fields["body"], existing, fields["rules"])
    if why_not:
        return why_not, None
    if astray(work, bench.writer.yard, fields):
        return "malformed", None
    lacks = missing(work, fields)
    if lacks is None:
        return None, None
    return ("rests_on_set_aside" if _was_set_aside(bench, lacks) else "not_arrived"), lacks


def _was_set_aside(bench: Bench, about: str) -> bool:
    """Whether what is missing came and was set aside, rather than never came."""
    there = select(t.set_aside.c.id).where(t.set_aside.c.about == about, t.set_aside.c.state == "waiting").limit(1)
    return bench.writer.connection.execute(there).first() is not None


def _next(bench: Bench, fields: Entry) -> bool:
    """Whether it follows what the device sent last; a device admitted again after a restore goes on where it is."""
    if fields.get("device") != bench.device["id"] or type(fields.get("n")) is not int or not readable(fields, "id"):
        return False
    if fields["n"] > LAST_N:
        return False
    if bench.device["any_first"]:
        return bool(fields["n"] > bench.device["last_n"])
    return bool(fields["n"] == bench.device["last_n"] + 1 and fields.get("prev") == bench.device["last_id"])


def _seen_to(bench: Bench, fields: Entry) -> int:
    """What `seen` counts for in this journal: cut at restores; nothing where the phone's own past was unknown."""
    seen: int = fields["seen"]
    if fields["device"] == bench.device["id"] and fields["n"] <= bench.device["blind_n"]:
        return 0
    if fields["epoch"] in bench.cuts:
        return min(seen, bench.cuts[fields["epoch"]])
    # A phone's cursor goes back only when its past is not this journal's: what it wrote meanwhile saw another one.
    return seen if fields["epoch"] == bench.writer.epoch and seen <= bench.cursor <= bench.writer.seq else 0


def _time(bench: Bench, fields: Entry, seen_to: int) -> str:
    """Device time less the clock error, never before what its author had seen, never after its own arrival."""
    now: datetime = bench.writer.now
    try:
        own = fields["device"] == bench.device["id"]
        meant = read_stamp(fields["at"]) + (bench.clock_error if own else timedelta(0))
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError):
        return bench.writer.received_at
    text = stamp(min(meant, now))
    if seen_to and seen_to not in bench.received:
        bench.received[seen_to] = (
            bench.writer.connection.execute(
                select(t.entry.c.received_at).where(t.entry.c.yard == bench.writer.yard, t.entry.c.seq == seen_to)
            ).scalar_one_or_none()
            or ""
        )
    return max(text, bench.received.get(seen_to, "")) if seen_to else text
