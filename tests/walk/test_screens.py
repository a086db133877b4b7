"""Every screen of every role as it stands on a phone and on a table: axe finds nothing, nothing is wider than the
screen, targets are for gloves, no word is too small; also with text twice as large."""

from __future__ import annotations

import re
import uuid
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import product

import pytest
from playwright.sync_api import Page, Playwright, expect

from seed_demo.pictures import Blemish, Shot, draw
from tests.browser import launch
from tests.phone import NAMES, PASSCODE
from tests.walk.conftest import Place
from tests.walk.hands import FRAMES
from tests.walk.looks import faults

pytestmark = pytest.mark.browser

PHOTO = draw(Shot(wall="screens", width=640, blemishes=(Blemish("nick", 300, 200),)))
# Day and month could be either, the unit is not said, one line is none.
LOGGER = b"time;air;rh\n1/2/2026 8:00;21,4;50\n1/2/2026 9:00;21,9;51\n1/2/2026 10:00;warm;51\n"
LONG = "Recreation room with the long hitch-end hallway"


@dataclass(frozen=True)
class View:
    """Whose phone it is, and how it shows."""

    role: str
    language: str
    evening: bool
    size: tuple[int, int]
    # The size of text that the person has set in the browser.
    pixels: int = 16


# Each language with each setting on a phone and on a table, the narrowest phone too, and each role at least twice.
VIEWS = [
    View("inspector", "en", False, (390, 844)),
    View("inspector", "es", True, (320, 640)),
    View("inspector", "es", False, (1280, 800)),
    View("crew_lead", "es", False, (390, 844)),
    View("crew_lead", "en", True, (320, 640)),
    View("shipping", "en", True, (1280, 800)),
    View("shipping", "es", False, (320, 640)),
    View("manager", "es", True, (390, 844)),
    View("shipping", "en", True, (390, 844)),
    View("manager", "en", False, (1280, 800)),
    View("crew_lead", "es", True, (1280, 800)),
    View("inspector", "en", False, (390, 844), 32),
    View("crew_lead", "es", False, (320, 640), 32),
    View("manager", "es", True, (390, 844), 32),
]


def test_every_language_setting_and_size_is_looked_at() -> None:
    looked = {(view.language, view.evening, view.size) for view in VIEWS}
    assert looked >= set(product(("en", "es"), (False, True), ((390, 844), (1280, 800))))


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
    coats(place)
    cold(place)
    return {"open": made[3], "back": made[1], "cleared": made[0]}


def coats(place: Place) -> None:
    """A coat found wet, one over dry, one that went on too early, a wall's own, and the air of it all."""
    crew, inspector, manager = (place.phones[role] for role in ("crew_lead", "inspector", "manager"))
    module, now = place.module, datetime.now(UTC)

    def ago(hours: float) -> str:
        return (now - timedelta(hours=hours)).strftime("%Y-%m-%dT%H:%M:%SZ")

    def lay(coat: str, rooms: list[str], hours: float, **told: object) -> str:
        made = crew.clock.new_id()
        crew.sync()
        body = {"coat": coat, "rooms": rooms, "material": "drying_type", "laid_at": ago(hours), **told}
        assert "seq" in crew.say("coat.laid", made, body, module)
        return made

    finish = {"*": {"level": 4, "texture": "orange peel", "paint": "eggshell", "sheen": "eggshell"}}
    manager.sync()
    assert "seq" in manager.say("module.amended", module, {"finish": finish}, module)
    air = [[ago(hours), 210 - hours % 7 * 9, 45 + hours % 5 * 4, None] for hours in range(90, 0, -3)]
    stream = str(uuid.uuid5(uuid.UUID(module), "air "))
    assert "seq" in crew.say("reading.taken", stream, {"where": "module", "source": "hand", "rows": air}, module)
    tape = lay("tape", ["bath", "rec"], 80)
    first = lay("first", ["bath", "rec"], 50, over=[tape])
    second = lay("second", ["rec"], 9, over=[first])
    paint = {"product": "Sealer for new board", "batch": "P-118", "can": "shed 2, left shelf"}
    lay("prime", ["rec"], 1, over=[second], early="the truck comes at seven", material="primer", paint=paint)
    lay("fill", ["bath"], 3, over=[first], material="setting_type", set_minutes=45, surface="B")
    inspector.sync()
    found = {"rooms": ["bath"], "text": "dark at the joint", "meter": {"scale": "gypsum", "value": 14}}
    assert "seq" in inspector.say("coat.found_wet", first, found, module)


def cold(place: Place) -> None:
    """It is cold outside and in the room with the long name; a heater without a vent is on, a night's low is told."""
    crew = place.phones["crew_lead"]
    crew.sync()
    yard = next(part for kind, part in crew.parts if kind == "yard")
    now = datetime.now(UTC)
    at = [(now + timedelta(hours=hours)).strftime("%Y-%m-%dT%H:%M:%SZ") for hours in (-1, 2, 14)]

    def say(kind: str, name: str, body: dict[str, object], module: str | None = None) -> None:
        about = str(uuid.uuid5(uuid.UUID(module or yard), name))
        assert "seq" in (crew.say(kind, about, body, module) if module else crew.say(kind, about, body))

    say("reading.taken", "air ", {"where": "yard", "source": "hand", "rows": [[at[0], 60, 78, None]]})
    room: dict[str, object] = {
        "where": "room",
        "room": "rec",
        "source": "logger",
        "name": "Probe 7",
        "rows": [[at[0], 105, 88, 80]],
    }
    say("reading.taken", "air rec", room, place.module)
    say("forecast.told", "forecast", {"nights": [{"from": at[1], "to": at[2], "low": -10}], "source": "hourly"})
    say("heat.told", "heat", {"on": True, "since": at[0], "to": 211, "unvented": "propane"}, place.module)


def screens(place: Place, told: dict[str, str], role: str) -> list[str]:
    """The addresses that this role comes to."""
    at = f"/module/{place.module}"
    common = ["/", "/me", at, f"{at}/gate", f"{at}/coats", f"{at}/sheet/wrap_and_seal"]
    common += ["/air", "/air/outside", f"{at}/air", f"{at}/air/rec", "/ready", f"{at}/room/rec/before-paint"]
    if role == "manager":
        office = ["coats", "sensors", f"module/{place.module}"]
        return [*common, "/air/file/readings", "/manage", *(f"/manage/{page}" for page in office)]
    rooms = [f"{at}/room/bath", f"{at}/room/bath/B", f"{at}/room/rec/A"]
    recheck = [f"{at}/room/bath/recheck", f"{at}/item/{told['back']}"]
    if role == "inspector":
        return [*common, *rooms, f"{at}/room/bath/ceiling", *recheck]
    if role == "crew_lead":
        return [*common, *rooms, "/work", f"{at}/item/{told['open']}", "/air/file/forecast"]
    return common


def show(page: Page, path: str) -> None:
    page.evaluate("path => { history.pushState(null, '', path); dispatchEvent(new PopStateEvent('popstate')); }", path)
    expect(page.locator("h1")).to_be_visible()
    page.evaluate(FRAMES)


def enter(page: Page, url: str, role: str) -> None:
    page.goto(url)
    page.locator("input[type=password]").fill(PASSCODE)
    page.locator("input[autocomplete=username]").fill(NAMES[role])
    page.locator(".slab-main").click()
    expect(page.locator(".module-row").first).to_be_visible(timeout=20_000)


def press_open(page: Page) -> None:
    """Opens what opens on a screen: the first kind and its fields, the first pick, exceptions, who did it, a photo."""
    for found in (".kinds .key", ".check input:enabled", "[aria-expanded=false]", ".walk-row .key"):
        first = page.locator(".page-main").locator(found).first
        if first.count() > 0:
            first.click()
    if page.locator("input[accept*=csv]").count() > 0:
        page.locator("input[accept*=csv]").set_input_files({"name": "l.csv", "mimeType": "text/csv", "buffer": LOGGER})
        expect(page.locator("tbody tr").first).to_be_visible()
        page.locator("[aria-expanded=false]").first.click()
    camera = page.get_by_label(re.compile("^(Photo of wall|Foto de la pared|Add a photo|Agregar foto)$"))
    if camera.count() > 0:
        camera.first.set_input_files({"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": PHOTO})
        expect(page.locator(".photo-frame img").first).to_be_visible()
        marking = page.get_by_role("button", name=re.compile("^(Mark this photo|Marcar esta foto)$"))
        if marking.count() > 0:
            marking.first.click()
    page.evaluate(FRAMES)


def coats_opened(page: Page) -> dict[str, list[str]]:
    """The two forms of the coats' screen: one goes on where what is under it is not ready, and a look that says dry."""
    if page.locator(".slab-beside").count() == 0:
        return {}
    main = page.locator(".page-main")
    closed = main.locator("[aria-expanded=false]")
    while closed.count() > 0:
        closed.first.click()
    found = {"all of it opened": faults(page)}
    page.locator(".slab-main").click()
    for room in main.locator(".coat-rooms input").all():
        room.check()
    main.locator(".coat-stop .segment").last.click()
    for one in closed.all():
        one.click()
    found["coat on"] = faults(page)
    page.locator(".slab-beside").click()
    page.locator(".slab-beside").click()
    main.locator(".choice .segment").nth(1).click()
    for room in main.locator(".coat-rooms input").all():
        room.check()
    main.locator(".choice .segment").last.click()
    found["a look"] = faults(page)
    page.locator(".slab-beside").click()
    return found


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: f"{view.role} {view.language} {view.size[0]} {view.pixels}")
def test_no_fault_on_any_screen(place: Place, told: dict[str, str], playwright: Playwright, view: View) -> None:
    browser = launch(playwright, f"--blink-settings=defaultFontSize={view.pixels}")
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
        if path.endswith("/coats"):
            found |= coats_opened(page)
    browser.close()
    assert {path: wrong for path, wrong in found.items() if wrong} == {}
