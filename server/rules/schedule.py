"""Which coats a room is to get, and in which order."""

from __future__ import annotations

from typing import Any

from server.rules import heads as field
from server.rules.place import Place
from server.rules.vocabulary import CURRENT, tables

# What only rework lays; no schedule asks for it.
REWORK = ("fill", "touch_up")


def family(coat: str) -> str:
    """What a coat is: joint, texture, primer or paint; a coat that this program does not know counts as paint."""
    row = tables(CURRENT)["schedule"]["coats"].get(coat)
    return row["family"] if row else "paint"


def coats_of(place: Place, room: str) -> list[str]:
    """The coats of a room in order; none while nobody has told its finish.

    The module's own list for the room or for all rooms, else by level, texture and paint of its finish, in the plant's
    order of coats.
    """
    heads = place["module"]["heads"]
    own = field.value(heads, "coats") or {}
    told: list[str] | None = own.get(room, own.get("*"))
    if told is not None:
        return [coat for coat in told if coat not in REWORK]
    finish = field.value(heads, "finish") or {}
    row: dict[str, Any] | None = finish.get(room, finish.get("*"))
    return [] if row is None else [coat for coat in _order(place) if coat not in REWORK and _wanted(coat, row)]


def next_coat(place: Place, room: str) -> str | None:
    """The first coat of the schedule that nobody has laid there; rework on one wall does not count for the room."""
    laid = laid_in(place, room)
    return next((coat for coat in coats_of(place, room) if coat not in laid), None)


def laid_in(place: Place, room: str) -> set[str]:
    """The coats that stand on a whole room."""
    return {coat["coat"] for coat in place["coats"] if coat["surface"] is None and room in coat["rooms"]}


def _order(place: Place) -> list[str]:
    own = ((place["yard"] or {}).get("coats") or {}).get("order")
    return list(own or tables(CURRENT)["schedule"]["order"])


def _wanted(coat: str, finish: dict[str, Any]) -> bool:
    table = tables(CURRENT)["schedule"]
    kind = family(coat)
    if kind == "joint":
        return coat in table["levels"].get(str(finish.get("level", 0)), [])
    if kind == "texture":
        return finish.get("texture", "").strip(" ").lower() not in table["smooth"]
    return bool(finish.get("paint", "").strip(" "))
