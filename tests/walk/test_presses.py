"""One press is one save, and an approval stands on what was on the screen: a real browser against a real server."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from seed_demo.pictures import Blemish, Shot, draw
from tests.walk.conftest import Place, sign_sheets
from tests.walk.hands import FRAMES, Hands

pytestmark = pytest.mark.browser

TWICE = "() => { const slab = document.querySelector('.slab-main'); slab.click(); slab.click(); }"


def items(place: Place) -> list[dict[str, Any]]:
    """The module's items as the server has them."""
    phone = place.phones["manager"]
    phone.sync()
    return [part for part in phone.parts.values() if part["part"] == "item"]


def kinds(item: dict[str, Any]) -> list[str]:
    return [line["kind"] for line in item["lines"]]


def logged(place: Place) -> str:
    """A nick on wall B by another inspector's hand."""
    inspector = place.phones["inspector"]
    item = inspector.clock.new_id()
    inspector.sync()
    body = {"defect": "nick", "room": "bath", "surface": "B", "along": 300, "up": 900, "light": "raking"}
    assert "seq" in inspector.say("item.logged", item, body, place.module)
    return item


def double_tap(hands: Hands) -> None:
    hands.page.evaluate(TWICE)
    hands.page.evaluate(FRAMES)


def test_a_slab_pressed_twice_writes_once(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.press("Nick")
    for across in (0.2, 0.5, 0.8):
        inspector.tap_wall(across, 0.4)
    expect(inspector.main()).to_have_text("Save 3 × Nick")
    double_tap(inspector)
    expect(inspector.page.get_by_role("status").filter(has_text="Saved on this phone")).to_be_visible()
    assert inspector.page.url.endswith("/B")
    inspector.sent()
    assert [kinds(item) for item in items(place)] == [["item.logged"]] * 3

    crew = Hands(browser, place.url, "crew_lead").sign_in()
    crew.go("/work")
    crew.page.get_by_label("Pick item 2", exact=True).check()
    double_tap(crew)
    expect(crew.page.get_by_role("status").filter(has_text="Cleared: 2")).to_be_visible()
    crew.sent()
    assert sorted(map(kinds, items(place))) == [["item.logged"], ["item.logged"], ["item.logged", "item.cleared"]]
    for hands in (inspector, crew):
        hands.close()


def test_release_pressed_twice_is_one_release(place: Place, browser: Browser) -> None:
    inspector = place.phones["inspector"]
    asked: list[str] = []
    shipping = Hands(browser, place.url, "shipping").sign_in()
    shipping.page.on("request", lambda found: asked.append(found.url) if found.url.endswith("/api/release") else None)
    sign_sheets(place, inspector)
    shipping.go(f"/module/{place.module}/gate")
    expect(shipping.page.get_by_text("Nothing stops it")).to_be_visible(timeout=20_000)
    shipping.read()
    double_tap(shipping)
    expect(shipping.page.get_by_text("Released by Sunniva Holt")).to_be_visible(timeout=20_000)
    assert len(asked) == 1
    assert shipping.page.get_by_label("Why does it come back?").count() == 0
    shipping.close()


def test_what_came_as_the_finger_fell_is_looked_at_first(place: Place, browser: Browser) -> None:
    item = logged(place)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    crew.go("/work")
    crew.page.get_by_label("Pick item 1", exact=True).check()
    crew.sent()
    other = place.phones["inspector"]
    other.sync()
    assert "seq" in other.say("item.amended", item, {"wish": "leave it, the board comes out"}, place.module)
    crew.press_as_it_comes("the board comes out", ".slab-main")
    expect(crew.page.get_by_role("alert")).to_contain_text("Somebody wrote about this in the meantime")
    assert [kinds(one) for one in items(place)] == [["item.logged", "item.amended"]]
    crew.read()
    crew.main().click()
    expect(crew.page.get_by_role("status").filter(has_text="Cleared: 1")).to_be_visible()
    crew.sent()
    assert [kinds(one) for one in items(place)] == [["item.logged", "item.amended", "item.cleared"]]
    crew.close()


def test_a_tap_while_a_photo_is_made_smaller_is_not_lost(place: Place, browser: Browser, tmp_path: Path) -> None:
    photo = tmp_path / "wall.jpg"
    photo.write_bytes(draw(Shot(wall="presses", width=800, blemishes=(Blemish("nick", 400, 300),))))
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/room/bath/B")
    inspector.press("Nick")
    inspector.tap_wall(0.2, 0.4)
    inspector.page.evaluate(
        "() => { const real = createImageBitmap; window.createImageBitmap = async (...all) => {"
        " await new Promise((go) => { window.goOn = go; }); return real(...all); }; }"
    )
    inspector.page.get_by_label("Photo of wall").first.set_input_files(photo)
    inspector.tap_wall(0.5, 0.4)
    inspector.tap_wall(0.8, 0.4)
    inspector.page.evaluate("() => window.goOn()")
    expect(inspector.page.locator(".photo-frame img")).to_be_visible()
    expect(inspector.main()).to_have_text("Save 3 × Nick")
    inspector.close()
