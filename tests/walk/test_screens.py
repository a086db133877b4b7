"""Every screen of every role as it stands on a phone and on a table: axe finds nothing, nothing is wider than the
screen, targets are for gloves, no word is too small."""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Page, expect

from seed_demo.pictures import Blemish, Shot, draw
from tests.phone import NAMES, PASSCODE
from tests.walk.conftest import Place
from tests.walk.looks import faults

pytestmark = pytest.mark.browser

PHOTO = draw(Shot(wall="screens", width=640, blemishes=(Blemish("nick", 300, 200),)))
LONG = "Recreation room with the long hitch-end hallway"


@dataclass(frozen=True)
class View:
    """Whose phone it is, and how it shows."""

    role: str
    language: str
    evening: bool
    size: tuple[int, int]


# Each language with each setting on each size, and each role at least twice.
VIEWS = [
    View("inspector", "en", False, (390, 844)),
    View("inspector", "es", True, (320, 640)),
    View("inspector", "es", False, (1280, 800)),
    View("crew_lead", "es", False, (390, 844)),
    View("crew_lead", "en", True, (320, 640)),
    View("shipping", "en", True, (1280, 800)),
    View("shipping", "es", False, (320, 640)),
    View("manager", "es", True, (390, 844)),
]


@pytest.fixture
def told(place: Place) -> dict[str, str]:
    """Items in every state on a measured wall and in a room with a long name that nobody has measured."""
    inspector, crew, manager = (place.phones[role] for role in ("inspector", "crew_lead", "manager"))
    assert "seq" in manager.say("room.added", place.module, {"room": "rec", "name": LONG}, place.module)
    inspector.sync()
    made: list[str] = []
    for number in range(9):
        made.append(inspector.clock.new_id())
        spot = {"room": "bath", "surface": "B", "along": 200 + 190 * number, "up": 300 + 210 * (number % 6)}
        if number > 5:
            spot = {"room": "rec", "surface": "A", "words": {"across": "left", "height": "eye"}}
        inspector.say("item.logged", made[-1], {"defect": "nick", "light": "raking", **spot}, place.module)
    for item in (made[0], made[1], made[6]):
        crew.sync()
        crew.say("item.cleared", item, {}, place.module)
    inspector.sync()
    back = {"reason": "shows_under_light", "text": "see it from the door at the low light"}
    inspector.say("item.sent_back", made[1], back, place.module)
    inspector.say("item.voided", made[2], {"reason": "shadow of the lamp"}, place.module)
    return {"open": made[3], "back": made[1], "cleared": made[0]}


def screens(place: Place, told: dict[str, str], role: str) -> list[str]:
    """The addresses that this role comes to."""
    at = f"/module/{place.module}"
    common = ["/", "/me", at, f"{at}/gate", f"{at}/sheet/wrap_and_seal"]
    rooms = [f"{at}/room/bath", f"{at}/room/bath/B", f"{at}/room/rec/A"]
    recheck = [f"{at}/room/bath/recheck", f"{at}/item/{told['back']}"]
    if role == "inspector":
        return [*common, *rooms, f"{at}/room/bath/ceiling", *recheck]
    return [*common, *rooms, "/work", f"{at}/item/{told['open']}"] if role == "crew_lead" else common


def show(page: Page, path: str) -> None:
    page.evaluate("path => { history.pushState(null, '', path); dispatchEvent(new PopStateEvent('popstate')); }", path)
    expect(page.locator("h1")).to_be_visible()
    page.wait_for_timeout(120)


def enter(page: Page, url: str, role: str) -> None:
    page.goto(url)
    page.locator("input[type=password]").fill(PASSCODE)
    page.locator("input[autocomplete=username]").fill(NAMES[role])
    page.locator(".slab-main").click()
    expect(page.locator(".module-row").first).to_be_visible(timeout=20_000)


def press_open(page: Page) -> None:
    """Opens what opens on a screen: the first kind and its fields, the first pick, exceptions, who did it, a photo."""
    for found in (".kinds .key", ".check input:enabled", "[aria-expanded=false]"):
        first = page.locator(".page-main").locator(found).first
        if first.count() > 0:
            first.click()
    camera = page.get_by_label(re.compile("^(Photo of wall|Foto de la pared|Add a photo|Agregar foto)$"))
    if camera.count() > 0:
        camera.first.set_input_files({"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": PHOTO})
        expect(page.locator(".photo-frame img").first).to_be_visible()
        marking = page.get_by_role("button", name=re.compile("^(Mark this photo|Marcar esta foto)$"))
        if marking.count() > 0:
            marking.first.click()
    page.wait_for_timeout(60)


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: f"{view.role} {view.language} {view.size[0]}")
def test_no_fault_on_any_screen(place: Place, told: dict[str, str], browser: Browser, view: View) -> None:
    context = browser.new_context(
        viewport={"width": view.size[0], "height": view.size[1]},
        locale=f"{view.language}-US",
        color_scheme="dark" if view.evening else "light",
        bypass_csp=True,
    )
    page = context.new_page()
    page.goto(place.url)
    expect(page.locator("input[type=password]")).to_be_visible()
    found = {"sign in": faults(page)}
    enter(page, place.url, view.role)
    for path in screens(place, told, view.role):
        show(page, path)
        found[path] = faults(page)
        press_open(page)
        found[f"{path} opened"] = faults(page)
    context.close()
    assert {path: wrong for path, wrong in found.items() if wrong} == {}
