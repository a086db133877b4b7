"""The plant's own words, order and crews for its coats, from the office to the crew's screens."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def test_the_plants_own_coats_reach_the_ready_list(place: Place, browser: Browser) -> None:
    manager = Hands(browser, place.url, "manager").sign_in()
    page = manager.page
    manager.offline(True)
    page.get_by_role("button", name="Manage").click()
    page.get_by_role("link", name="Coats of this plant").click()
    page.get_by_label("Tape", exact=True).fill("Bed and tape")
    page.get_by_label("Second coat", exact=True).fill("Float")
    page.get_by_label("Primer, texture", exact=True).check()
    page.get_by_label("Tape, coats, sanding").select_option(label="Patch crew")
    page.get_by_label("The table alone").check()
    manager.press("Save the coats")
    manager.said("The coats are saved.")
    page.get_by_role("link", name="LM-0417-A").click()
    page.get_by_label("Give a list to").select_option(label="Bath 2")
    bath = page.get_by_role("group", name="Bath 2").last
    for coat in ("Bed and tape", "Float", "Primer"):
        bath.get_by_label(coat, exact=True).check()
    manager.press("Save LM-0417-A")
    manager.said("Saved.")
    manager.offline(False)
    manager.sent()

    phone = place.phones["manager"]
    phone.sync()
    yard = next(part for (kind, _), part in phone.parts.items() if kind == "yard")
    order = ["tape", "first", "second", "skim", "prime", "texture", "paint_1", "paint_2"]
    names = {"tape": "Bed and tape", "second": "Float"}
    assert yard["coats"] == {"order": order, "names": names, "crews": {"joint": "patch"}, "learned": False}
    coats = {"bath": ["tape", "second", "prime"]}
    assert phone.part("module", place.module)["heads"]["coats"][0][0] == coats

    crew = Hands(browser, place.url, "crew_lead").sign_in()
    crew.page.get_by_role("link", name="What can be done").click()
    expect(crew.page.get_by_text("Bare board: nothing to wait for")).to_be_visible()
    expect(crew.page.locator(".ready-line")).to_contain_text("Patch crew")
    crew.page.get_by_role("link", name="LM-0417-A").click()
    crew.press("Coat on: Bed and tape")
    crew.press("Bed and tape on: whole module")
    expect(crew.page.get_by_text("Bed and tape: nobody has read the air")).to_be_visible()
    manager.close()
    crew.close()
