"""Signing in by a real browser: pressed twice, refused for the phone's sake, and the way out for what was not sent."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from sqlalchemy import text

from server.db import writing
from tests.phone import NAMES, PASSCODE
from tests.walk.conftest import Place
from tests.walk.hands import Hands
from tests.walk.test_presses import TWICE

pytestmark = pytest.mark.browser


def enrolments(place: Place) -> int:
    manager = place.phones["manager"]
    manager.sync()
    return sum(kind == "device" for kind, _ in manager.parts)


def test_signing_in_pressed_twice_is_one_enrolment(place: Place, browser: Browser) -> None:
    before = enrolments(place)
    inspector = Hands(browser, place.url, "inspector")
    page = inspector.page
    page.goto(place.url)
    page.get_by_label("Your name").fill(NAMES["inspector"])
    page.get_by_label("Passcode", exact=True).fill(PASSCODE)
    page.evaluate(TWICE)
    expect(page.locator(".module-row").first).to_be_visible(timeout=20_000)
    inspector.sent()
    assert enrolments(place) == before + 1
    inspector.close()


def test_a_phone_that_the_office_takes_for_another_says_so_and_gives_its_work_as_a_file(
    place: Place, browser: Browser, tmp_path: Path
) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    with place.app.app_context(), writing() as conn:
        conn.execute(text("UPDATE device_key SET secret = 'of another phone'"))
        conn.execute(text("DELETE FROM session WHERE kind = 'cookie'"))
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.press("Nick")
    inspector.tap_wall(0.3, 0.4)
    inspector.main().click()
    inspector.said("Saved on this phone")
    inspector.press("Sign in again")
    page = inspector.page
    page.get_by_label(f"Passcode of {NAMES['inspector']}").fill(PASSCODE)
    page.keyboard.press("Enter")
    expect(page.get_by_text("The office knows another phone by this one's name")).to_be_visible()
    with page.expect_download() as saved:
        inspector.press("Save what is not sent to a file")
    saved.value.save_as(tmp_path / "unsent.json")
    entries = json.loads((tmp_path / "unsent.json").read_text("utf-8"))["entries"]
    assert [entry["kind"] for entry in entries] == ["item.logged"]
    inspector.close()
