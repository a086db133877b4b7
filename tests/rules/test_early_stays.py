"""Whatever the hands that covered a wet coat say afterwards, the hold stays until an inspector answers."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest

from server.rules import Workspace, earlies, fold, instant, place_of, seconds, stream_id
from tests.rules.expand import COMMON, expand, story

MODULE = str(COMMON["ids"]["m"])
START, HOUR = seconds("2026-12-02T14:00:00Z"), 3600
Told = dict[str, Any]
STORIES = 400


def hours(after: float) -> str:
    return instant(int(START + after * HOUR))


def said(kind: str, after: float, about: str, body: Told) -> Told:
    """Of one crew lead on one phone."""
    time = hours(after)
    return {"kind": kind, "device": "d2", "by": "p2", "time": time, "at": time, "about": about, "body": body}


def read(chance: Random, after: int) -> Told:
    row = [hours(after), chance.choice([211, 250]), chance.choice([30, 40, 50]), None]
    body = {"where": "module", "source": "logger", "rows": [row]}
    return said("reading.taken", after, stream_id(MODULE), body) | {"device": "server"}


def covered(chance: Random) -> tuple[list[Told], float]:
    """A coat, perhaps found or sanded wet, and texture over it that often does not say what it lies on."""
    coat, material, more = chance.choice(
        [("tape", "drying_type", {}), ("first", "setting_type", {"set_minutes": 45}), ("paint_1", "latex", {})]
    )
    body = {"coat": coat, "rooms": ["bath", "kitchen"], "material": material, **more}
    told = [said("coat.laid", 0, "c1", body), *(read(chance, after) for after in range(0, 60, 3))]
    before = chance.choice(["coat.found_wet", "coat.wet_sanded", None, None])
    if before:
        told.append(said(before, chance.uniform(1, 20), "c1", {"rooms": ["bath"]}))
    after = chance.uniform(1, 22)
    over = {"over": ["c1"]} if chance.random() < 0.5 else {}
    told.append(said("coat.laid", after, "c2", {"coat": "texture", "rooms": ["bath"], "material": "texture", **over}))
    return told, after


def afterwards(chance: Random, after: float, number: int) -> Told:
    """For any hour, also of before the cover."""
    kind = chance.choice(["coat.found_dry", "coat.wet_sanded", "coat.found_wet", "coat.voided", "coat.laid"])
    about, told = chance.choice(["c1", "c2"]), after + chance.uniform(0.1, 30)
    given, rooms = hours(chance.uniform(0, told)), {"rooms": ["bath"]}
    if kind == "coat.laid":
        more = {"laid_at": hours(chance.uniform(-5, told)), "label_minutes": chance.choice([1, 100])}
        over = {"over": ["c1"]} if chance.random() < 0.3 else {}
        return said(kind, told, f"x{number}", {"coat": "paint_1", **rooms, "material": "latex", **more, **over})
    bodies: dict[str, Told] = {
        "coat.found_dry": {**rooms, "tried": ["cut"], "reason": "hard", "looked_at": given},
        "coat.found_wet": {**rooms, "looked_at": given},
        "coat.wet_sanded": {**rooms, "sanded_at": given},
        "coat.voided": {"reason": "never there"},
    }
    return said(kind, told, "c1" if kind == "coat.voided" else about, bodies[kind])


def is_early(told: list[Told]) -> bool:
    work = Workspace(lambda kind, part_id: None)
    fold(work, expand([*story("module"), *told]))
    return any(one["coat"]["id"] == "c2" for one in earlies(place_of(MODULE, work.changed.values())))


@pytest.mark.parametrize("part", range(4))
def test_no_word_of_the_hands_takes_the_hold_away(part: int) -> None:
    met = 0
    for seed in range(part, STORIES, 4):
        chance = Random(seed)
        told, after = covered(chance)
        if not is_early(told):
            continue
        for number in range(chance.randrange(1, 7)):
            told.append(afterwards(chance, after, number))
            assert is_early(told), (seed, [(one["kind"], one["about"]) for one in told[21:]])
        met += 1
    assert met > STORIES / 16
