"""Page data of the packet, made from parts alone: nothing here knows of paper, a server or a database."""

from __future__ import annotations

from typing import Any

import pytest

from server.reports import LANGUAGES
from server.reports.packet import packet_page
from server.rules import sheet_id
from tests.reports.story import CHAIN, MODULE, PERSON, Story, told, uuid


@pytest.fixture(scope="module")
def page() -> dict[str, Any]:
    return packet_page(told().book())


def room(page: dict[str, Any], name: str) -> dict[str, Any]:
    return next(room for room in page["rooms"] if room["name"] == name)


def items(page: dict[str, Any]) -> dict[int, dict[str, Any]]:
    return {item["number"]: item for room in page["rooms"] for wall in room["walls"] for item in wall["items_here"]}


def lines(item: dict[str, Any]) -> list[str]:
    return [" | ".join([line["label"], line["who"], *line["notes"]]) for line in item["lines"]]


def test_every_item_stands_once_under_its_room_and_wall(page: dict[str, Any]) -> None:
    numbers = [item["number"] for room in page["rooms"] for wall in room["walls"] for item in wall["items_here"]]
    assert sorted(numbers) == list(range(1, 12))
    bath = room(page, "Bath 2")
    assert [wall["name"] for wall in bath["walls"]] == ["Wall B, mirror wall", "Wall D, tub", "Ceiling"]


def test_states_as_they_were_folded(page: dict[str, Any]) -> None:
    states = {number: item["state"] for number, item in items(page).items()}
    assert states == {
        1: "closed",
        2: "sent_back",
        3: "cleared",
        4: "open",
        5: "open",
        6: "closed",
        7: "closed",
        8: "open",
        9: "open",
        10: "void",
        11: "cleared",
    }


def test_who_wrote_fixed_and_closed(page: dict[str, Any]) -> None:
    assert lines(items(page)[1]) == [
        "Written up | J. Ochoa | seen under raking light",
        "Steps done | L. Medrano | fill, let dry and sand",
        "Cleared | L. Medrano | work by P. Ruiz, 12 minutes",
        "Closed | R. Tull",
    ]


def test_a_send_back_has_its_reason_and_what_it_ended(page: dict[str, Any]) -> None:
    assert lines(items(page)[2])[-1] == (
        "Sent back | R. Tull | still shows under light. a ridge at the lower end | This ended the clear before it."
    )


def test_times_are_those_of_the_yard(page: dict[str, Any]) -> None:
    first = items(page)[1]["lines"][0]
    assert first["when"].startswith("Dec 1, 2026, ")
    assert first["when"].endswith("pm")


def test_a_place_is_said_as_it_was_measured_or_in_words(page: dict[str, Any]) -> None:
    assert items(page)[6]["place"] == "2 ft 4 in along, 4 ft 3 in up (0.70 m, 1.30 m)"
    assert items(page)[7]["place"] == "4 ft 7 in along, 2 ft 11 in from wall A (1.40 m, 0.90 m)"
    assert items(page)[9]["place"] == "right, low"


def test_every_measured_item_is_drawn_with_its_number(page: dict[str, Any]) -> None:
    hall = next(wall for wall in room(page, "Hall")["walls"] if wall["name"] == "Wall D")
    assert ">10</text>" in hall["drawing"]
    assert hall["unmeasured"].endswith("11")
    for number in (1, 2, 3, 4, 5):
        assert f">{number}</text>" in room(page, "Bath 2")["walls"][0]["drawing"]


def test_a_room_that_nobody_measured_has_no_drawing(page: dict[str, Any]) -> None:
    porch = room(page, "Porch")
    assert porch["drawing"] == ""
    assert [wall["drawing"] for wall in porch["walls"]] == [""]


def test_each_photo_stands_once(page: dict[str, Any]) -> None:
    walls = [wall for room in page["rooms"] for wall in room["walls"]]
    with_walls = [photo["id"] for wall in walls for photo in wall["photos"]]
    with_items = [photo["id"] for item in items(page).values() for photo in item["photos"]]
    assert sorted([*with_walls, *with_items, *(photo["id"] for photo in page["loose"])]) == [
        uuid(2000 + n) for n in range(1, 8)
    ]
    assert with_walls == [uuid(2001), uuid(2006)]


def test_before_stands_before_after(page: dict[str, Any]) -> None:
    assert [photo["shows"] for photo in items(page)[6]["photos"]] == ["before", "after"]


def test_a_photo_says_what_where_when_and_who(page: dict[str, Any]) -> None:
    photo = items(page)[5]["photos"][0]
    assert (photo["what"], photo["where"], photo["who"]) == ("Before: 5", "Bath 2, Wall B, mirror wall", "J. Ochoa")
    assert photo["words"] == ["shows at dusk"]
    assert "<path" in photo["over"]


def test_a_photo_that_has_not_come_says_whose_phone_has_it(page: dict[str, Any]) -> None:
    (photo,) = items(page)[10]["photos"]
    assert photo["missing"] == "This photo has not arrived. It is still on the phone of R. Tull."


def test_a_photo_on_a_phone_written_off_is_lost() -> None:
    story = told()
    story.say("server", "device.written_off", "phonetull", {"reason": "run over", "by": PERSON["vance"]}, None)
    (photo,) = items(packet_page(story.book()))[10]["photos"]
    assert photo["missing"].startswith("This photo is lost.")


def test_facts_with_two_values_show_both(page: dict[str, Any]) -> None:
    pickup = next(fact for fact in page["facts"] if fact["name"] == "Driver pickup")
    assert pickup["value"].replace("\u00a0", " ") == "Dec 4, 2026, 7:00 am or Dec 5, 2026, 7:00 am"
    assert pickup["undecided"]


def test_rooms_with_one_finish_share_a_line(page: dict[str, Any]) -> None:
    assert [row["rooms"] for row in page["finishes"]] == ["Bath 2", "Hall, Bedroom 1 and Porch"]


def test_holds_of_a_module_not_released(page: dict[str, Any]) -> None:
    release = page["release"]
    assert release["given"] is False
    said = [hold["words"] for group in release["groups"] for hold in group["holds"]]
    assert "Bath 2: 3 items open" in said
    assert "1 photo is still on R. Tull’s phone" in said


def test_a_released_module_says_by_whom_and_what_was_answered() -> None:
    story = Story()
    story.open()
    answer = {
        "device": "phonetull",
        "up_to": 4,
        "reason": "his phone is broken",
        "by": PERSON["park"],
        "time": "2026-12-02T14:00:00Z",
    }
    story.say(
        "server", "release.given", MODULE, {"release": uuid(77), "holds_answered": [answer], "by": PERSON["park"]}
    )
    release = packet_page(story.book())["release"]
    assert release["given"] is True
    assert release["words"].startswith("Released to staging by S. Park, Dec 1, 2026, ")
    (stood,) = release["stood"]
    assert "R. Tull" in stood["words"]
    assert "his phone is broken" in stood["details"][0]


def test_a_release_pulled_back_stays_on_paper() -> None:
    story = Story()
    story.open()
    story.say("server", "release.given", MODULE, {"release": uuid(77), "holds_answered": [], "by": PERSON["park"]})
    story.say("park", "release.pulled_back", MODULE, {"release": uuid(77), "reason": "dent at the door"})
    release = packet_page(story.book())["release"]
    assert release["given"] is False
    assert release["past"][1].endswith("dent at the door")


def test_sheets_answered_signed_and_spoilt(page: dict[str, Any]) -> None:
    cleaning, wrap = page["sheets"]
    assert cleaning["signed"] is False
    assert "11" in cleaning["signature"]
    assert [answer["rooms"] for answer in cleaning["lines"][0]["answers"]] == ["all rooms"]
    assert wrap["lines"][0]["answers"][0]["kind"] == "open"


def test_a_sheet_answer_that_differs_stands_by_itself() -> None:
    story = told()
    body: dict[str, Any] = {"sheet": "cleaning", "line": "dust", "rooms": ["bath_2", "hall"], "rest": "yes"}
    body["except"] = [{"room": "hall", "value": "no", "item": uuid(1008)}]
    story.say("tull", "sheet.answered", sheet_id(MODULE, "cleaning"), body)
    dust = packet_page(story.book())["sheets"][0]["lines"][0]["answers"]
    assert {(answer["kind"], answer["words"], answer["rooms"]) for answer in dust} == {
        ("yes", "Yes", "Bath 2, Bedroom 1 and Porch"),
        ("no", "No, item 8", "Hall"),
    }


def test_the_journal_stands_at_the_end(page: dict[str, Any]) -> None:
    assert page["journal"]["epoch"] == "e7c1"
    assert page["journal"]["chain"].replace(" ", "") == CHAIN


def test_the_order_of_the_parts_does_not_matter() -> None:
    story = told()
    straight = packet_page(story.book())
    assert packet_page(story.book(parts=list(reversed(story.work.changed.values())))) == straight


@pytest.mark.parametrize("lang", LANGUAGES)
def test_nothing_is_said_by_its_key(lang: str) -> None:
    text = str(packet_page(told().book(lang)))
    for key in ("packet.", "holds.", "reasons.", "defects.", "steps.", "sheets.", "kinds."):
        assert key not in text


def test_a_module_that_is_not_there() -> None:
    with pytest.raises(LookupError):
        packet_page(Story().book())
