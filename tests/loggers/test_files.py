"""A logger's file however it was written, and a clear word about each thing that cannot be read."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from typing import Any

import pytest

from server.loggers import Look, NotRead, confirmed, looked

NOW = int(datetime(2026, 12, 31, tzinfo=UTC).timestamp())
HEAD = "time,temp (°F),RH %"
FIRST = "2026-12-02T08:00-06:00,70,50"
ZONE = "America/Chicago"


def look(text: str | bytes, offered: str | None = ZONE, **told: str) -> Look:
    return looked(text.encode() if isinstance(text, str) else text, told, offered, NOW)


def keys(troubles: list[dict[str, Any]]) -> list[tuple[str, int | None]]:
    return [(one["key"], one.get("line")) for one in troubles]


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "file_empty"), (b"\xef\xbb\xbf\r\n \r\n", "file_empty"), (b"\xff\xfe", "file_empty"),
        (HEAD.encode(), "head_only"), (b"just a line\nand another", "one_column"), (b"a,b\nc,d\n", "no_times"),
        (b"PK\x03\x04 sheet", "workbook"), (b"time,\x00temp", "no_text"), (b"\xff\xfea", "no_text"),
        (f'{HEAD}\n"{FIRST}\n'.encode(), "quotes"), (b"time,temp\n" + b"2026-12-02T08:00Z,1\n" * 50_001, "file_long"),
        (f"{HEAD}\n{FIRST}\n2026-12-02T09:00Z,{'7' * 140_000},50".encode(), "cell_long"),
    ],
)  # fmt: skip
def test_what_is_no_table_says_so(data: bytes, said: str) -> None:
    with pytest.raises(NotRead) as refused:
        look(data)
    assert refused.value.told["key"] == said


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("2026-12-02T09:00-06:00,70,130", "rh_beyond"), ("2026-12-02T09:00-06:00,70,-5", "rh_beyond"),
        ("2026-12-02T09:00-06:00,700,50", "temp_beyond"), ("2026-12-02T09:00-06:00,warm,50", "no_number"),
        ("2026-12-02T09:00-06:00,21,1,50,0", "many_fields"), ("2026-12-02T09:00-06:00,70", "few_fields"),
        ("2026-12-02T09:00-06:00,,", "no_measure"),
        ("yesterday,70,50", "no_time"), ("2026-02-30T09:00Z,70,50", "no_time"),
        ("1970-01-01T00:00Z,70,50", "clock_unset"),
        ("2027-01-02T09:00-06:00,70,50", "in_the_future"), ("2026-12-02T09:00-06:00,nan,50", "no_number"),
        ("2026-12-02T09:00-06:00,70,1e1", "no_number"), ("2026-12-02T09:00-06:00,70,0.52", "rh_fraction"),
        ("2026-12-02T09:00-06:00,70,1.00", "rh_fraction"),
    ],
)  # fmt: skip
def test_a_bad_row_is_told_by_its_line_and_costs_no_other(row: str, said: str) -> None:
    found = look("\n".join((HEAD, FIRST, row, "2026-12-02T10:00-06:00,71,51"))).found
    assert keys(found.refused) == [(said, 3)]
    assert [(one.line, one.temp, one.rh) for one in found.rows] == [(2, 211, 50), (4, 217, 51)]


def test_a_file_of_fractions_is_told_once_what_to_do() -> None:
    found = look("\n".join((HEAD, *(f"2026-12-02T{hour:02}:00-06:00,70,0.{hour + 40}" for hour in range(24))))).found
    assert (found.rows, len(found.refused)) == ([], 24)
    assert found.notes == [{"key": "rh_fractions", "n": 24}]
    assert look(f"{HEAD}\n{FIRST}\n2026-12-02T09:00-06:00,70,0.52").found.notes == []


def test_in_a_file_of_fractions_more_than_the_whole_is_not_one_per_cent() -> None:
    damp = "\n".join(f"2026-12-02T{hour:02}:00-06:00,70,{rh}" for hour, rh in enumerate(("0.97", "1.02", "0.99")))
    found = look(f"{HEAD}\n{damp}").found
    assert found.rows == []
    assert keys(found.refused) == [("rh_fraction", line) for line in (2, 3, 4)]


def test_fields_that_hold_nothing_may_stand_at_the_end_of_a_line() -> None:
    found = look(f"{HEAD}\n{FIRST},,\n2026-12-02T09:00Z,70,50,,x").found
    assert (len(found.rows), keys(found.refused)) == (1, [("many_fields", 3)])


@pytest.mark.parametrize(("rh", "kept"), [("0", 0), ("100", 100), ("1.1", 1), ("47.5", 48), ("47.4 %", 47)])
def test_the_ends_of_humidity_are_taken(rh: str, kept: int) -> None:
    assert [row.rh for row in look(f"{HEAD}\n2026-12-02T08:00-06:00,70,{rh}").found.rows] == [kept]


def test_a_logger_s_clock_may_be_ten_minutes_ahead_and_two_days_are_a_gap() -> None:
    told = looked(
        f"{HEAD}\n2026-12-29T00:10Z,70,50\n2026-12-31T00:10Z,70,50\n2026-12-31T00:10:01Z,70,50".encode(), {}, None, NOW
    )
    assert [row.line for row in told.found.rows] == [2, 3]
    assert keys(told.found.refused) == [("in_the_future", 4)]
    assert [(one["key"], one["n"]) for one in told.found.notes] == [("days_missing", 2)]


def test_what_a_person_should_look_at_is_noted() -> None:
    days = ["02T09:00-06:00,70,100", "02T08:00-06:00,70,50", "02T08:00-06:00,70,50", "02T08:00-06:00,60,0"]
    found = look("\n".join((HEAD, *(f"2026-12-{day}" for day in days), "2026-12-12T08:00-06:00,70,50"))).found
    assert found.repeated == 1
    assert {one["key"]: one["n"] for one in found.notes} == {
        "out_of_order": 1, "same_time": 1, "saturated": 1, "bone_dry": 1, "days_missing": 9,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "form", "unit", "asks"),
    [
        ("Fecha;Temp. C;Humedad\n13.12.2026 08:00;21,5;48", "dmy", "C", ["zone"]),
        ("Date,Time,Temp °F,Humidity\n12/13/26,08:00:05 PM,70.7,48", "mdy", "F", ["zone"]),
        ("Date Time,temp_c,rh\n02/03/2026 08:00,21.5,48", "mdy", "C", ["form", "zone"]),
        ("Datum\tTemp\tFeuchte\n02.03.2026 08:00\t21,5\t48", "dmy", "C", ["unit", "form", "zone"]),
        ("1780000000,70.7,48", "epoch", "F", ["temp", "rh", "unit"]),
        ("1780000000123|21.5|48", "epoch_ms", "C", ["temp", "rh", "unit"]),
        ("time,temp F,temp F,rh,rh\n2026-12-13T08:00Z,70.7,9,48,9", "ymd", "F", ["temp", "rh"]),
        ("time,Indoor temp F,rh,Outdoor temp F,Outdoor rh\n2026-12-13T08:00Z,70.7,48,9,9", "ymd", "F", ["temp", "rh"]),
        ("time,Abs. humidity g/m3,Humidity,Dew point C,Temp C\n2026-12-13T08:00Z,9,48,9,21.5", "ymd", "C", []),
        ('Plot: 1\n"#","Date Time, GMT-06:00","Temp, °F (S/N 1)","RH, %"\n1,12/13/26 08:00,70.7,48', "mdy", "F", []),
    ],
)  # fmt: skip
def test_columns_are_guessed_and_what_is_open_is_asked(text: str, form: str, unit: str, asks: list[str]) -> None:
    found = look(text)
    assert (found.plan.form, found.plan.unit, found.asks) == (form, unit, asks)
    assert [(row.temp, row.rh) for row in found.found.rows] == [(215, 48)]


def test_wide_text_is_read_with_and_without_its_mark() -> None:
    for encoding in ("utf-16", "utf-16-le", "utf-16-be"):
        found = look(f"{HEAD}\n{FIRST}".encode(encoding))
        assert (found.encoding, len(found.found.rows)) == ("utf-16", 1)


def test_what_a_person_corrects_counts() -> None:
    text = "Sensor A,Sensor B,Date\n48,21.5,02/03/2026 08:00"
    found = look(text, temp="1", rh="0", unit="C", form="dmy", zone="-06:00")
    assert found.asks == []
    rows = confirmed(text.encode(), query(found), NOW).rows
    assert [(row.at, row.temp, row.rh) for row in rows] == [
        (int(datetime(2026, 3, 2, 14, tzinfo=UTC).timestamp()), 215, 48)
    ]


def test_what_hangs_on_a_column_is_read_in_the_one_that_a_person_chose() -> None:
    text = "Time A,Indoor (F),Outdoor temp (C),rh,Time B (GMT-06:00)\n2026-12-02T08:00Z,70,20.5,48,02.12.2026 08:00"
    assert [row.temp for row in look(text, temp="1").found.rows] == [211]
    assert [row.temp for row in look(text, temp="2").found.rows] == [205]
    other = look(text, times="4")
    assert (other.plan.form, other.plan.zone, other.asks) == ("dmy", "-06:00", ["form"])
    assert look(text, temp="150", times="199").found.rows == []


@pytest.mark.parametrize(
    "told",
    [
        {"form": "x"},
        {"temp": "-1"},
        {"rh": "²"},
        {"times": "1,2,3"},
        {"zone": "../etc"},
        {"zone": "Mars/X"},
        {"head": "a"},
    ],
)
def test_a_plan_that_cannot_be_is_refused(told: dict[str, str]) -> None:
    with pytest.raises(NotRead):
        look(f"{HEAD}\n{FIRST}", **told)


def test_a_hostile_file_costs_no_more_than_its_size() -> None:
    """Patterns and pairs of columns that would take minutes where they are let loose."""
    start = time.perf_counter()
    blanks = " " * 60_000
    for cell in (f"1{blanks}x", f"-{blanks}C", f'"{blanks}°{blanks}F"', "9" * 120_000):
        assert keys(look(f"{HEAD}\n{FIRST}\n2026-12-02T09:00Z,{cell},50").found.refused) == [("no_number", 3)]
        assert keys(look(f"{HEAD}\n{FIRST}\n{cell},70,50").found.refused) == [("no_time", 3)]
    for wide in ("," * 1_000_000, ",".join("x" * 500_000), f"{HEAD}\n{FIRST}{',' * 300}"):
        with pytest.raises(NotRead) as refused:
            look(wide)
        assert refused.value.told["key"] in ("many_columns", "file_empty")
    with pytest.raises(NotRead):
        look('time,temp,rh\n"' + "2026-12-02T09:00Z,70,50\n" * 20_000)
    assert time.perf_counter() - start < 5


def test_a_plan_is_confirmed_whole() -> None:
    with pytest.raises(NotRead) as refused:
        confirmed(f"{HEAD}\n{FIRST}".encode(), {"temp": "1"}, NOW)
    assert refused.value.told["key"] == "plan_missing"


def query(found: Look) -> dict[str, str]:
    """A plan as a screen sends it back."""
    told = {name: value for name, value in found.plan.as_told().items() if value is not None}
    return {name: ",".join(map(str, value)) if isinstance(value, list) else str(value) for name, value in told.items()}


def test_the_hour_that_never_was_and_the_one_that_came_twice() -> None:
    rows = (f"2026-{day},70,50" for day in ("03-08 02:30", "11-01 00:45", "11-01 01:45", "11-01 01:15", "11-01 02:15"))
    found = look("\n".join((HEAD, *rows))).found
    assert keys(found.refused) == [("hour_missing", 2)]
    assert keys(found.notes) == [("hour_twice", 4)]
    assert [two.at - one.at for one, two in zip(found.rows, found.rows[1:], strict=False)] == [3600, 1800, 3600]


def test_by_the_hour_the_second_of_two_alike_is_an_hour_later() -> None:
    walls = ("00:00", "01:00", "01:00", "02:00")
    found = look("\n".join(("time,temp F,rh", *(f"2026-11-01 {wall},70,50" for wall in walls)))).found
    assert [row.at - found.rows[0].at for row in found.rows] == [0, 3600, 7200, 10800]


def test_the_scale_in_a_cell_comes_before_that_of_the_head() -> None:
    cells = ("70", "70F", "21.1 °C", "21.1c", "294.1K")
    rows = (f"2026-12-02T0{at}:00Z,{cell},50" for at, cell in enumerate(cells))
    found = look("\n".join((HEAD, *rows))).found
    assert [row.temp for row in found.rows] == [211] * 4
    assert keys(found.refused) == [("no_number", 6)]


def test_the_newest_on_top_is_read_from_below() -> None:
    rows = "2026-11-01 02:15,70,50\n2026-11-01 01:15,70,50\n2026-11-01 01:45,70,50\n2026-11-01 00:45,70,50"
    found = look(f"{HEAD}\n{rows}").found
    assert [two.at - one.at for one, two in zip(found.rows, found.rows[1:], strict=False)] == [3600, 1800, 3600]


def test_times_without_a_zone_are_not_guessed() -> None:
    assert keys(look(f"{HEAD}\n2026-12-02 08:00,70,50", None).found.refused) == [("zone_missing", 2)]
