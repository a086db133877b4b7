"""Rows written in any of the forms come back the same; and degrees come back as they are printed."""

from __future__ import annotations

import csv
import io
from collections import Counter
from datetime import UTC, datetime
from fractions import Fraction
from itertools import product
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from server.loggers import looked
from server.loggers.measures import tenths
from server.rules import fahrenheit, whole

FORMS: dict[str, str] = {
    "rfc": "%Y-%m-%dT%H:%M:%S", "ymd": "%Y/%m/%d %H:%M", "mdy": "%m/%d/%Y %H:%M:%S", "mdy_half": "%m/%d/%y %I:%M %p",
    "dmy": "%d.%m.%Y %H:%M", "dmy_slash": "%d/%m/%Y %H:%M", "epoch": "", "epoch_ms": "000",
}  # fmt: skip
ORDERS = {"rfc": "ymd", "mdy_half": "mdy", "dmy_slash": "dmy"}
ZONES = ("America/Chicago", "Europe/Madrid", "Australia/Lord_Howe", "Asia/Kolkata", "-03:30", "UTC")
NOW = int(datetime(2030, 1, 1, tzinfo=UTC).timestamp())
ENCODINGS, DELIMITERS, UNITS = ("utf-8", "utf-8-sig", "utf-16", "cp1252"), ",;\t|", "FC"
ROUNDS = 12


def zone(name: str) -> Any:
    return ZoneInfo(name) if "/" in name or name == "UTC" else datetime.fromisoformat(f"2026-01-01T00:00{name}").tzinfo


@st.composite
def files(
    draw: st.DrawFn, form: str, where: str, encoding: str, delimiter: str, unit: str
) -> tuple[bytes, list[tuple[int, int, int]], dict[str, str]]:
    """A file, the rows in it (seconds, tenths °C, per cent), and what a person says of it."""
    start, step = draw(st.integers(1_700_000_000, 1_880_000_000)) // 60 * 60, draw(st.integers(1, 60)) * 60
    if datetime.fromtimestamp(start, zone(where)).fold:
        start += 7200
    # 1 % is a fraction's 100.
    humid = st.integers(0, 100).filter(lambda rh: rh != 1)
    values = draw(st.lists(st.tuples(st.integers(-300, 600), humid), min_size=1, max_size=40))
    rows = [(start + place * step, temp, rh) for place, (temp, rh) in enumerate(values)]
    decimal = "." if delimiter == "," else draw(st.sampled_from(".,"))
    out = io.StringIO()
    told = csv.writer(out, delimiter=delimiter, quoting=draw(st.sampled_from((csv.QUOTE_ALL, csv.QUOTE_MINIMAL))))
    told.writerow(["Nº", "Date Time", f"Temp (°{unit})", "RH %"])
    for place, (at, temp, rh) in enumerate(rows):
        degrees = f"{fahrenheit(temp) / 10:.2f}" if unit == "F" else f"{temp / 10:.1f}"
        told.writerow([place, written(at, form, where), degrees.replace(".", decimal), rh])
    return out.getvalue().encode(encoding), rows, {"zone": where, "form": ORDERS.get(form, form)}


def written(at: int, form: str, where: str) -> str:
    if not FORMS[form].startswith("%"):
        return f"{at}{FORMS[form]}"
    local = datetime.fromtimestamp(at, zone(where))
    offset = local.strftime("%z")
    return local.strftime(FORMS[form]) + (f"{offset[:3]}:{offset[3:5]}" if form == "rfc" else "")


def test_a_written_file_reads_back_as_it_was(capsys: pytest.CaptureFixture[str]) -> None:
    """What a file is written with is dealt out: drawn, a zone or a delimiter may never come up."""
    seen: Counter[str] = Counter()

    def check(place: int, form: str, *told: str) -> None:
        @seed(place)
        @settings(max_examples=4)
        @given(files(form, *told))
        def one(made: tuple[bytes, list[tuple[int, int, int]], dict[str, str]]) -> None:
            data, rows, said = made
            look = looked(data, said, None, NOW)
            assert look.found.refused == []
            assert [(row.at, row.temp, row.rh) for row in look.found.rows] == rows
            seen.update((form, *told))

        one()

    chance = Random(0)
    for place, form in product(range(ROUNDS), FORMS):
        check(place, form, *map(chance.choice, (ZONES, ENCODINGS, DELIMITERS, UNITS)))
    with capsys.disabled():
        print(f"\nFiles by what they were written with: {dict(seen)}")
    assert all(seen[name] >= 20 for name in (*FORMS, *ZONES, *ENCODINGS, *DELIMITERS, *UNITS))


def test_degrees_come_back_as_they_are_printed() -> None:
    for degrees in range(-22, 141):
        assert whole(fahrenheit(tenths(Fraction(degrees), "F")) / 10) == degrees
    for kept in range(-300, 601):
        assert tenths(Fraction(kept, 10), "C") == kept
        assert tenths(Fraction(f"{fahrenheit(kept) / 10:.2f}"), "F") == kept
