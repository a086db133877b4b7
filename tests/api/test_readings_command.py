"""`rakelight readings` and `rakelight forecast`: a file brought into a yard whose server is stopped."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from flask import Flask

from server import journal
from server.cli import main
from server.db import reading
from tests.conftest import close_app

SERIAL = "LM-0417-A"
HEAD = "time,temp (°F),RH %"
ROWS = ("2026-11-02T08:00-06:00,70,50", "2026-11-02T16:00-06:00,50,80")


@pytest.fixture
def data(app: Flask, module: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A yard with a module; the machine's clock stands a little after the file's last row."""
    close_app(app)
    later = datetime(2026, 11, 4, tzinfo=UTC)
    monkeypatch.setattr("server.clock.SystemClock.now", lambda _self: later)
    return tmp_path / "data"


def run(data: Path, command: str, text: str, *words: str) -> Result:
    file = data.parent / "logger.csv"
    file.write_text(text, "utf-8")
    return CliRunner().invoke(main, [command, str(file), "--data", str(data), *words])


def told(result: Result) -> dict[str, Any]:
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


def test_a_file_comes_in_once(app: Flask, data: Path) -> None:
    text, where = (
        "\n".join((HEAD, *ROWS, "2026-11-02T17:00-06:00,700,50")),
        ("--module", SERIAL, "--room", "bath", "--json"),
    )
    first = told(run(data, "readings", text, *where))
    assert (first["taken"], first["known"], first["entries"]) == (2, 0, 1)
    assert [(one["key"], one["line"]) for one in first["refused"]] == [("temp_beyond", 4)]
    assert told(run(data, "readings", text, *where))["known"] == 2
    with app.app_context(), reading() as conn:
        assert journal.audit(conn)["problems"] == []
        (entry,) = [one for one in journal.entries(conn) if one["kind"] == "reading.taken"]
    assert (entry["by"], entry["body"]["room"], len(entry["body"]["rows"])) == ("server", "bath", 2)


def test_of_very_many_rows_that_cannot_be_read_the_terminal_names_the_first(data: Path) -> None:
    text = "\n".join((HEAD, *ROWS, *("2026-11-02T17:00-06:00,700,50" for _ in range(500))))
    printed = run(data, "readings", text, "--outside").output
    assert printed.count("is not the air of a yard") == 20
    assert "… and 480 more." in printed
    assert len(told(run(data, "readings", text, "--outside", "--json"))["refused"]) == 500


def test_what_the_file_leaves_open_is_asked(data: Path) -> None:
    text = "Date,Time,T1,Humidity\n11/02/2026,08:00,70,50\n"
    asked = run(data, "readings", text, "--outside")
    assert asked.exit_code == 1
    assert all(word in asked.output for word in ("--set temp=…", "--unit", "--zone", "--set form=…", "2: T1"))
    words = ("--zone", "America/Chicago", "--unit", "F", "--set", "temp=2", "--set", "form=mdy", "--outside", "--json")
    found = told(run(data, "readings", text, *words))
    assert (found["taken"], found["plan"]["form"]) == (1, "mdy")


@pytest.mark.parametrize(
    ("words", "text", "said"),
    [
        ((), HEAD, "Say where"), (("--outside", "--room", "bath"), HEAD, "Say where"),
        (("--module", "X-1"), f"{HEAD}\n{ROWS[0]}", "No module X-1"),
        (("--outside", "--set", "by=me"), HEAD, "may be one of"),
        (("--outside", "--zone", "Mars/X"), f"{HEAD}\n{ROWS[0]}", "no time zone"),
        (("--outside",), "", "The file is empty"), (("--outside",), HEAD, "no rows under it"),
        (("--outside",), f"{HEAD}\n2026-11-02T08:00-06:00,70,130", "line 2: A relative humidity of 130 %"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_and_ends_badly(data: Path, words: tuple[str, ...], text: str, said: str) -> None:
    result = run(data, "readings", text, *words)
    assert result.exit_code in (1, 2)
    assert said in result.output


def test_a_forecast_tells_the_nights(data: Path) -> None:
    start = datetime(2026, 11, 4, tzinfo=UTC)
    rows = (f"{(start + timedelta(hours=hour)).isoformat()},{40 - hour}" for hour in range(20))
    text = "\n".join(("time,temp (°F)", *rows))
    found = told(run(data, "forecast", text, "--json"))
    assert (found["told"], [night["low"] for night in found["nights"]]) == (1, [-44])
    assert told(run(data, "forecast", text, "--json"))["told"] == 0


def test_a_forecast_of_nights_that_have_been_says_so(data: Path) -> None:
    result = run(data, "forecast", "time,temp (°F)\n2026-10-01T18:00Z,40\n2026-10-02T18:00Z,41")
    assert (result.exit_code, "still to come" in result.output) == (1, True)
