"""Copies to begin a story from again: of the database, and of phones."""

from __future__ import annotations

import copy
import sqlite3
from pathlib import Path
from typing import Any


def copy_database(database: Path, to: Path) -> None:
    """What is committed, whatever SQLite still has beside the file."""
    to.unlink(missing_ok=True)
    source, copied = sqlite3.connect(database), sqlite3.connect(to)
    with copied:
        source.backup(copied)
    source.close()
    copied.close()


def again(phone: Any) -> Any:
    """The same phone once more, for another story."""
    made = copy.copy(phone)
    for name, value in vars(phone).items():
        if isinstance(value, (list, dict, set)):
            setattr(made, name, value.copy())
    return made
