"""The invented yard as data: who works there, what stands where, which rooms are in it. Every name is made up.

Lengths are whole millimetres. Wall A is the one you face coming in; B, C, D go clockwise; the door is mostly in C.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

Json = dict[str, Any]

NAME = "Kettle Flat finish yard"
ZONE = "America/Boise"
BAYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "Staging 1", "Staging 2", "Staging 3"]
CREWS = [
    {"id": "board", "name": "Board and tape"},
    {"id": "paint", "name": "Paint"},
    {"id": "trim", "name": "Trim"},
    {"id": "clean", "name": "Cleaning"},
]


@dataclass(frozen=True)
class Person:
    """Somebody with an account. The passcodes are for the demo alone and are printed at the start."""

    name: str
    roles: tuple[str, ...]
    passcode: str
    crew: str | None = None


ADMINISTRATOR = Person("Odalys Wren", ("administrator",), "copper-ladder-31")
PEOPLE = (
    Person("Teodora Quill", ("manager",), "maple-bucket-58"),
    Person("Imke Larrabee", ("inspector",), "amber-window-27"),
    Person("Rosendo Vail", ("inspector",), "silver-trowel-64"),
    Person("Bartolo Finch", ("crew_lead",), "gravel-sander-19", "board"),
    Person("June Tallow", ("crew_lead",), "velvet-roller-83", "paint"),
    Person("Ferris Oakey", ("crew_lead",), "walnut-hammer-46", "trim"),
    Person("Hollis Verne", ("shipping",), "yellow-strap-72"),
)
HELPERS = {"board": ("Ximena Prado", "Dell Acker"), "paint": ("Lupe Santerre",), "trim": ("Wick Amadi",)}


def _wall(sight: str | None = None, openings: tuple[Json, ...] = (), things: tuple[Json, ...] = ()) -> Json:
    wall: Json = {"openings": list(openings), "things": list(things)}
    if sight is not None:
        wall["sight"] = sight
    return wall


def _window(along: int, w: int = 910, h: int = 1220, up: int = 860) -> Json:
    return {"kind": "window", "along": along, "up": up, "w": w, "h": h}


def _door(along: int, w: int = 810) -> Json:
    return {"kind": "door", "along": along, "up": 0, "w": w, "h": 2030}


def _open(along: int, w: int) -> Json:
    return {"kind": "open", "along": along, "up": 0, "w": w, "h": 2130}


def _thing(name: str, along: int, up: int, w: int, h: int) -> Json:
    return {"name": name, "along": along, "up": up, "w": w, "h": h}


def _outlet(along: int) -> Json:
    return _thing("outlet", along, 330, 70, 115)


def _room(key: str, name: str, size: tuple[int, int, int], a: Json, b: Json, c: Json, d: Json) -> Json:
    length, width, height = size
    return {"id": key, "name": name, "l": length, "w": width, "h": height, "walls": {"A": a, "B": b, "C": c, "D": d}}


def _living() -> Json:
    return _room(
        "living", "Living room", (5180, 4090, 2440),
        _wall("windows", (_window(900), _window(3200)), (_outlet(2500),)),
        _wall("hitch end", (), (_outlet(1900),)),
        _wall("front door", (_door(3600, 910),), (_outlet(1200),)),
        _wall("marriage wall", (_open(1000, 2100),)),
    )  # fmt: skip


def _kitchen() -> Json:
    return _room(
        "kitchen", "Kitchen", (4270, 4090, 2440),
        _wall("sink window", (_window(1600, 1070, 910, 1170),),
              (_thing("base cabinets", 200, 0, 3400, 910), _thing("wall cabinets", 200, 1370, 1100, 760))),
        _wall("range wall", (), (_thing("range", 1500, 0, 760, 910), _thing("hood", 1500, 1650, 760, 300))),
        _wall("back door", (_door(400, 910),), (_outlet(2900),)),
        _wall("marriage wall", (_open(900, 2400),)),
    )  # fmt: skip


def _bath(key: str, name: str) -> Json:
    return _room(
        key, name, (2740, 2130, 2440),
        _wall("window", (_window(950, 610, 610, 1370),), (_thing("toilet", 1900, 0, 500, 760),)),
        _wall("mirror", (), (_thing("vanity", 300, 0, 1220, 860), _thing("mirror", 400, 1050, 1020, 910))),
        _wall("door", (_door(1700, 710),)),
        _wall("tub", (), (_thing("tub", 0, 0, 1520, 560),)),
    )  # fmt: skip


def _bed(key: str, name: str, size: tuple[int, int, int]) -> Json:
    length, width, _height = size
    return _room(
        key, name, size,
        _wall("window", (_window(length // 2 - 450),), (_outlet(500),)),
        _wall("closet", (_door(width // 2 - 610, 1220),)),
        _wall("door", (_door(length - 1100),), (_outlet(600),)),
        _wall("long wall", (), (_outlet(width // 2),)),
    )  # fmt: skip


def _utility() -> Json:
    return _room(
        "utility", "Utility room", (2440, 1830, 2440),
        _wall("panel", (), (_thing("electrical panel", 900, 1200, 380, 760),)),
        _wall("furnace", (), (_thing("furnace", 300, 0, 560, 1800),)),
        _wall("door", (_door(900),)),
        _wall("washer box", (), (_thing("washer box", 700, 1070, 260, 230),)),
    )  # fmt: skip


PLANS: dict[str, list[Json]] = {
    "Larkspur, section A": [_living(), _kitchen(), _utility()],
    "Larkspur, section B": [
        _bed("bed_1", "Bedroom 1", (4270, 4090, 2440)),
        _bath("bath_1", "Bath 1"),
        _bed("bed_2", "Bedroom 2", (3350, 3050, 2440)),
        _bath("bath_2", "Bath 2"),
    ],
    "Juniper, one section": [
        _living(),
        _kitchen(),
        _bath("bath_1", "Bath"),
        _bed("bed_1", "Bedroom", (3660, 4090, 2440)),
    ],
}

_FLAT = {"*": {"level": 4, "texture": "orange peel", "paint": "warm white", "sheen": "eggshell"}}
_KNOCKED = {
    "*": {"level": 3, "texture": "knockdown", "paint": "oat", "sheen": "flat"},
    "kitchen": {"level": 4, "texture": "orange peel", "paint": "oat", "sheen": "semi-gloss"},
}
_SMOOTH = {"*": {"level": 5, "texture": "smooth", "paint": "gray", "sheen": "satin"}}


@dataclass(frozen=True)
class Module:
    """A module: the working day (from 1) on which it comes in, its bay, and pickup in days after the last day."""

    serial: str
    plan: str
    model: str
    programme: str
    comes: int
    bay: str
    pickup: int
    finish: Json
    mirrored: bool = False

    @property
    def home(self) -> str:
        """The home that it is a section of."""
        return self.serial.split("-")[0]


MODULES = (
    Module("5077-A", "Juniper, one section", "Juniper 44", "hud", 1, "2", -8, _FLAT),
    Module("5078-A", "Larkspur, section A", "Larkspur 56", "modular", 1, "4", 2, _KNOCKED),
    Module("5078-B", "Larkspur, section B", "Larkspur 56", "modular", 1, "5", 2, _KNOCKED),
    Module("5081-A", "Larkspur, section A", "Larkspur 56", "modular", 3, "7", 4, _FLAT),
    Module("5081-B", "Larkspur, section B", "Larkspur 56", "modular", 3, "8", 4, _FLAT),
    Module("5083-A", "Larkspur, section A", "Larkspur 60", "modular", 6, "9", 6, _SMOOTH, mirrored=True),
    Module("5083-B", "Larkspur, section B", "Larkspur 60", "modular", 6, "10", 6, _SMOOTH, mirrored=True),
    Module("5084-A", "Juniper, one section", "Juniper 44", "hud", 8, "2", 8, _FLAT),
    Module("5086-A", "Juniper, one section", "Juniper 44", "hud", 10, "3", 11, _KNOCKED),
)
