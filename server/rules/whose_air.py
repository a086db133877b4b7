"""Whose air a coat dries in: the room's or the module's, else the yard's, turned into room air where the heat is on.

The air in a closed, heated module is not the yard's. Outside air is taken only where nobody has read the inside, and
said so. From outside air to a heated room the *moisture* stays, not the relative humidity.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import Any

from server.rules.climate import room_rh, whole
from server.rules.drying import rate
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place
from server.rules.vocabulary import CURRENT, tables

Row = tuple[int, int, int, int, str]
Air = dict[str, Any]


def air_for(place: Place, room: str, start: int, until: int) -> Air:
    """{rows: [{time, temp, rh, rate, whose, read}], whose, flags} that a coat laid at `start` dries in.

    Only rows that hold from `start` on, read up to `until` (if there are none: later ones). `time` is from
    when a row counts, `read` when it was read. `whose`: of the latest. Flags: `outside` (not heated), `heated`.
    """
    inside, outside = (_known(rows, until) for rows in (inside_rows(place, room), outside_rows(place)))
    if not inside and not outside:
        inside, outside = inside_rows(place, room), outside_rows(place)
    gap = tables(CURRENT)["drying"]["limits"]["gap_minutes"] * 60
    if inside:
        first = inside[0][0]
        outside = [] if first <= start + gap else [row for row in outside if row[0] < first]
    elsewhere = _heated(place, _in_force(outside, start), start, until)
    rows = _from(elsewhere + [_row(*row) for row in _in_force(inside, start)], start)
    told = {row["whose"] for row in rows}
    flags = [flag for flag in ("outside", "heated") if flag in told]
    return {"rows": rows, "whose": rows[-1]["whose"] if rows else None, "flags": flags}


def inside_rows(place: Place, room: str) -> list[Row]:
    """(time, rate, temp, rh, whose) of the room and of its module, in order; of one time the slowest."""
    cache: dict[str, list[Row]] = place["rows"]
    if f"room {room}" not in cache:
        own = [part for part in place["airs"] if part["where"] == "room" and part["room"] == room]
        module = [part for part in place["airs"] if part["where"] == "module"]
        cache[f"room {room}"] = _sorted([*own, *module])
    return cache[f"room {room}"]


def outside_rows(place: Place) -> list[Row]:
    """The same of the yard."""
    cache: dict[str, list[Row]] = place["rows"]
    if "yard" not in cache:
        cache["yard"] = _sorted(place["outside"])
    return cache["yard"]


def _sorted(airs: list[Part]) -> list[Row]:
    found = []
    for air in airs:
        whose = "outside" if air["where"] == "yard" else air["where"]
        found += [(row[0], row[3], row[1], row[2], whose) for row in air["rows"]]
    found.sort()
    return [row for at, row in enumerate(found) if at == 0 or found[at - 1][0] != row[0]]


def _known(rows: list[Row], until: int) -> list[Row]:
    return rows[: bisect_right(rows, until, key=_time)]


def _in_force(rows: list[Row], start: int) -> list[Row]:
    """From the last one on that was read by `start`."""
    return rows[max(0, bisect_right(rows, start, key=_time) - 1) :]


def _time(row: Row) -> int:
    return row[0]


def _row(time: int, speed: int, temp: int, rh: int, whose: str, read: int | None = None) -> Air:
    return {"time": time, "temp": temp, "rh": rh, "rate": speed, "whose": whose, "read": time if read is None else read}


def _from(rows: list[Air], start: int) -> list[Air]:
    """Without what ended by `start`: the inside may have been read since the last reading outside."""
    last = max((row["time"] for row in rows if row["time"] <= start), default=None)
    return rows if last is None else [row for row in rows if row["time"] >= last]


def _heated(place: Place, rows: list[Row], start: int, until: int) -> list[Air]:
    """Outside rows as they count: as room air from when the heat is on, the row in force then from then on."""
    heat = place["heat"]
    since = seconds(heat["since"] or heat["time"]) if heat and heat["on"] and heat["to"] is not None else until + 1
    found = []
    for at, (time, speed, temp, rh, whose) in enumerate(rows):
        counts = min(time, start) if at == 0 else time
        after = rows[at + 1][0] if at + 1 < len(rows) else None
        warm = since <= until and temp < heat["to"]
        if not warm or counts < since:
            found.append(_row(counts, speed, temp, rh, whose, time))
        if warm and (after is None or since < after):
            found.append(_warmed(max(counts, since), temp, rh, heat["to"], time))
    return found


def _warmed(time: int, temp: int, rh: int, to: int, read: int) -> Air:
    inside = room_rh(temp, rh, to, CURRENT)
    return _row(time, rate(to, inside, CURRENT), to, whole(inside), "heated", read)
