"""A data folder as an earlier version of the program left it: parts of another form, or damaged ones."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

TABLES = ("part", "entry", "device", "set_aside", "photo_ref", "release_ask", "epoch")


def rows(database: Path, table: str) -> list[dict[str, Any]]:
    """Every row of a table, in one order."""
    with closing(sqlite3.connect(database)) as raw:
        raw.row_factory = sqlite3.Row
        return sorted((dict(row) for row in raw.execute(f"SELECT * FROM {table}")), key=repr)


def everything(database: Path) -> dict[str, list[dict[str, Any]]]:
    """What the journal keeps, table by table."""
    return {table: rows(database, table) for table in TABLES}


def form_of(database: Path) -> int:
    """The form that the folder says of its parts."""
    return int(rows(database, "yard")[0]["form"])


def make_old(database: Path) -> None:
    """Each third part gone, each third empty, of those that phones no longer get some given back, one from nowhere."""
    with closing(sqlite3.connect(database)) as raw, raw:
        raw.execute("DELETE FROM part WHERE rowid % 3 = 0")
        raw.execute("UPDATE part SET body = '{}', seq = 1, module = NULL WHERE rowid % 3 = 1")
        raw.execute("UPDATE part SET gone = 1 - gone, left_seq = 7 WHERE rowid % 2 = 0")
        yard = raw.execute("SELECT id FROM yard").fetchone()[0]
        raw.execute("INSERT INTO part VALUES (?, 'item', 'nowhere', NULL, 3, 0, 0, '{}')", [yard])
        raw.execute("UPDATE yard SET form = 0")


def never_had_a_form(database: Path) -> None:
    """The same, from before folders told their form."""
    make_old(database)
    with closing(sqlite3.connect(database)) as raw, raw:
        raw.execute("ALTER TABLE yard DROP COLUMN form")
        raw.execute("UPDATE alembic_version SET version_num = '0005'")
