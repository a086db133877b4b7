"""What would make a coat dry sooner: heat the room, dry its air, or wait; each from now on, with the hours saved.

Once its time by the table is over nothing of this helps: somebody looks.

Heating leaves the moisture where it is (constant vapour pressure), so the air gets drier; an unvented heater adds the
water that its fuel burns to: C3H8 + 5 O2 -> 4 H2O, 1.63 lb a pound of propane; CH4 + 2 O2 -> 2 H2O, 2.25 lb a pound of
natural gas. In a shut room that is many points of RH, and it takes back a part of what the heat gains.
"""

from __future__ import annotations

from typing import Any

from server.rules.climate import room_rh, saturation, whole
from server.rules.clocks import Clock, clock, drying_of
from server.rules.drying import ready
from server.rules.parts import Part
from server.rules.place import Place
from server.rules.vocabulary import CURRENT, tables
from server.rules.whose_air import air_for

Help = dict[str, Any]
KILOGRAMS = 0.45359237  # a pound
VAPOUR_CONSTANT = 461.5  # J/(kg K), of water
FREEZING = 2731.5  # tenths of a kelvin


def what_helps(place: Place, room: str, coat: Part, now: int) -> list[Help]:
    """[{key: heat|dry_air|wait|look, to, likely, by_table, saved_minutes, room_rh, water_per_lb}], most saved first.

    `to`: tenths °C, or per cent; null for waiting. `saved_minutes`: by the table, against waiting; null where waiting
    dries nothing. Only what saves something, and waiting always. Nothing but waiting while nobody has read the air, and
    nothing but `look`, with the ends that have been, once it is over by the table.
    """
    told = clock(place, coat, room, now)
    rows = [row for row in air_for(place, room, told["laid"], now)["rows"] if row["time"] <= now]
    if told["by_table"] is not None and told["by_table"] <= now:
        return [_help("look", None, told, told, told["latest"]["rh"] if told["latest"] else None)]
    wait = _help("wait", None, told, told, told["latest"]["rh"] if told["latest"] else None)
    if not rows:
        return [wait]
    table, (temp, rh) = tables(CURRENT)["helps"], (rows[-1]["temp"], rows[-1]["rh"])
    found = []
    if temp < table["heat_to"]:
        inside = room_rh(temp, rh, table["heat_to"], CURRENT)
        then = _from_now(coat, told, rows, now, table["heat_to"], inside)
        heat = _help("heat", table["heat_to"], then, told, whole(inside))
        found.append(heat | {"water_per_lb": water_per_lb(place, room, table["heat_to"])})
    if rh > table["dry_to"]:
        then = _from_now(coat, told, rows, now, temp, table["dry_to"])
        found.append(_help("dry_air", table["dry_to"], then, told, table["dry_to"]))
    saving = [one for one in found if one["by_table"] is not None and one["saved_minutes"] != 0]
    return [*sorted(saving, key=lambda one: int(one["by_table"])), wait]


def water_per_lb(place: Place, room: str, temp: int) -> dict[str, Any]:
    """{fuel, lb_hundredths, rh_points, measured}: the water of a pound of fuel, as points of RH in the shut room.

    The fuel that was told, else propane. `measured` 0: nobody has measured the room, the points are for 1000 ft³.
    """
    table, heat = tables(CURRENT)["helps"], place["heat"]
    fuel: str = (heat["unvented"] if heat else None) or "propane"
    rooms = place["plan"]["rooms"] if place["plan"] else []
    sizes = [one["l"] * one["w"] * one["h"] for one in rooms if one["id"] == room]
    cubic_metres = (sizes[0] if sizes else table["volume"]) / 1000000000
    kilograms = table["water"][fuel] * KILOGRAMS / 100
    pascals = kilograms * VAPOUR_CONSTANT * (temp + FREEZING) / 10 / cubic_metres
    points = whole(pascals * 10000 / saturation(temp, CURRENT))
    return {"fuel": fuel, "lb_hundredths": table["water"][fuel], "rh_points": points, "measured": 1 if sizes else 0}


def _from_now(coat: Part, told: Clock, rows: list[dict[str, Any]], now: int, temp: int, rh: float) -> dict[str, Any]:
    """When it is dry if the air is like that from now on."""
    before = [row | {"time": min(row["time"], now - 1)} for row in rows]
    after = {"time": now, "temp": temp, "rh": rh}
    return ready(drying_of(coat, told["laid"], told["factor"]), [*before, after], CURRENT)


def _help(key: str, to: int | None, then: dict[str, Any], told: Clock, rh: int | None) -> Help:
    by_table, waiting = then["by_table"], told["by_table"]
    saved = None if by_table is None or waiting is None else (waiting - by_table) // 60
    ends = {"likely": then["likely"], "by_table": by_table}
    return {"key": key, "to": to, **ends, "saved_minutes": saved, "room_rh": rh, "water_per_lb": None}
