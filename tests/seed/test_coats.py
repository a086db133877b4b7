"""Coats in the told yard: every state is there, and every number is what the rules reckon from the parts."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from seed_demo.coats import HEATER_OUT
from server import journal
from server.bootstrap.places import ROOT
from server.clock import stamp
from server.db import reading
from server.rules import (
    CURRENT,
    UNRELIABLE,
    before_paint,
    clock,
    earlies,
    family,
    instant,
    learn,
    observations,
    place_of,
    ready,
    ready_list,
    room_rh,
    seconds,
    tops,
    whole,
)
from tests.seed.conftest import Told, holds_of

Part = dict[str, Any]
COMMAND = [sys.executable, "-c", "from server.cli import main; main()", "drying"]


@pytest.fixture(scope="module")
def places(told: Told) -> Iterator[dict[str, Any]]:
    """Every module as the gate reads it."""
    with told.app.app_context(), reading() as conn:
        yield {
            serial: place_of(module, journal.gate_parts(conn, module)) for serial, module in told.story.modules.items()
        }


def coat_of(told: Told, places: dict[str, Any], name: str) -> Part:
    about = told.story.coats[name]
    return next(coat for coat in places[name.split()[0]]["coats"] if coat["id"] == about)


def now(told: Told) -> int:
    return seconds(stamp(told.story.now))


@pytest.mark.parametrize(
    ("name", "room", "state", "flags", "whose"),
    [
        ("5084-A second", "living", "wet", {"damp", "gap", "stale"}, "module"),
        ("5084-A second", "bath_1", "wet", {"stale"}, "module"),
        ("5086-A fresh tape", "living", "wet", {"outside", "below_limits", "damp"}, "outside"),
        ("5083-A utility", "utility", "likely", set(), "module"),
        ("5083-A fill", "living", "not_dry", set(), "module"),
        ("5083-A touch_up", "kitchen", "ready", set(), "module"),
        ("5083-B fill", "bed_1", "ready", {"heated"}, "heated"),
        ("5083-B hole", "bed_2", "ready", {"heated"}, "heated"),
        ("5084-A paint_1", "kitchen", "unsure", {"gap"}, "module"),
        ("5078-A ceiling", "living", "dry", {"clock_unsure", "below_limits"}, "module"),
        ("5081-B touch_up", "bed_1", "ready", set(), "module"),
        ("5086-A paint_2", "bath_1", "ready", set(), "room"),
    ],
)
def test_every_state_is_there(told: Told, places: dict[str, Any], name: str, room: str, state: str, flags: set[str],
                              whose: str) -> None:  # fmt: skip
    coat = coat_of(told, places, name)
    assert coat in [top for _, top in tops(places[name.split()[0]], room)]
    found = clock(places[name.split()[0]], coat, room, now(told))
    assert (found["state"], set(found["flags"]), found["whose"]) == (state, flags, whose)


def test_times_are_reckoned_from_the_parts(told: Told, places: dict[str, Any]) -> None:
    compared = 0
    for place in places.values():
        rows = [dict(zip(("time", "temp", "rh"), row[:3], strict=True)) for air in place["airs"] for row in air["rows"]]
        for coat in place["coats"]:
            found = clock(place, coat, coat["rooms"][0], now(told))
            if found["factor"] or found["flags"] or found["whose"] != "module" or coat["set_minutes"]:
                continue
            label = {} if coat["label_minutes"] is None else {"label_minutes": coat["label_minutes"]}
            laid = {
                "laid": seconds(coat["laid"]),
                "material": coat["material"],
                "thickness": coat["thickness"],
                **label,
            }
            reckoned = ready(laid, rows, CURRENT)
            assert (found["likely"], found["by_table"]) == (reckoned["likely"], reckoned["by_table"]), coat["coat"]
            compared += 1
    assert compared > 20


def test_one_coat_as_the_command_says_it(told: Told, places: dict[str, Any], tmp_path: Path) -> None:
    """The texture of 5077-A, from the same readings in a file; no factor is known for texture."""
    place, coat = places["5077-A"], coat_of(told, places, "5077-A texture")
    file = tmp_path / "readings.csv"
    rows = [row for air in place["airs"] for row in air["rows"]]
    lines = [f"{instant(row[0])},{row[1] / 10},{row[2]}" for row in sorted(rows)]
    file.write_text("\n".join(["time,temp (°C),RH %", *lines]))
    words = ["--material", "texture", "--readings", str(file), "--laid", coat["laid"], "--json"]
    done = subprocess.run([*COMMAND, *words], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    said = json.loads(done.stdout)
    found = clock(place, coat, "living", now(told))
    as_said = [int(datetime.fromisoformat(said[f"ready_{end}"]).timestamp()) for end in ("likely", "by_table")]
    assert as_said == [found["likely"], found["by_table"]]


def test_heated_air_is_the_masts_moisture(told: Told, places: dict[str, Any]) -> None:
    place = places["5083-B"]
    assert place["airs"] == []
    latest = clock(place, coat_of(told, places, "5083-B fill"), "bed_1", now(told))["latest"]
    mast = max(row for air in place["outside"] for row in air["rows"])
    assert latest == {"time": mast[0], "temp": 211, "rh": whole(room_rh(mast[1], mast[2], 211, CURRENT))}


def test_the_factor_is_what_the_looks_teach(told: Told, places: dict[str, Any]) -> None:
    found = {material: learn(seen, CURRENT) for material, seen in observations(places.values()).items()}
    learned = places["5086-A"]["learned"]
    assert learned["factors"] == found
    assert set(found) == {"drying_type"}
    assert found["drying_type"]["looks"] >= 20
    assert 100 < found["drying_type"]["percent"] < 120
    assert (
        clock(places["5083-A"], coat_of(told, places, "5083-A utility"), "utility", now(told))["factor"]
        == found["drying_type"]
    )


def test_one_is_covered_early_and_held_and_one_is_answered(told: Told, places: dict[str, Any]) -> None:
    waiting = {
        (serial, one["coat"]["coat"], *one["rooms"]) for serial, place in places.items() for one in earlies(place)
    }
    assert waiting == {("5084-A", "texture", "bed_1")}
    answered = coat_of(told, places, "5081-B paint_2")
    assert answered["early"]
    assert answered["answer"]["by"] == told.story["imke"].id
    found = holds_of(told, "5084-A")
    assert [hold["reason"] for hold in found if hold["key"] == "coat_early"] == [
        "The texture rig is here today only; the heater comes tonight."
    ]


def test_released_and_ready_modules_have_every_coat_on(places: dict[str, Any]) -> None:
    for serial in ("5077-A", "5078-A", "5078-B", "5081-A", "5081-B"):
        assert {coat["coat"] for coat in places[serial]["coats"]} >= {"tape", "first", "texture", "prime", "paint_2"}


def test_a_longer_schedule_and_the_plants_own_words(told: Told, places: dict[str, Any]) -> None:
    assert "skim" in {coat["coat"] for coat in places["5083-A"]["coats"]}
    missing = {hold["coat"]: hold["rooms"] for hold in holds_of(told, "5083-A") if hold["key"] == "coat_missing"}
    assert missing["paint_2"] == ["living", "kitchen", "utility"]
    assert missing["prime"] == ["utility"]
    assert places["5083-A"]["yard"]["coats"]["names"]["second"] == "Finish coat"


def test_touch_up_came_from_another_batch(places: dict[str, Any]) -> None:
    assert batches(places["5083-A"], "kitchen") == ["L-5083", "L-5083-2"]
    assert batches(places["5081-B"], "bed_1") == ["L-5081"]


def batches(place: dict[str, Any], room: str) -> list[str]:
    coats = [coat for coat in place["coats"] if room in coat["rooms"] and family(coat["coat"]) == "paint"]
    return list(dict.fromkeys(coat["paint"]["batch"] for coat in coats if coat["paint"]))


def test_one_wall_has_one_clock_for_two_screw_pops(told: Told, places: dict[str, Any]) -> None:
    fill = coat_of(told, places, "5083-B fill")
    assert fill["items"] == told.story.items["5083-B bed_1 D"][:2]
    assert fill["surface"] == "D"


def test_wet_sanding_starts_a_clock_again_in_its_room_alone(told: Told, places: dict[str, Any]) -> None:
    coat, place = coat_of(told, places, "5084-A second"), places["5084-A"]
    living, bath = (clock(place, coat, room, now(told))["laid"] for room in ("living", "bath_1"))
    assert living == seconds(coat["laid"])
    assert bath == seconds(coat["cells"]["bath_1"]["restart"]) > living


def test_the_cold_snap_put_the_patch_out_of_limits_until_somebody_tried(told: Told, places: dict[str, Any]) -> None:
    patch, place = coat_of(told, places, "5078-A patch"), places["5078-A"]
    look = seconds(patch["cells"]["living"]["dry"]["time"])
    found = clock(place, patch, "living", look)
    assert found["state"] == "dry"
    assert "below_limits" in found["flags"]
    assert found["by_table"] is None or look < found["by_table"] or UNRELIABLE & set(found["flags"])
    nights = [told.story.when(day, "20:00") for day in HEATER_OUT]
    cold = [row for air in place["airs"] for row in air["rows"] if row[1] < 100]
    assert cold
    assert all(
        any(night <= datetime.fromtimestamp(row[0], UTC) < night + timedelta(hours=12) for night in nights)
        for row in cold
    )


def test_a_night_was_damp_and_tonight_is_cold(told: Told, places: dict[str, Any]) -> None:
    rows = [row for air in places["5084-A"]["outside"] for row in air["rows"]]
    assert max(row[2] for row in rows) > 90
    assert min(row[1] for row in rows) < 0
    checks = before_paint(places["5083-A"], "kitchen", now(told), {})["checks"]
    assert [check["value"] for check in checks if check["key"] == "low"] == [39]


def test_readings_came_by_hand_by_key_and_by_file(told: Told, places: dict[str, Any]) -> None:
    airs = [air for place in places.values() for air in [*place["airs"], *place["outside"]]]
    assert {row[5] for air in airs for row in air["rows"]} == {"hand", "logger", "sensor"}
    assert {row[7] for air in airs for row in air["rows"]} == {
        None,
        "Mast",
        "Probe 2",
        "4",
        "L2",
    }
    assert 29 not in {row[2] for air in places["5084-A"]["airs"] for row in air["rows"]}


def test_the_ready_list_has_something_for_both_crews_now_and_later(told: Told, places: dict[str, Any]) -> None:
    rows = ready_list(places.values(), now(told))
    for crew in ("board", "paint"):
        mine = [row for row in rows if row["crew"] == crew]
        assert {row["ready"] for row in mine} == {0, 1}, crew
    assert {row["serial"] for row in rows} == {"5083-A", "5083-B", "5084-A", "5086-A"}
