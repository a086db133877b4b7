"""Where things are, in millimetres: a surface as one faces it, and a room unfolded round its floor.

The same arithmetic as the phone's: `along` from the left as one faces the surface, `up` from its foot; ceiling and
floor go along as wall A and `up` away from it. A mirrored plan swaps B and D and turns every wall round.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

WALLS = ("A", "B", "C", "D")
SURFACES = ("A", "B", "C", "D", "E", "F", "ceiling", "floor", "trim")
_SWAPPED = {"A": "A", "B": "D", "C": "C", "D": "B"}


@dataclass(frozen=True)
class Box:
    x: float
    y: float
    w: float
    h: float


@dataclass(frozen=True)
class Face:
    """One surface as one faces it; `boxes` are openings and things as (box, name): along, up, w, h."""

    surface: str
    sight: str
    length: int
    height: int
    boxes: tuple[tuple[Box, str], ...] = field(default=())


def face_of(room: dict[str, Any], surface: str, mirrored: bool) -> Face | None:
    """A surface of a plan's room; None where the plan has no such surface to draw."""
    if surface in ("ceiling", "floor"):
        return Face(surface, "", room["l"], room["w"])
    if surface not in WALLS:
        return None
    wall = room["walls"].get(_SWAPPED[surface] if mirrored else surface)
    if wall is None:
        return None
    length = room["l"] if surface in ("A", "C") else room["w"]
    rows = [*wall.get("openings", []), *wall.get("things", [])]
    boxes = tuple((_box(row, length, mirrored), row.get("name", row.get("kind", ""))) for row in rows)
    return Face(surface, wall.get("sight", ""), length, room["h"], boxes)


def _box(row: dict[str, Any], length: int, mirrored: bool) -> Box:
    along = length - row["along"] - row["w"] if mirrored else row["along"]
    return Box(along, row["up"], row["w"], row["h"])


def sheet_size(room: dict[str, Any]) -> tuple[int, int]:
    """Width and height of the unfolded room."""
    return room["l"] + 2 * room["h"], 2 * room["w"] + 2 * room["h"]


def place_of(room: dict[str, Any], surface: str) -> Box:
    """Where a surface lies on the sheet: floor in the middle, A above, B right, C below, D left, the ceiling on A."""
    length, width, height = room["l"], room["w"], room["h"]
    top = width + height
    return {
        "ceiling": Box(height, 0, length, width),
        "A": Box(height, width, length, height),
        "B": Box(height + length, top, height, width),
        "C": Box(height, top + width, length, height),
        "D": Box(0, top, height, width),
    }.get(surface, Box(height, top, length, width))


def on_sheet(box: Box, surface: str, along: float, up: float) -> tuple[float, float]:
    """A spot as a point of the sheet: the fold line of every wall is its foot."""
    match surface:
        case "B":
            return box.x + up, box.y + along
        case "C":
            return box.x + box.w - along, box.y + up
        case "D":
            return box.x + box.w - up, box.y + box.h - along
        case "floor":
            return box.x + along, box.y + up
        case _:
            return box.x + along, box.y + box.h - up
