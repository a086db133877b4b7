"""An item's own page in a real browser: what was not on the screen is neither overwritten nor decided."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from tests.phone import NAMES, PASSCODE, Phone, sign_in
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser

SAVE = ".block .key-full"


def logged(place: Place) -> str:
    inspector = place.phones["inspector"]
    item = inspector.clock.new_id()
    body = {"defect": "nick", "room": "bath", "surface": "B", "along": 300, "up": 900, "light": "raking"}
    inspector.sync()
    assert "seq" in inspector.say("item.logged", item, {**body, "wish": "as the wall beside it"}, place.module)
    return item


def heads(place: Place, item: str) -> dict[str, Any]:
    phone = place.phones["manager"]
    phone.sync()
    found: dict[str, Any] = phone.part("item", item)["heads"]
    return found


def another(place: Place) -> Phone:
    """A second phone of the inspector's that has seen all there is."""
    phone = sign_in(place.app, NAMES["inspector"], PASSCODE)
    phone.sync()
    return phone


def second_inspector(place: Place) -> Phone:
    """A colleague: what one has written oneself is no news."""
    office, person = place.phones["administrator"], place.phones["administrator"].clock.new_id()
    named = {"name": "Ola Brandt", "roles": ["inspector"]}
    assert "seq" in office.say("person.named", person, named)
    assert office.post(f"/api/people/{person}/passcode", {"passcode": PASSCODE}).status_code == 200
    phone = sign_in(place.app, "Ola Brandt", PASSCODE)
    phone.sync()
    return phone


def test_an_open_form_says_only_what_was_touched_and_looks_again_first(place: Place, browser: Browser) -> None:
    item = logged(place)
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/item/{item}")
    inspector.press("Change it")
    inspector.page.get_by_label("What it is").select_option("dent")
    inspector.sent()
    writer = second_inspector(place)
    assert "seq" in writer.say("item.amended", item, {"wish": "the board comes out"}, place.module)
    inspector.press_as_it_comes("the board comes out", SAVE)
    expect(inspector.page.get_by_role("alert")).to_contain_text("Somebody wrote about this in the meantime")
    assert heads(place, item)["defect"][-1][0] == "nick"
    inspector.read()
    inspector.press("Save the change")
    inspector.said("Changed: 1")
    inspector.sent()
    found = heads(place, item)
    assert [head[0] for head in found["defect"]] == ["dent"]
    assert [head[0] for head in found["wish"]] == ["the board comes out"]
    inspector.close()


def test_two_wishes_are_shown_and_hold_until_one_is_chosen(place: Place, browser: Browser) -> None:
    item = logged(place)
    one, two = another(place), another(place)
    assert "seq" in one.say("item.amended", item, {"wish": "more sheen"}, place.module)
    two.write("item.amended", item, {"wish": "less sheen"}, place.module)
    two.sync()
    assert len(heads(place, item)["wish"]) == 2
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/item/{item}")
    expect(inspector.page.get_by_role("button", name="more sheen")).to_be_visible(timeout=20_000)
    expect(inspector.page.get_by_role("button", name="less sheen")).to_be_visible()
    inspector.sent()
    assert "item_undecided" in held(place)
    inspector.read()
    inspector.press("less sheen")
    expect(inspector.page.get_by_role("button", name="more sheen")).to_have_count(0)
    inspector.sent()
    assert [head[0] for head in heads(place, item)["wish"]] == ["less sheen"]
    assert "item_undecided" not in held(place)
    inspector.close()


def held(place: Place) -> set[str]:
    """The keys of what the server says stops the module."""
    shipping = place.phones["shipping"]
    shipping.sync()
    at = {"device": shipping.device, "epoch": shipping.epoch, "seen": shipping.cursor, "chain": shipping.chain}
    told = shipping.post("/api/release", {"id": shipping.clock.new_id(), "module": place.module, **at})
    assert told.status_code == 409
    return {hold["key"] for hold in told.get_json()["holds"]}
