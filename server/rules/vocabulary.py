"""The rules tables: data in one place, versioned; a version is added, never edited. And the form of parts."""

from __future__ import annotations

import functools
import json
from pathlib import Path
from typing import Any

DATA = Path(__file__).parent / "data"
CURRENT = 1
# The form of the parts that this program folds: raised whenever what the fold makes of the same entries changes, so
# that servers fold anew and phones fetch anew what they keep. `python3 -m tests.rules.record_form` does it.
FORM: int = json.loads((DATA / "form.json").read_text("utf-8"))["form"]


@functools.cache
def tables(version: int) -> dict[str, Any]:
    """All tables of one version by file name; KeyError when this program does not know the version."""
    folder = DATA / str(version)
    if not folder.is_dir():
        raise KeyError(f"rules version {version}")
    return {file.stem: json.loads(file.read_text("utf-8")) for file in sorted(folder.glob("*.json"))}


# Bounded: a hostile phone could name versions without end.
@functools.lru_cache(maxsize=64)
def known_version(version: int) -> bool:
    """Whether this program has that version's tables."""
    return (DATA / str(version)).is_dir()


def kind_of(entry: dict[str, Any]) -> dict[str, Any] | None:
    """The row of an entry's kind in the version it names; None where this program knows no such version or kind."""
    if not known_version(entry["rules"]):
        return None
    row: dict[str, Any] | None = tables(entry["rules"])["kinds"].get(entry["kind"])
    return row
