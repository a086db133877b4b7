"""Entries into parts, and parts into rows: for what has just come, for a new fold of everything and for the audit."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from server.journal import tables as t
from server.journal.text import quick
from server.rules import FIRST_LINK, Workspace, canonical, link, step

Entry = dict[str, Any]
# Parts in one statement: all those of a journal at once take twice the memory of the fold.
BLOCK = 2000
_DROP_PART = delete(t.part).where(
    t.part.c.yard == bindparam("y"), t.part.c.kind == bindparam("k"), t.part.c.id == bindparam("i")
)


@dataclass(frozen=True)
class Link:
    """One row of the journal. `entry`: None where it is damaged and counts for nothing; `wrong`: what is, in words."""

    seq: int
    chain: str
    entry: Entry | None
    wrong: list[str]


def chained(connection: Connection) -> Iterator[Link]:
    """The whole journal in order, each entry held against the chain."""
    previous, due = FIRST_LINK, 1
    rows = connection.execute(select(t.entry.c.seq, t.entry.c.canon, t.entry.c.chain).order_by(t.entry.c.seq))
    for seq, canon, chain in rows:
        wrong = [f"entry {due} is missing"] if seq != due else []
        entry = as_written(seq, canon)
        if entry is None:
            wrong.append(f"entry {seq} is not as it was written")
        elif link(previous, canon).hex() != chain:
            wrong.append(f"the chain breaks at entry {seq}")
            entry = None
        yield Link(seq, chain, entry, wrong)
        previous, due = bytes.fromhex(chain), seq + 1


def as_written(seq: int, canon: bytes) -> Entry | None:
    """An entry from its canonical bytes; None when they are no longer any."""
    try:
        found = json.loads(canon)
    except ValueError:
        return None
    sound = isinstance(found, dict) and found.get("seq") == seq and canonical(found) == canon
    return found if sound else None


def fold_one(work: Workspace, entry: Entry, left: dict[str, int]) -> None:
    """Folds one entry; whatever comes for a module that has left brings the module's own part back to the phones.

    `left` learns which modules left, and with which seq last.
    """
    step(work, entry)
    if not entry["module"]:
        return
    if entry["kind"] == "module.left":
        left[entry["module"]] = entry["seq"]
    else:
        module = work.part("module", entry["module"])
        if module is not None and module["left"]:
            work.edit("module", entry["module"], entry)


def part_rows(yard: str, work: Workspace, left: dict[str, int]) -> Iterator[dict[str, Any]]:
    """The touched parts as they are stored. `gone`: not for phones, the module left and nothing has come since."""
    for (kind, part_id), body in work.changed.items():
        yield {
            "yard": yard,
            "kind": kind,
            "id": part_id,
            "module": body["module"],
            "seq": body["seq"],
            "gone": int(body["seq"] <= left.get(body["module"], 0)),
            "left_seq": body["left"]["seq"] if kind == "module" and body["left"] else 0,
            "body": quick(body),
        }


def store_parts(connection: Connection, yard: str, work: Workspace, left: dict[str, int]) -> None:
    """Replaces the touched parts, and takes from the phones what belongs to the modules that have just left."""
    every = part_rows(yard, work, left)
    while rows := list(islice(every, BLOCK)):
        if connection.dialect.name != "sqlite":
            connection.execute(_DROP_PART, [{"y": row["yard"], "k": row["kind"], "i": row["id"]} for row in rows])
        connection.execute(insert(t.part).prefix_with("OR REPLACE", dialect="sqlite"), rows)
    for module, seq in left.items():
        connection.execute(update(t.part).where(t.part.c.module == module, t.part.c.seq <= seq).values(gone=1))
