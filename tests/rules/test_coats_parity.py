"""Both languages answer alike about 160 random modules: clocks, ready list, before paint, what helps, looks."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from server.rules import (
    before_paint,
    clock,
    earlies,
    learn,
    observations,
    place_of,
    ready_list,
    tops,
    what_helps,
)
from tests.rules.bundled import on_the_phone
from tests.rules.coat_yards import NOW, module_parts, yard_parts

SCRIPT = Path(__file__).with_name("parity_coats.ts")
MODULES = 160
LEAST = {
    "go": 50, "wait": 500, "stop": 100, "caution": 200, "heat": 200, "dry_air": 200, "bounds": 20, "sand": 50,
    "wall": 20, "wet": 500, "likely": 50, "ready": 100, "dry": 100, "not_dry": 100, "unsure": 200,
}  # fmt: skip
Answer = dict[str, Any]


def asked(seed: int) -> Answer:
    chance = Random(seed)
    parts = [*module_parts(chance, seed), *yard_parts(chance)]
    label = {"least_temp": chance.choice([17, 100])} if chance.random() < 0.5 else {}
    return {"module": f"module-{seed}", "parts": parts, "now": NOW, "label": label}


def answer_to(given: Answer) -> Answer:
    now, place = given["now"], place_of(given["module"], given["parts"])
    rooms = place["rooms"]
    return {
        "ready": ready_list([place], now),
        "paint": [before_paint(place, room, now, given["label"]) for room in rooms],
        "helps": [what_helps(place, room, coat, now) for room in rooms for _, coat in tops(place, room)],
        "clocks": [clock(place, coat, room, now) for room in rooms for coat in place["coats"] if room in coat["rooms"]],
        "earlies": [one | {"coat": one["coat"]["id"]} for one in earlies(place)],
        "looks": observations([place]),
        "learned": {key: learn(looks, 1) for key, looks in observations([place] * 20).items()},
    }


def happened(told: list[Answer]) -> Counter[str]:
    found: Counter[str] = Counter()
    for one in told:
        found.update(row["state"] for row in one["clocks"])
        found.update(paint["verdict"] for paint in one["paint"])
        found["caution"] += sum(check["state"] == "caution" for paint in one["paint"] for check in paint["checks"])
        found.update(row["key"] for helps in one["helps"] for row in helps)
        found["bounds"] += sum(map(len, one["looks"].values()))
        found.update(row["do"] for row in one["ready"])
        found["wall"] += sum(row["surface"] is not None for row in one["ready"])
    return found


def test_both_languages_answer_alike(tmp_path: Path) -> None:
    given = [asked(seed) for seed in range(MODULES)]
    wanted = [json.loads(json.dumps(answer_to(one))) for one in given]
    for seed, (one, other) in enumerate(zip(wanted, on_the_phone(SCRIPT, given, tmp_path), strict=True)):
        for key in one:
            assert one[key] == other[key], f"module {seed}: {key}"
    counts = happened(wanted)
    assert {name: counts[name] for name, least in LEAST.items() if counts[name] < least} == {}, dict(counts)
