"""A phone that is full, and an address that is none: what is typed is not lost for good, and the app opens."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser

# As browsers do it: the request fails, whatever is to be kept.
FULL = """
window.full = false;
for (const name of ["put", "add"]) {
  const does = IDBObjectStore.prototype[name];
  IDBObjectStore.prototype[name] = function (...words) {
    if (window.full) throw new DOMException("full", "QuotaExceededError");
    return does.apply(this, words);
  };
}
"""


def test_half_typed_is_kept_again_as_soon_as_there_is_room(place: Place, browser: Browser) -> None:
    crew = Hands(browser, place.url, "crew_lead")
    crew.context.add_init_script(FULL)
    crew.sign_in()
    page = crew.page
    crew.go(f"/module/{place.module}/air")
    humidity = page.get_by_label("Relative humidity", exact=True)
    page.get_by_label("Temperature", exact=True).fill("70")
    page.evaluate("window.full = true")
    humidity.fill("51")
    expect(page.locator(".sent-line")).to_contain_text("What is half written is only on this screen")
    page.evaluate("window.full = false")
    humidity.fill("52")
    crew.half_kept('"52"')
    page.reload()
    expect(humidity).to_have_value("52")
    crew.close()


def test_a_save_is_told_though_its_form_could_not_be_emptied(place: Place, browser: Browser) -> None:
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go("/air")
    row = page.locator(".walk-row").first
    row.get_by_role("button").first.click()
    row.get_by_label("Temperature", exact=True).fill("70")
    row.get_by_label("Relative humidity", exact=True).fill("50")
    crew.half_kept('"50"')
    page.evaluate("() => {" + FULL.replace("window.full && ", "") + "}")
    crew.main().click()
    crew.said("Saved on this phone")
    crew.close()


@pytest.mark.parametrize("path", ["/module/%E0%A4", "/module/100%"])
def test_an_address_that_was_cut_short_opens_the_app(place: Place, browser: Browser, path: str) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(path)
    expect(inspector.page.locator(".head-back").first).to_be_visible()
    inspector.close()
