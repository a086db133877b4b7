"""Doubts go wherever a time goes: on the module's page, at the gate, at what would help and before paint; and rework
that lies bare is said wherever paint could go on its room."""

from __future__ import annotations

import uuid
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import Browser, Locator, expect

from tests.phone import Phone
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser

OUTSIDE = "Reckoned with outside air: nobody has read it inside."
BARE = "Bath 2, Wall C, door: Fill lies bare. Prime it there first"


def ago(hours: float) -> str:
    return (datetime.now(UTC) - timedelta(hours=hours)).strftime("%Y-%m-%dT%H:%M:%SZ")


def finish(place: Place, coats: list[str]) -> Phone:
    """The module's list of coats, and the crew lead's phone that knows it."""
    manager, crew = place.phones["manager"], place.phones["crew_lead"]
    manager.sync()
    assert "seq" in manager.say("module.amended", place.module, {"coats": {"*": coats}}, place.module)
    crew.sync()
    return crew


def lay(place: Place, coat: str, hours: float, **told: object) -> None:
    crew = place.phones["crew_lead"]
    crew.sync()
    body = {"coat": coat, "rooms": ["bath"], "material": "drying_type", "laid_at": ago(hours), **told}
    assert "seq" in crew.say("coat.laid", crew.clock.new_id(), body, place.module)


def reads(place: Place, module: str | None) -> None:
    """Dry mild air, read every three hours for a day, inside the module or in the yard."""
    crew = place.phones["crew_lead"]
    crew.sync()
    of = module or next(part for kind, part in crew.parts if kind == "yard")
    rows = [[ago(hours), 220, 35, None] for hours in range(24, -1, -3)]
    body = {"where": "module" if module else "yard", "source": "hand", "rows": rows}
    said = ("reading.taken", str(uuid.uuid5(uuid.UUID(of), "air ")), body)
    assert "seq" in (crew.say(*said, module) if module else crew.say(*said))


def late(hands: Hands, words: str) -> Locator:
    return hands.page.locator(".late").filter(has_text=words)


def test_a_time_is_doubted_on_every_screen_that_says_it(place: Place, browser: Browser) -> None:
    finish(place, ["tape", "prime"])
    reads(place, None)
    lay(place, "tape", 4)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page, at = crew.page, f"/module/{place.module}"
    crew.go(at)
    expect(page.get_by_text("Tape not dry in Bath 2, by the table").first).to_contain_text("cannot be relied on")
    crew.go(f"{at}/coats")
    expect(page.get_by_text("By the table is what the drying table gives for this air")).to_be_visible()
    # Who hears the keys alone hears whose they are.
    for key in ("Looked at it", "Read the air here", "Before paint", "More"):
        expect(page.locator(f"[aria-label='{key}: Bath 2']")).to_have_count(1)
    page.get_by_role("button", name="More: Bath 2").click()
    expect(page.get_by_role("button", name="It was never laid like this: tape")).to_be_visible()
    crew.go(f"{at}/gate")
    waiting = page.locator(".hold-group").filter(has_text="Waiting")
    expect(waiting).to_contain_text(f"Cannot be relied on: {OUTSIDE}")
    crew.go(f"{at}/room/bath/before-paint")
    helps = page.locator(".air-part").filter(has_text="What would help: Tape")
    expect(helps).to_contain_text(f"Cannot be relied on: {OUTSIDE}")
    under = page.locator(".checks li").filter(has_text="What is under it is not dry")
    expect(under).to_contain_text(f"Cannot be relied on: {OUTSIDE}")
    # What nobody has said can be said from where it is missed, in words of its own.
    expect(page.locator(".checks li").filter(has_text="Nobody has said")).to_contain_text("low. Say tonight’s low")
    page.get_by_role("link", name="Say tonight’s low").click()
    expect(page.get_by_role("heading", name="Lows to come")).to_be_visible()
    crew.close()


def test_a_filled_wall_is_said_wherever_paint_could_go_on_its_room(place: Place, browser: Browser) -> None:
    finish(place, ["prime", "paint_1"])
    reads(place, place.module)
    lay(place, "prime", 23, material="primer")
    lay(place, "fill", 22, material="setting_type", set_minutes=45, surface="C")
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    crew.go("/ready")
    expect(late(crew, BARE)).to_be_visible()
    # Sanding that wall is all there is to do: it is no paint yet.
    expect(crew.page.get_by_text("1 module can be worked on now")).to_be_visible()
    crew.go(f"/module/{place.module}/room/bath/before-paint")
    # After what stops or waits, before what else is to be minded.
    checks = crew.page.locator(".checks li")
    expect(checks.filter(has_text=BARE)).to_contain_text("caution")
    states = [words.split()[0] for words in checks.all_inner_texts()]
    assert states == sorted(states, key=["stop", "wait", "caution", "met"].index)
    crew.go(f"/module/{place.module}/coats")
    expect(late(crew, BARE)).to_be_visible()
    crew.main().click()
    crew.page.get_by_label("Which coat").select_option("paint_1")
    expect(late(crew, BARE)).to_be_visible()
    expect(late(crew, "On already")).to_have_count(0)
    # Its primer is no paint; but it has one.
    crew.page.get_by_label("Which coat").select_option("prime")
    crew.page.get_by_label("Bath 2").check()
    expect(late(crew, "On already: primer in Bath 2. Is it one more?")).to_be_visible()
    expect(late(crew, "lies bare")).to_have_count(0)
    crew.close()


def test_the_ready_list_knows_a_reading_of_this_minute(place: Place, browser: Browser) -> None:
    finish(place, ["tape", "first"])
    reads(place, None)
    lay(place, "tape", 2)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page, at = crew.page, f"/module/{place.module}"
    crew.go(f"{at}/air")
    expect(page.locator("p b").first).to_have_text("Inside the module")
    page.get_by_label("Temperature", exact=True).fill("70")
    page.get_by_label("Relative humidity", exact=True).fill("30")
    crew.main().click()
    crew.said("70")
    crew.go("/ready")
    line = page.locator(".ready-line").filter(has_text="Tape:")
    listed = line.inner_text()
    crew.go(f"{at}/coats")
    told = page.get_by_text("Tape not dry: first coat from").inner_text()
    likely = told.partition(" from ")[2].partition(" likely")[0]
    assert f"Tape: {likely} likely" in listed, (told, listed)
    crew.close()


def test_an_inspector_reads_what_to_do_where_it_may_not_stay(place: Place, browser: Browser) -> None:
    finish(place, ["tape", "texture"])
    lay(place, "tape", 3)
    lay(place, "texture", 1, material="texture", early="the rig leaves at four")
    inspector = Hands(browser, place.url, "inspector").sign_in()
    inspector.go(f"/module/{place.module}/coats")
    stop = inspector.page.locator(".coat-stop")
    expect(stop).to_contain_text("If it may not stay, write it up on its wall")
    inspector.close()
