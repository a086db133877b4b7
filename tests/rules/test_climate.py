"""Dew points, saturation pressure, heated air and units against published values, each with its source beside it."""

from __future__ import annotations

import csv
from itertools import pairwise, product
from math import exp, log
from pathlib import Path
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.rules import (
    celsius,
    celsius_difference,
    dew_point,
    fahrenheit,
    fahrenheit_difference,
    room_rh,
    saturation,
    whole,
)

REFERENCE = Path(__file__).parent / "reference"
TEMPS, PER_CENT = st.integers(-300, 600), st.integers(1, 99)


def rows(name: str) -> list[dict[str, str]]:
    with open(REFERENCE / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def miss(row: dict[str, str]) -> float:
    """How far our dew point lies from the row's, °C."""
    return abs(dew_point(float(row["air_C"]) * 10, float(row["rh_pct"]), 1) / 10 - float(row["dewpoint_C"]))


def test_published_dew_points() -> None:
    table = rows("dew_point.csv")
    good = [row for row in table if row["note"] != "misprint"]
    assert (len(table), len(good)) == (127, 126)
    assert median(map(miss, good)) <= 0.041
    assert max(map(miss, good)) < 0.25
    assert [round(miss(row), 1) for row in table if row not in good] == [0.3]


def test_psychrolib_over_the_whole_working_range() -> None:
    """Air from freezing to the warmest that a reading may be. In rooms (up to 45 °C, 113 °F) closer than above them."""
    table = rows("psychrolib.csv")
    assert {int(row["air_C"]) for row in table} == set(range(61))
    for row in table:
        room = float(row["air_C"]) <= 45
        pascals = pytest.approx(float(row["saturation_Pa"]), rel=0.0024 if room else 0.004)
        assert saturation(float(row["air_C"]) * 10, 1) / 100 == pascals, row
        # Below freezing the library gives the frost point, over ice; ours is over water, as weather services print it.
        if float(row["dewpoint_C"]) >= 0:
            assert miss(row) < (0.04 if room else 0.11), row


def over_water(temp: float) -> float:
    """Pa over water, also below freezing, from -45 to 60 °C: WMO-No. 8 (2008), annex 4.B, as quoted on the web."""
    return 611.2 * exp(17.62 * temp / (243.12 + temp))


def dew_over_water(temp: float, rh: float) -> float:
    """°C, the same formula solved for the temperature."""
    share = log(over_water(temp) * rh / 100 / 611.2)
    return 243.12 * share / (17.62 - share)


def test_cold_air_by_the_weather_services_formula_over_water() -> None:
    """Over the whole range of that formula; frost points of other libraries say nothing of it."""
    below = 0
    for air, rh in product(range(-45, 61), range(5, 101, 5)):
        assert saturation(air * 10, 1) / 100 == pytest.approx(over_water(air), rel=0.004)
        dew = dew_over_water(air, rh)
        if dew >= -45:
            below += dew < 0
            assert dew_point(air * 10, rh, 1) / 10 == pytest.approx(dew, abs=0.03), (air, rh)
    assert below > 700, f"{below} dew points below freezing"


@pytest.mark.parametrize(
    ("air", "pascals"),
    # ASHRAE Fundamentals 2017, chapter 1, table 3, from memory.
    [(0, 611.2), (5, 872.5), (10, 1228.0), (20, 2338.8), (30, 4246.0), (40, 7383.5)],
)
def test_saturation_pressure_by_ashrae(air: int, pascals: float) -> None:
    assert saturation(air * 10, 1) / 100 == pytest.approx(pascals, rel=0.0024)


def test_the_worked_example_by_ashrae() -> None:
    """Fundamentals 2017, chapter 1, example 1: 40 °C dry bulb, 20 °C wet bulb: 14 %, dew point 7 °C."""
    assert dew_point(400, 14, 1) / 10 == pytest.approx(7, abs=0.5)


def test_yard_air_of_46_and_71_heated_to_70_is_about_30() -> None:
    assert room_rh(celsius(460), 71, celsius(700), 1) == pytest.approx(30, abs=0.5)


@settings(deadline=None)
@given(TEMPS, PER_CENT, st.integers(0, 300))
def test_heating_leaves_the_dew_point_where_it_was(outside: int, rh: int, warmer: int) -> None:
    inside = min(600, outside + warmer)
    heated = room_rh(outside, rh, inside, 1)
    assert heated <= rh + 1e-9
    assert dew_point(inside, heated, 1) == pytest.approx(dew_point(outside, rh, 1), abs=0.01)


@settings(deadline=None)
@given(TEMPS, PER_CENT)
def test_dew_point_is_never_above_the_air(temp: int, rh: int) -> None:
    assert dew_point(temp, rh, 1) <= dew_point(temp, rh + 1, 1) <= temp + 1e-9


@settings(deadline=None)
@given(st.integers(-40, 140))
def test_whole_fahrenheit_is_printed_as_it_was_typed(degrees: int) -> None:
    kept = whole(celsius(degrees * 10))
    assert whole(fahrenheit(kept) / 10) == degrees


@settings(deadline=None)
@given(st.integers(-600, 600))
def test_tenths_of_celsius_come_back(tenths: int) -> None:
    assert whole(celsius(fahrenheit(tenths))) == tenths
    assert whole(celsius_difference(fahrenheit_difference(tenths))) == tenths


@settings(deadline=None)
@given(st.integers(-600, 600), st.integers(-600, 600))
def test_a_difference_has_no_offset(one: int, other: int) -> None:
    assert fahrenheit(one) - fahrenheit(other) == pytest.approx(fahrenheit_difference(one - other))
    assert fahrenheit_difference(0) == celsius_difference(0) == 0


def test_the_table_of_pressure_only_rises() -> None:
    pressures = [saturation(temp, 1) for temp in range(-600, 601)]
    assert all(one < other for one, other in pairwise(pressures))
    assert all(saturation(temp + part / 10, 1) >= saturation(temp, 1) for temp, part in product((-600, 0, 599), (1, 9)))
