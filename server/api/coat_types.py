"""The types of kinds.json for coats, readings, heat and forecast: as in types.py, a check and its JSON Schema.

Temperatures are whole tenths of a degree Celsius, RH whole per cent; 0 and 100 are air, 130 is none.
"""

from __future__ import annotations

from typing import Any

from server.api.types import (
    LIST,
    MOST,
    OBJECT,
    STRING,
    WALLS,
    WHOLE,
    Check,
    count,
    flag,
    instant,
    key,
    keyed,
    many,
    name,
    one_of,
    record,
    room_or_rest,
    row,
    text,
    unique,
    whole,
)
from server.rules import tables

NIGHTS, ROOMS = 14, 60
TABLES = tables(1)
coat = one_of(*TABLES["schedule"]["coats"])
material = one_of(*TABLES["drying"]["materials"])
family = one_of(*(one["family"] for one in TABLES["schedule"]["coats"].values()))
thickness = one_of(*TABLES["drying"]["thickness"])
tries = unique(one_of(*TABLES["schedule"]["tries"]))
paint = record(product_=text, colour_=text, batch_=text, can_=text)
meter = record(scale=one_of("gypsum", "wood"), value=whole(0, 1000))
temp, rh = whole(-600, 600), whole(0, 100)
reading = row(lambda at: at is None or instant(at), temp, rh, lambda surface: surface is None or temp(surface))
yard_coats = record(order_=unique(coat), names_=keyed(coat, name), crews_=keyed(family, key), learned_=flag)
factor = record(percent=whole(1, 1000), looks=count)
bounds = record(**{"from": instant, "to": instant, "low": temp})


def some(check: Check, most: int = MOST) -> Check:
    """A list with something in it."""
    return lambda value: isinstance(value, list) and len(value) > 0 and many(check, most)(value)


def reason(value: Any) -> bool:
    """A text that says something."""
    return text(value) and bool(value.strip())


def rooms(value: Any) -> bool:
    return some(key, ROOMS)(value) and unique(key)(value)


def night(value: Any) -> bool:
    """The lowest air between two instants."""
    return bounds(value) and bool(value["from"] < value["to"])


def choice(*values: str) -> tuple[Check, dict[str, Any]]:
    return one_of(*values), {**STRING, "enum": list(values)}


def list_of(items: dict[str, Any], most: int, **more: Any) -> dict[str, Any]:
    return {**LIST, "items": items, "minItems": 1, "maxItems": most, **more}


INSTANT = {**STRING, "format": "date-time"}
ROW = (
    "[instant or null (read as it was written), air, RH, surface or null]: "
    "tenths of a degree Celsius from -600 to 600, whole per cent from 0 to 100"
)
TYPES: dict[str, tuple[Check, dict[str, Any]]] = {
    "air_rows": (some(reading), list_of(LIST, MOST, description=ROW)),
    "air_source": choice("hand", "logger", "sensor"),
    "coat": (coat, STRING),
    "coat_rooms": (rooms, list_of(STRING, ROOMS)),
    "coat_surface": choice(*WALLS, "ceiling"),
    "factors": (keyed(material, factor), OBJECT),
    "forecast_source": choice("typed", "hourly"),
    "instants": (some(instant), list_of(INSTANT, MOST)),
    "material": (material, STRING),
    "meter": (meter, {**OBJECT, "description": "a scale and tenths of a per cent on it"}),
    "nights": (some(night, NIGHTS), list_of(OBJECT, NIGHTS)),
    "paint": (paint, OBJECT),
    "reason": (reason, {**STRING, "minLength": 1}),
    "room_coats": (keyed(room_or_rest, unique(coat)), OBJECT),
    "temp": (temp, {**WHOLE, "minimum": -600, "maximum": 600, "description": "tenths of a degree Celsius"}),
    "thickness": (thickness, STRING),
    "tries": (tries, {**LIST, "items": STRING}),
    "unvented": choice("propane", "natural_gas"),
    "where": choice("room", "module", "yard"),
    "yard_coats": (yard_coats, OBJECT),
}
