"""What comes next across a full yard, reckoned anew: against one numpy pass over the same readings."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from statistics import median
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import sync_playwright

from server.rules import place_of, ready_list, tables, tops
from server.rules.drying import doses
from tests.bench.loads import verdict
from tests.browser import launch
from tests.rules.bundled import bundled
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
        self.places = places
        coats = [coat for place in places for room in place["rooms"] for _, coat in tops(place, room)]
        needed = [doses({"material": coat["material"], "thickness": coat["thickness"]}, 1) for coat in coats]
        self.needed = np.array([[one["likely"], one["by_table"]] for one in needed], dtype=np.float64)
        table = tables(1)["drying"]
        self.saturation = np.array(table["saturation"]["centipascals"], dtype=np.float64)
        self.thirst = np.array(table["thirst"], dtype=np.float64)
        self.gather()

    def gather(self) -> Pass:
        """The readings put in order, stream by stream, as one array."""
        rows: list[list[Any]] = []
        for place in self.places:
            rows += sorted((row[:3] for air in place["airs"] for row in air["rows"]), key=lambda row: row[0])
        self.rows = np.array(rows, dtype=np.float64)
        return self

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
    floor, gathered, again, one_new, fresh = fastest(
        lambda now: one_pass.run(),
        lambda now: one_pass.gather().run(),
        lambda now: ready_list(places, now),
        lambda now: ready_list([places[0] | {"kept": {}}, *places[1:]], now),
        lambda now: ready_list([place | {"kept": {}} for place in places], now),
    )
    size = f"{MODULES} modules, {READINGS} readings, {len(one_pass.needed)} coats on top, {len(rows)} rows"
    print(f"\n{size}, the fastest of {ROUNDS}")
    print(f"  numpy {floor * 1000:.2f} ms, from the parts {gathered * 1000:.2f} ms; ready list {again * 1000:.1f} ms,")
    print(f"  one module read anew {one_new * 1000:.1f} ms, every module anew {fresh * 1000:.1f} ms")
    print(verdict("ready list against one numpy pass", again / floor, 10, "×"))
    print(verdict("a reading came: one module anew, against the same", one_new / floor, 10, "×"))
    print(verdict("every part new, against numpy from the same parts", fresh / gathered, 10, "×"))
    assert rows


def test_a_module_on_the_phone(tmp_path: Path) -> None:
    """What a screen reckons for each module that one sees, in a browser that is slowed down as a phone is."""
    modules = yard()
    with sync_playwright() as playwright, launch(playwright) as browser:
        page = browser.new_page()
        page.add_script_tag(path=bundled(Path(__file__).with_name("ready_list.ts"), tmp_path), type="module")
        page.wait_for_function("() => 'timed' in globalThis")
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
        took: dict[str, Any] = page.evaluate("given => timed(given)", {"modules": modules, "now": NOW})
    each, slowest = median(took["rounds"]) / MODULES, max(took["modules"])
    print(f"\n{MODULES} modules one by one at {SLOWDOWN}× slowdown: {each:.2f} ms each")
    print(verdict("the slowest module's rows", slowest, FRAME, " ms"))
    places = [place_of(f"module-{number}", parts) for number, parts in enumerate(modules)]
    assert took["rows"] == len(ready_list(places, NOW))
