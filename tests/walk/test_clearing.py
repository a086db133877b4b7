"""A crew lead clears what another did, in a real browser with no signal: a hole wants a photo of the repair first."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.photos.pictures import encoded, halves
from tests.walk.conftest import Place, parts
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def test_a_hole_is_cleared_with_a_photo_for_somebody_without_an_account(
    place: Place, browser: Browser, tmp_path: Path
) -> None:
    inspector, photo = place.phones["inspector"], tmp_path / "after.jpg"
    photo.write_bytes(encoded(halves()))
    inspector.sync()
    body = {"defect": "hole", "room": "bath", "surface": "B", "along": 300, "up": 900, "light": "normal"}
    assert "seq" in inspector.say("item.logged", inspector.clock.new_id(), body, place.module)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go("/work")
    crew.offline(True)
    page.get_by_label("Pick item 1", exact=True).check()
    expect(page.get_by_text("1: needs a photo of the repair first.")).to_be_visible()
    expect(crew.main()).to_have_attribute("aria-disabled", "true")
    crew.photo("Photo of the wall after", photo)
    expect(page.get_by_text("1 photo after, for 1")).to_be_visible()
    crew.press("Who and how long")
    page.get_by_label("Who did it").select_option(label="Somebody not in the list")
    page.get_by_label("Their name").fill("Wim Aster")
    page.get_by_label("Minutes (may be empty)").fill("25")
    crew.main().click()
    crew.said("Cleared: 1")
    crew.offline(False)
    crew.sent()
    [item], [after] = parts(place, "item"), parts(place, "photo")
    [person] = [one for one in parts(place, "person") if one["name"] == "Wim Aster"]
    said = item["lines"][-1]["body"]
    assert (said["done_by"], said["minutes"], said["after"]) == ([person["id"]], 25, [after["id"]])
    assert (item["state"], after["shows"]) == ("cleared", "after")
    assert sorted(item["hands"]) == sorted([person["id"], place.phones["crew_lead"].person])
    crew.close()
