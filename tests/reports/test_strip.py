"""Paper and phone draw one strip: places and shades agree to the thousandth over random coats."""

from __future__ import annotations

from dataclasses import asdict, replace
from pathlib import Path
from random import Random
from typing import Any

from server.reports.strip import Tag, dose_to, lane, place_every, place_tags, strip
from server.reports.strip_drawing import Words, full_strip
from tests.rules.bundled import on_the_phone

HOUR = 3600
DAWN = 1_764_655_200
STRIPS = 400
# Laid at midnight in a yard six hours behind; steady air, dry by the table after twelve hours.
COAT: dict[str, Any] = {
    "laid": DAWN, "now": DAWN + 6 * HOUR, "likely": DAWN + 10 * HOUR, "by_table": DAWN + 12 * HOUR, "set": None,
    "dried": 500, "wet": None, "dry": None, "air": [{"time": DAWN - HOUR, "temp": 211, "rh": 45, "rate": 1000}],
    "offset": -6 * HOUR,
}  # fmt: skip


def random_strip(chance: Random) -> dict[str, Any]:
    laid = DAWN + chance.randrange(86_400)
    by_table = laid + chance.randrange(HOUR, 90 * HOUR) if chance.random() < 0.8 else None
    likely = laid + chance.randrange(HOUR, 60 * HOUR) if by_table or chance.random() < 0.5 else None
    now = laid + chance.randrange(0, 150 * HOUR)
    looked = laid + chance.randrange(0, 80 * HOUR)
    look = chance.choice(["wet", "dry", None, None])
    time, air = laid - chance.randrange(-4 * HOUR, 9 * HOUR), []
    for _ in range(chance.choice([0, 1, 3, 12, 120])):
        row = {"temp": chance.randrange(80, 240, 40), "rh": chance.choice([40, 60, 85])}
        air.append({"time": time, "rate": chance.randrange(100_000, 20_000_000), **row})
        time += chance.randrange(60, 6 * HOUR)
    return COAT | {
        "laid": laid, "now": now, "likely": likely, "by_table": by_table, "air": air,
        "set": laid + 45 * 60 if chance.random() < 0.3 else None, "dried": chance.randrange(1000),
        "wet": looked if look == "wet" else None, "dry": looked if look == "dry" else None,
        "offset": chance.choice([-6, 0, 2]) * HOUR,
    }  # fmt: skip


def random_tags(chance: Random) -> list[Tag]:
    rows = [(-1,), (0,), (0, 1, 2)]
    return [
        Tag(str(n), chance.randrange(1001), chance.randrange(80, 500), chance.choice(["start", "middle", "end"]),
            chance.choice(rows))
        for n in range(chance.randrange(1, 7))
    ]  # fmt: skip


def test_both_languages_draw_the_same(tmp_path: Path) -> None:
    chance = Random(2026)
    strips = [random_strip(chance) for _ in range(STRIPS)]
    tags = [random_tags(chance) for _ in range(STRIPS)]
    lanes = [
        ([chance.randrange(-99, 400) for _ in range(chance.randrange(1, 9))], chance.choice([25, 60])) for _ in strips
    ]
    asked = {
        "strips": strips,
        "tags": [[asdict(one) for one in row] for row in tags],
        "lanes": lanes,
    }
    told = on_the_phone(Path(__file__).with_name("strips.ts"), asked, tmp_path)
    for given, other in zip(strips, told["strips"], strict=True):
        assert strip(given) == other, given
    assert [[[one.key, one.left, one.row] for one in place_tags(row)] for row in tags] == told["tags"]
    assert [[[one.key, one.left, one.row, one.led] for one in place_every(row)] for row in tags] == told["every"]
    assert [lane(values, least) for values, least in lanes] == told["lanes"]
    old, left_out = (
        sum(one["now"] is None for one in told["strips"]),
        sum(len(a) - len(b) for a, b in zip(tags, told["tags"], strict=True)),
    )
    assert min(old, left_out, sum(bool(one["air"]) for one in told["strips"])) >= 50


def test_a_strip_ends_a_sixth_past_the_tables_time() -> None:
    shape = strip(COAT)
    assert (shape["from"], shape["until"], shape["now"]) == (DAWN, DAWN + 14 * HOUR, 428)
    assert [(mark["key"], mark["x"]) for mark in shape["marks"]] == [("laid", 0), ("likely", 714), ("by_table", 857)]
    assert (shape["shades"][0], shape["shades"][9], shape["shades"][-1]) == (0, 525, 1000)


def test_what_was_found_wet_is_never_lighter_than_damp() -> None:
    assert max(strip(COAT | {"wet": DAWN + 11 * HOUR})["shades"]) == 500
    assert strip(COAT | {"dry": DAWN + 7 * HOUR})["shades"][10] == 1000


def test_the_first_reading_also_holds_backwards() -> None:
    air = [{"time": 50, "rate": 2}, {"time": 100, "rate": 5}]
    assert [dose_to(air, 0, 100), dose_to(air, 0, 110), dose_to(air, 60, 100), dose_to([], 0, 100)] == [200, 250, 80, 0]


def test_words_that_find_no_room_are_left_out() -> None:
    tag = Tag("a", 500, 300, "end", (0,))
    assert [one.key for one in place_tags([tag, replace(tag, key="b", x=520)])] == ["a"]


def test_no_figure_stands_twice_beside_itself() -> None:
    # 21.1, 21.3 and 21.7 °C are 70, 70 and 71 °F.
    temps = enumerate([211, 213, 217])
    air = [{"time": DAWN + at * 4 * HOUR, "temp": temp, "rh": 50, "rate": 1000} for at, temp in temps]
    words = Words(
        mark=lambda _key, _at: "", hour=lambda _at: "", temp=lambda temp: f"{round(temp * 0.18 + 32)} °F", rh=str
    )
    drawn, _ = full_strip(COAT | {"air": air}, words, 120)
    assert [drawn.count(">70 °F<"), drawn.count(">71 °F<")] == [1, 1]


def test_where_likely_and_the_table_say_one_time_it_is_said_once() -> None:
    words = Words(mark=lambda key, at: f"{key} {at}", hour=str, temp=str, rh=str)
    drawn = [full_strip(COAT | {"likely": DAWN + hours * HOUR}, words, 120)[0] for hours in (12, 10)]
    assert ["likely" in one for one in drawn] == [False, True]
    assert all("by_table" in one for one in drawn)
