"""Two people write up on two phones with no signal: the number that both expected is given once, the other says so."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def write_up(hands: Hands, module: str, wall: str) -> None:
    """One nick, with no signal; the phone expects it to be the module's first item."""
    hands.go(f"/module/{module}/room/bath/{wall}")
    hands.offline(True)
    hands.press("Nick")
    hands.tap_wall(0.3, 0.3)
    hands.main().click()
    hands.said("Saved on this phone: 1")


def test_the_number_that_another_phone_had_first(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    write_up(inspector, place.module, "B")
    write_up(crew, place.module, "D")
    inspector.offline(False)
    inspector.sent()
    expect(crew.page.get_by_text("became")).to_have_count(0)
    crew.offline(False)
    crew.sent()
    row = crew.page.get_by_role("link").filter(has_text="1 became 2")
    expect(row).to_be_visible()
    row.click()
    expect(crew.page.get_by_role("heading", level=1)).to_contain_text("2")
    expect(crew.page.get_by_text("1 became 2")).to_be_visible()
    inspector.go(f"/module/{place.module}/room/bath/D")
    expect(inspector.page.get_by_role("link").filter(has_text="Nick")).to_be_visible(timeout=20_000)
    expect(inspector.page.get_by_text("became")).to_have_count(0)
    for hands in (inspector, crew):
        hands.close()
