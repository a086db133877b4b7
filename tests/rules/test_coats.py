"""Readings, wet looks and wet sandings may arrive in any order: what stands in the parts is the same."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from server.rules import Workspace, fold, instant, seconds, stream_id
from tests.rules.expand import COMMON, expand, story

NOON = seconds("2026-12-02T12:00:00Z")
# Today, yesterday, and two days that stand where these stand 64 days later.
DAYS, MINUTES = st.sampled_from([0, 1, 64, 65]), st.integers(0, 90)
TIMES = st.builds(lambda day, minute: instant(NOON - day * 86400 + minute * 60), DAYS, MINUTES)
TEMPS = st.integers(-600, 600)
ROWS = st.lists(st.tuples(TIMES, TEMPS, st.integers(0, 100), st.none() | TEMPS), min_size=1, max_size=30)
LOOKS = st.lists(st.tuples(st.sampled_from(["coat.found_wet", "coat.wet_sanded"]), st.integers(0, 9)), max_size=7)
MET: Counter[str] = Counter()


def parts_after(entries: list[dict[str, Any]], kind: str) -> dict[str, Any]:
    work = Workspace(lambda kind, part_id: None)
    fold(work, expand([*story("taped"), *entries]))
    return {part_id: part for (name, part_id), part in work.changed.items() if name == kind}


def taken(rows: list[list[Any]], cuts: int, chance: random.Random) -> list[dict[str, Any]]:
    """The rows in some order, in a few entries."""
    told = [list(row) for row in rows]
    chance.shuffle(told)
    stream = stream_id(COMMON["ids"]["m"], "kitchen")
    body = {"where": "room", "room": "kitchen", "source": "logger"}
    return [
        {"kind": "reading.taken", "about": stream, "body": {**body, "rows": told[start::cuts]}}
        for start in range(min(cuts, len(told)))
    ]


@settings(deadline=None)
@given(ROWS, st.integers(1, 5), st.randoms(use_true_random=False))
def test_readings_in_any_order_and_any_pieces_make_the_same_days(
    rows: list[Any], cuts: int, chance: random.Random
) -> None:
    one, other = (
        {part_id: (part["day"], part["rows"]) for part_id, part in parts_after(entries, "air").items()}
        for entries in (taken(rows, 1, random.Random(0)), taken([*rows, rows[0]], cuts, chance))
    )
    assert one == other
    days = {row[0][:10] for row in rows}
    MET["a day took another's place"] += len(days) > len(one)
    MET["two days"] += len(one) > 1


def objections(looks: list[tuple[str, int]]) -> list[dict[str, Any]]:
    """Each by a phone of its own that had seen nothing but the coat."""
    names = {"coat.found_wet": "looked_at", "coat.wet_sanded": "sanded_at"}
    return [
        {
            "kind": kind,
            "device": f"d{place + 10}",
            "seen_to": 2,
            "body": {"rooms": ["bath"], names[kind]: f"2026-12-02T14:02:{second:02}Z"},
        }
        for place, (kind, second) in enumerate(looks)
    ]


@settings(deadline=None)
@given(LOOKS, st.data())
def test_wet_looks_and_wet_sandings_in_any_order_leave_the_same_clock(looks: list[Any], data: st.DataObject) -> None:
    told = objections(looks)
    orders = (told, data.draw(st.permutations(told)))
    cells = [parts_after(entries, "coat")["c1"]["cells"]["bath"] for entries in orders]
    one, other = ((cell["restart"], cell["wet"] and cell["wet"]["time"], set(cell["objections"])) for cell in cells)
    assert one == other
    MET["wet after sanding"] += bool(one[0] and one[1])
    MET["sanded away"] += bool(one[0] and not one[1] and any(kind == "coat.found_wet" for kind, _ in looks))


def test_all_of_it_was_met() -> None:
    """A run in which nothing happened proves nothing."""
    print(dict(MET))
    names = ("a day took another's place", "two days", "wet after sanding", "sanded away")
    assert all(MET[name] >= 5 for name in names)
