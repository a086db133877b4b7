"""Readings and forecasts that come without a phone: from a sensor, a logger's file or an hourly forecast.

The server's own device writes them, `by` the person who brought them in, in one transaction. What the journal knows
already is not written again, so that the same file or POST may come as often as it likes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection

from server.clock import Clock
from server.db import writing
from server.journal.writer import SERVER, Writer
from server.rules import Workspace, air_id, forecast_id, instant, rooms_of, stream_id, value

BATCH = 500
# seconds since 1970, tenths °C, per cent, tenths °C of a surface or None
Reading = tuple[int, int, int, int | None]


class NoPlace(Exception):
    """Nothing can be read there; `reason`: no_module, module_left or no_room."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True)
class Place:
    """A room of a module, a module, or the yard outside; and what read there."""

    module: str | None
    room: str | None
    source: str
    name: str | None = None

    def body(self) -> dict[str, Any]:
        told = {"where": "room" if self.room else "module" if self.module else "yard", "source": self.source}
        told |= {"room": self.room} if self.room else {}
        return told | ({"name": self.name} if self.name else {})


@dataclass
class Brought:
    """Readings taken, known already, and older than what stands in their place."""

    taken: list[Reading] = field(default_factory=list)
    known: list[Reading] = field(default_factory=list)
    too_old: list[Reading] = field(default_factory=list)
    entries: int = 0


def bring_readings(place: Place, readings: list[Reading], clock: Clock, by: str = SERVER) -> Brought:
    """Writes what is new, at most 500 rows an entry. NoPlace when there is no such module or room."""
    with writing() as connection:
        writer = Writer(connection, clock)
        check_place(writer.work, place.module, place.room)
        stream = stream_id(place.module or writer.yard, place.room)
        writer.prefetch({("air", air_id(stream, row[0])) for row in readings})
        found = sorted_out(writer.work, stream, readings)
        for start in range(0, len(found.taken), BATCH):
            rows = [[instant(row[0]), *row[1:]] for row in found.taken[start : start + BATCH]]
            writer.say("reading.taken", place.module, stream, {**place.body(), "rows": rows}, by)
            found.entries += 1
        writer.flush()
        return found


def bring_nights(nights: list[dict[str, Any]], clock: Clock, by: str = SERVER) -> int:
    """Tells the lows of nights {from, to, low}, 14 at most; how many were not told like that already."""
    with writing() as connection:
        writer = Writer(connection, clock)
        about = forecast_id(writer.yard)
        part = writer.work.part("forecast", about)
        told = {(one["from"], one["to"], one["low"]) for one in part["nights"]} if part else set()
        new = [one for one in nights if (one["from"], one["to"], one["low"]) not in told]
        if new:
            writer.say("forecast.told", None, about, {"nights": new, "source": "hourly"}, by)
        writer.flush()
        return len(new)


def place_exists(connection: Connection, module: str | None, room: str | None, clock: Clock) -> None:
    """NoPlace when there is no such module, it has left, or it has no such room."""
    check_place(Writer(connection, clock).work, module, room)


def check_place(work: Workspace, module: str | None, room: str | None) -> None:
    """The same, inside a transaction. A module whose rooms nobody has told takes any."""
    if module is None:
        if room is not None:
            raise NoPlace("no_room")
        return
    part = work.part("module", module)
    if part is None:
        raise NoPlace("no_module")
    if part["left"]:
        raise NoPlace("module_left")
    rooms = rooms_of(part, work.part("plan", value(part["heads"], "plan") or ""))
    if room is not None and rooms and room not in rooms:
        raise NoPlace("no_room")


def sorted_out(work: Workspace, stream: str, readings: list[Reading]) -> Brought:
    """Which of these the stream has, and which are of days whose place a later one took."""
    found, days = Brought(), dict[str, tuple[str, set[Reading]]]()
    for one in sorted(set(readings), key=lambda row: (row[:3], row[3] is not None, row[3] or 0)):
        part_id, date = air_id(stream, one[0]), instant(one[0])[:10]
        if part_id not in days:
            part = work.part("air", part_id)
            told = {(r[0], r[1], r[2], r[4]) for r in part["rows"]} if part else set()
            # What somebody took back does not come again with the file.
            days[part_id] = (part["day"], told | {tuple(one) for one in part.get("struck", [])}) if part else ("", told)
        kept, rows = days[part_id]
        if kept > date:
            found.too_old.append(one)
        elif kept == date and one in rows:
            found.known.append(one)
        else:
            found.taken.append(one)
    return found
