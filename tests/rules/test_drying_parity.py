"""Both languages reckon the same 1,000 random histories: the same minutes, thousandths, flags, last bits."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from server.rules import dew_point, dried, ready, room_rh, tables, whole
from tests.rules.bundled import on_the_phone

SCRIPT = Path(__file__).with_name("parity_drying.ts")
HISTORIES = 1000
LEAST = {"ready": 600, "never": 10, "below_limits": 100, "above_limits": 20, "damp": 100, "gap": 100, "dry_out": 1}


def history(seed: int) -> dict[str, Any]:
    """A coat of any kind in some days of weather: logged or by hand, late, doubled, out of order."""
    chance, table = Random(seed), tables(1)["drying"]
    laid = chance.randrange(1_700_000_000, 1_900_000_000)
    coat: dict[str, Any] = {"laid": laid, "material": chance.choice(sorted(table["materials"]))}
    if chance.random() < 0.5:
        coat["thickness"] = chance.choice(sorted(table["thickness"]))
    if coat["material"] == "setting_type":
        coat["set_minutes"] = chance.choice([20, 45, 90, 300])
    if coat["material"] == "latex" and chance.random() < 0.5:
        coat["label_minutes"] = chance.choice([60, 120, 240])
    step = chance.choice([600, 3600, 4 * 3600, 30 * 3600])
    times = [laid + chance.randrange(-step, 0) + step * place for place in range(chance.randrange(0, 40))]
    near, damp = chance.randrange(-50, 420), chance.choice([15, 40, 60, 80, 95, 100])
    readings = [
        {"time": time, "temp": near + chance.randint(-60, 60), "rh": sorted((0, damp + chance.randint(-9, 9), 100))[1]}
        for time in times
    ]
    readings += chance.sample(readings, len(readings) // 5)
    chance.shuffle(readings)
    return {"coat": coat, "readings": readings, "until": laid + chance.randrange(900_000), "inside": 211}


def answer_to(given: dict[str, Any]) -> dict[str, Any]:
    coat, readings = given["coat"], given["readings"]
    return {
        "ready": ready(coat, readings, 1),
        "dried": dried(coat, readings, given["until"], 1),
        "air": [
            [whole(dew_point(one["temp"], one["rh"], 1)), room_rh(one["temp"], one["rh"], given["inside"], 1)]
            for one in readings
        ],
    }


def test_both_languages_reckon_alike(tmp_path: Path) -> None:
    given = [history(seed) for seed in range(HISTORIES)]
    wanted = [answer_to(one) for one in given]
    for seed, (one, other) in enumerate(zip(wanted, on_the_phone(SCRIPT, given, tmp_path), strict=True)):
        assert one == other, f"history {seed}"
    counts = Counter(flag for one in wanted for flag in one["ready"]["flags"])
    counts["never"] = sum(one["ready"]["likely"] is None for one in wanted)
    counts["ready"] = HISTORIES - counts["never"]
    assert {name: counts[name] for name, least in LEAST.items() if counts[name] < least} == {}, "too little happened"
