"""Writing up in a real browser: by keyboard alone, in few taps, and what becomes of a camera's file."""

from __future__ import annotations

import hashlib
import io
import json
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, expect

from tests.photos.pictures import with_metadata
from tests.walk.conftest import Place, parts
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser

TURNED = 6  # A camera held upright: what it wrote has to be turned clockwise.


def tab_to(hands: Hands, selector: str) -> None:
    """Goes on with Tab until the focus is there, as somebody without a pointer does."""
    for _ in range(60):
        hands.page.keyboard.press("Tab")
        if hands.page.evaluate("what => document.activeElement?.matches(what) ?? false", selector):
            return
    raise AssertionError(f"Tab never comes to {selector}")


def test_a_nick_is_written_up_by_keyboard_alone(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    expect(inspector.page.locator(".kinds .key").first).to_be_visible()
    tab_to(inspector, ".kinds .key")
    inspector.page.keyboard.press("Enter")
    expect(inspector.page.locator(".kind-chosen")).to_be_visible()
    tab_to(inspector, ".wall-tap")
    inspector.page.keyboard.press("Enter")
    expect(inspector.page.locator(".spot-arrows")).to_be_visible()
    before = inspector.page.locator(".spot-arrows p").text_content()
    inspector.page.keyboard.press("ArrowRight")
    expect(inspector.page.locator(".spot-arrows p")).not_to_have_text(before or "")
    tab_to(inspector, ".slab-main")
    inspector.page.keyboard.press("Enter")
    inspector.said("Saved on this phone")
    inspector.sent()
    [item] = parts(place, "item")
    spot = item["heads"]["spot"][-1][0]
    assert spot["surface"] == "B"
    assert spot["along"] > 2130 / 2 + 100, "the arrow moved it from the middle"
    inspector.close()


def test_one_item_takes_three_taps_beyond_its_photo(place: Place, browser: Browser, tmp_path: Path) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.page.evaluate("() => { window.taps = 0; addEventListener('pointerdown', () => window.taps++, true); }")
    inspector.press("Nick")
    inspector.tap_wall(0.3, 0.4)
    inspector.main().click()
    inspector.said("Saved on this phone")
    assert inspector.page.evaluate("window.taps") == 3
    inspector.close()


def test_a_photo_comes_upright_small_and_without_where_it_was_taken(
    place: Place, browser: Browser, tmp_path: Path
) -> None:
    file = tmp_path / "camera.jpg"
    file.write_bytes(with_metadata(TURNED, (3000, 1500)))
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.press("Nick")
    inspector.tap_wall(0.3, 0.4)
    inspector.photo("Photo of wall", file)
    expect(inspector.page.locator(".photo-frame img")).to_be_visible()
    inspector.main().click()
    inspector.said("Saved on this phone")
    inspector.sent()
    [photo] = parts(place, "photo")
    assert photo["px"] == [1024, 2048]
    stored = [one.read_bytes() for one in (place.data / "photos").rglob("*") if one.is_file()]
    [kept] = [data for data in stored if hashlib.sha256(data).hexdigest() == photo["sha256"]]
    assert b"CANARY" not in kept
    with Image.open(io.BytesIO(kept)) as picture:
        assert picture.size == (1024, 2048)
        assert not picture.getexif()
        top, foot = (picture.convert("RGB").getpixel((512, y)) for y in (200, 1800))
    assert isinstance(top, tuple)
    assert isinstance(foot, tuple)
    assert top[0] > 200 > 60 > top[2], "left became the top"
    assert foot[2] > 200 > 60 > foot[0]
    inspector.close()


def test_what_was_used_last_is_offered_and_a_photo_keeps_its_marks_as_data(
    place: Place, browser: Browser, tmp_path: Path
) -> None:
    file = tmp_path / "wall.jpg"
    file.write_bytes(with_metadata())
    inspector = Hands(browser, place.url, "inspector").sign_in()
    page = inspector.page
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.press("Dent")
    inspector.tap_wall(0.3, 0.4)
    page.get_by_label("Normal", exact=True).check()
    inspector.press("Crew: nobody yet")
    page.get_by_label("Crew", exact=True).select_option(label="Patch crew")
    page.get_by_label("Charge to").select_option(label="Patch crew")
    inspector.photo("Photo of wall", file)
    for tool, across in (("Ring", 0.2), ("Arrow", 0.5), ("Words", 0.8)):
        page.get_by_label(tool, exact=True).check()
        if tool == "Words":
            page.get_by_label("Words on the photo").fill("seen from the door")
        mark(inspector, across)
    inspector.main().click()
    inspector.said("Saved on this phone: 1")
    inspector.go(f"/module/{place.module}/room/bath/C")
    expect(page.locator(".kinds .key").first).to_have_text("Dent")
    inspector.press("Dent")
    expect(page.get_by_label("Normal", exact=True)).to_be_checked()
    expect(page.get_by_text("Crew: Patch crew · charge to: Patch crew")).to_be_visible()
    inspector.sent()
    [photo] = parts(place, "photo")
    marks = photo["heads"]["marked"][-1][0]["marks"]
    assert [one["kind"] for one in marks] == ["ring", "arrow", "text"]
    assert marks[2]["text"] == "seen from the door"
    inspector.close()


def mark(hands: Hands, across: float) -> None:
    """Taps the photo, as a share of its width, half way up."""
    photo = hands.page.locator(".photo-press")
    box = photo.bounding_box()
    assert box is not None
    photo.click(position={"x": box["width"] * across, "y": box["height"] / 2})


def test_what_is_not_sent_is_saved_to_a_file_with_no_signal(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.offline(True)
    inspector.press("Nick")
    inspector.tap_wall(0.3, 0.4)
    inspector.main().click()
    inspector.said("Saved on this phone")
    inspector.go("/me")
    with inspector.page.expect_download() as saved:
        inspector.press("Save what is not sent to a file")
    told = json.loads(saved.value.path().read_text("utf-8"))
    assert told["rakelight_unsent"] == 1
    assert [entry["kind"] for entry in told["entries"]] == ["item.logged"]
    inspector.offline(False)
    inspector.close()
