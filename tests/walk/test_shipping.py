"""Shipping in a real browser: a *no* on the wrap-and-seal sheet writes an item up in the same step and holds the
module; damage from a move is written up as everybody writes up; a release that is refused says what holds it now."""

from __future__ import annotations

import uuid

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place, parts, sign_sheets
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def test_a_no_of_shipping_is_an_item_that_holds_the_module(place: Place, browser: Browser) -> None:
    shipping = Hands(browser, place.url, "shipping").sign_in()
    page = shipping.page
    shipping.go(f"/module/{place.module}/sheet/wrap_and_seal")
    line = page.locator(".sheet-line").filter(has_text="Ridge and roof edges closed")
    expect(line).to_be_visible()
    shipping.offline(True)
    line.get_by_role("button", name="Not right").click()
    line.get_by_label("no", exact=True).check()
    line.get_by_label("What is wrong").fill("Sheet torn at the ridge")
    line.get_by_role("button", name="Save this line").click()
    expect(line.get_by_text("no, Sheet torn at the ridge, item 1 written up")).to_be_visible()
    shipping.said("Ridge and roof edges closed")
    shipping.offline(False)
    shipping.sent()

    [item] = parts(place, "item")
    [sheet] = parts(place, "sheet")
    assert (item["number"], item["state"], item["by"]) == (1, "open", place.phones["shipping"].person)
    assert item["heads"]["wish"][0][0] == "Sheet torn at the ridge"
    [[answer, *_]] = sheet["cells"]["roof_edge"]["module"]
    assert (answer["value"], answer["item"]) == ("no", item["id"])
    shipping.go(f"/module/{place.module}/gate")
    expect(page.get_by_text("Bath 2: 1 item open")).to_be_visible()
    expect(shipping.beside()).to_have_text("Release")
    expect(page.get_by_text("things stop it")).to_be_visible()
    shipping.close()


def test_two_answers_of_people_who_had_not_seen_each_other_ask_for_one(place: Place, browser: Browser) -> None:
    about = str(uuid.uuid5(uuid.UUID(place.module), "wrap_and_seal"))
    body = {"sheet": "wrap_and_seal", "line": "roof_edge", "rooms": ["module"], "except": []}
    for name, rest in (("inspector", {"rest": "yes"}), ("shipping", {"rest": "na", "reason": "flat roof"})):
        place.phones[name].write("sheet.answered", about, {**body, **rest}, place.module)
    assert all("seq" in place.phones[name].sync()["verdicts"][-1] for name in ("inspector", "shipping"))
    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.go(f"/module/{place.module}/sheet/wrap_and_seal")
    line = shipping.page.locator(".sheet-line").filter(has_text="Ridge and roof edges closed")
    expect(line.get_by_text("two answers: choose one")).to_be_visible()
    line.get_by_role("button", name="Yes").click()
    expect(line.get_by_text("two answers: choose one")).to_have_count(0)
    shipping.close()


def test_shipping_writes_up_what_a_move_has_damaged(place: Place, browser: Browser) -> None:
    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.page.locator(".module-row").first.click()
    shipping.page.get_by_role("link", name="LM-0417-A").click()
    shipping.page.get_by_role("link", name="Bath 2").click()
    expect(shipping.main()).to_have_text("Write up")
    shipping.main().click()
    shipping.press("Nick")
    shipping.tap_wall(0.3, 0.3)
    shipping.main().click()
    shipping.said("Saved on this phone: 1")
    shipping.sent()
    assert [item["by"] for item in parts(place, "item")] == [place.phones["shipping"].person]
    shipping.close()


def at_an_open_gate(place: Place, browser: Browser) -> Hands:
    """Shipping's phone shows that nothing stops the module, and has shown it for a while."""
    sign_sheets(place, place.phones["inspector"])
    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.go(f"/module/{place.module}/gate")
    expect(shipping.page.get_by_text("Nothing stops it")).to_be_visible(timeout=20_000)
    shipping.read()
    return shipping


def released(place: Place) -> bool:
    return any(part["release"] for part in parts(place, "module"))


def test_a_release_over_an_item_that_came_meanwhile_is_refused_and_shown(place: Place, browser: Browser) -> None:
    shipping, inspector = at_an_open_gate(place, browser), place.phones["inspector"]
    item = inspector.clock.new_id()
    body = {"defect": "nick", "room": "bath", "surface": "B", "along": 300, "up": 900, "light": "raking"}
    assert "seq" in inspector.say("item.logged", item, body, place.module)
    shipping.main().click()
    expect(shipping.page.get_by_role("alert")).to_contain_text("Something came in that this phone had not shown")
    expect(shipping.page.get_by_text("Bath 2: 1 item open")).to_be_visible()
    expect(shipping.main()).to_have_text("Share the hold")
    assert not released(place)

    inspector.sync()
    assert "seq" in inspector.say("item.voided", item, {"reason": "shadow of the frame"}, place.module)
    shipping.page.evaluate("dispatchEvent(new Event('online'))")
    expect(shipping.page.get_by_text("Nothing stops it")).to_be_visible(timeout=20_000)
    shipping.read()
    shipping.main().click()
    expect(shipping.page.get_by_text("Released by Sunniva Holt")).to_be_visible(timeout=20_000)
    expect(shipping.page.get_by_role("alert")).to_have_count(0)
    shipping.close()


def test_a_release_refused_for_a_phone_not_heard_from_names_it(place: Place, browser: Browser) -> None:
    shipping, inspector = at_an_open_gate(place, browser), place.phones["inspector"]
    tail = inspector.envelope(last_n=inspector.n + 1, open=[place.module], entries=[])
    assert inspector.post("/api/sync", tail).status_code == 200
    shipping.main().click()
    expect(shipping.page.get_by_role("alert")).to_contain_text("Not released. This stops it now:")
    hold = shipping.page.locator(".hold-group").filter(has_text="Ines Calder")
    expect(hold.get_by_role("button", name="It may go without that phone")).to_be_visible()
    assert not released(place)
    shipping.close()


def test_what_stops_a_module_is_shared_as_text(place: Place, browser: Browser) -> None:
    inspector = place.phones["inspector"]
    inspector.sync()
    body = {"defect": "nick", "room": "bath", "surface": "B", "along": 300, "up": 900, "light": "raking"}
    assert "seq" in inspector.say("item.logged", inspector.clock.new_id(), {**body, "crew": "patch"}, place.module)
    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.go(f"/module/{place.module}/gate")
    expect(shipping.page.get_by_text("Bath 2: 1 item open")).to_be_visible(timeout=20_000)
    shipping.page.evaluate("() => { navigator.share = async (what) => { window.shared = what; }; }")
    shipping.main().click()
    shipping.page.wait_for_function("() => window.shared")
    text = shipping.page.evaluate("() => window.shared.text").split("\n")
    assert text[0].startswith("LM-0417-A")
    assert any(line.startswith("Patch crew") and "Bath 2: 1 item open" in line for line in text), text
    assert len(text) == 2 + 3, "the item and the two sheets that nobody has signed"
    shipping.close()
