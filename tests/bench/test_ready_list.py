"""What comes next across a full yard, reckoned anew: against one numpy pass over the same readings."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import pytest

from server.rules import place_of, ready_list, tables, tops
from server.rules.drying import doses
from tests.bench.loads import verdict
from tests.rules.bundled import on_the_phone
from tests.rules.coat_yards import HOUR, NOW, Weather, module_parts, yard_parts

pytestmark = pytest.mark.bench

MODULES, READINGS, ROUNDS = 60, 10_000, 15
SEED = 20261207
# A phone of the crews is about so much slower than a desk; a picture of a screen is drawn in so many milliseconds.
SLOWDOWN, FRAME = 4, 16.7
Place = dict[str, Any]
Parts = list[dict[str, Any]]


def yard() -> list[Parts]:
    """60 modules in their schedules, 10,000 readings in all, every half hour inside, and the yard's own."""
    chance = Random(SEED)
    common = [part for part in yard_parts(chance) if part["part"] != "air"]
    weather = [Weather(HOUR // 2, 60, chance.randrange(30, 75)) for _ in range(MODULES)]
    modules = [[*module_parts(chance, number, one), *common] for number, one in enumerate(weather)]
    left = READINGS
    for air in (part for parts in modules for part in parts if part["part"] == "air"):
        air["rows"] = air["rows"][:left]
        left -= len(air["rows"])
    assert left == 0, f"{left} readings too few"
    return modules


class Pass:
    """The same yard as arrays: every reading one row, by stream; every coat on top its stream, laying and doses."""

    def __init__(self, places: list[Place]) -> None:
        rows, starts, self.coats = [], [0], []
        for place in places:
            stream: list[list[Any]] = sorted(
                (row for air in place["airs"] for row in air["rows"]), key=lambda row: row[0]
            )
            rows += stream
            starts.append(len(rows))
            for room in place["rooms"]:
                for _, coat in tops(place, room):
                    needed = doses({"material": coat["material"], "thickness": coat["thickness"]}, 1)
                    self.coats.append((len(starts) - 2, coat["laid"], needed["likely"], needed["by_table"]))
        self.rows = np.array([row[:3] for row in rows], dtype=np.float64)
        table = tables(1)["drying"]
        self.saturation = np.array(table["saturation"]["centipascals"], dtype=np.float64)
        self.thirst, self.starts = np.array(table["thirst"], dtype=np.float64), np.array(starts)
        self.needed = np.array([coat[2:] for coat in self.coats], dtype=np.float64)

    def run(self) -> Any:
        """Rates by the tables, doses summed up, and where each coat's two ends lie."""
        times, temps, damp = self.rows.T
        rates = np.interp(temps + 600, np.arange(len(self.saturation)), self.saturation)
        rates = np.rint(rates * np.interp(damp, np.arange(len(self.thirst)), self.thirst) / 10000)
        sums = np.cumsum(rates[:-1] * np.maximum(np.diff(times), 0))
        return np.searchsorted(sums, self.needed.ravel())


def fastest(*calls: Callable[[int], object]) -> list[float]:
    """Seconds of each, in turn, the fastest round; each asks for another minute, so that nothing kept counts."""
    taken: list[list[float]] = [[] for _ in calls]
    for turn in range(ROUNDS):
        for call, times in zip(calls, taken, strict=True):
            begun = time.perf_counter()
            call(NOW + 60 * turn)
            times.append(time.perf_counter() - begun)
    return [min(times) for times in taken]


def test_the_ready_list_of_a_full_yard() -> None:
    places = [place_of(f"module-{number}", parts) for number, parts in enumerate(yard())]
    one_pass = Pass(places)
    rows = ready_list(places, NOW)
    floor, again, fresh = fastest(
        lambda now: one_pass.run(),
        lambda now: ready_list(places, now),
        lambda now: ready_list([place | {"kept": {}} for place in places], now),
    )
    size = f"{MODULES} modules, {READINGS} readings, {len(one_pass.coats)} coats on top, {len(rows)} rows"
    print(f"\n{size}, the fastest of {ROUNDS}")
    print(
        f"  numpy {floor * 1000:.2f} ms, ready list {again * 1000:.1f} ms, with the readings new {fresh * 1000:.1f} ms"
    )
    print(verdict("ready list against one numpy pass", again / floor, 10, "×"))
    assert rows


def test_a_module_on_the_phone(tmp_path: Path) -> None:
    """What a screen reckons for each module that one sees: everything derived anew from its parts."""
    found = on_the_phone(Path(__file__).with_name("ready_list.ts"), {"modules": yard(), "now": NOW}, tmp_path)
    times = sorted(found["milliseconds"])
    middle, slowest = times[len(times) // 2], times[-1]
    print(f"\n{len(times)} modules one by one: in the middle {middle:.2f} ms, the slowest {slowest:.2f} ms")
    print(verdict(f"the slowest module's rows at {SLOWDOWN}× slowdown", slowest * SLOWDOWN, FRAME, " ms"))
    assert found["rows"] == len(ready_list([place_of(f"module-{n}", parts) for n, parts in enumerate(yard())], NOW))
