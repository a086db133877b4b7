"""What lies on top, whether another coat may go on, and what was covered before it was ready."""

from __future__ import annotations

from typing import Any

from server.rules.clocks import DRY, Clock, clock, drying_of, factor_of
from server.rules.coat_looks import cell_of
from server.rules.drying import doses
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place, in_order, once
from server.rules.schedule import family as family_of
from server.rules.seen import has_seen, seen_all
from server.rules.vocabulary import CURRENT, tables

# A coat, and the items of which it is rework; those of the coats whose clock it has taken over too.
Layer = tuple[Part, list[str]]
Layers = dict[str | None, list[Layer]]


def tops(place: Place, room: str) -> list[list[Any]]:
    """[[surface or null, coat]] of what lies on top: null for the room, then each wall with rework of its own since.

    Of one surface the latest first. An earlier one is there only where it may be wet for longer than that: thick
    compound that has only set under thin, or a nick filled beside it.
    """
    layers = once(place, ("layers", room), lambda: _layers(place, room))
    return [
        [surface, coat]
        for surface in sorted(layers, key=lambda surface: surface or "")
        for coat, _ in layers[surface]
        if surface is None or coat["surface"] is not None
    ]


def bare_walls(place: Place, room: str, family: str) -> list[str]:
    """Walls on which rework has left compound or texture that no primer covers: paint of the room goes over none."""
    if family != "paint":
        return []
    walls = [(surface, family_of(top["coat"])) for surface, top in tops(place, room) if surface is not None]
    return list(dict.fromkeys(surface for surface, kind in walls if kind in ("joint", "texture")))


def readiness(place: Place, room: str, family: str, at: int, surface: str | None = None) -> dict[str, Any]:
    """{ready, state, at, under} whether a coat of that family may go on that wall, or on all of the room.

    `under`: the coat that it waits longest for, null on bare board. `at`: from when, null where nobody can say.
    Compound may go on setting-type compound as soon as that has set; primer and paint wait until it is dry.
    """
    below = _under(once(place, ("layers", room), lambda: _layers(place, room)), surface)
    found = [_over(clock(place, coat, room, at), coat, family, at) for coat, _ in below]
    bare = {"ready": True, "state": "ready", "at": None, "under": None}
    return max(found, key=lambda one: (not one["ready"], one["at"] is None, one["at"] or 0), default=bare)


def earlies(place: Place) -> list[dict[str, Any]]:
    """[{coat, rooms, under: ids}] of coats laid over one not ready then, while no inspector has answered.

    Whoever gave a reason said that it was early: no reading that is told later answers for that, only an inspector.
    Nor does a coat that is told later, for an hour in between, or one below that the own hands took back.
    """
    found: dict[str, dict[str, Any]] = {}
    owned: dict[str, dict[str, Any]] = {}
    for room in place["rooms"]:
        layers: Layers = {}
        for coat in place["coats"]:
            if room in coat["rooms"]:
                for one in _covered(place, room, layers, coat):
                    if not _answered(coat, one[0], room) and _too_soon(place, room, one, coat):
                        _add(found, coat, room, one)
                    elif coat["early"] is not None and coat["answer"] is None and not _beside(one, coat):
                        _add(owned, coat, room, one)
                layers = _laid_on(place, room, layers, coat)
    found = owned | found
    return [
        {**row, "rooms": list(dict.fromkeys(row["rooms"])), "under": list(dict.fromkeys(row["under"]))}
        for row in (found[coat["id"]] for coat in place["coats"] if coat["id"] in found)
    ]


def _covered(place: Place, room: str, layers: Layers, coat: Part) -> list[Layer]:
    """What it lies on, and what it lay on when it was told."""
    seq, mine = coat["ref"][0], in_order(coat)
    told = [one for one in [*place["coats"], *place["taken_back"]] if room in one["rooms"] and one["ref"][0] < seq]
    there = [one for one in told if in_order(one) < mine and (one["void"] is None or one["void"]["ref"][0] > seq)]
    then: Layers = {}
    for one in sorted(there, key=in_order):
        then = _laid_on(place, room, then, one)
    found = _under(layers, coat["surface"])
    known = {one[0]["id"] for one in found}
    return [*found, *(one for one in _under(then, coat["surface"]) if one[0]["id"] not in known)]


def _add(found: dict[str, dict[str, Any]], coat: Part, room: str, under: Layer) -> None:
    row = found.setdefault(coat["id"], {"coat": coat, "rooms": [], "under": []})
    row["rooms"].append(room)
    row["under"].append(under[0]["id"])


def _layers(place: Place, room: str) -> Layers:
    layers: Layers = {}
    for coat in place["coats"]:
        if room in coat["rooms"]:
            layers = _laid_on(place, room, layers, coat)
    return layers


def _laid_on(place: Place, room: str, layers: Layers, coat: Part) -> Layers:
    """A coat of the room covers all of it; one on a wall covers that wall."""
    below = _under(layers, coat["surface"])
    stay = [one for one in below if _stays(place, room, one, coat)]
    gone = [item for one in below if one not in stay and _beside(one, coat) for item in one[1]]
    mine = [(coat, [*coat["items"], *gone]), *stay]
    return {None: mine} if coat["surface"] is None else {**layers, coat["surface"]: mine}


def _under(layers: Layers, surface: str | None) -> list[Layer]:
    """What a coat goes over: of a wall what is its own, else the room's; of a room everything that is on top in it."""
    if surface is not None:
        return layers.get(surface) or layers.get(None) or []
    return list({one[0]["id"]: one for mine in layers.values() for one in mine}.values())


def _over(found: Clock, under: Part, family: str, at: int) -> dict[str, Any]:
    row = {"ready": found["state"] in DRY, "state": found["state"], "at": found["ready_at"], "under": under}
    if row["ready"] or found["set"] is None or found["state"] == "not_dry" or under["unsure"]:
        return row
    if family not in tables(CURRENT)["schedule"]["after_set"]:
        return row
    has_set = at >= found["set"]
    return {**row, "ready": has_set, "at": found["set"], "state": "ready" if has_set else found["state"]}


def _too_soon(place: Place, room: str, under: Layer, coat: Part) -> bool:
    if _beside(under, coat):
        return False
    laid = seconds(coat["laid"])
    found = clock(place, under[0], room, laid, seconds(coat["time"]))
    return not _over(found, under[0], family_of(coat["coat"]), laid)["ready"]


def _answered(coat: Part, under: Part, room: str) -> bool:
    """Whether the author of the answer knew of the coat below, and of every look that said it was not dry."""
    answer = coat["answer"]
    if answer is None:
        return False
    _, device, n, aside = answer["ref"]
    author = {"seen_to": answer["seen"], "device": device, "n": n, "let_in": aside}
    return has_seen(author, under["ref"]) and seen_all(author, under["cells"].get(room, {}).get("objections", {}))


def _beside(under: Layer, coat: Part) -> bool:
    """Rework of one sort at other items of a wall goes on beside the coat there, not over it: nick after nick."""
    below, items = under
    walls = below["surface"] is not None and coat["surface"] is not None
    apart = items and coat["items"] and not set(items) & set(coat["items"])
    return bool(walls and apart and family_of(below["coat"]) == family_of(coat["coat"]))


def _stays(place: Place, room: str, under: Layer, coat: Part) -> bool:
    """Whether what was beside it, or has only set under it, may be wet for longer than the coat itself."""
    below, cell = under[0], cell_of(under[0], room)
    if _beside(under, coat):
        again = cell["wet"] is not None or (cell["restart"] or "") > coat["laid"]
        return again or _sets_later(below, coat) or _by_table(place, below) > _by_table(place, coat)
    only_set = _sets(below) and family_of(coat["coat"]) in tables(CURRENT)["schedule"]["after_set"]
    return only_set and _by_table(place, below) > _by_table(place, coat)


def _sets(coat: Part) -> bool:
    row = tables(CURRENT)["drying"]["materials"].get(coat["material"])
    return bool(row and row["clock"] == "set" and coat["set_minutes"])


def _sets_later(below: Part, coat: Part) -> bool:
    """Whether compound could go on a coat before it could go on the one beside it."""
    return _sets(coat) and not (_sets(below) and below["set_minutes"] <= coat["set_minutes"])


def _by_table(place: Place, coat: Part) -> int:
    dries = drying_of(coat, 0, factor_of(place, coat["material"]))
    return doses(dries, CURRENT)["by_table"]
