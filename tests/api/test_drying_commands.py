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
AIR = ("--temp", "70F", "--rh", "50")


def run(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def answer(*words: object) -> dict[str, Any]:
    result = run(*words, "--json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


def written(folder: Path, text: str | bytes) -> Path:
    file = folder / "logger.csv"
    file.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    return file


def by_file(folder: Path, text: str | bytes, *words: str) -> Result:
    return run("drying", "--readings", written(folder, text), "--laid", LAID, "--json", *words)


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
        ("70F", "nan", "is no number"), ("70F", "inf", "is no number"), ("1e400F", "50", "is no temperature"),
        ("70F", "0.5", "50 % is written 50"), ("70F", "1", "50 % is written 50"), ("70F", "-0", "of 0 % does"),
        ("1,000F", "50", "could be thousands"), ("70F", "9" * 400, "cannot be"), ("9" * 400 + "F", "50", "not the air"),
    ],
)  # fmt: skip
def test_air_that_cannot_be(command: str, temp: str, rh: str, said: str) -> None:
    result = run(command, f"--temp={temp}", f"--rh={rh}")
    assert result.exit_code == 2
    assert said in result.output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "Give the air"), (("--temp", "70F"), "Give the air"),
        (("--temp", "70F", "--rh", "5", "--heat-to", "60F"), "warmer than that already"),
        (("--rh", "5", "--readings", __file__), "With --readings say --laid"),
        ((*AIR, "--laid", LAID), "go with --readings"), ((*AIR, "--set", "form=mdy"), "go with --readings"),
        ((*AIR, "--set-minutes", "45"), "drying-type does not set"),
        ((*AIR, "--material", "texture", "--label-minutes", "45"), "texture dries by the table"),
    ],
)  # fmt: skip
def test_half_a_question_is_refused(words: tuple[str, ...], said: str) -> None:
    result = run("drying", *words)
    assert result.exit_code == 2
    assert said in result.output


def test_what_nobody_told_of_a_bag_or_a_can_is_not_made_up() -> None:
    bag = answer("drying", *AIR, "--material", "setting-type")
    assert "set_h" not in bag
    assert "no set time can be given: add --set-minutes" in " ".join(bag["notes"])
    assert answer("drying", *AIR, "--material", "setting-type", "--set-minutes", 20)["set_h"] == 0.33
    can = answer("drying", *AIR, "--material", "primer")
    assert "120 minutes are taken" in " ".join(can["notes"])
    assert "are taken" not in " ".join(answer("drying", *AIR, "--material", "primer", "--label-minutes", 60)["notes"])


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


def test_a_row_that_cannot_be_read_is_named_and_costs_no_other(tmp_path: Path) -> None:
    """As where a file is brought in: the good rows say what they said without it."""
    bad = (
        "2026-11-02T09:00-06:00,70,130",
        "Average,60,65",
        "2026-11-02T10:00-06:00,700,50",
        "2026-11-02T11:00-06:00,70",
    )
    whole = json.loads(by_file(tmp_path, "\n".join((HEAD, *ROWS))).output)
    found = json.loads(by_file(tmp_path, "\n".join((HEAD, ROWS[0], *bad, *ROWS[1:], "Rows: 7,,"))).output)
    assert {name: found[name] for name in whole if name != "notes"} == {n: whole[n] for n in whole if n != "notes"}
    skipped = [note for note in found["notes"] if "kipped" in note]
    assert skipped[0] == "5 rows skipped, and not in this:"
    reasons = ("3: A relative humidity of 130 %", "4: “Average” is no time", "5: 700 °F", "6: 2 fields", "9: “Rows: 7”")
    assert all(said.startswith(f"Skipped: line {why}") for said, why in zip(skipped[1:], reasons, strict=True))
    told = run("drying", "--readings", tmp_path / "logger.csv", "--laid", LAID).output
    assert all(f"- {note}" in told for note in skipped)


def test_of_very_many_rows_that_cannot_be_read_the_first_are_named(tmp_path: Path) -> None:
    lines = "\n".join((HEAD, *ROWS, *("2026-11-03T09:00-06:00,70,130" for _ in range(1000))))
    notes = json.loads(by_file(tmp_path, lines).output)["notes"]
    assert "1000 rows skipped, and not in this:" in notes
    assert "… and 980 more." in notes
    assert len([note for note in notes if note.startswith("Skipped: line")]) == 20


def test_a_file_says_nothing_to_the_terminal_itself(tmp_path: Path) -> None:
    """Names of columns and cells are printed, and a terminal obeys what does not print."""
    text = "time,\x1b[31mtemp F,RH \x1b]0;x\x07\n2026-11-02T08:00Z,70,50\n2026-11-02T09:00Z,\x1b[2J,50\n"
    for told in (
        text,
        text.replace("\n", ",\n").replace("RH", "RH,RH"),
        text.replace("time", "when").replace("2026", ""),
    ):
        output = run("drying", "--readings", written(tmp_path, told), "--laid", LAID).output
        assert "temp F" in output
        assert not {"\x1b", "\x07"} & set(output)


def test_a_day_that_could_be_a_month_is_taken_as_told(tmp_path: Path) -> None:
    text = "time,temp (°F),RH %\n03/04/2026 08:00,70,50\n"
    first = json.loads(by_file(tmp_path, text, "--zone", "-06:00").output)
    assert first["last_reading"] == "2026-03-04T14:00:00Z"
    assert "month first; if not, add --set form=dmy." in " ".join(first["notes"])
    told = json.loads(by_file(tmp_path, text, "--zone", "-06:00", "--set", "form=dmy").output)
    assert told["last_reading"] == "2026-04-03T14:00:00Z"
    assert "month first" not in " ".join(told["notes"])


@pytest.mark.parametrize(
    ("laid", "said"),
    [
        ("2026-11-02T08:00", "does not say where"), ("now", "is no time"), ("2026-11-02", "is no time"),
        ("03/04/2026 08:00", "could be two days"), ("1970-01-01T00:00Z", "laid in that year"),
        ("9999-12-31T23:59-12:00", "laid in that year"),
    ],
)  # fmt: skip
def test_a_laying_that_cannot_be(tmp_path: Path, laid: str, said: str) -> None:
    result = by_file(tmp_path, "\n".join((HEAD, *ROWS)), "--laid", laid)
    assert result.exit_code == 2
    assert said in result.output


def test_a_laying_in_the_hour_that_never_was_or_came_twice(tmp_path: Path) -> None:
    text = "\n".join((HEAD, *ROWS))
    for laid, said in (("2026-03-08T02:30", "did not exist"), ("2026-11-01T01:30", "came twice")):
        refused = by_file(tmp_path, text, "--laid", laid, "--zone", "America/Chicago")
        assert refused.exit_code == 2
        assert said in refused.output
    assert by_file(tmp_path, text, "--laid", "2026-11-01T01:30", "--zone", "-05:00").exit_code == 0
    assert by_file(tmp_path, text, "--laid", "11/13/2026 8:00 PM", "--zone", "America/Chicago").exit_code == 0


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
        ("time,RH\n2026-11-02T08:00Z,50", "--set temp=…"), ("when,temp F,RH\n", "No column of times"),
        ("time,temp F,dust\n2026-11-02T08:00Z,70,7", "--set rh=…"),
        ("time,temp,RH\n" + ROWS[0], "--unit F or --unit C"),
        (f"{HEAD}\n2026-11-02T09:00-06:00,70,130", "no row of it can be read. line 2: A relative humidity of 130 %"),
        (f"{HEAD}\n2026-11-02T09:00-06:00,700,50", "line 2: 700 °F"),
        (f"{HEAD}\n" + "2026-11-02T09:00-06:00,70,0.5\n" * 9, "50 % is written 50, not 0.5. … and 6 more."),
        (f"{HEAD},RH %\n2026-11-02T09:00-06:00,70,50,90", "add --set rh=…; its columns are 0: time, 1: temp (°F), 2"),
        (f"{HEAD}\n2026-11-02T09:00-06:00,21,1,50,0", "line 2: 5 fields"),
        (f"{HEAD}\nyesterday,70,50", "line 2: “yesterday” is no time"),
        (f"{HEAD}\n1970-01-01T00:00Z,70,50", "is the logger's clock set?"),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_read_is_refused_by_its_line(tmp_path: Path, text: str, said: str) -> None:
    result = by_file(tmp_path, text)
    assert result.exit_code == 2
    assert said in result.output


def test_a_file_without_its_humidity_is_no_readings(tmp_path: Path) -> None:
    result = by_file(tmp_path, f"{HEAD}\n2026-11-02T08:00-06:00,70,50", "--set", "rh=none")
    assert (result.exit_code, "Not said: rh." in result.output) == (2, True)


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
    to_come = by_file(tmp_path, "\n".join((HEAD, *rows)), "--laid", "2199-11-02T08:00-06:00")
    assert stale in json.loads(to_come.output)["notes"][0]
