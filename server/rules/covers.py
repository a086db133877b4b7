"""What lies on top, whether another coat may go on, and what was covered before it was ready."""

from __future__ import annotations

from typing import Any

from server.rules.clocks import DRY, Clock, clock
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place, once
from server.rules.schedule import family as family_of
from server.rules.vocabulary import CURRENT, tables

Layers = dict[str | None, Part]


def tops(place: Place, room: str) -> list[list[Any]]:
    """[[surface or null, coat]] of what lies on top: null for the room, then each wall with rework of its own since."""
    layers = once(place, ("layers", room), lambda: _layers(place, room))
    return [[surface, layers[surface]] for surface in sorted(layers, key=lambda surface: surface or "")]


def readiness(place: Place, room: str, family: str, at: int, surface: str | None = None) -> dict[str, Any]:
    """{ready, state, at, under} whether a coat of that family may go on that wall, or on all of the room.

    `under`: the coat that it waits longest for, null on bare board. `at`: from when, null where nobody can say.
    Compound may go on setting-type compound as soon as that has set; primer and paint wait until it is dry.
    """
    below = _under({wall: coat for wall, coat in tops(place, room)}, surface)
    found = [_over(clock(place, coat, room, at), coat, family, at) for coat in below]
    bare = {"ready": True, "state": "ready", "at": None, "under": None}
    return max(found, key=lambda one: (not one["ready"], one["at"] is None, one["at"] or 0), default=bare)


def earlies(place: Place) -> list[dict[str, Any]]:
    """[{coat, rooms, under: ids}] of coats laid over one not ready then, while no inspector has answered."""
    found = []
    for room in place["rooms"]:
        layers: Layers = {}
        for coat in place["coats"]:
            if room in coat["rooms"]:
                if coat["answer"] is None:
                    found += [
                        (coat, room, one)
                        for one in _under(layers, coat["surface"])
                        if _too_soon(place, room, one, coat)
                    ]
                layers = _laid_on(layers, coat)
    return [
        {
            "coat": coat,
            "rooms": list(dict.fromkeys(room for over, room, _ in found if over is coat)),
            "under": list(dict.fromkeys(one["id"] for over, _, one in found if over is coat)),
        }
        for coat in place["coats"]
        if any(over is coat for over, _, _ in found)
    ]


def _layers(place: Place, room: str) -> Layers:
    layers: Layers = {}
    for coat in place["coats"]:
        if room in coat["rooms"]:
            layers = _laid_on(layers, coat)
    return layers


def _laid_on(layers: Layers, coat: Part) -> Layers:
    """A coat of the room covers all of it; one on a wall covers that wall."""
    return {None: coat} if coat["surface"] is None else {**layers, coat["surface"]: coat}


def _under(layers: Layers, surface: str | None) -> list[Part]:
    """What a coat goes over: of a wall its own top, else the room's; of a room everything that is on top in it."""
    if surface is None:
        return list(layers.values())
    below = layers.get(surface) or layers.get(None)
    return [below] if below else []


def _over(found: Clock, under: Part, family: str, at: int) -> dict[str, Any]:
    row = {"ready": found["state"] in DRY, "state": found["state"], "at": found["ready_at"], "under": under}
    if row["ready"] or found["set"] is None or found["state"] == "not_dry" or under["unsure"]:
        return row
    if family not in tables(CURRENT)["schedule"]["after_set"]:
        return row
    has_set = at >= found["set"]
    return {**row, "ready": has_set, "at": found["set"], "state": "ready" if has_set else found["state"]}


def _too_soon(place: Place, room: str, under: Part, coat: Part) -> bool:
    if _beside(under, coat):
        return False
    laid = seconds(coat["laid"])
    found = clock(place, under, room, laid)
    return not _over(found, under, family_of(coat["coat"]), laid)["ready"]


def _beside(under: Part, coat: Part) -> bool:
    """Rework of one sort at other items of a wall goes on beside the coat there, not over it: nick after nick."""
    walls = under["surface"] is not None and coat["surface"] is not None
    apart = under["items"] and coat["items"] and not set(under["items"]) & set(coat["items"])
    return bool(walls and apart and family_of(under["coat"]) == family_of(coat["coat"]))
