"""The drying law: cell by cell against the handbook's table, and what must be true of it in any weather."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.rules import celsius, dew_point, dried, ready, room_rh, tables

# The handbook, all of it from memory: see reference/README.md.
TABLE = Path(__file__).parent / "reference" / "drying_under_tape.csv"
CELLS = list(csv.DictReader(TABLE.read_text("utf-8").splitlines()))
COAT = {"laid": 1_800_000_000, "material": "drying_type"}
TEMPS, PER_CENT = st.integers(-50, 400), st.integers(0, 99)
READING = st.builds(
    lambda after, temp, rh: {"time": COAT["laid"] + after, "temp": temp, "rh": rh},
    st.integers(-86_400, 400_000), TEMPS, st.integers(0, 100),
)  # fmt: skip
HISTORY = st.lists(READING, min_size=1, max_size=12)
Readings = list[dict[str, Any]]


def minutes(temp: float, rh: float) -> tuple[int, int]:
    """Likely and by the table in air that stays as it is, where it dries at all."""
    found = ready(COAT, [{"time": COAT["laid"], "temp": temp, "rh": rh}], 1)
    likely, by_table = ((found[end] - COAT["laid"]) // 60 for end in ("likely", "by_table"))
    return likely, by_table


@pytest.mark.parametrize("cell", CELLS, ids=[f"{cell['temp_F']} F {cell['rh_pct']} %" for cell in CELLS])
def test_the_handbook(cell: dict[str, str]) -> None:
    """Likely within 16 % of the cell; by the table never shorter than it."""
    assert cell["confidence"] == "memory"
    likely, by_table = minutes(celsius(float(cell["temp_F"]) * 10), float(cell["rh_pct"]))
    printed = float(cell["hours"]) * 60
    assert likely == pytest.approx(printed, rel=0.16)
    assert by_table >= printed


def test_the_whole_table_is_there() -> None:
    assert len(CELLS) == 19 * 4
    assert {cell["temp_F"] for cell in CELLS} == {"32", "50", "70", "100"}


def test_the_worked_accumulation() -> None:
    """8 h at 70 °F / 50 % and 16 h at 50 °F / 80 %: about 0.68, not dry."""
    laid = int(str(COAT["laid"]))
    readings = [{"time": laid, "temp": 211, "rh": 50}, {"time": laid + 8 * 3600, "temp": 100, "rh": 80}]
    assert dried(COAT, readings, laid + 24 * 3600, 1)["likely"] == pytest.approx(680, abs=5)


def test_yard_air_heated_dries_in_about_12_hours_instead_of_65() -> None:
    outside, inside = celsius(460), celsius(700)
    assert minutes(inside, room_rh(outside, 71, inside, 1))[0] / 60 == pytest.approx(12, abs=0.6)
    assert minutes(outside, 71)[0] / 60 == pytest.approx(65, abs=1)


@settings(deadline=None)
@given(TEMPS, st.integers(0, 98), st.integers(0, 30))
def test_drier_is_never_slower(temp: int, rh: int, less: int) -> None:
    damp, dry = minutes(temp, rh), minutes(temp, max(0, rh - less))
    assert dry[0] <= damp[0]
    assert dry[1] <= damp[1]


@settings(deadline=None)
@given(TEMPS, st.integers(1, 98), st.integers(0, 200))
def test_hotter_at_the_same_moisture_is_never_slower(temp: int, rh: int, warmer: int) -> None:
    hot = min(600, temp + warmer)
    assert minutes(hot, room_rh(temp, rh, hot, 1))[0] <= minutes(temp, rh)[0]
    assert dew_point(hot, room_rh(temp, rh, hot, 1), 1) == pytest.approx(dew_point(temp, rh, 1), abs=0.01)


@settings(deadline=None)
@given(HISTORY)
def test_likely_is_never_later_than_by_the_table(readings: Readings) -> None:
    found = ready(COAT, readings, 1)
    assert found["by_table"] is None or COAT["laid"] <= found["likely"] <= found["by_table"]


@settings(deadline=None)
@given(HISTORY, st.integers(0, 12), st.integers(1, 1000))
def test_splitting_an_interval_changes_nothing(readings: Readings, place: int, share: int) -> None:
    """A reading in between that says what held there anyway."""
    times: dict[int, dict[str, Any]] = {one["time"]: one for one in readings}
    alone = [times[time] for time in sorted(times)]
    held = alone[place % len(alone)]
    end = alone[place % len(alone) + 1]["time"] if place % len(alone) + 1 < len(alone) else held["time"] + 90_000
    between = held | {"time": held["time"] + (end - held["time"]) * share // 1001}
    whole_answer, split = ready(COAT, alone, 1), ready(COAT, [*alone, between], 1)
    # Only a gap may end: the room was read more often.
    assert {**whole_answer, "flags": set(whole_answer["flags"]) - {"gap"}} == {
        **split, "flags": set(split["flags"]) - {"gap"}
    }  # fmt: skip
    until = held["time"] + 50_000
    assert dried(COAT, alone, until, 1) == dried(COAT, [*alone, between], until, 1)


@settings(deadline=None)
@given(HISTORY, st.randoms())
def test_order_of_arrival_and_repeats_change_nothing(readings: Readings, chance: Any) -> None:
    again = [*readings, *readings[:3]]
    chance.shuffle(again)
    assert ready(COAT, again, 1) == ready(COAT, readings, 1)


@settings(deadline=None)
@given(HISTORY)
def test_a_later_reading_never_takes_back_what_was_dry(readings: Readings) -> None:
    before = ready(COAT, readings, 1)
    latest = max(one["time"] for one in readings)
    for end in ("likely", "by_table"):
        if before[end] is not None:
            later = {"time": max(latest, before[end]) + 60, "temp": -50, "rh": 100}
            assert ready(COAT, [*readings, later], 1)[end] == before[end]
            assert dried(COAT, readings, before[end], 1)[end] == 1000


@settings(deadline=None)
@given(HISTORY)
def test_dried_grows_with_time(readings: Readings) -> None:
    shares = [dried(COAT, readings, int(str(COAT["laid"])) + hours * 3600, 1)["likely"] for hours in range(0, 120, 7)]
    assert shares == sorted(shares)
    assert shares[0] == 0


def test_every_material_and_thickness_has_a_clock() -> None:
    reading = [{"time": 0, "temp": 211, "rh": 50}]
    for material in tables(1)["drying"]["materials"]:
        for thickness in tables(1)["drying"]["thickness"]:
            found = ready({"laid": 0, "material": material, "thickness": thickness}, reading, 1)
            assert 0 < found["likely"] <= found["by_table"], (material, thickness)
