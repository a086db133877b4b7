"""How a case about a module's coats is run; places.ts does the same."""

from __future__ import annotations

from typing import Any

from server import rules
from server.rules import instant, seconds
from tests.rules.expand import NOW, expand_part, full_id

Case = dict[str, Any]


def run_clocks(given: Case) -> Case:
    """The clock of a coat in a room at an hour, what lies on top there, whether another may go on, what was early."""
    place, room, at = place_in(given), given.get("room", "bath"), seconds(given.get("at", NOW))
    coat = next((one for one in place["coats"] if one["id"] == given.get("of", "c1")), None)
    found: Case = {
        "tops": [[surface, one["id"]] for surface, one in rules.tops(place, room)],
        "earlies": [one | {"coat": one["coat"]["id"]} for one in rules.earlies(place)],
    }
    if coat is not None:
        found["clock"] = _in_words(rules.clock(place, coat, room, at))
    if "family" in given:
        told = rules.readiness(place, room, given["family"], at, given.get("surface"))
        found["readiness"] = told | {"at": said(told["at"]), "under": told["under"] and told["under"]["id"]}
    return found


def run_schedule(given: Case) -> Case:
    """Which coats a room is to get."""
    place, room = place_in(given), given.get("room", "bath")
    return {
        "coats_of": rules.coats_of(place, room),
        "next_coat": rules.next_coat(place, room),
    }


def place_in(given: Case) -> Case:
    """The place of the case's parts."""
    return rules.place_of(str(full_id("m")), [expand_part(part) for part in given["parts"]])


def _in_words(clock: Case) -> Case:
    """Instants as they are written in cases."""
    told = {name: said(clock[name]) for name in ("laid", "likely", "by_table", "set", "ready_at")}
    latest = clock["latest"]
    return {**clock, **told, "latest": latest and {**latest, "time": said(latest["time"])}}


def said(since_1970: int | None) -> str | None:
    """An instant as cases write it."""
    return None if since_1970 is None else instant(since_1970)
