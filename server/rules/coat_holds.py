"""What coats hold a module for: not laid, not dry, to be looked at, covered early."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from server.rules import heads as field
from server.rules.clocks import DRY, Clock, clock
from server.rules.covers import earlies, tops
from server.rules.instants import instant
from server.rules.parts import Part
from server.rules.place import Place, rooms_since
from server.rules.schedule import coats_of, laid_in

Hold = dict[str, Any]
LAST_INSTANT = 253402300799


def coat_holds(place: Place, coats: Iterable[Part], at: int) -> list[Hold]:
    """The holds of a module's coats at `at`, one for each coat and what is the matter with it.

    `coats`: those that were voided too. A module of which nobody has told a finish is not missing any.
    """
    coats = list(coats)
    since = {coat["id"]: int(coat["since"]) for coat in coats}
    return [*_missing(place, coats), *_not_ready(place, at), *_early(place, since)]


def _missing(place: Place, coats: list[Part]) -> list[Hold]:
    rooms: dict[str, list[str]] = {}
    for room in place["rooms"]:
        laid = laid_in(place, room)
        for coat in dict.fromkeys(coats_of(place, room)):
            if coat not in laid:
                rooms.setdefault(coat, []).append(room)
    missing_in = [(coat, rooms[coat]) for coat in _in_turn(place) if coat in rooms]
    return [
        {
            "key": "coat_missing",
            "lifts": "crew_lead",
            "seq": max(_told_since(place), *(_void_since(one, coat, missing) for one in coats), 0),
            "coat": coat,
            "rooms": missing,
        }
        for coat, missing in missing_in
    ]


def _in_turn(place: Place) -> list[str]:
    """The coats of all rooms, each after what goes on before it."""
    order: list[str] = []
    for room in place["rooms"]:
        after = 0
        for coat in coats_of(place, room):
            if coat not in order:
                order.insert(after, coat)
            after = order.index(coat) + 1
    return order


def _told_since(place: Place) -> int:
    """The seq of the entry that last changed which coats a room of the module is to get."""
    heads = place["module"]["heads"]
    told = [field.latest_seq(heads, name) for name in ("finish", "coats") if heads.get(name)]
    return max(*told, rooms_since(place["module"], place["plan"]), 0)


def _void_since(coat: Part, key: str, rooms: list[str]) -> int:
    here = coat["coat"] == key and coat["void"] is not None and set(rooms) & set(coat["rooms"])
    return int(coat["void"]["ref"][0]) if here else 0


def _not_ready(place: Place, at: int) -> list[Hold]:
    """What lies on top and is not dry, rooms that stand alike together."""
    groups: dict[tuple[str, str], list[tuple[Part, str, Clock]]] = {}
    for room in place["rooms"]:
        for _, coat in tops(place, room):
            found = clock(place, coat, room, at)
            if found["state"] not in DRY:
                why = "" if found["state"] in ("wet", "likely") else found["state"]
                groups.setdefault((coat["id"], why), []).append((coat, room, found))
    return [_wet(members) if why == "" else _look(members, why) for (_, why), members in groups.items()]


def _wet(members: list[tuple[Part, str, Clock]]) -> Hold:
    """Time lifts it; both ends of the room that is the last, and what they cannot be relied on for."""
    ends = {end: _latest([found[end] for _, _, found in members]) for end in ("likely", "by_table")}
    return {**_of(members), "key": "coat_wet", "lifts": "waiting", **ends, "flags": _flags(members)}


def _look(members: list[tuple[Part, str, Clock]], why: str) -> Hold:
    """Somebody has to look: a person found it not dry, or its time cannot be relied on."""
    return {**_of(members), "key": "coat_look", "lifts": "crew_lead", "why": why, "flags": _flags(members)}


def _flags(members: list[tuple[Part, str, Clock]]) -> list[str]:
    return sorted({flag for _, _, found in members for flag in found["flags"]})


def _of(members: list[tuple[Part, str, Clock]]) -> Hold:
    coat = members[0][0]
    surface = {} if coat["surface"] is None else {"surface": coat["surface"]}
    rooms = [room for _, room, _ in members]
    return {"seq": coat["since"], "id": coat["id"], "coat": coat["coat"], "rooms": rooms, **surface}


def _latest(told: list[int | None]) -> str | None:
    """Null where one of them is: in this air it never dries, or after more years than an instant can name."""
    known = [one for one in told if one is not None and one <= LAST_INSTANT]
    return instant(max(known)) if len(known) == len(told) else None


def _early(place: Place, since: dict[str, int]) -> list[Hold]:
    """As new as what was last said of any of them: a coat that is told late comes in under others."""
    return [
        {
            "key": "coat_early",
            "lifts": "inspector",
            "seq": max(since[about] for about in (one["coat"]["id"], *one["under"])),
            "id": one["coat"]["id"],
            "coat": one["coat"]["coat"],
            "rooms": one["rooms"],
            "under": one["under"],
            "reason": one["coat"]["early"],
            "by": one["coat"]["by"],
        }
        for one in earlies(place)
    ]
