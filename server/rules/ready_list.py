"""Across the yard: what can be taped, floated, sanded, textured, primed or painted, and from when."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Any

from server.rules import heads as field
from server.rules.covers import bare_walls, readiness, tops
from server.rules.parts import Part
from server.rules.place import Place, once
from server.rules.schedule import family, next_coat
from server.rules.vocabulary import CURRENT, tables

Row = dict[str, Any]
NEVER = 1 << 52


def ready_list(places: Iterable[Place], now: int) -> list[Row]:
    """What comes next on every room, and on every wall with rework of its own, by when it can be done, then by pickup.

    [{module, serial, pickup, room, surface, coat, do, family, crew, ready: 0|1, at, state, under, bare}]. `coat`: the
    key to lay next, null where that is not told. `do`: tape, float, sand, texture, prime or paint; `sand` with a coat:
    sand, then lay it. `at`: seconds, null on bare board and where only a look can say. `under`: id of the coat that it
    waits for. `bare`: walls to be primed before paint goes on the room. What has left or is released is not on it, nor
    a room with nothing more to lay.
    """
    rows = [row for place in places if _stands(place["module"]) for row in _of(place, now)]
    return sorted(rows, key=_order)


def _stands(module: Part) -> bool:
    return module["left"] is None and module["release"] is None


def _of(place: Place, now: int) -> list[Row]:
    heads = place["module"]["heads"]
    whose = {
        "module": place["module"]["id"],
        "serial": field.value(heads, "serial"),
        "pickup": field.value(heads, "pickup"),
    }
    crews: dict[str, str] = ((place["yard"] or {}).get("coats") or {}).get("crews") or {}
    found = []
    for room in place["rooms"]:
        for surface, coat, do, kind in once(place, ("tasks", room), partial(_tasks, place, room)):
            # Compound may go on what has only set; sanding it may not.
            over = readiness(place, room, "texture" if do == "sand" else kind, now, surface)
            what = {"room": room, "surface": surface, "coat": coat, "do": do, "family": kind}
            crew = crews.get("joint" if do == "sand" else kind)
            when = {"ready": 1 if over["ready"] else 0, "at": over["at"], "state": over["state"]}
            bare = [] if surface else bare_walls(place, room, kind)
            under = over["under"] and over["under"]["id"]
            found.append({**whose, **what, "crew": crew, **when, "under": under, "bare": bare})
    return found


def _tasks(place: Place, room: str) -> list[tuple[str | None, str | None, str, str]]:
    """(surface, coat, do, family) of what comes next on the room and on its walls with rework."""
    table = tables(CURRENT)["helps"]
    found: list[tuple[str | None, str | None, str, str]] = []
    # Of each surface the latest, which comes first: what to do next is about that.
    layers: dict[str | None, str] = {}
    for surface, top in tops(place, room):
        layers.setdefault(surface, top["coat"])
    coat, below = next_coat(place, room), family(layers[None]) if None in layers else None
    if coat is not None:
        kind = family(coat)
        sand = below == "joint" and kind != "joint"
        found.append((None, coat, "sand" if sand else table["do"].get(coat, "paint"), kind))
    for surface, top in layers.items():
        do = table["after"].get(family(top))
        if do is not None and (surface is not None or (coat is None and do == "sand")):
            found.append((surface, None, do, {"sand": "joint", "prime": "primer"}.get(do, "paint")))
    return found


def _order(row: Row) -> tuple[int, str, str, str, str, str]:
    at = row["at"] if row["at"] is not None else 0 if row["ready"] else NEVER
    return at, row["pickup"] or "9", row["serial"] or "", row["module"], row["room"], row["surface"] or ""
