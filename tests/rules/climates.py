"""How a case about air or drying is run; climates.ts does the same."""

from __future__ import annotations

from typing import Any

from server import rules
from server.rules import whole

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
