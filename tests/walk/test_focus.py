"""Who goes by keyboard, or hears: a new screen, and a new face of one, begin at their head; and the head leads back."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place
from tests.walk.hands import FRAMES, Hands

pytestmark = pytest.mark.browser


def test_a_new_screen_and_a_new_face_begin_at_their_head(place: Place, browser: Browser) -> None:
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    head = page.locator("h1")
    page.get_by_role("link", name="What can be done").focus()
    page.keyboard.press("Enter")
    expect(head).to_have_text("What can be done")
    expect(head).to_be_focused()
    crew.go(f"/module/{place.module}/coats")
    expect(head).to_have_text("Coats")
    # Nobody has pressed anything: the first press of the tab key goes where it always did.
    expect(head).not_to_be_focused()
    crew.main().focus()
    page.keyboard.press("Enter")
    expect(head).to_have_text("Coat on")
    expect(head).to_be_focused()
    page.keyboard.press("Tab")
    expect(page.get_by_label("Which coat")).to_be_focused()
    # What one writes in keeps the focus, whatever comes to the screen.
    page.get_by_label("Material").select_option("setting_type")
    minutes = page.get_by_label("Sets in, minutes, as the bag says")
    minutes.fill("45")
    expect(minutes).to_be_focused()
    crew.beside().click()
    expect(head).to_have_text("Coats")
    crew.close()


def test_a_head_takes_the_focus_once_and_leaves_it_where_somebody_taps(place: Place, browser: Browser) -> None:
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    head = page.locator("h1")
    page.locator(".module-row").first.click()
    expect(head).to_be_focused()
    # A tap on plain words: nothing has the focus, and what comes to the screen later does not give it to the head.
    page.locator("h2").first.click()
    expect(head).not_to_be_focused()
    place.phones["inspector"].sync()
    spot = {"room": "bath", "surface": "B", "along": 900, "up": 900}
    inspector = place.phones["inspector"]
    assert "seq" in inspector.say(
        "item.logged", inspector.clock.new_id(), {"defect": "nick", "light": "raking", **spot}, place.module
    )
    before = page.locator(".page-main").inner_text()
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator(".page-main")).not_to_have_text(before, use_inner_text=True)
    page.evaluate(FRAMES)
    expect(head).not_to_be_focused()
    crew.close()


def test_the_way_back_in_the_head_leaves_a_face_of_the_same_address(place: Place, browser: Browser) -> None:
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go(f"/module/{place.module}/coats")
    crew.main().click()
    expect(page.locator("h1")).to_have_text("Coat on")
    # In a tab of its own the way back leaves this one, and what is half written in it, as they are.
    with crew.context.expect_page() as other:
        page.get_by_role("link", name="Coats").click(modifiers=["Control"])
    other.value.close()
    expect(page.locator("h1")).to_have_text("Coat on")
    page.get_by_role("link", name="Coats").click()
    expect(page.locator("h1")).to_have_text("Coats")
    crew.main().click()
    page.get_by_label("Bath 2").check()
    crew.main().click()
    crew.said("Saved on this phone.")
    crew.beside().click()
    expect(page.locator("h1")).to_have_text("Look")
    page.get_by_role("link", name="Coats").click()
    expect(page.locator("h1")).to_have_text("Coats")
    crew.close()
