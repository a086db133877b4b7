"""Rework as a coat on its wall, in a real browser: filled with one press, and nobody sands what is not dry."""

from __future__ import annotations

import io
from datetime import timedelta
from typing import Any

import pytest
from playwright.sync_api import Browser, expect
from pypdf import PdfReader

from server.clock import stamp
from server.rules import stream_id
from tests.walk.conftest import Place, parts
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


def nicks(place: Place, count: int) -> None:
    """So many nicks on wall B, and the air of the module read just now: 70 °F, 50 %."""
    inspector = place.phones["inspector"]
    inspector.sync()
    for number in range(count):
        spot = {"room": "bath", "surface": "B", "along": 300 + 500 * number, "up": 900}
        item = inspector.clock.new_id()
        assert "seq" in inspector.say("item.logged", item, {"defect": "nick", "light": "raking", **spot}, place.module)
    rows = [[stamp(inspector.clock.now()), 211, 50, None]]
    reading = {"where": "module", "source": "hand", "rows": rows}
    assert "seq" in inspector.say("reading.taken", stream_id(place.module), reading, place.module)


def test_filled_nicks_are_one_coat_and_nobody_sands_it_wet(place: Place, browser: Browser) -> None:
    nicks(place, 3)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go("/work")
    crew.press("All on this wall")
    crew.offline(True)
    crew.beside().click()
    crew.said("Steps done: 1, 2, and 3")
    expect(page.get_by_text("Not dry: sand from")).to_be_visible()
    crew.offline(False)
    crew.sent()
    (coat,) = parts(place, "coat")
    items = [item["id"] for item in parts(place, "item")]
    assert (coat["coat"], coat["rooms"], coat["surface"], coat["material"]) == ("fill", ["bath"], "B", "drying_type")
    assert sorted(coat["items"]) == sorted(items)

    page.get_by_label("Pick item 2", exact=True).check()
    expect(crew.beside()).to_have_text("Step done: let dry")
    expect(crew.beside()).to_have_attribute("aria-disabled", "true")
    expect(page.get_by_text("Bath 2, Wall B: Fill not dry")).to_be_visible()
    page.get_by_label("I looked: dry").check()
    page.get_by_label("Cut through the joint").check()
    page.get_by_label("How do you know before the table’s time?").fill("thin as paper, white through")
    crew.beside().click()
    crew.said("Steps done: 2")
    expect(page.get_by_text("Fill looked at and dry")).to_be_visible()
    crew.sent()
    (coat,) = parts(place, "coat")
    assert coat["cells"]["bath"]["dry"]["tried"] == ["cut"]
    assert [item["ticks"] for item in parts(place, "item") if item["number"] == 2] == [["fill", "dry"]]

    page.get_by_label("Pick item 2", exact=True).check()
    page.get_by_label("Wet", exact=True).check()
    crew.beside().click()
    crew.said("Steps done: 2")
    expect(page.get_by_text("Not dry: sand from")).to_be_visible()
    crew.sent()
    (coat,) = parts(place, "coat")
    assert coat["cells"]["bath"]["restart"] is not None
    assert coat["cells"]["bath"]["dry"] is None
    crew.close()


def painted(place: Place) -> None:
    """The bath painted three days ago from a can that somebody named, and dry; two spots missed paint on wall B."""
    now = place.phones["crew_lead"].clock.now()
    inspector, crew = place.phones["inspector"], place.phones["crew_lead"]
    crew.sync()
    air = [[stamp(now - timedelta(hours=hours)), 211, 50, None] for hours in range(75, -1, -3)]
    reading = {"where": "module", "source": "hand", "rows": air}
    assert "seq" in crew.say("reading.taken", stream_id(place.module), reading, place.module)
    laid = {"coat": "paint_2", "rooms": ["bath"], "material": "latex", "laid_at": stamp(now - timedelta(hours=72))}
    paint = {"product": "Interior latex", "colour": "oat", "batch": "L-5078", "can": "shed 2"}
    assert "seq" in crew.say("coat.laid", crew.clock.new_id(), {**laid, "paint": paint}, place.module)
    inspector.sync()
    for along in (300, 1800):
        spot = {"defect": "missed_paint", "room": "bath", "surface": "B", "along": along, "up": 600, "light": "raking"}
        assert "seq" in inspector.say("item.logged", inspector.clock.new_id(), spot, place.module)


def touch_ups(place: Place) -> list[dict[str, Any]]:
    found = [coat for coat in parts(place, "coat") if coat["coat"] == "touch_up"]
    return sorted(found, key=lambda coat: str(coat["laid"]))


def test_another_can_is_warned_of_and_is_what_is_offered_next(place: Place, browser: Browser) -> None:
    painted(place)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go("/work")
    page.get_by_label("Pick item 1", exact=True).check()
    expect(page.get_by_label("Interior latex, oat, batch L-5078. Touch-up can: shed 2")).not_to_be_checked()
    page.get_by_label("Another can").check()
    # Mostly it is of the same product and colour.
    expect(page.get_by_label("Product")).to_have_value("Interior latex")
    expect(page.get_by_label("Colour code")).to_have_value("oat")
    warning = page.get_by_text("Another batch than in Bath 2 before (L-5078): touch-up may show.")
    expect(warning).to_have_count(0)
    page.get_by_label("Batch on the can").fill("L-9")
    expect(warning).to_be_visible()
    crew.half_kept("L-9")
    page.reload()
    expect(page.get_by_label("Batch on the can")).to_have_value("L-9")
    expect(warning).to_be_visible()
    crew.beside().click()
    crew.said("Steps done: 1")
    crew.sent()
    (touched,) = touch_ups(place)
    assert touched["paint"] == {"product": "Interior latex", "colour": "oat", "batch": "L-9"}
    assert (touched["rooms"], touched["surface"]) == (["bath"], "B")

    page.get_by_label("Pick item 2", exact=True).check()
    page.get_by_label("Interior latex, oat, batch L-9").check()
    expect(page.get_by_label("Batch on the can")).to_have_count(0)
    expect(page.get_by_text("Another batch")).to_have_count(0)
    crew.beside().click()
    crew.said("Steps done: 2")
    crew.sent()
    assert [coat["paint"]["batch"] for coat in touch_ups(place)] == ["L-9", "L-9"]

    # The touch-up that dries is open; the room's own paint is dry and covered: one line, which opens.
    crew.go(f"/module/{place.module}/coats")
    expect(page.get_by_text("Touch-up not dry")).to_be_visible()
    fold = page.get_by_role("button", name="1 coat done: Second paint")
    expect(fold).to_have_attribute("aria-expanded", "false")
    expect(page.get_by_text("Second paint dry by the table since")).to_have_count(0)
    fold.click()
    expect(fold).to_have_attribute("aria-expanded", "true")
    expect(page.get_by_text("Second paint dry by the table since")).to_be_visible()
    crew.press("More")
    expect(page.get_by_text("Paint: Interior latex, oat, batch L-9", exact=True).first).to_be_visible()
    packet = place.phones["manager"].get(f"/api/modules/{place.module}/packet.pdf")
    text = " ".join(" ".join(one.extract_text() for one in PdfReader(io.BytesIO(packet.data)).pages).split())
    assert text.count("Paint: Interior latex, oat, batch L-9") == 2
    assert text.count("Paint: Interior latex, oat, batch L-5078. Touch-up can: shed 2") == 1
    crew.close()


def test_a_cold_room_is_said_before_compound_goes_on_its_wall(place: Place, browser: Browser) -> None:
    """46 °F was read in it a day ago, 70 °F now: the joint needs 50 °F for 48 hours before."""
    nicks(place, 1)
    inspector = place.phones["inspector"]
    rows = [[stamp(inspector.clock.now() - timedelta(hours=24)), 78, 71, None]]
    reading = {"where": "module", "source": "logger", "rows": rows}
    assert "seq" in inspector.say("reading.taken", stream_id(place.module), reading, place.module)
    manager = place.phones["manager"]
    manager.sync()
    finish = {"*": {"level": 4, "texture": "orange peel", "paint": "eggshell", "sheen": "eggshell"}}
    assert "seq" in manager.say("module.amended", place.module, {"finish": finish}, place.module)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    crew.go("/work")
    cold = crew.page.get_by_text("Joint work needs 50 °F (10 °C) for 48 hours before, and until dry. Here it was 46 °F")
    expect(crew.page.get_by_label("Pick item 1", exact=True)).to_be_visible()
    expect(cold).to_have_count(0)
    crew.page.get_by_label("Pick item 1", exact=True).check()
    expect(cold).to_be_visible()
    crew.go("/ready")
    expect(crew.page.get_by_text("Bare board: nothing to wait for").first).to_be_visible()
    expect(crew.page.get_by_text("Here it was 46 °F (8 °C)").first).to_be_visible()
    crew.close()
