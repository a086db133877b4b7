"""Both languages agree about 1,000 random histories to the second: clocks, covers, schedules and the gate's holds."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

from server.rules import (
    clock,
    coats_of,
    earlies,
    holds,
    instant,
    next_coat,
    place_of,
    readiness,
    tops,
)  # fmt: skip
from tests.rules.bundled import on_the_phone
from tests.rules.histories import END, HOUR, MODULE, ROOMS, START, history, parts_after

SCRIPT = Path(__file__).with_name("parity_clocks.ts")
HISTORIES = 1000
HOURS = [START + 30 * HOUR, START + 61 * HOUR, START + 90 * HOUR, END]
FAMILIES: list[tuple[str, str | None]] = [("joint", None), ("joint", "A"), ("primer", None)]
LEAST = {
    "wet": 1000, "likely": 100, "ready": 200, "dry": 300, "not_dry": 500, "unsure": 1000, "set": 500, "heated": 100,
    "outside": 500, "stale": 500, "gap": 300, "factor": 200, "restarted": 200, "wall": 50, "early": 200,
    "may go": 500, "coat_missing": 500, "coat_wet": 500, "coat_look": 500, "coat_early": 500,
}  # fmt: skip
Answer = dict[str, Any]


def answer_to(asked: Answer) -> Answer:
    module, parts, hours = asked["module"], asked["parts"], asked["hours"]
    place = place_of(module, parts)
    told = [readiness(place, room, kind, at, wall) for room in ROOMS for at in hours for kind, wall in FAMILIES]
    return {
        "clocks": [clock(place, coat, room, at) for coat in place["coats"] for room in coat["rooms"] for at in hours],
        "tops": [[[surface, coat["id"]] for surface, coat in tops(place, room)] for room in ROOMS],
        "readiness": [one | {"under": one["under"] and one["under"]["id"]} for one in told],
        "earlies": [one | {"coat": one["coat"]["id"]} for one in earlies(place)],
        "schedule": [[coats_of(place, room), next_coat(place, room)] for room in ROOMS],
        "holds": [holds(module, parts, instant(at)) for at in hours],
    }


def happened(told: list[Answer]) -> Counter[str]:
    found: Counter[str] = Counter()
    for one in told:
        for row in one["clocks"]:
            found.update([row["state"], *row["flags"]])
            found["set"] += row["set"] is not None
            found["factor"] += row["factor"] is not None
        found["wall"] += sum(surface is not None for top in one["tops"] for surface, _ in top)
        found["early"] += len(one["earlies"])
        found["may go"] += sum(row["ready"] and row["under"] is not None for row in one["readiness"])
        found.update(hold["key"] for found_then in one["holds"] for hold in found_then)
    return found


def test_both_languages_agree_about_histories(tmp_path: Path) -> None:
    asked: list[Answer] = [
        {"module": MODULE, "parts": parts_after(*history(seed)), "hours": HOURS}
        for seed in range(5000, 5000 + HISTORIES)
    ]
    wanted = [json.loads(json.dumps(answer_to(one))) for one in asked]
    for seed, (one, other) in enumerate(zip(wanted, on_the_phone(SCRIPT, asked, tmp_path), strict=True)):
        for key in one:
            assert one[key] == other[key], f"history {seed}: {key}"
    counts = happened(wanted)
    cells = [
        cell for one in asked for part in one["parts"] if part["part"] == "coat" for cell in part["cells"].values()
    ]
    counts["restarted"] = sum(cell["restart"] is not None for cell in cells)
    print(dict(counts))
    assert {name: counts[name] for name, least in LEAST.items() if counts[name] < least} == {}, "too little happened"
