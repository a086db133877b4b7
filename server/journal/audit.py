"""Checks that the journal is what it says: the chain, the devices' counts, and the parts against a new fold."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, select

from server.journal import tables as t
from server.journal.folding import chained, fold_one, part_rows
from server.rules import FIRST_LINK, Workspace, canonical


def audit(connection: Connection) -> dict[str, Any]:
    """{entries, epoch, chain, problems: [sentence]}; no problem means that everything agrees."""
    problems: list[str] = []
    work = Workspace(lambda _kind, _id: None)
    last, chain, counts, left = 0, FIRST_LINK.hex(), dict[str, int](), dict[str, int]()
    for row in chained(connection):
        last, chain, whole = row.seq, row.chain, row.entry
        problems += row.wrong
        if whole is None:
            continue
        if not whole["let_in"] and whole["n"] <= counts.get(whole["device"], 0):
            problems.append(f"entry {row.seq} repeats a number of device {whole['device']}")
        if not whole["let_in"]:
            counts[whole["device"]] = whole["n"]
        fold_one(work, whole, left)
    yard = connection.execute(select(t.yard)).mappings().first()
    if yard and (yard["seq"], yard["chain"]) != (last, chain):
        problems.append("the yard's head is not the journal's last entry")
    problems += _parts(connection, part_rows(yard["id"], work, left) if yard else (), work)
    return {
        "entries": last,
        "epoch": yard["epoch"] if yard else None,
        "chain": chain,
        "problems": problems,
    }


def _parts(connection: Connection, rows: Iterable[dict[str, Any]], work: Workspace) -> list[str]:
    """Where what is kept differs from `rows`, those of a new fold."""
    problems = []
    kept = {(row["kind"], row["id"]): dict(row) for row in connection.execute(select(t.part)).mappings()}
    for row in rows:
        key = (row["kind"], row["id"])
        if kept.pop(key, None) != {**row, "body": canonical(work.changed[key])}:
            problems.append(f"{key[0]} {key[1]} differs from a new fold")
    return problems + [f"{kind} {part_id} stands in no entry" for kind, part_id in kept]
