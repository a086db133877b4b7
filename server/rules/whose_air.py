"""Whose air a coat dries in: the room's or the module's, else the yard's, turned into room air where the heat is on.

The air in a closed, heated module is not the yard's. Outside air is taken only where nobody has read the inside within
4 hours of the laying, and said so. From outside air to a heated room the *moisture* stays, not the relative humidity.
"""

from __future__ import annotations

from bisect import bisect_right
from operator import itemgetter
from typing import Any

from server.rules.climate import room_rh, whole
from server.rules.drying import rate
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place, once
from server.rules.vocabulary import CURRENT, tables

NEVER = 1 << 52
Air = dict[str, Any]
Row = dict[str, Any]


def air_for(place: Place, room: str, start: int, until: int) -> Air:
    """{rows: [{time, temp, rh, rate, whose, read}], whose, flags} that a coat laid at `start` dries in.

    Only rows that hold from `start` on, read up to `until` (if there are none: later ones). `time` is from
    when a row counts, `read` when it was read. `whose`: of the latest. Flags: `outside` (not heated), `heated`.
    """
    all_inside, all_outside = inside_rows(place, room), outside_rows(place)
    inside, outside = _known(all_inside, until), _known(all_outside, until)
    if not inside and not outside:
        inside, outside = all_inside, all_outside
    gap = tables(CURRENT)["drying"]["limits"]["gap_minutes"] * 60
    if inside and outside:
        inside = _of_the_laying(inside, outside, start, gap)
    if inside:
        first = inside[0]["time"]
        outside = [] if first <= start + gap else [row for row in outside if row["time"] < first]
    rows = _in_force(inside, start)
    if outside:
        rows = _from(_heated(place, _in_force(outside, start), start, until) + rows, start)
    told = {row["whose"] for row in rows}
    flags = [flag for flag in ("outside", "heated") if flag in told]
    return {"rows": rows, "whose": rows[-1]["whose"] if rows else None, "flags": flags}


def inside_rows(place: Place, room: str) -> list[Row]:
    """Of the room and of its module, in order; of one time the slowest."""
    own = air_room(place, room)

    def rows() -> list[Row]:
        return _sorted([air for air in place["airs"] if air["where"] == "module" or air["room"] == own])

    return once(place, ("inside", own), rows)


def air_room(place: Place, room: str) -> str:
    """The room itself where it has readings of its own, else "": all such rooms have the same air."""
    read = once(place, ("read",), lambda: {part["room"] for part in place["airs"] if part["where"] == "room"})
    return room if room in read else ""


def outside_rows(place: Place) -> list[Row]:
    """The same of the yard."""
    return once(place, ("outside",), lambda: _sorted(place["outside"]))


def _sorted(airs: list[Part]) -> list[Row]:
    found = []
    for air in airs:
        whose = "outside" if air["where"] == "yard" else air["where"]
        found += [(row[0], row[3], row[1], row[2], whose) for row in air["rows"]]
    found.sort()
    slowest = [row for at, row in enumerate(found) if at == 0 or found[at - 1][0] != row[0]]
    return [_row(time, speed, temp, rh, whose, time) for time, speed, temp, rh, whose in slowest]


def _known(rows: list[Row], until: int) -> list[Row]:
    return rows[: bisect_right(rows, until, key=_time)]


def _in_force(rows: list[Row], start: int) -> list[Row]:
    """From the last one on that was read by `start`."""
    return rows[max(0, bisect_right(rows, start, key=_time) - 1) :]


def _of_the_laying(inside: list[Row], outside: list[Row], start: int, gap: int) -> list[Row]:
    """Without what was read inside more than a gap before, where the yard has been read since: it is not that air."""
    after = bisect_right(inside, start, key=_time)
    there = bisect_right(outside, start, key=_time)
    if after == 0 or there == 0 or inside[after - 1]["time"] >= start - gap:
        return inside
    return inside[after:] if outside[there - 1]["time"] > inside[after - 1]["time"] else inside


_time = itemgetter("time")


def _row(time: int, speed: int, temp: int, rh: int, whose: str, read: int) -> Row:
    return {"time": time, "temp": temp, "rh": rh, "rate": speed, "whose": whose, "read": read}


def _from(rows: list[Row], start: int) -> list[Row]:
    """Without what ended by `start`: the inside may have been read since the last reading outside."""
    last = max((row["time"] for row in rows if row["time"] <= start), default=None)
    return rows if last is None else [row for row in rows if row["time"] >= last]


def _heated(place: Place, rows: list[Row], start: int, until: int) -> list[Row]:
    """Outside rows as they count: as room air while the heat is on, a row in force then split there."""
    spans = [span for span in heat_spans(place["heat"]) if span[0] <= until]
    found = []
    for at, row in enumerate(rows):
        counts = min(row["time"], start) if at == 0 else row["time"]
        after = rows[at + 1]["time"] if at + 1 < len(rows) else NEVER
        for begins, ends, to in spans:
            first, last = max(counts, begins), min(after, ends)
            if first >= last or row["temp"] >= to:
                continue
            if first > counts:
                found.append(row | {"time": counts})
            found.append(_warmed(row, first, to))
            counts = last
        if counts < after:
            found.append(row | {"time": counts})
    return found


def heat_spans(heat: Part | None) -> list[tuple[int, int, int]]:
    """(from, until, to which temperature) of the hours in which the heat is known to be on, in order.

    Each word counts from its own hour on, also over what was said before of later hours. Until NEVER: still on.
    """
    spans: list[tuple[int, int, int]] = []
    for word in (heat.get("words") or [heat]) if heat else []:
        begins = seconds(word["since"] or word["time"])
        spans = [(first, min(last, begins), to) for first, last, to in spans if first < begins]
        if word["on"] and word["to"] is not None:
            spans.append((begins, NEVER, word["to"]))
    return spans


def _warmed(row: Row, counts: int, to: int) -> Row:
    inside = room_rh(row["temp"], row["rh"], to, CURRENT)
    return _row(counts, rate(to, inside, CURRENT), to, whole(inside), "heated", row["read"])
