"""Release: the one thing that the server decides alone."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from sqlalchemy import insert, select

from server.clock import Clock
from server.db import writing
from server.journal import tables as t
from server.journal.folding import Entry
from server.journal.read import gate_parts
from server.journal.sync import knows
from server.journal.writer import Writer
from server.rules import CURRENT, holds, may, tables


@dataclass(frozen=True)
class ReleaseAnswer:
    """`entry`: the whole release.given when it was given. Otherwise `problem` (not_your_role, behind, held, released,
    no_such_module) and the holds as they stand."""

    entry: Entry | None
    holds: list[dict[str, Any]]
    problem: str | None = None


def ask_release(call: dict[str, Any], by: str, clock: Clock) -> ReleaseAnswer:
    """Evaluates the gate and records the release in one transaction; of two that ask at once exactly one succeeds.

    `call`: id (made on the phone: the same id gets the same answer), module, epoch, seen, chain.
    """
    with writing() as connection:
        writer = Writer(connection, clock)
        asked = connection.execute(select(t.release_ask).where(t.release_ask.c.id == call["id"])).mappings().first()
        if asked is not None:
            if (asked["module"], asked["by"]) != (call["module"], by):
                return ReleaseAnswer(None, [], "used_id")
            return ReleaseAnswer(**json.loads(asked["answer"]))
        answer = _decide(writer, call, by)
        writer.flush()
        row = {"entry": answer.entry, "holds": answer.holds, "problem": answer.problem}
        connection.execute(
            insert(t.release_ask),
            [
                {
                    "id": call["id"],
                    "module": call["module"],
                    "by": by,
                    "now": writer.received_at,
                    "answer": json.dumps(row),
                }
            ],
        )
        return answer


def _decide(writer: Writer, call: dict[str, Any], by: str) -> ReleaseAnswer:
    module = writer.work.part("module", call["module"])
    if module is None:
        return ReleaseAnswer(None, [], "no_such_module")
    if may(writer.work.part("person", by), "release.pulled_back", {}, None, CURRENT):
        return ReleaseAnswer(None, [], "not_your_role")
    found = holds(call["module"], gate_parts(writer.connection, call["module"]), writer.received_at)
    if module["release"]:
        return ReleaseAnswer(None, found, "released")
    if module["left"]:
        return ReleaseAnswer(None, found, "no_such_module")
    if _behind(writer, call):
        return ReleaseAnswer(None, found, "behind")
    if found:
        return ReleaseAnswer(None, found, "held")
    answered = [{"device": device, **answer} for device, answer in sorted(module["phone_answers"].items())]
    body = {"release": call["id"], "by": by, "holds_answered": answered}
    return ReleaseAnswer(writer.say("release.given", call["module"], call["module"], body), [])


def _behind(writer: Writer, call: dict[str, Any]) -> bool:
    """Whether the asker's screen lacks an approval or an objection on this module."""
    if call["epoch"] != writer.epoch or not knows(writer.connection, writer, call["seen"], call["chain"]):
        return True
    weighs = [kind for kind, row in tables(CURRENT)["kinds"].items() if "says" in row or kind in ALSO]
    later = (
        select(t.entry.c.seq)
        .where(t.entry.c.module == call["module"], t.entry.c.seq > call["seen"], t.entry.c.kind.in_(weighs))
        .limit(1)
    )
    return writer.connection.execute(later).first() is not None


ALSO = ("item.logged", "coat.laid", "room.added", "module.amended", "entry.set_aside", "entry.let_in")
