"""The command: a yard appears whole or not at all, is told once, and is printed in plain words."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from seed_demo import start, yard
from seed_demo.days import DAYS
from seed_demo.phones import PhoneError
from seed_demo.wire import Reply
from server.people import problem_with


def test_welcome_says_address_roles_names_and_passcodes() -> None:
    words = start.welcome("http://127.0.0.1:8080")
    assert "http://127.0.0.1:8080" in words
    for person in (*yard.PEOPLE, yard.ADMINISTRATOR):
        line = next(line for line in words.splitlines() if person.name in line)
        assert person.passcode in line
        assert problem_with(person.passcode, person.name) is None
    for role in ("inspector", "crew lead", "shipping", "manager", "administrator"):
        assert role in words


def test_a_telling_that_breaks_off_leaves_no_yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks_off(_story: object) -> None:
        raise PhoneError("the power went", Reply(500, {}))

    with monkeypatch.context() as patch:
        patch.setattr(start, "tell", breaks_off)
        with pytest.raises(PhoneError):
            start.main(["--data", str(tmp_path / "yard"), "--seed-only"])
    assert not start.has_yard(tmp_path / "yard")
    monkeypatch.setattr(start, "tell", DAYS[0])
    assert start.main(["--data", str(tmp_path / "yard"), "--seed-only"]) == 0
    assert start.has_yard(tmp_path / "yard")
    monkeypatch.setattr(start, "tell", breaks_off)
    assert start.main(["--data", str(tmp_path / "yard"), "--seed-only"]) == 0


def test_a_folder_with_something_else_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("not a yard")
    with pytest.raises(SystemExit, match=r"letter\.txt"):
        start.main(["--data", str(tmp_path), "--seed-only"])
    assert (tmp_path / "letter.txt").read_text() == "not a yard"


def test_the_story_ends_on_a_working_day_that_is_over() -> None:
    last = start.yesterday()
    today = datetime.now(ZoneInfo(yard.ZONE)).date()
    assert last.weekday() < 5
    assert timedelta(days=1) <= today - last <= timedelta(days=3)


def test_everybody_and_every_place_is_in_the_data_once() -> None:
    names = [one.name for one in (*yard.PEOPLE, yard.ADMINISTRATOR)] + [
        name for crew in yard.HELPERS.values() for name in crew
    ]
    assert len(set(names)) == len(names)
    assert {crew["id"] for crew in yard.CREWS} >= {one.crew for one in yard.PEOPLE if one.crew}
    bays = [one.bay for one in yard.MODULES]
    assert set(bays) <= set(yard.BAYS)
    assert len({one.serial for one in yard.MODULES}) == len(yard.MODULES)
