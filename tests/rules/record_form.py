"""Raises FORM and records what the fold makes: `python3 -m tests.rules.record_form`.

`frozen.json` holds journals told once by chance (`journals.py`), entries of every kind, one on a line. They are never
edited: only the fold may change what comes of them. A kind that is new gets a journal of its own behind them; that
alone raises nothing, since nobody has parts of it. `server/rules/data/form.json` holds the form and, for each journal,
the digest of the parts that are folded from it.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from server.rules import Workspace, canonical, fold, sha256
from server.rules.vocabulary import DATA

FORM_FILE = DATA / "form.json"
FROZEN = Path(__file__).with_name("frozen.json")

Entry = dict[str, Any]


def frozen() -> list[list[Entry]]:
    """The journals, each in its order."""
    journals: list[list[Entry]] = json.loads(FROZEN.read_text("utf-8"))
    return journals


def digest(entries: list[Entry]) -> str:
    """Hex SHA-256 of every part that the fold makes of a journal, by kind and id."""
    work = Workspace(lambda kind, part_id: None)
    fold(work, entries)
    return sha256(canonical({f"{kind} {part_id}": part for (kind, part_id), part in work.changed.items()}))


def recorded() -> dict[str, Any]:
    """{form, made: a digest for each journal}."""
    kept: dict[str, Any] = json.loads(FORM_FILE.read_text("utf-8"))
    return kept


def raised(kept: dict[str, Any], made: list[str]) -> dict[str, Any]:
    """What to record: one form higher where a journal that was there makes other parts."""
    differs = kept["made"] != made[: len(kept["made"])]
    return {"form": kept["form"] + int(differs), "made": made}


if __name__ == "__main__":
    FORM_FILE.write_text(json.dumps(raised(recorded(), [digest(one) for one in frozen()]), indent=1) + "\n", "utf-8")
    print(FORM_FILE.read_text("utf-8"), end="")
