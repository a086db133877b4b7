"""What was pressed wrongly is taken back where a person looks for it; what a press asks stands where one presses."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def nick(place: Place, surface: str, **told: object) -> str:
    inspector = place.phones["inspector"]
    inspector.sync()
    made = inspector.clock.new_id()
    spot = {"room": "bath", "surface": surface, "along": 300, "up": 900}
    body = {"defect": "nick", "light": "raking", **spot, **told}
    assert "seq" in inspector.say("item.logged", made, body, place.module)
    return made


def test_a_wrong_close_goes_back_from_the_item_itself(place: Place, browser: Browser) -> None:
    item = nick(place, "B")
    crew, inspector = place.phones["crew_lead"], place.phones["inspector"]
    crew.sync()
    assert "seq" in crew.say("item.cleared", item, {}, place.module)
    inspector.sync()
    assert "seq" in inspector.say("item.closed", item, {}, place.module)

    hands = Hands(browser, place.url, "inspector").sign_in()
    expect(hands.page.get_by_text("Nothing to fix")).to_be_visible()
    hands.go(f"/module/{place.module}/item/{item}")
    hands.press("Send it back")
    hands.page.get_by_label("More words").fill("closed the wrong one")
    hands.press("Send back 1")
    hands.said("Sent back: 1")
    expect(hands.page.get_by_text("closed the wrong one").first).to_be_visible()
    expect(hands.page.get_by_role("button", name="Send it back")).to_have_count(0)
    hands.sent()
    inspector.sync()
    part = inspector.part("item", item)
    assert (part["state"], part["sent_back"]["text"]) == ("open", "closed the wrong one")
    hands.close()


def test_what_a_press_asks_stands_under_the_wall_that_is_picked(place: Place, browser: Browser) -> None:
    nick(place, "B")
    nick(place, "D")
    hands = Hands(browser, place.url, "crew_lead").sign_in()
    expect(hands.main()).to_have_text("To fix: 2")
    hands.main().click()
    hands.page.get_by_label("Pick item 1", exact=True).check()
    asked = hands.page.locator(".wall-group", has_text="Wall B").locator("+ section")
    expect(asked.get_by_text("Photo of the wall after")).to_be_visible()
    expect(asked.locator("+ .wall-group")).to_contain_text("Wall D")
    hands.close()


def test_who_hands_the_phone_on_can_leave_it_and_is_told_that_signing_in_needs_signal(
    place: Place, browser: Browser
) -> None:
    hands = Hands(browser, place.url, "inspector").sign_in()
    hands.go("/me")
    hands.press("Somebody else signs in")
    hands.page.get_by_label("Your name").fill("Sunniva Holt")
    hands.page.get_by_label("Passcode", exact=True).fill("whatever it is")
    hands.offline(True)
    hands.main().click()
    expect(hands.page.get_by_text("Signing in needs both")).to_be_visible()
    hands.offline(False)
    hands.press("Leave it")
    expect(hands.page.get_by_text("holds it now")).to_be_visible()
    hands.close()


def test_shipping_leaves_a_question_that_was_not_meant(place: Place, browser: Browser) -> None:
    inspector = place.phones["inspector"]
    inspector.sync()
    tail = inspector.envelope(last_n=inspector.n + 1, open=[place.module], entries=[])
    assert inspector.post("/api/sync", tail).status_code == 200
    hands = Hands(browser, place.url, "shipping").sign_in()
    hands.go(f"/module/{place.module}/gate")
    words = hands.page.locator(".row-title", has_text="has unsent work on this module")
    box = words.bounding_box()
    assert box is not None
    assert box["width"] > 200
    hands.press("It may go without that phone")
    hands.press("Leave it")
    expect(hands.main()).to_contain_text("Share the")
    hands.close()
