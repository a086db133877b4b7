"""A small yard told as entries and folded by the real rules: what a packet is made from, without a server."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from hashlib import sha256
from io import BytesIO
from typing import Any
from uuid import UUID

from PIL import Image, ImageDraw, ImageFilter

from server.reports.book import Book, Head
from server.rules import Workspace, fold, sheet_id, tables

START = datetime(2026, 12, 1, 13, 0, tzinfo=UTC)
CHAIN = sha256(b"a chain value").hexdigest()
ROOMS: list[dict[str, Any]] = [
    {
        "id": "bath_2",
        "name": "Bath 2",
        "l": 2134,
        "w": 2743,
        "h": 2438,
        "walls": {
            "A": {
                "sight": "window",
                "openings": [{"kind": "window", "along": 700, "up": 1100, "w": 760, "h": 900}],
                "things": [],
            },
            "B": {
                "sight": "mirror wall",
                "openings": [],
                "things": [{"name": "mirror", "along": 500, "up": 1000, "w": 1200, "h": 900}],
            },
            "C": {
                "sight": "door",
                "openings": [{"kind": "door", "along": 250, "up": 0, "w": 760, "h": 2032}],
                "things": [],
            },
            "D": {
                "sight": "tub",
                "openings": [],
                "things": [{"name": "tub", "along": 1600, "up": 0, "w": 1100, "h": 550}],
            },
        },
    },
    {
        "id": "hall",
        "name": "Hall",
        "l": 1067,
        "w": 5486,
        "h": 2438,
        "walls": {wall: {"openings": [], "things": []} for wall in "ABCD"},
    },
    {
        "id": "bedroom_1",
        "name": "Bedroom 1",
        "l": 3658,
        "w": 3962,
        "h": 2438,
        "walls": {wall: {"openings": [], "things": []} for wall in "ABCD"},
    },
]


def uuid(n: int) -> str:
    return str(UUID(int=(0x0193 << 112) | (7 << 76) | (2 << 62) | n))


MODULE, PLAN, YARD = uuid(1), uuid(2), uuid(3)
PEOPLE = {
    "tull": ("R. Tull", ["inspector"]),
    "ochoa": ("J. Ochoa", ["inspector"]),
    "medrano": ("L. Medrano", ["crew_lead"]),
    "ruiz": ("P. Ruiz", []),
    "park": ("S. Park", ["shipping"]),
    "vance": ("D. Vance", ["manager"]),
}
PERSON = {name: uuid(100 + at) for at, name in enumerate(PEOPLE)}
PHONE = {name: f"phone{name}" for name in PEOPLE}


class Story:
    """Says entries one after the other, each an hour after the one before unless told otherwise; all have seen all."""

    def __init__(self) -> None:
        self.work = Workspace(lambda _kind, _id: None)
        self.at = START
        self.seq = 0
        self.n: dict[str, int] = {}
        self.photos: dict[str, bytes] = {}
        self.why_not: list[str | None] = []

    def say(
        self, who: str, kind: str, about: str, body: dict[str, Any], module: str | None = MODULE, **other: Any
    ) -> None:
        self.seq += 1
        device = PHONE.get(who, "server")
        self.n[device] = self.n.get(device, 0) + 1
        entry = {
            "id": uuid(10_000 + self.seq),
            "device": device,
            "n": self.n[device],
            "about": about,
            "kind": kind,
            "body": body,
            "by": PERSON.get(who, "server"),
            "module": module,
            "rules": 1,
            "seq": self.seq,
            "seen_to": self.seq - 1,
            "let_in": 0,
            "time": self.at.strftime("%Y-%m-%dT%H:%M:%SZ"),
            "at": self.at.strftime("%Y-%m-%dT%H:%M:%SZ"),
            **other,
        }
        self.why_not += fold(self.work, [entry])
        self.at += timedelta(minutes=47)

    def open(self, name: str = "North yard", serial: str = "2416-A", finish_of_all: str = "eggshell") -> None:
        crews = [{"id": "crew_2", "name": "Crew 2"}, {"id": "crew_5", "name": "Crew 5"}]
        self.say(
            "server",
            "yard.opened",
            YARD,
            {"name": name, "zone": "America/Chicago", "bays": ["9", "12"], "crews": crews},
            None,
        )
        for who, (said, roles) in PEOPLE.items():
            self.say("server", "person.named", PERSON[who], {"name": said, "roles": roles, "crew": "crew_2"}, None)
            self.say("server", "device.enrolled", PHONE[who], {"person": PERSON[who]}, None)
        self.say("vance", "plan.drawn", PLAN, {"name": "Willow, section A", "rooms": ROOMS}, None)
        finish = {"*": {"level": 4, "texture": "knockdown", "paint": "Warm white 12", "sheen": finish_of_all}}
        finish["bath_2"] = {"level": 5, "texture": "smooth", "paint": "Warm white 12", "sheen": "semi-gloss"}
        self.say(
            "vance",
            "module.added",
            MODULE,
            {
                "serial": serial,
                "home": "Willow 2416",
                "order": "HO-2416",
                "model": "Willow 28 × 56",
                "programme": "modular",
                "label": "NW 0419 227",
                "pickup": "2026-12-04T13:00:00Z",
                "plan": PLAN,
                "mirrored": False,
                "finish": finish,
            },
        )
        self.say("vance", "module.moved", MODULE, {"bay": "9"})
        self.say("ochoa", "room.added", MODULE, {"room": "porch", "name": "Porch"})

    def item(self, n: int, defect: str, room: str, surface: str, who: str = "ochoa", **spot: Any) -> str:
        body = {
            "defect": defect,
            "room": room,
            "surface": surface,
            "light": spot.pop("light", "raking"),
            "crew": "crew_2",
            **spot,
        }
        self.say(who, "item.logged", uuid(1000 + n), body)
        return uuid(1000 + n)

    def photo(self, n: int, who: str, shows: str, items: list[list[Any]], comes: bool = True, **other: Any) -> str:
        px = other.pop("px", [1600, 1200])
        data = rendition(px, n, shows == "after")
        name = sha256(data).hexdigest()
        body = {
            "sha256": name,
            "bytes": len(data),
            "px": px,
            "shows": shows,
            "items": items,
            "marks": other.pop("marks", []),
            **other,
        }
        self.say(who, "photo.added", uuid(2000 + n), body)
        if comes:
            self.photos[name] = data
            self.say("server", "photo.arrived", uuid(2000 + n), {"sha256": name})
        return uuid(2000 + n)

    def answer_all(self, who: str, sheet: str) -> None:
        for line, row in tables(1)["sheets"][sheet]["lines"].items():
            rooms = [*(room["id"] for room in ROOMS), "porch"] if row["by_room"] else ["module"]
            body = {"sheet": sheet, "line": line, "rooms": rooms, "rest": "yes", "except": []}
            self.say(who, "sheet.answered", sheet_id(MODULE, sheet), body)

    def book(self, lang: str = "en", parts: list[dict[str, Any]] | None = None) -> Book:
        now = self.at.strftime("%Y-%m-%dT%H:%M:%SZ")
        return Book(MODULE, tuple(parts or self.work.changed.values()), Head("e7c1", self.seq, CHAIN), now, lang)


def rendition(px: list[int], n: int, healed: bool) -> bytes:
    """A wall under raking light, with a blemish unless it is healed; small, as a rendition is."""
    scale = 700 / max(px)
    size = (round(px[0] * scale), round(px[1] * scale))
    shade = Image.linear_gradient("L").rotate(90).resize(size).point(lambda v: 150 + n + v * 80 // 255)
    image = Image.merge("RGB", (shade, shade.point(lambda v: v - 8), shade.point(lambda v: v - 22)))
    if not healed:
        draw = ImageDraw.Draw(image)
        x, y = size[0] * (30 + n * 7 % 40) // 100, size[1] * (30 + n * 11 % 40) // 100
        draw.line((x, y, x + 60, y + 14), fill=(96, 90, 80), width=7)
        draw.line((x + 2, y + 8, x + 62, y + 22), fill=(252, 250, 240), width=4)
        image = image.filter(ImageFilter.GaussianBlur(1.6))
    out = BytesIO()
    image.save(out, "JPEG", quality=82)
    return out.getvalue()


def told() -> Story:
    """Items in every state, photos of every sort, a sheet signed and spoilt, a release pulled back."""
    story = Story()
    story.open()
    nicks = [
        story.item(1 + at, "nick", "bath_2", "B", along=150 + at * 420, up=500 + (at % 3) * 700) for at in range(4)
    ]
    flash = story.item(5, "joint_flashing", "bath_2", "B", along=2200, up=2150, wish="repaint to the corner")
    hole = story.item(6, "hole", "bath_2", "D", along=700, up=1300, charge="crew_5", light="normal")
    run = story.item(7, "run", "bath_2", "ceiling", along=1400, up=900)
    edge = story.item(8, "crack", "hall", "A", along=400, up=1900)
    porch = story.item(9, "caulk_gap", "porch", "C", words={"across": "left", "height": "low"})
    wrong = story.item(10, "lint", "hall", "D", along=2500, up=1300)
    bare = story.item(11, "missed_paint", "hall", "D", words={"height": "high"})
    wall = [[item, 300 + at * 330, 900 - at * 170] for at, item in enumerate([*nicks])]
    story.photo(1, "ochoa", "wall", wall, room="bath_2", surface="B")
    story.photo(
        2,
        "ochoa",
        "before",
        [[flash, 800, 500]],
        room="bath_2",
        surface="B",
        marks=[
            {"kind": "arrow", "from": [1200, 900], "to": [860, 560]},
            {"kind": "text", "at": [980, 990], "text": "shows at dusk"},
        ],
    )
    story.photo(
        3,
        "ochoa",
        "before",
        [[hole, 600, 700]],
        room="bath_2",
        surface="D",
        marks=[{"kind": "ring", "at": [600, 700], "r": 160}],
    )
    story.photo(4, "tull", "before", [[edge, 500, 900]], room="hall", surface="A", px=[1200, 1600])
    story.photo(5, "tull", "before", [[wrong, 500, 500]], comes=False, room="hall", surface="D")
    story.say("ochoa", "item.voided", wrong, {"reason": "dust, wiped off"})
    for item in nicks:
        story.say("medrano", "item.ticked", item, {"steps": ["fill", "dry", "sand"]})
    for item in nicks[:3]:
        story.say("medrano", "item.cleared", item, {"minutes": 12, "done_by": [PERSON["ruiz"]]})
    story.photo(6, "medrano", "after", [[item, x, y] for item, x, y in wall[:3]], room="bath_2", surface="B")
    story.say("tull", "item.closed", nicks[0], {})
    story.say("tull", "item.sent_back", nicks[1], {"reason": "shows_under_light", "text": "a ridge at the lower end"})
    after = story.photo(7, "medrano", "after", [[hole, 600, 700]], room="bath_2", surface="D")
    story.say("medrano", "item.cleared", hole, {"minutes": 95, "after": [after]})
    story.say("tull", "item.closed", hole, {})
    story.say("medrano", "item.cleared", flash, {"minutes": 30})
    story.say("ochoa", "item.amended", flash, {"wish": "repaint to the ceiling"})
    story.say("medrano", "item.cleared", run, {})
    story.say("ochoa", "item.closed", run, {})
    story.answer_all("ochoa", "cleaning")
    story.say("ochoa", "sheet.signed", sheet_id(MODULE, "cleaning"), {"sheet": "cleaning"})
    story.say("medrano", "item.cleared", bare, {})
    story.say(
        "ochoa", "item.placed", porch, {"room": "porch", "surface": "C", "words": {"across": "right", "height": "low"}}
    )
    story.say("tull", "module.amended", MODULE, {"pickup": "2026-12-05T13:00:00Z"}, seen_to=0)
    return story
