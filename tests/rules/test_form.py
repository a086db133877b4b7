"""What the fold makes of entries stays as it is, or FORM is raised: servers and phones keep what was folded before."""

from __future__ import annotations

from server.rules import CURRENT, FORM, Workspace, fold, tables
from tests.rules.record_form import digest, frozen, raised, recorded


def test_the_fold_makes_the_parts_of_this_form() -> None:
    """form.test.ts asks the same of the phone."""
    kept = recorded()
    made = [digest(entries) for entries in frozen()]
    assert made == kept["made"], (
        "The fold makes other parts of the same entries, or there are more of these: raise FORM and record the digest "
        "with `python3 -m tests.rules.record_form`."
    )
    assert kept["form"] == FORM >= 1


def test_the_frozen_entries_cover_every_kind() -> None:
    """Each kind takes effect somewhere."""
    told = set()
    for entries in frozen():
        effects = fold(Workspace(lambda kind, part_id: None), entries)
        told |= {entry["kind"] for entry, why_not in zip(entries, effects, strict=True) if why_not is None}
    assert set(tables(CURRENT)["kinds"]) - told == set(), "a journal with this kind goes behind the others, then record"


def test_only_other_parts_of_the_same_entries_raise_the_form() -> None:
    kept = {"form": 4, "made": ["a", "b"]}
    assert raised(kept, ["a", "b"]) == kept
    assert raised(kept, ["a", "b", "c"]) == {"form": 4, "made": ["a", "b", "c"]}
    assert raised(kept, ["a", "x", "c"]) == {"form": 5, "made": ["a", "x", "c"]}
