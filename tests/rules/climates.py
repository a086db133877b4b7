"""How a case about air, drying, instants or ids is run; climates.ts does the same."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from server import rules
from server.rules import whole
from tests.rules.expand import full_id

Case = dict[str, Any]


def run_climate(given: Case) -> Case:
    """Whole tenths and whole per cent of everything that the case gives enough for."""
    found: Case = {}
    if "temp" in given:
        found["dew_point"] = whole(rules.dew_point(given["temp"], given["rh"], 1))
    if "inside" in given:
        found["room_rh"] = whole(rules.room_rh(given["temp"], given["rh"], given["inside"], 1))
    if "fahrenheit" in given:
        found["celsius"] = whole(rules.celsius(given["fahrenheit"]))
    if "celsius" in given:
        found["fahrenheit"] = whole(rules.fahrenheit(given["celsius"]))
    if "fahrenheit_apart" in given:
        found["celsius_apart"] = whole(rules.celsius_difference(given["fahrenheit_apart"]))
    if "celsius_apart" in given:
        found["fahrenheit_apart"] = whole(rules.fahrenheit_difference(given["celsius_apart"]))
    return found


def run_drying(given: Case) -> Case:
    """When the coat is ready, and how much of it is dry at `until` if the case asks."""
    coat, readings = given["coat"], given["readings"]
    found: Case = {"ready": rules.ready(coat, readings, 1)}
    if "until" in given:
        found["dried"] = rules.dried(coat, readings, given["until"], 1)
    return found


def run_ids(given: Case) -> Case:
    """The id of [what, of whom, which]."""
    what, of, *which = given["value"]
    made: dict[str, Callable[..., str]] = {
        "stream": rules.stream_id,
        "air": rules.air_id,
        "heat": rules.heat_id,
        "forecast": rules.forecast_id,
        "learned": rules.learned_id,
    }
    return {"text": made[what](full_id(of), *which)}


def run_instants(given: Case) -> Case:
    """Seconds since 1970, and these as an instant again."""
    found = rules.seconds(given["value"])
    return {"seconds": found, "text": rules.instant(found)}
