"""What must be true of the answers about any module: never go on what nobody has read, never slower than waiting."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

import pytest

from server.rules import (
    before_paint,
    celsius,
    celsius_difference,
    clock,
    dew_point,
    instant,
    observations,
    place_of,
    ready_list,
    tables,
    tops,
    what_helps,
    whole,
)
from server.rules.what_helps import water_per_lb
from tests.rules.coat_yards import DAY, NOW, module_parts, yard_parts

MODULES = 120
LIMITS = tables(1)["drying"]["limits"]
Place = dict[str, Any]


@pytest.fixture(scope="module")
def places() -> list[Place]:
    found = []
    for seed in range(MODULES):
        chance = Random(f"answers {seed}")
        found.append(place_of(f"module-{seed}", [*module_parts(chance, seed), *yard_parts(chance)]))
    return found


def inside(place: Place, room: str) -> list[list[Any]]:
    airs = [air for air in place["airs"] if air["where"] == "module" or air["room"] == room]
    return sorted((row for air in airs for row in air["rows"] if row[0] <= NOW), key=lambda row: (row[0], -row[3]))


def test_never_go_against_a_figure(places: list[Place]) -> None:
    """Of every go, all limits once more by the latest reading; without a fresh one there is no go."""
    seen: Counter[str] = Counter()
    for place in places:
        for room in place["rooms"]:
            told = before_paint(place, room, NOW, {})
            seen[told["verdict"]] += 1
            rows = inside(place, room)
            if not rows or NOW - rows[-1][0] > LIMITS["stale_minutes"] * 60:
                seen["not read"] += 1
                assert told["verdict"] == "wait"
            if told["verdict"] == "go":
                _, temp, rh, *_ = rows[-1]
                assert (temp >= celsius(500), rh < 85) == (True, True)
                measured = [
                    row[4] for row in rows if row[4] is not None and NOW - row[0] <= LIMITS["stale_minutes"] * 60
                ]
                assert rh < 84 or measured
                assert not measured or measured[-1] - dew_point(temp, rh, 1) >= 27.5
                for surface, coat in tops(place, room):
                    assert clock(place, coat, room, NOW)["state"] in ("ready", "dry"), surface
    assert min(seen[key] for key in ("go", "wait", "stop", "not read")) >= 30, seen


def test_checks_and_verdict_say_the_same(places: list[Place]) -> None:
    for place in places:
        for room in place["rooms"]:
            told = before_paint(place, room, NOW, {})
            states = {check["state"] for check in told["checks"]}
            wanted = "stop" if "stop" in states else "wait" if "wait" in states else "go"
            assert told["verdict"] == wanted
            assert told["until"] is None or (wanted == "wait" and told["until"] > NOW)


def test_a_colder_night_never_makes_a_go(places: list[Place]) -> None:
    order, changed = ("go", "wait", "stop"), 0
    for place in places:
        warm, cold = ({"nights": [night(low)]} for low in (60, 30))
        for room in place["rooms"]:
            before, after = (before_paint(place | {"forecast": one}, room, NOW, {}) for one in (warm, cold))
            assert order.index(before["verdict"]) <= order.index(after["verdict"])
            changed += before["verdict"] != after["verdict"]
    assert changed >= 10


def night(low: int) -> dict[str, Any]:
    return {"from": instant(NOW + 3600), "to": instant(NOW + DAY // 2), "low": low}


def test_what_helps_is_never_slower_than_waiting(places: list[Place]) -> None:
    """In an hour of the clock's own reckoning; heat keeps the moisture; the likely end never lies after the table's."""
    seen: Counter[str] = Counter()
    for place in places:
        for room in place["rooms"]:
            for _, coat in tops(place, room):
                *options, wait = what_helps(place, room, coat, NOW)
                told = clock(place, coat, room, NOW)
                assert (wait["likely"], wait["by_table"]) == (told["likely"], told["by_table"])
                over = told["by_table"] is not None and told["by_table"] <= NOW
                assert wait["key"] == ("look" if over else "wait")
                assert not (over and options)
                seen[wait["key"]] += 1
                for one in options:
                    seen[one["key"]] += 1
                    assert one["likely"] <= one["by_table"]
                    assert one["by_table"] > NOW
                    if wait["by_table"] is not None:
                        assert one["saved_minutes"] * 60 == wait["by_table"] - one["by_table"] > 0
                    if one["key"] == "heat":
                        assert one["room_rh"] <= told["latest"]["rh"]
                        assert one["water_per_lb"]["rh_points"] > 0
    assert min(seen["heat"], seen["dry_air"], seen["wait"], seen["look"]) >= 100, seen


def test_water_of_fuel_by_chemistry() -> None:
    """C3H8 + 5 O2 -> 3 CO2 + 4 H2O and CH4 + 2 O2 -> CO2 + 2 H2O, by molar masses (IUPAC, rounded to 0.001 g)."""
    water = 18.015
    lbs = {"propane": 4 * water / 44.097, "natural_gas": 2 * water / 16.043}
    assert tables(1)["helps"]["water"] == {fuel: round(100 * lb) for fuel, lb in lbs.items()}
    # 1000 ft³ at 70 °F hold 1.15 lb of vapour when saturated (steam tables: 868 ft³ a pound): 1.63 lb are 141 points.
    place: Place = {"heat": None, "plan": None}
    assert water_per_lb(place, "bath", 211)["rh_points"] == pytest.approx(100 * lbs["propane"] * 868 / 1000, abs=1.5)


@pytest.mark.parametrize(
    ("limit", "fahrenheit", "source"),
    [
        ("coldest", 500, "gypsum industry's winter recommendations, GA-220 summary"),
        ("hottest", 950, "the same, with temporary heat"),
        ("paint_coldest", 500, "coating specifications"),
        ("paint_low", 400, "MIL-HDBK-1110, 7.4.1"),
    ],
)
def test_limits_of_air_by_their_sources(limit: str, fahrenheit: int, source: str) -> None:
    assert LIMITS[limit] == whole(celsius(fahrenheit)), source


def test_limits_of_damp_by_their_sources() -> None:
    """MIL-HDBK-1110, 9.6.6, and ISO 8502-4 in practice: 5 °F above the dew point; specifications: RH below 85 %.

    Without the wall's temperature 5 °F above the dew point are about 84 % RH where people paint.
    """
    assert LIMITS["dew_margin"] == whole(celsius_difference(50))
    assert LIMITS["paint_rh"] == 85
    for temp in range(100, 301, 10):
        assert temp - dew_point(temp, LIMITS["paint_rh_no_surface"], 1) == pytest.approx(celsius_difference(50), abs=3)


def test_the_list_is_in_order_and_complete(places: list[Place]) -> None:
    rows = ready_list(places, NOW)
    times = [row["at"] or (0 if row["ready"] else 1 << 52) for row in rows]
    assert times == sorted(times)
    # Of what can be done at the same time the module that leaves first.
    due = list(zip(times, (row["pickup"] or "9" for row in rows), strict=True))
    assert due == sorted(due)
    assert len(set(due)) > len(set(times))
    walls = {(row["module"], row["room"], row["surface"]) for row in rows}
    assert len(walls) == len(rows)
    for row in rows:
        assert bool(row["ready"]) == (row["state"] in ("ready", "dry"))
        assert row["ready"] == 0 or row["at"] is None or row["at"] <= NOW
    assert {row["do"] for row in rows} == {"tape", "float", "sand", "texture", "prime", "paint"}
    assert sorted(rows, key=str) == sorted((row for place in places for row in ready_list([place], NOW)), key=str)


def test_untried_looks_bound_nothing(places: list[Place]) -> None:
    """What was tried taken out of every look: no upper bound is left anywhere, and lower ones stay."""
    lows = highs = 0
    for place in places:
        before = observations([place])
        coats = [coat | {"lines": [untried(line) for line in coat["lines"]]} for coat in place["coats"]]
        after = observations([place | {"coats": coats, "kept": {}}])
        highs += sum(one["high"] is not None for looks in before.values() for one in looks)
        assert all(one["high"] is None for looks in after.values() for one in looks)
        lows += sum(len(looks) for looks in after.values())
    assert min(lows, highs) >= 5, (lows, highs)


def untried(line: dict[str, Any]) -> dict[str, Any]:
    body = {name: told for name, told in line["body"].items() if name not in ("tried", "reason")}
    return line | {"body": body}
