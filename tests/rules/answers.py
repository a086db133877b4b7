"""How a case about before paint, what helps, what comes next or what was learned is run; answers.ts does the same."""

from __future__ import annotations

from typing import Any

from server import rules
from server.rules import seconds
from tests.rules.expand import NOW
from tests.rules.places import place_in, said

Case = dict[str, Any]


def run_before_paint(given: Case) -> Case:
    """Go, wait or stop in a room."""
    told = rules.before_paint(place_in(given), _room(given), _at(given), given.get("label", {}))
    return {"paint": told | {"until": said(told["until"])}}


def run_what_helps(given: Case) -> Case:
    """What would help a coat in a room."""
    place = place_in(given)
    coat = next(one for one in place["coats"] if one["id"] == given.get("of", "c1"))
    told = rules.what_helps(place, _room(given), coat, _at(given))
    return {"helps": [one | {end: said(one[end]) for end in ("likely", "by_table")} for one in told]}


def run_ready_list(given: Case) -> Case:
    """What comes next in a module."""
    return {"list": [row | {"at": said(row["at"])} for row in rules.ready_list([place_in(given)], _at(given))]}


def run_learned(given: Case) -> Case:
    """What looks say of a coat, or of a material what was `seen`."""
    if "seen" in given:
        return {"learned": rules.learn(given["seen"], 1)}
    return {"looks": rules.observations([place_in(given)])}


def _room(given: Case) -> str:
    return str(given.get("room", "bath"))


def _at(given: Case) -> int:
    return seconds(given.get("at", NOW))
