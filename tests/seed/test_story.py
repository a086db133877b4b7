"""The whole story against the real app: told in time, and the yard stands as the story says."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from seed_demo.days import ENDS
from seed_demo.wire import call
from seed_demo.yard import PEOPLE
from server import journal
from server.clock import stamp
from server.db import reading
from server.rules import questions
from tests.seed.conftest import Told, holds_of

Part = dict[str, Any]
STATES = {
    "5077-A": {"closed": 11},
    "5078-A": {"closed": 15, "void": 1},
    "5078-B": {"closed": 14, "open": 1},
    "5081-A": {"closed": 15, "open": 1},
    "5081-B": {"closed": 13},
    "5083-A": {"closed": 3, "cleared": 9, "open": 6},
    "5083-B": {"cleared": 2, "open": 13},
    "5084-A": {"open": 10},
    "5086-A": {"open": 5},
}

COATS = {"coat_missing", "coat_wet"}


def parts_of(told: Told, serial: str) -> list[Part]:
    with told.app.app_context(), reading() as conn:
        return journal.parts_of(conn, told.story.modules[serial])


def module_of(told: Told, serial: str) -> Part:
    return next(part for part in parts_of(told, serial) if part["part"] == "module")


def item_of(told: Told, name: str, index: int) -> Part:
    item = told.story.items[name][index]
    return next(part for part in parts_of(told, name.split()[0]) if part["id"] == item)


def test_told_in_about_a_minute(told: Told) -> None:
    assert told.seconds < 120, f"{told.seconds:.0f} s, and this machine may be busy: about 20 s when it is not"


def test_every_module_and_item_stands_as_told(told: Told) -> None:
    assert set(ENDS) == set(told.story.modules) == set(STATES)
    for serial, states in STATES.items():
        assert Counter(part["state"] for part in parts_of(told, serial) if part["part"] == "item") == states, serial
    assert 110 <= sum(sum(states.values()) for states in STATES.values()) <= 130


def test_one_has_left_and_eight_stand(told: Told) -> None:
    left = [serial for serial in STATES if module_of(told, serial)["left"]]
    assert left == ["5077-A"]
    assert len(STATES) - len(left) == 8


@pytest.mark.parametrize(
    ("serial", "keys"),
    [
        ("5078-A", set()),
        ("5078-B", {"items_open"}),
        ("5081-A", {"items_open"}),
        ("5081-B", set()),
        ("5083-A", {"items_open", "items_cleared", "sheet_stale", "sheet_unsigned", *COATS, "coat_look"}),
        (
            "5083-B",
            {"items_open", "items_cleared", "item_undecided", "entry_set_aside", "sheet_unsigned", "coat_missing"},
        ),
        (
            "5084-A",
            {"items_open", "phone_behind", "photos_missing", "sheet_unsigned", *COATS, "coat_early", "coat_look"},
        ),
        ("5086-A", {"items_open", "sheet_unsigned", *COATS}),
    ],
)
def test_what_stops_each(told: Told, serial: str, keys: set[str]) -> None:
    assert {hold["key"] for hold in holds_of(told, serial)} == keys


def test_releases_stand_are_questioned_and_pulled_back(told: Told) -> None:
    assert not questions(module_of(told, "5078-A"), holds_of(told, "5078-A"))
    late = questions(module_of(told, "5078-B"), holds_of(told, "5078-B"))
    assert [hold["numbers"] for hold in late] == [[15]]
    pulled = module_of(told, "5081-A")
    assert pulled["release"] is None
    assert len(pulled["releases"]) == 1


def test_the_late_item_keeps_the_time_it_was_written(told: Told) -> None:
    item = item_of(told, "5078-B bed_2 B", 0)
    release = module_of(told, "5078-B")["release"]
    assert item["time"] < release["time"]
    assert item["since"] > release["seq"]


def test_a_clock_a_day_ahead_is_reckoned_right(told: Told) -> None:
    cleared = next(line for line in item_of(told, "5078-B bath_1 B", 0)["lines"] if line["kind"] == "item.cleared")
    assert cleared["time"].startswith("2026-11-25T1")


def test_lost_replies_left_nothing_double(told: Told) -> None:
    assert told.story["rosendo"].phone.lost == 1
    for serial in STATES:
        numbers = [part["number"] for part in parts_of(told, serial) if part["part"] == "item"]
        assert sorted(numbers) == list(range(1, len(numbers) + 1)), serial


def test_two_opinions_are_both_kept(told: Told) -> None:
    heads = item_of(told, "5083-B bath_1 D", 0)["heads"]["defect"]
    assert {head[0] for head in heads} == {"lap_mark", "paint_peel_texture"}


def test_one_entry_is_set_aside_and_can_be_let_in(told: Told) -> None:
    with told.app.app_context(), reading() as conn:
        aside = journal.parts_named(conn, "set_aside")
    assert [(one["kind"], one["reason"], one["state"]) for one in aside] == [
        ("item.voided", "not_your_role", "waiting"),
    ]
    assert item_of(told, "5083-B bath_1 B", 1)["state"] == "open"


def test_every_photo_that_should_be_there_is(told: Told) -> None:
    photos = [part for serial in STATES for part in parts_of(told, serial) if part["part"] == "photo"]
    assert len(photos) > 60
    missing = [part for part in photos if not part["arrived"]]
    assert {part["device"] for part in missing} == {told.story["rosendo"].phone.device}
    phone = told.story["teodora"].phone
    token = phone.tokens[told.story["teodora"].id]
    arrived = next(part for part in photos if part["arrived"])
    assert call(phone.transport, "GET", f"/api/photos/{arrived['sha256']}/screen.jpg", token=token).status == 200


def test_a_first_sync_shows_what_a_phone_of_the_first_day_shows(told: Told) -> None:
    story = told.story
    old = story["hollis"]
    old.sync()
    new = story.phone("a visitor's")
    new.transport = old.phone.transport
    new.sign_in(old.name, next(one.passcode for one in PEOPLE if one.name == old.name))
    new.sync()
    old.sync()
    assert new.parts == old.phone.parts


def test_nothing_lies_after_the_last_day(told: Told) -> None:
    with told.app.app_context(), reading() as conn:
        times = [entry["time"] for entry in journal.entries(conn)]
    assert max(times) <= stamp(told.story.now)
    assert min(times) == "2026-11-18T13:00:00Z"


def test_the_journal_is_whole(told: Told) -> None:
    with told.app.app_context(), reading() as conn:
        found = journal.audit(conn)
    assert not found.get("problems"), found
