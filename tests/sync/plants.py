"""Bugs to plant: each breaks one promise of the rules or the journal. They are put in by monkeypatch, one at a time."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from contextlib import contextmanager
from typing import Any

import pytest
from sqlalchemy import text

from server import db as database
from server.journal import aside, judge, release, tables, writer
from server.rules import STEPS, gate, heads, items, modules, sheets, yards
from server.rules.seen import seen_all
from tests.sync.world import World

Plant = Callable[[pytest.MonkeyPatch, World], None]


def reply_before_commit(patch: pytest.MonkeyPatch, world: World) -> None:
    """The answer goes out, then the commit fails: once, at the first push that follows."""
    left = [1]

    @contextmanager
    def forgetful() -> Any:
        with database.db.engine.connect().execution_options(writes=True) as connection:
            transaction = connection.begin()
            yield connection
            if left:
                left.pop()
                transaction.rollback()
            else:
                transaction.commit()

    patch.setattr(sync_module(), "writing", forgetful)


def sync_module() -> Any:
    """The module, which the room's front door hides behind the function of the same name."""
    return sys.modules["server.journal.sync"]


def everything_counts_as_seen(patch: pytest.MonkeyPatch, world: World) -> None:
    """The place in the journal where an entry arrives is taken for what its author had seen."""
    patch.setattr(judge, "_seen_to", lambda bench, fields: bench.writer.seq)


def close_without_its_clear(patch: pytest.MonkeyPatch, world: World) -> None:
    real = items._not_closable
    forgiven = ("not_cleared", "unseen_work")
    patch.setattr(
        items, "_not_closable", lambda item, entry: None if real(item, entry) in forgiven else real(item, entry)
    )


def hands_forgotten(patch: pytest.MonkeyPatch, world: World) -> None:
    """Only who cleared counts, not who is named to have done the work."""

    def forgetful(item: Any, entry: Any) -> list[str]:
        item["hands"] = sorted({*item["hands"], entry["by"]})
        return []

    patch.setattr(items, "_laid_hands", forgetful)


def late_hands_end_nothing(patch: pytest.MonkeyPatch, world: World) -> None:
    real = items._laid_hands

    def lenient(item: Any, entry: Any) -> list[str]:
        close = item["close"]
        real(item, entry)
        item["close"] = close
        return []

    patch.setattr(items, "_laid_hands", lenient)


def number_used_twice(patch: pytest.MonkeyPatch, world: World) -> None:
    with world.context(), database.writing() as conn:
        conn.execute(text("DROP INDEX uq_entry_device_n"))
    patch.setattr(judge, "_next", lambda bench, fields: True)
    real = judge._reason

    def blind(bench: Any, one: Any, clash: bool) -> Any:
        last, bench.device["last_n"] = bench.device["last_n"], -1
        try:
            return real(bench, one, clash)
        finally:
            bench.device["last_n"] = last

    patch.setattr(judge, "_reason", blind)


def let_in_is_old(patch: pytest.MonkeyPatch, world: World) -> None:
    """An entry that was let in is folded as though it had come in its turn."""
    real = writer.Writer.append
    patch.setattr(writer.Writer, "append", lambda self, fields, **given: real(self, fields, **{**given, "let_in": 0}))


def answer_covers_the_unseen(patch: pytest.MonkeyPatch, world: World) -> None:
    real = modules.release_answered

    def generous(work: Any, entry: Any) -> Any:
        body = {**entry["body"], "up_to": entry["seq"]}
        return real(work, {**entry, "seen_to": entry["seq"], "body": body})

    replace_step(patch, "release.answered", generous)


def any_release_is_pulled_back(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(modules, "_not_this_release", lambda module, entry: None if module["release"] else "not_released")


def seen_is_not_cut(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(judge, "_seen_to", lambda bench, fields: fields["seen"])


def objection_ends_no_close(patch: pytest.MonkeyPatch, world: World) -> None:
    real = items._objected

    def lenient(item: Any, entry: Any) -> list[str]:
        close, clears = item["close"], item["clears"]
        ended = real(item, entry)
        if close:
            item["close"], item["clears"] = close, clears
        return ended

    patch.setattr(items, "_objected", lenient)


def objection_ends_no_void(patch: pytest.MonkeyPatch, world: World) -> None:
    real = items._objected

    def lenient(item: Any, entry: Any) -> list[str]:
        void = item["void"]
        ended = real(item, entry)
        item["void"] = void
        return ended

    patch.setattr(items, "_objected", lenient)


def repeat_is_judged_anew(patch: pytest.MonkeyPatch, world: World) -> None:
    """The server does not know what it took: a repeat is a clash with itself."""
    real = judge.prepare

    def forgetful(bench: Any, offered: Any) -> None:
        real(bench, offered)
        bench.known.clear()

    patch.setattr(sync_module(), "prepare", forgetful)


def release_without_behind(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(release, "_behind", lambda writer, call: False)


def last_writer_wins(patch: pytest.MonkeyPatch, world: World) -> None:
    real = heads.put

    def hasty(found: Any, field: str, value: Any, entry: Any) -> bool:
        changed = real(found, field, value, entry)
        found[field] = found[field][-1:]
        return changed

    patch.setattr(heads, "put", hasty)


def undecided_holds_nothing(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(gate, "_undecided", lambda module, found: [])


def gap_holds_nothing(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(sync_module(), "_behind", lambda writer, device, call: None)


def written_off_for_good(patch: pytest.MonkeyPatch, world: World) -> None:
    real = yards.device_behind

    def deaf(work: Any, entry: Any) -> Any:
        off = work.part("device", entry["about"])["written_off"]
        real(work, entry)
        work.part("device", entry["about"])["written_off"] = off

    replace_step(patch, "device.behind", deaf)


def set_aside_holds_nothing(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(gate, "_set_aside", lambda asides: [])


def void_needs_no_eyes(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(items, "seen_all", lambda entry, noted: entry["kind"] == "item.voided" or seen_all(entry, noted))


def signature_needs_no_eyes(patch: pytest.MonkeyPatch, world: World) -> None:
    patch.setattr(sheets, "seen_all", lambda entry, noted: True)
    patch.setattr(sheets, "_seen_answers", lambda sheet, entry: True)


def set_aside_is_dropped(patch: pytest.MonkeyPatch, world: World) -> None:
    real = aside.put_aside

    def careless(at: Any, *given: Any) -> None:
        real(at, *given)
        at.connection.execute(tables.set_aside.delete())

    patch.setattr(judge, "put_aside", careless)


def pages_skip(patch: pytest.MonkeyPatch, world: World) -> None:
    """A full page says that it reached the journal's end."""
    real = sync_module()._answer

    def hasty(connection: Any, at: Any, verdicts: Any, cursor: int, n: int, page: int) -> bytes:
        told = json.loads(real(connection, at, verdicts, cursor, n, page))
        told |= {"cursor": at.seq, "chain": at.chain.hex(), "more": False}
        return json.dumps(told).encode()

    patch.setattr(sync_module(), "_answer", hasty)


def replace_step(patch: pytest.MonkeyPatch, kind: str, step: Any) -> None:
    patch.setitem(STEPS, kind, step)
