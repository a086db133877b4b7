"""Two drawings of one plan that knew nothing of each other, in a real browser: both shown, saving one decides."""

from __future__ import annotations

from copy import deepcopy

import pytest
from playwright.sync_api import Browser, expect

from tests.phone import NAMES, PASSCODE, sign_in
from tests.walk.conftest import ROOM, Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def test_two_drawings_are_shown_and_saving_one_decides(place: Place, browser: Browser) -> None:
    office = place.phones["manager"]
    office.sync()
    other = sign_in(place.app, NAMES["manager"], PASSCODE)
    other.sync()
    [plan] = [part_id for kind, part_id in office.parts if kind == "plan"]
    for phone, name in ((office, "Porch"), (other, "Pantry")):
        more = {**deepcopy(ROOM), "id": name.lower(), "name": name}
        phone.write("plan.drawn", plan, {"name": "Two rooms", "rooms": [ROOM, more]})
    office.sync()
    other.sync()
    assert len(other.part("plan", plan)["heads"]["rooms"]) == 2

    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go(f"/module/{place.module}/gate")
    hold = manager.page.get_by_text("Two drawings of plan Two rooms")
    expect(hold).to_be_visible()
    manager.go(f"/manage/plan/{plan}")
    both = manager.page.get_by_role("group", name="Two drawings")
    expect(both.get_by_role("button")).to_have_count(2)
    both.get_by_role("button", name="Bath 2, Porch").click()
    manager.page.get_by_role("button", name="Porch", exact=True).click()
    expect(manager.page.get_by_label("Name of the room")).to_have_value("Porch")
    manager.main().click()
    manager.said("Plan saved: Two rooms")
    manager.sent()
    other.sync()
    assert [room["name"] for room in other.part("plan", plan)["rooms"]] == ["Bath 2", "Porch"]
    assert len(other.part("plan", plan)["heads"]["rooms"]) == 1
    manager.go(f"/module/{place.module}/gate")
    expect(manager.page.get_by_text("Release", exact=False).first).to_be_visible()
    expect(hold).to_have_count(0)
    manager.close()


def test_a_drawing_that_came_as_the_finger_fell_is_looked_at_first(place: Place, browser: Browser) -> None:
    other = place.phones["administrator"]
    other.sync()
    [plan] = [part_id for kind, part_id in other.parts if kind == "plan"]
    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go(f"/manage/plan/{plan}")
    manager.page.get_by_label("Name of the plan").fill("Mine")
    manager.sent()
    pantry = {**deepcopy(ROOM), "id": "pantry", "name": "Pantry"}
    assert "seq" in other.say("plan.drawn", plan, {"name": "Two rooms", "rooms": [ROOM, pantry]})
    manager.press_as_it_comes("Somebody has drawn this plan anew", ".slab-main")
    expect(manager.page.get_by_role("alert")).to_contain_text("Somebody wrote about this in the meantime")
    other.sync()
    assert other.part("plan", plan)["name"] == "Two rooms"
    manager.read()
    manager.main().click()
    manager.said("Plan saved: Mine")
    manager.sent()
    other.sync()
    assert other.part("plan", plan)["name"] == "Mine"
    manager.close()
