"""How a module's rooms stand in their coats, those that stand alike together: as on the phone. Pure."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from server.rules import air_for, cell_of, clock, coats_of, family, instant, next_coat, readiness, seconds, tops

Stand = dict[str, Any]


def standings(place: dict[str, Any], at: int) -> list[Stand]:
    """[{rooms, tops, older, next, known, ready}] in the module's order; a room joins the first that stands as it does.

    `tops` and `older`: [{surface, coat, clock, air}], older ones the latest first; `next`: a coat key or null, `ready`
    whether that one may go on now (null without one), `known`: whether anybody has said which coats it is to get.
    """
    found: dict[str, Stand] = {}
    for room in place["rooms"]:
        one = _standing(place, room, at)
        found.setdefault(_alike(one, room), {**one, "rooms": []})["rooms"].append(room)
    return list(found.values())


def _standing(place: dict[str, Any], room: str, at: int) -> Stand:
    layers = tops(place, room)
    on_top = {coat["id"] for _, coat in layers}
    under = [coat for coat in place["coats"] if room in coat["rooms"] and coat["id"] not in on_top]
    coming = next_coat(place, room)
    return {
        "tops": [_coat(place, room, surface, coat, at) for surface, coat in layers],
        "older": [_coat(place, room, coat["surface"], coat, at) for coat in reversed(under)],
        "next": coming,
        "known": bool(coats_of(place, room)),
        "ready": readiness(place, room, family(coming), at) if coming else None,
    }


def _coat(place: dict[str, Any], room: str, surface: str | None, coat: dict[str, Any], at: int) -> dict[str, Any]:
    found = clock(place, coat, room, at)
    return {"surface": surface, "coat": coat, "clock": found, "air": air_for(place, room, found["laid"], at)["rows"]}


def _alike(one: Stand, room: str) -> str:
    """What differs is drawn apart; a wall's coat is its room's own."""
    walls = any(top["surface"] is not None for top in [*one["tops"], *one["older"]])
    drawn = [
        [
            top["coat"]["id"],
            {name: value for name, value in top["clock"].items() if name != "latest"},
            _looks(top, room),
        ]
        for top in one["tops"]
    ]
    older = [[top["coat"]["id"], _looks(top, room)] for top in one["older"]]
    return json.dumps([room if walls else "", drawn, older, one["next"], one["known"]], sort_keys=True)


def _looks(top: dict[str, Any], room: str) -> list[str | None]:
    cell = cell_of(top["coat"], room)
    return [cell[look] and cell[look]["time"] for look in ("wet", "dry")]


def strip_of(top: dict[str, Any], room: str, at: int, zone: str) -> dict[str, Any]:
    """A coat as its strip is drawn: see strip.py."""
    found, cell = top["clock"], cell_of(top["coat"], room)
    local = datetime.fromisoformat(instant(found["laid"]).replace("Z", "+00:00")).astimezone(ZoneInfo(zone))
    ahead = local.utcoffset()
    return {
        **{name: found[name] for name in ("laid", "likely", "by_table", "set")},
        "now": at,
        "dried": found["dried"]["by_table"],
        "wet": seconds(cell["wet"]["time"]) if found["state"] == "not_dry" and cell["wet"] else None,
        "dry": seconds(cell["dry"]["time"]) if found["state"] == "dry" and cell["dry"] else None,
        "air": top["air"],
        "offset": int(ahead.total_seconds()) if ahead else 0,
    }
