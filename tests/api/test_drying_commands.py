"""`rakelight drying` and `rakelight dewpoint`: what they print, and what they say to what cannot be."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from server.cli import main

LAID = "2026-11-02T08:00-06:00"
# The worked accumulation: 8 h at 70 °F / 50 %, 16 h at 50 °F / 80 %.
ROWS = ("2026-11-02T08:00-06:00,70,50", "2026-11-02T16:00-06:00,50,80", "2026-11-03T08:00-06:00,50,80")
HEAD = "time,temp (°F),RH %"


def run(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def answer(*words: object) -> dict[str, Any]:
    result = run(*words, "--json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


def by_file(folder: Path, text: str | bytes, *words: str) -> Result:
    file = folder / "logger.csv"
    file.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    return run("drying", "--readings", file, "--laid", LAID, "--json", *words)


def test_a_coat_in_an_ordinary_room() -> None:
    found = answer("drying", "--temp", "70F", "--rh", 50)
    assert found.keys() == {"likely_h", "by_table_h", "room_rh_pct", "notes"}
    assert found["likely_h"] == pytest.approx(16.8, abs=0.1)
    assert found["by_table_h"] >= 17
    assert found["room_rh_pct"] == 50
    assert "Likely 16.8 h" in run("drying", "--temp", "21.11C", "--rh", "50%").output


def test_yard_air_in_a_heated_room_comes_with_cautions() -> None:
    found = answer("drying", "--temp", "46F", "--rh", 71, "--heat-to", "70F")
    assert found["likely_h"] == pytest.approx(12, abs=0.6)
    assert found["room_rh_pct"] == pytest.approx(30, abs=0.5)
    said = " ".join(found["notes"])
    assert all(word in said for word in ("carbon monoxide", "fire", "1.63", "constant vapour pressure"))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--temp", "46F", "--rh", "71"), "Out of limits: below 50"),
        (("--temp", "96F", "--rh", "40"), "Out of limits: above 95"),
        (("--temp", "70F", "--rh", "93"), "Not to be relied on"),
        (("--temp", "70F", "--rh", "50", "--material", "setting-type", "--set-minutes", "90"), "once it has set"),
        (("--temp", "60F", "--rh", "50", "--material", "latex"), "no published law"),
    ],
)
def test_what_a_figure_is_worth_is_said(words: tuple[str, ...], said: str) -> None:
    assert said in " ".join(answer("drying", *words)["notes"])


def test_dew_point() -> None:
    assert answer("dewpoint", "--temp", "20C", "--rh", 70) == {"dew_point_c": 14.4, "dew_point_f": 57.9}
    assert run("dewpoint", "--temp", "68F", "--rh", 70).output == "57.9 °F (14.4 °C)\n"


@pytest.mark.parametrize("command", ["drying", "dewpoint"])
@pytest.mark.parametrize(
    ("temp", "rh", "said"),
    [
        ("70F", "0", "look at the sensor"), ("70F", "100", "saturated"), ("70F", "130", "cannot be"),
        ("70F", "-5", "does not occur"), ("70F", "damp", "is no number"), ("700F", "50", "not the air of a yard"),
        ("-80C", "50", "not the air of a yard"), ("70", "50", "which scale"), ("warm", "50", "is no temperature"),
        ("70F", "nan", "is no number"),
    ],
)  # fmt: skip
def test_air_that_cannot_be(command: str, temp: str, rh: str, said: str) -> None:
    result = run(command, f"--temp={temp}", f"--rh={rh}")
    assert result.exit_code == 2
    assert said in result.output


@pytest.mark.parametrize(
    "words",
    [(), ("--temp", "70F"), ("--temp", "70F", "--rh", "5", "--heat-to", "60F"), ("--rh", "5", "--readings", __file__)],
)
def test_half_a_question_is_refused(words: tuple[str, ...]) -> None:
    assert run("drying", *words).exit_code == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n".join((HEAD, *ROWS)), ""),
        ("\r\n".join((HEAD, *ROWS, "")), ""),
        ("\n".join((HEAD, ROWS[2], ROWS[0], ROWS[1])), "1 out of order"),
        ("\n".join((HEAD, *ROWS, ROWS[1])), "1 that stood there twice"),
        (b"\xef\xbb\xbf" + "\n".join((HEAD, *ROWS)).encode(), "byte-order mark"),
        ("\n".join((HEAD, *ROWS)).encode("utf-16"), ""),
        ("Time;Note;Temp C;rH\n2026-11-02T08:00-06:00;x;21,111;50,0\n"
         "2026-11-02T16:00-06:00;x;10,0;80,0\n2026-11-03T08:00-06:00;x;10,0;80,0\n",
         "semicolons, decimal commas"),
        ("\n".join((HEAD, *ROWS)).encode("latin-1"), "in °F"),
        ("\n".join((HEAD, *ROWS, "2036-11-03T08:00-06:00,50,80")), "later than now"),
    ],
)  # fmt: skip
def test_a_logger_s_file_however_it_was_written(tmp_path: Path, text: str | bytes, said: str) -> None:
    """Each says the same: dry on the second day; at the last reading in November 0.68 of it."""
    result = by_file(tmp_path, text)
    assert result.exit_code == 0, result.output
    found = json.loads(result.output)
    assert found["likely_h"] == pytest.approx(48.9, abs=0.2)
    assert found["ready_likely"].startswith("2026-11-04T14:")
    assert said in " ".join(found["notes"])
    assert "more than 4 hours" in " ".join(found["notes"])
    if "later" not in said:
        assert found["dried_pct"]["likely"] == pytest.approx(68, abs=0.5)


def test_local_times_of_a_named_zone(tmp_path: Path) -> None:
    text = "Date,Time,Temp,Humidity\n11/02/2026,08:00,70,50\n11/02/2026,16:00,50,80\n11/03/2026,08:00,50,80\n"
    assert "--zone" in by_file(tmp_path, text, "--unit", "F").output
    found = json.loads(by_file(tmp_path, text, "--unit", "F", "--zone", "America/Chicago").output)
    assert found["ready_likely"].startswith("2026-11-04T14:")
    assert by_file(tmp_path, text, "--unit", "F", "--zone", "Mars/Olympus").exit_code == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "The file is empty"), ("\ufeff\n\n", "The file is empty"), (HEAD, "no rows under it"),
        ("time,RH\n2026-11-02T08:00Z,50", "a head that tells temp"), ("when,temp F,RH\n", "No column of times"),
        ("time,temp F,dust\n2026-11-02T08:00Z,70,7", "a head that tells rh"),
        ("time,temp,RH\n" + ROWS[0], "--unit F or --unit C"),
        (f"{HEAD}\n{ROWS[0]}\n2026-11-02T09:00-06:00,70,130", "line 3: A relative humidity of 130 %"),
        (f"{HEAD}\n{ROWS[0]}\n2026-11-02T09:00-06:00,700,50", "line 3: 700 °F"),
        (f"{HEAD}\n{ROWS[0]}\n2026-11-02T09:00-06:00,70", "line 3: 2 fields"),
        (f"{HEAD}\n2026-11-02T09:00-06:00,21,1,50,0", "line 2: 5 fields"),
        (f"{HEAD}\nyesterday,70,50", "line 2: “yesterday” is no time"),
        (f"{HEAD}\n1970-01-01T00:00Z,70,50", "is the logger's clock set?"),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_read_is_refused_by_its_line(tmp_path: Path, text: str, said: str) -> None:
    result = by_file(tmp_path, text)
    assert result.exit_code == 2
    assert said in result.output


def test_the_air_outside_by_a_logger_in_a_heated_room(tmp_path: Path) -> None:
    found = json.loads(by_file(tmp_path, f"{HEAD}\n2026-11-02T08:00-06:00,46,71", "--heat-to", "70F").output)
    assert found["likely_h"] == pytest.approx(12, abs=0.6)


def test_a_dead_sensor_s_0_per_cent_is_not_relied_on(tmp_path: Path) -> None:
    found = json.loads(by_file(tmp_path, f"{HEAD}\n2026-11-02T08:00-06:00,70,0").output)
    assert "no air is at 0 %" in " ".join(found["notes"])


def test_an_old_reading_is_carried_forward_and_not_relied_on(tmp_path: Path) -> None:
    """Air of the month before the laying dries nothing that anybody could rely on."""
    stale = "Not to be relied on: the last reading is old"
    assert stale in json.loads(by_file(tmp_path, f"{HEAD}\n2026-10-02T08:00-06:00,70,50").output)["notes"][0]
    rows = [f"2026-11-{2 + hour // 24:02}T{hour % 24:02}:00-06:00,70,50" for hour in range(8, 32)]
    assert stale not in " ".join(json.loads(by_file(tmp_path, "\n".join((HEAD, *rows))).output)["notes"])
