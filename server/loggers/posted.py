"""The rows of a sensor's POST: each judged alone, so that a bad one never costs the others."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from server.loggers.measures import per_cent, tenths, told_number
from server.loggers.take import AHEAD, Found, Row, settled
from server.loggers.times import written
from server.loggers.trouble import NotRead, shown, shown_value

MOST_ROWS = 500
KEYS = frozenset({"at", "temp_c", "temp_f", "rh", "surface_c", "surface_f"})


def posted(rows: list[Any], now: int) -> Found:
    """`refused` carries `row`, the place in the POST, from 0. A row without `at` was measured now."""
    found, good = Found(), list[Row]()
    for place, one in enumerate(rows):
        try:
            good.append(_row(one, now, place))
        except NotRead as error:
            found.refused.append({**error.told, "row": place})
    return settled(found, good, [])


def _row(one: Any, now: int, place: int) -> Row:
    if not isinstance(one, dict):
        raise NotRead("no_row")
    unknown = sorted(one.keys() - KEYS)
    if unknown:
        raise NotRead("field_unknown", name=shown(unknown[0]))
    temp = _degrees(one, "temp")
    if temp is None:
        raise NotRead("field_missing", name="temp_c")
    if "rh" not in one:
        raise NotRead("field_missing", name="rh")
    at = _instant(one["at"]) if "at" in one else now
    if at > now + AHEAD:
        raise NotRead("in_the_future", value=written(at))
    return Row(at, temp, per_cent(told_number(one["rh"])), _degrees(one, "surface"), place)


def _degrees(one: dict[str, Any], name: str) -> int | None:
    scales = [scale for scale in "cf" if f"{name}_{scale}" in one]
    if len(scales) == 2:
        raise NotRead("two_scales", name=name)
    if not scales or (name == "surface" and one[f"{name}_{scales[0]}"] is None):
        return None
    return tenths(told_number(one[f"{name}_{scales[0]}"]), scales[0].upper())


def _instant(value: Any) -> int:
    """RFC 3339 with an offset; whole seconds are kept."""
    if not isinstance(value, str) or len(value) > 40 or "T" not in value.upper():
        raise NotRead("no_time", value=shown_value(value))
    try:
        moment = datetime.fromisoformat(value.upper())
    except ValueError as error:
        raise NotRead("no_time", value=shown(value)) from error
    if moment.tzinfo is None:
        raise NotRead("offset_missing", value=shown(value))
    if not 2000 <= moment.year < 2200:
        raise NotRead("clock_unset", value=shown(value))
    return int(moment.timestamp())
