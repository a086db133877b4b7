"""What people and the server do in a random journal: each a function of the yard that tells one or more entries."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from server.rules import sheet_id, tables

if TYPE_CHECKING:
    from tests.rules.journals import Yard

Body = dict[str, Any]
# Names that mean something to one of the two languages, and texts that they write, count or sort unlike each other.
TRAPS = ["constructor", "toString", "hasOwnProperty", "__proto__"]
TEXTS = [
    "",
    "even sheen",
    '3/8" gap \\ seam',
    "línea a la izquierda",
    "\U0001f477\U0001f3fd\u200d\u2640\ufe0f look",
    "e\u0301 and \u00e9",
    "\u2028\u2029",
    "\ufeffbom",
    "\u05e9\u05dc\u05d5\u05dd",
    "\u200f\u200bmixed",
    "漢字と仮名",
    "\U00020000\U0010ffff",
    "tab\tand\nline",
    "\x01\x1f\x7f\u0080",
    "\ufb01 \ufb03",
    "\ue000\uffff",
    "</script>",
]
ROOMS = ["bath", "hall", "kitchen", "r9", "r10", "constructor"]
# How likely the kinds of `on_item` are by what the item is.
LIKELY = {
    "open": [3, 1, 2, 4, 14, 3, 1, 1],
    "cleared": [2, 1, 1, 3, 2, 20, 2, 1],
    "closed": [1, 1, 2, 6, 5, 5, 1, 1],
    "void": [2, 1, 1, 1, 2, 2, 1, 2],
}
DEFECTS = ["nick", "hole", "open_seam", "dirt", "texture_mismatch", "constructor", "unheard_of"]


class Told(NamedTuple):
    """An entry before a phone has numbered it."""

    kind: str
    module: str | None
    about: str
    body: Body


Doing = Callable[["Yard"], list[Told]]


def _some(yard: Yard, **choices: list[Any]) -> Body:
    """A body with each field there or not."""
    return {name: yard.chance.choice(values) for name, values in choices.items() if yard.chance.random() < 0.5}


def _item(yard: Yard) -> tuple[str | None, str]:
    """A module and one of its items; now and then one that nobody logged, or a module that it does not stand in."""
    if not yard.items or yard.chance.random() < 0.02:
        return yard.modules[0], yard.uuid()
    arrived = [about for kind, about in yard.work.changed if kind == "item"]
    about = yard.chance.choice(arrived if arrived and yard.chance.random() < 0.9 else list(yard.items))
    if yard.chance.random() < 0.02:
        return yard.chance.choice([*yard.modules, None]), about
    return yard.items[about], about


def _spot(yard: Yard) -> Body:
    words = {"across": "left", "height": "eye"}
    where = {"words": words} if yard.chance.random() < 0.3 else {"along": yard.chance.randrange(4000), "up": 900}
    return {"room": yard.chance.choice(ROOMS), "surface": yard.chance.choice(["A", "B", "ceiling", "trim"]), **where}


def log(yard: Yard) -> list[Told]:
    """A new item, rarely one whose id is there already."""
    module = yard.chance.choice(yard.modules)
    about = yard.chance.choice([*yard.items, yard.uuid(), yard.uuid(), yard.uuid(), yard.uuid()])
    if len(yard.items) > 4:
        return on_item(yard)
    yard.items.setdefault(about, module)
    more = _some(yard, wish=TEXTS, crew=["north", "south", ""], charge=["electrical", "own"])
    body = {"defect": yard.chance.choice(DEFECTS), "light": "raking", **_spot(yard), **more}
    return [Told("item.logged", module, about, body)]


def on_item(yard: Yard) -> list[Told]:
    """Anything that can be said about an item."""
    module, about = _item(yard)
    people = [[], yard.people[:1], yard.people[1:4], [yard.people[2], yard.people[2]]]
    photos = list(yard.photos)[:2] or [yard.uuid()]
    steps = yard.chance.sample(["fill", "dry", "sand", "prime", "paint", "clean", "no_step"], 3)
    bodies: dict[str, Body] = {
        "item.amended": _some(yard, defect=DEFECTS, wish=TEXTS),
        "item.placed": _spot(yard),
        "item.given": _some(yard, crew=["north", "south"], charge=["electrical", "own"]),
        "item.ticked": {"steps": steps, **_some(yard, done_by=people)},
        "item.cleared": _some(yard, done_by=people, after=[photos, photos, []], minutes=[5, 40]),
        "item.closed": {},
        "item.sent_back": {"reason": "still_visible", **_some(yard, text=TEXTS, photos=[photos])},
        "item.voided": {"reason": yard.chance.choice(TEXTS)},
    }
    item = yard.work.part("item", about)
    kind = yard.chance.choices(list(bodies), LIKELY[item["state"] if item else "open"])[0]
    return [Told(kind, module, about, bodies[kind])]


def photo(yard: Yard) -> list[Told]:
    """A photo taken, or other marks on one."""
    items = [[about, yard.chance.randrange(2048), 7] for about in list(yard.items)[:2]]
    ring, text = {"kind": "ring", "at": [5, 6], "r": 3}, {"kind": "text", "at": [1, 2], "text": "漢 \U0001f477"}
    marks = yard.chance.choice([[], [ring], [text]])
    if yard.photos and yard.chance.random() < 0.4:
        about = yard.chance.choice([*yard.photos, yard.uuid()])
        return [Told("photo.marked", yard.photos.get(about, yard.modules[0]), about, {"items": items, "marks": marks})]
    module = yard.chance.choice(yard.modules)
    about = yard.chance.choice([*yard.photos, yard.uuid(), yard.uuid()])
    yard.photos.setdefault(about, module)
    body = {"sha256": f"{yard.chance.getrandbits(256):064x}", "bytes": 90000, "px": [2048, 1536], "shows": "before"}
    where = _some(yard, room=ROOMS, surface=["A", "floor"])
    return [Told("photo.added", module, about, {**body, "items": items, "marks": marks, **where})]


def _answer(yard: Yard, module: str, sheet: str, line: str, rooms: list[str]) -> Told:
    rest = yard.chance.choices(["yes", "no", "na"], [8, 1, 1])[0]
    excepted = [
        {"room": room, "value": "no", **_some(yard, reason=TEXTS, item=list(yard.items) or ["i"])}
        for room in rooms
        if yard.chance.random() < 0.08
    ]
    body = {"sheet": sheet, "line": line, "rooms": rooms, "rest": rest, "except": excepted, **_some(yard, reason=TEXTS)}
    return Told("sheet.answered", module, _sheet(module, sheet), body)


def _sheet(module: str, key: str) -> str:
    return sheet_id(module, key) if key in tables(1)["sheets"] else module


def answer(yard: Yard) -> list[Told]:
    """One line, rarely of a sheet or module that is not there."""
    module = yard.chance.choice([*yard.modules * 20, yard.uuid()])
    sheet = yard.chance.choice(["cleaning", "wrap_and_seal"] * 8 + TRAPS[:1])
    line = yard.chance.choice(["dust", "debris", "openings", "roof_edge", "toString"])
    return [_answer(yard, module, sheet, line, yard.chance.sample(["module", *ROOMS], 2))]


def walk(yard: Yard) -> list[Told]:
    """A whole sheet, answered room by room and signed; rarely a line is forgotten."""
    module, sheet = yard.chance.choice(yard.modules), yard.chance.choice(["cleaning", "wrap_and_seal"])
    told = []
    for name, row in tables(1)["sheets"][sheet]["lines"].items():
        if yard.chance.random() < 0.98:
            told.append(_answer(yard, module, sheet, name, ROOMS if row["by_room"] else ["module"]))
    return [*told, *sign(yard, module, sheet)]


def sign(yard: Yard, module: str | None = None, sheet: str | None = None) -> list[Told]:
    """A signature."""
    module = module or yard.chance.choice(yard.modules)
    sheet = sheet or yard.chance.choice(["cleaning", "wrap_and_seal", "__proto__"])
    return [Told("sheet.signed", module, _sheet(module, sheet), {"sheet": sheet})]


def on_module(yard: Yard) -> list[Told]:
    """Anything that can be said about a module but a release."""
    module = yard.chance.choice([*yard.modules * 10, yard.uuid()])
    finish = {"*": {"level": 4, "texture": "smooth", "paint": "p-1", "sheen": "flat"}}
    facts = _some(
        yard,
        label=TEXTS,
        pickup=["2026-12-04T15:00:00Z"],
        mirrored=[True, False],
        finish=[finish],
        plan=yard.plans,
        programme=["hud", "modular"],
        coats=[{"*": ["tape", "prime"], "bath": []}],
    )
    given = yard.chance.choice([*yard.releases, yard.releases[-1], yard.releases[-1]])
    bodies: dict[str, Body] = {
        "module.added": {"serial": "9", "home": "9"},
        "module.amended": facts,
        "module.moved": {"bay": yard.chance.choice(["1", "2", "漢"])},
        "module.left": {"why": yard.chance.choice(TEXTS)},
        "room.added": {"room": yard.chance.choice(ROOMS), "name": yard.chance.choice(TEXTS)},
        "release.answered": {"release": given, "up_to": yard.chance.randrange(200), "reason": "ok"},
        "release.pulled_back": {"release": given, "reason": yard.chance.choice(TEXTS)},
        "phone.answered": {"device": yard.chance.choice([*yard.ids, *TRAPS]), "up_to": 10**6, "reason": "on leave"},
    }
    kind = yard.chance.choices(list(bodies), [1, 9, 5, 1, 4, 8, 4, 4])[0]
    return [Told(kind, module, module, bodies[kind])]


def in_office(yard: Yard) -> list[Told]:
    """People, plans and the yard."""
    person, plan = yard.chance.choice(yard.people), yard.chance.choice(yard.plans)
    size = {"l": 3000, "w": 2000, "h": 2440, "walls": {}}
    rooms = [{"id": room, "name": room, **size} for room in ROOMS[: yard.chance.randrange(4)]]
    roles = yard.chance.sample(["shipping", "inspector", "crew_lead"], 2)
    about = yard.chance.choice([yard.yard, yard.yard, yard.uuid()])
    return [
        yard.chance.choice(
            [
                Told(
                    "yard.amended", None, about, _some(yard, name=TEXTS, bays=[["2"]], coats=[{"learned": False}, {}])
                ),
                Told("person.named", None, person, {"name": "\u00f1", "roles": roles, **_some(yard, crew=["north"])}),
                Told(
                    "plan.drawn", None, plan, {"name": "again", "rooms": rooms, **_some(yard, **{"from": yard.plans})}
                ),
            ]
        )
    ]


def unknown(yard: Yard) -> list[Told]:
    """A kind of a later day, or a name that one of the languages knows."""
    kind = yard.chance.choice(["driver.signed", *TRAPS])
    return [Told(kind, yard.modules[0], yard.uuid(), {"room": "bath", "n": 1})]


def release(yard: Yard) -> Told:
    """To staging, whatever the gate says."""
    module = yard.chance.choice([*yard.modules * 9, yard.uuid()])
    yard.releases.append(yard.uuid())
    body = {"release": yard.releases[-1], "holds_answered": [], "by": yard.people[4]}
    return Told("release.given", module, module, body)


def arrived(yard: Yard) -> Told:
    """A photo's bytes."""
    about = yard.chance.choice([*yard.photos, *yard.photos, yard.uuid()])
    return Told("photo.arrived", yard.photos.get(about), about, {"sha256": "0" * 64})


def of_device(yard: Yard) -> Told:
    """A phone falls behind, catches up, is lost or enrolled; one that nobody knows too."""
    device = yard.chance.choice([*yard.ids, *yard.ids, *TRAPS[:1]])
    kinds: dict[str, Body] = {
        "device.behind": {"last_n": 9, "modules": yard.chance.choice([[], yard.modules[:1], yard.modules])},
        "device.written_off": {"reason": yard.chance.choice(TEXTS), "by": yard.people[5]},
        "device.enrolled": {"person": yard.people[0]},
    }
    kind = yard.chance.choices(list(kinds), [12, 1, 1])[0]
    return Told(kind, None, device, kinds[kind])


def of_journal(yard: Yard) -> Told:
    """A restore, or the yard opened once more; a decision about an entry that nobody set aside."""
    about = yard.chance.choice([yard.yard, yard.uuid()])
    return yard.chance.choice(
        [
            Told("journal.restored", None, about, {"old": "e0", "cut": 4, "chain": "00", "by": yard.people[6]}),
            Told("yard.opened", None, yard.yard, {"name": "", "zone": "UTC", "bays": [], "crews": []}),
            Told("entry.let_in", None, about, {"entry": about, "sha256": "1" * 64, "by": yard.people[5]}),
        ]
    )


DOINGS: list[tuple[Doing, int]] = [
    (log, 10),
    (on_item, 40),
    (photo, 6),
    (answer, 4),
    (walk, 5),
    (sign, 3),
    (on_module, 14),
    (in_office, 3),
    (unknown, 2),
]
SERVER_DOINGS: list[Callable[[Yard], Told]] = [
    release,
    release,
    arrived,
    arrived,
    arrived,
    of_device,
    of_device,
    of_journal,
]
