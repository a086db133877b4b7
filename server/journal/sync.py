"""One round trip: verdicts for what a phone sends, and the parts that changed since its cursor."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import Any

from sqlalchemy import Connection, select

from server.clock import Clock, read_stamp, stamp
from server.db import writing
from server.journal import tables as t
from server.journal.devices import people_on, save_device
from server.journal.judge import Bench, Offered, prepare, verdict
from server.journal.looks import say_learned
from server.journal.writer import Writer
from server.rules import CURRENT, FIRST_LINK, FORM

PAGE = 2000


class UnknownDevice(Exception):
    """The call's device is not enrolled here: its person signs in on it again."""


def sync(call: dict[str, Any], offered: list[Offered], clock: Clock, page: int = PAGE) -> bytes:
    """Takes a push and answers with verdicts and parts, as JSON bytes; one transaction, safe to repeat.

    `call`: device, epoch, cursor, chain, last_n, open, sent_at; aside: ids of entries that were set aside once, if any;
    form: of the parts that the phone goes on from, 0 when it does not say. Raises UnknownDevice.
    """
    with writing() as connection:
        writer = Writer(connection, clock)
        found = connection.execute(select(t.device).where(t.device.c.id == call["device"])).mappings().first()
        if found is None or found["id"] == writer.server_device:
            raise UnknownDevice(call["device"])
        device = dict(found)
        error = _clock_error(call["sent_at"], writer)
        device["heard_at"], device["clock_error_ms"] = writer.received_at, int(error.total_seconds() * 1000)
        known = knows(connection, writer, call["cursor"], call["chain"])
        older = cuts(connection, writer)
        if not known and call["cursor"] <= older.get(call["epoch"], call["cursor"]):
            # Another past than this journal's own, not one that a confirmed restore has cut off.
            device["blind_n"] = max(device["blind_n"], call["last_n"])
        if not known or call["epoch"] != writer.epoch:
            # After a restore the phone offers again, in order, from what the answer says it holds; taking the new
            # ones first would break its count.
            offered = []
        bench = Bench(writer, device, people_on(connection, device["id"]), error, older, call["cursor"])
        bench.before = set(call.get("aside", ()))
        prepare(bench, offered)
        verdicts = [verdict(bench, one) for one in offered]
        _behind(writer, device, call)
        say_learned(writer)
        writer.flush()
        save_device(connection, device)
        head = _head(writer, verdicts, device["last_n"], call["cursor"] if known else 0)
        if call.get("form", 0) != FORM:
            # The phone's program would read these parts wrongly: it stays where it is until both are of one form.
            return _written({**head, "chain": _chain_at(connection, writer, head["cursor"])}, [])
        return _answer(connection, writer, head, page)


def knows(connection: Connection, writer: Writer, cursor: int, chain: str) -> bool:
    """Whether the phone's place in the journal is one that this journal has."""
    if cursor == 0:
        return True
    value = connection.execute(
        select(t.entry.c.chain).where(t.entry.c.yard == writer.yard, t.entry.c.seq == cursor)
    ).scalar_one_or_none()
    return value is not None and value == chain


def cuts(connection: Connection, writer: Writer) -> dict[str, int]:
    """For each older epoch, up to where what was seen in it still counts."""
    rows = connection.execute(
        select(t.epoch.c.old, t.epoch.c.epoch, t.epoch.c.cut).where(t.epoch.c.yard == writer.yard)
    ).all()
    after = {old: (new, cut) for old, new, cut in rows}
    result = {}
    for old in after:
        name, least = old, after[old][1]
        while name in after:
            name, cut = after[name]
            least = min(least, cut)
        result[old] = least
    return result


def _clock_error(sent_at: str, writer: Writer) -> timedelta:
    """Server's clock less the phone's at the push."""
    try:
        return writer.now - read_stamp(sent_at)
    except (ValueError, OverflowError):
        return timedelta(0)


def _behind(writer: Writer, device: dict[str, Any], call: dict[str, Any]) -> None:
    """Tells when a tail or a gap opens or ends on modules that this phone works on, and when one that was written off
    is heard from.

    `behind` keeps what was told last: "" for no tail, else [last_n, modules], or UNHEARD.
    """
    told = json.loads(device["behind"])[0] if device["behind"] else 0
    if told > max(call["last_n"], device["last_n"]):
        return  # an older call that comes late: the phone has told of more since
    modules: list[str] = []
    if call["last_n"] > device["last_n"]:
        writer.prefetch(("module", module) for module in call["open"])
        modules = sorted(module for module in set(call["open"]) if writer.work.part("module", module) is not None)
    now = json.dumps([call["last_n"], modules]) if modules else ""
    if now == device["behind"]:
        return
    device["behind"] = now
    writer.say("device.behind", None, device["id"], {"last_n": call["last_n"], "modules": modules})


def _head(writer: Writer, verdicts: list[dict[str, Any]], n: int, cursor: int) -> dict[str, Any]:
    """An answer that moves no cursor; its `chain` is still to come."""
    return {
        "rakelight": 1,
        "epoch": writer.epoch,
        "verdicts": verdicts,
        "gone": [],
        "cursor": cursor,
        "n": n,
        "from": cursor,
        "more": False,
        "now": stamp(writer.now),
        "rules": CURRENT,
        "form": FORM,
    }


def _answer(connection: Connection, writer: Writer, head: dict[str, Any], page: int) -> bytes:
    """The head with the parts that changed since its cursor, and how far these reach."""
    cursor = head["from"]
    rows = connection.execute(
        select(t.part.c.seq, t.part.c.body)
        .where(t.part.c.yard == writer.yard, t.part.c.gone == 0, t.part.c.seq > cursor)
        .order_by(t.part.c.seq)
        .limit(page + 1)
    ).all()
    more = len(rows) > page
    if more:
        rows = _whole_numbers(connection, writer, rows, page)
    reached = rows[-1][0] if more else writer.seq
    moved = {"cursor": reached, "chain": _chain_at(connection, writer, reached), "more": more}
    return _written({**head, **moved, "gone": _gone(connection, writer, cursor, reached)}, [row[1] for row in rows])


def _written(head: dict[str, Any], parts: list[bytes]) -> bytes:
    """The answer as JSON: parts go out as they are stored."""
    text = json.dumps(head, separators=(",", ":"), ensure_ascii=False).encode()
    return text[:-1] + b',"parts":[' + b",".join(parts) + b"]}"


def _gone(connection: Connection, writer: Writer, cursor: int, reached: int) -> list[str]:
    """The modules that left between two places. Who starts at 0 has none of them."""
    if cursor == 0:
        return []
    left = select(t.part.c.id).where(
        t.part.c.yard == writer.yard, t.part.c.left_seq > cursor, t.part.c.left_seq <= reached
    )
    return [row[0] for row in connection.execute(left.order_by(t.part.c.id))]


def _chain_at(connection: Connection, writer: Writer, seq: int) -> str:
    """The chain's value at an entry; before the first one the first link."""
    if seq == writer.seq:
        return writer.chain.hex()
    if seq == 0:
        return FIRST_LINK.hex()
    found: str = connection.execute(
        select(t.entry.c.chain).where(t.entry.c.yard == writer.yard, t.entry.c.seq == seq)
    ).scalar_one()
    return found


def _whole_numbers(connection: Connection, writer: Writer, rows: Any, page: int) -> list[Any]:
    """No page ends between two parts with one number."""
    kept = [row for row in rows if row[0] != rows[-1][0]]
    if kept:
        return kept
    return list(
        connection.execute(
            select(t.part.c.seq, t.part.c.body).where(
                t.part.c.yard == writer.yard, t.part.c.gone == 0, t.part.c.seq == rows[0][0]
            )
        ).all()
    )
