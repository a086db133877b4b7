"""The manager's pages in a real browser: a plan, a module with it, its bay, a person, and a decision on what was set
aside; then shipping's share of them, and what two people wrote unseen of each other."""

from __future__ import annotations

import re
import time
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def parts_by_name(place: Place, kind: str) -> dict[str, dict[str, Any]]:
    """What the server tells of a kind, by name."""
    phone = place.phones["manager"]
    phone.sync()
    return {part["name"]: part for (one, _), part in phone.parts.items() if one == kind}


def why_left(place: Place) -> str:
    """The server's word for why the module left, as soon as it has one."""
    for _ in range(100):
        parts = place.phones["manager"].get(f"/api/modules/{place.module}").get_json()["parts"]
        [left] = [part["left"] for part in parts if part["part"] == "module"]
        if left:
            return str(left["why"])
        time.sleep(0.1)
    raise AssertionError("nobody told the server that the module left")


def fill(page: Page, **fields: str) -> None:
    for label, text in fields.items():
        page.get_by_label(label.replace("_", " "), exact=True).fill(text)


def draw_plan(manager: Hands) -> None:
    """One room with a window on wall A, in a tape measure's own notation; a slip is said and nothing is saved."""
    page = manager.page
    manager.go("/manage/plan")
    fill(page, Name_of_the_plan="Heron, section A")
    manager.press("Add a room")
    fill(page, Name_of_the_room="Den")
    page.get_by_label("Length (A)").fill("12-6")
    page.get_by_label("Width (B)").fill("10 ft")
    page.get_by_label("Height", exact=True).fill("8 foot")
    fill(page, Name_by_sight="window")
    manager.press("Add a window")
    fill(page, From_the_left="11 ft")
    expect(page.get_by_role("button", name="Wall A, window")).to_be_visible()
    manager.main().click()
    expect(page.get_by_text("It runs past the end of the wall.")).to_be_visible()
    page.reload()
    fill(page, From_the_left="4 ft")
    manager.main().click()
    expect(page.get_by_role("status").filter(has_text="Plan saved: Heron, section A")).to_be_visible()


def add_module(manager: Hands) -> None:
    page = manager.page
    manager.go("/manage/module")
    fill(page, Serial="LM-0501-A", Home="LM-0501", Pickup="2026-12-21T07:30")
    page.get_by_label("Which plan").select_option(label="Heron, section A")
    page.get_by_label("Give the finish of").select_option(label="Every room")
    page.get_by_label("4", exact=True).check()
    manager.main().click()
    expect(page.get_by_role("heading", name="LM-0501-A", level=1)).to_be_visible()
    page.get_by_label("Bay", exact=True).select_option("Bay 2")
    manager.press("Move LM-0501-A to bay Bay 2")
    expect(page.locator(".head-line")).to_contain_text("Bay 2")


def test_a_manager_fills_the_yard_without_signal(place: Place, browser: Browser) -> None:
    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go("/manage")
    manager.offline(True)
    draw_plan(manager)
    add_module(manager)
    manager.go("/manage/people/new")
    fill(manager.page, Name="Petra Lund")
    manager.page.get_by_label("crew lead").check()
    manager.page.get_by_label("Crew", exact=True).select_option(label="Patch crew")
    manager.main().click()
    expect(manager.page.get_by_text("An administrator gives the passcode.")).to_be_visible()
    manager.offline(False)
    manager.sent()

    plan = parts_by_name(place, "plan")["Heron, section A"]
    [room] = plan["rooms"]
    assert (room["name"], room["l"], room["w"], room["h"]) == ("Den", 3810, 3048, 2438)
    assert room["walls"]["A"]["sight"] == "window"
    assert [(one["kind"], one["along"]) for one in room["walls"]["A"]["openings"]] == [("window", 1219)]
    modules = [part for (kind, _), part in place.phones["manager"].parts.items() if kind == "module"]
    [heads] = [part["heads"] for part in modules if part["heads"]["serial"][0][0] == "LM-0501-A"]
    values = {field: found[0][0] for field, found in heads.items()}
    assert values["plan"] == plan["id"]
    assert values["bay"] == "Bay 2"
    assert values["pickup"] == "2026-12-21T13:30:00Z"
    assert values["finish"] == {"*": {"level": 4, "texture": "", "paint": "", "sheen": ""}}
    person = parts_by_name(place, "person")["Petra Lund"]
    assert (person["roles"], person["crew"]) == (["crew_lead"], "patch")
    manager.close()


def test_what_was_set_aside_is_let_in(place: Place, browser: Browser) -> None:
    office = place.phones["manager"]
    item = office.clock.new_id()
    body = {"defect": "nick", "room": "bath", "surface": "B", "along": 300, "up": 400, "light": "raking"}
    assert office.say("item.logged", item, body, place.module)["set_aside"] == "not_your_role"

    manager = Hands(browser, place.url, "manager").sign_in()
    manager.page.get_by_role("link", name="1 entry was set aside").click()
    expect(manager.page.get_by_text("not that person's to say")).to_be_visible()
    expect(manager.page.get_by_text("Nick, Bath 2", exact=True)).to_be_visible()
    manager.offline(True)
    manager.press("Let in")
    expect(manager.page.get_by_role("alert").first).to_contain_text("No signal")
    manager.offline(False)
    manager.press("Let in")
    expect(manager.page.get_by_role("status").filter(has_text="Let in.")).to_be_visible()
    expect(manager.page.get_by_text("Nothing waits for a decision")).to_be_visible()
    place.phones["manager"].sync()
    assert place.phones["manager"].part("item", item)["state"] == "open"
    manager.close()


def test_two_pickups_are_decided_and_shipping_only_moves(place: Place, browser: Browser) -> None:
    office = place.phones["manager"]
    office.sync()
    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go(f"/manage/module/{place.module}")
    manager.offline(True)
    fill(manager.page, Pickup="2026-12-22T07:00")
    manager.main().click()
    expect(manager.page.get_by_role("status").filter(has_text="Saved.")).to_be_visible()
    office.say("module.amended", place.module, {"pickup": "2026-12-23T13:00:00Z"}, place.module)
    manager.offline(False)
    manager.sent()
    expect(manager.page.get_by_text("Two people wrote the pickup")).to_be_visible(timeout=20_000)
    manager.go(f"/module/{place.module}/gate")
    hold = manager.page.get_by_text("Two values for the pickup: ")
    expect(hold).to_contain_text(re.compile("Dec 2[23].* / .*Dec 2[23]"))
    expect(hold).not_to_contain_text("2026-12-2")
    manager.go(f"/manage/module/{place.module}")
    manager.page.get_by_role("button", name="Choose").first.click()
    expect(manager.page.get_by_text("Two people wrote the pickup")).to_have_count(0)
    manager.said("Decided: the pickup")
    manager.sent()
    office.sync()
    assert len(office.part("module", place.module)["heads"]["pickup"]) == 1

    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.go(f"/manage/module/{place.module}")
    expect(shipping.page.get_by_label("Serial")).to_have_count(0)
    shipping.press("LM-0417-A has left the yard")
    shipping.page.get_by_label("Where to, and why").fill("Set crew took it to the site")
    shipping.page.get_by_role("button", name="LM-0417-A has left", exact=True).click()
    expect(shipping.page.get_by_text("LM-0417-A has left the yard.")).to_be_visible()
    assert why_left(place) == "Set crew took it to the site"
    manager.close()
    shipping.close()


def test_a_choice_stands_on_the_values_that_were_on_the_screen(place: Place, browser: Browser) -> None:
    office = place.phones["manager"]
    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go(f"/manage/module/{place.module}")
    manager.offline(True)
    fill(manager.page, Order="Blue tag")
    manager.main().click()
    manager.said("Saved.")
    office.sync()
    assert "seq" in office.say("module.amended", place.module, {"order": "Red tag"}, place.module)
    manager.offline(False)
    manager.sent()
    expect(manager.page.get_by_role("button", name="Red tag")).to_be_visible(timeout=20_000)
    manager.read()
    # Neither value has come to the office's other phone.
    other = place.phones["administrator"]
    assert "seq" in other.say("module.amended", place.module, {"order": "Green tag"}, place.module)
    manager.press_as_it_comes("Green tag", "[role=group] .key")
    expect(manager.page.get_by_role("alert")).to_contain_text("Somebody wrote about this in the meantime")
    manager.sent()
    office.sync()
    values = {head[0] for head in office.part("module", place.module)["heads"]["order"]}
    assert values == {"Blue tag", "Green tag", "Red tag"}
    manager.close()
