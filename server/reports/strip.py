"""Where things stand on a drying strip: the same whole numbers as the phone's `parts/strip.ts`.

Places are whole thousandths of the strip's width, shades whole thousandths from wet (0) over damp (500) to dry (1000),
instants whole seconds since 1970. A strip is drawn from {laid, now, likely, by_table, set, dried, wet, dry, air,
offset}: `air` in order of time, the first row also holds backwards to the laying; `dried` is what was dry by the table
at `now`, `wet` and `dry` the time of a look that governs, `offset` the seconds that the yard's clock is ahead of UTC.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

HOUR = 3600
DAY = 24 * HOUR
STEPS = [hours * HOUR for hours in (1, 2, 3, 6, 12, 24, 48, 96, 168)]
MOST_HOURS, SHADES, MOST_STEPS, DAMP = 5, 20, 40, 500
# Words nearer than this to each other read as one.
APART = 30

Strip = dict[str, Any]
Air = Sequence[dict[str, int]]


def strip(of: Strip) -> Strip:
    """{from, until, now, shades, marks, hours, air} of the whole strip; `now` is null when it lies beyond the end."""
    laid, until = int(of["laid"]), _end_of(of)

    def x(at: int) -> int:
        return min(1000, max(0, (at - laid) * 1000 // (until - laid)))

    shade = _shader(of)
    names = ("laid", "set", "wet", "dry", "likely", "by_table")
    return {
        "from": laid,
        "until": until,
        "now": None if of["now"] > until else x(of["now"]),
        "shades": [shade(laid + (until - laid) * n // SHADES) for n in range(SHADES + 1)],
        "marks": [
            {"key": key, "at": of[key], "x": x(of[key])} for key in names if of[key] is not None and of[key] <= until
        ],
        "hours": [{"at": at, "x": x(at)} for at in _hours_of(laid, until, of["offset"])],
        "air": _steps_of(of, until, x),
    }


def _end_of(of: Strip) -> int:
    """A sixth past the table's time; up to the moment now where that is not far behind."""
    laid, now = int(of["laid"]), int(of["now"])
    end = of["by_table"] if of["by_table"] is not None else max(of["likely"] or 0, of["set"] or 0, laid + DAY, now)
    span = max(HOUR, end - laid)
    past = laid + span + span // 6
    return now + span // 12 if past < now <= laid + 2 * span else past


def dose_to(air: Air, laid: int, until: int) -> int:
    """How much the air had dried from the laying to an instant: rate times seconds."""
    dose = 0
    for place, one in enumerate(air):
        start = laid if place == 0 else max(laid, one["time"])
        end = min(until, air[place + 1]["time"] if place + 1 < len(air) else until)
        dose += one["rate"] * max(0, end - start)
    return dose


def _shader(of: Strip) -> Callable[[int], int]:
    """The shade at an instant. A look governs: what somebody found wet is never drawn lighter than damp."""
    air, laid, by_table, dry = of["air"], of["laid"], of["by_table"], of["dry"]
    whole = 0
    if by_table is not None:
        whole = dose_to(air, laid, by_table) // 1000
    elif of["dried"] > 0:
        whole = dose_to(air, laid, of["now"]) // of["dried"]

    def shade(at: int) -> int:
        if dry is not None and at >= dry:
            return 1000
        if by_table is not None and at >= by_table:
            dried = 1000
        else:
            dried = min(1000, dose_to(air, laid, at) // whole) if whole > 0 else 0
        return dried if of["wet"] is None else min(DAMP, dried)

    return shade


def _hours_of(start: int, until: int, offset: int) -> list[int]:
    """Full hours of the yard's clock, at most six of them."""
    step = next((one for one in STEPS if (until - start) // one <= MOST_HOURS), (until - start) // MOST_HOURS)
    return list(range(((start + offset) // step + 1) * step - offset, until, step))


def _steps_of(of: Strip, until: int, x: Callable[[int], int]) -> list[dict[str, int]]:
    """The air along the strip; equal neighbours are one, and of very many only as many as can be seen."""
    read = [row for row in of["air"] if row["time"] < until]
    start = max((place for place, row in enumerate(read) if row["time"] <= of["laid"]), default=0)
    within = read[start:]
    every = max(1, -(-len(within) // MOST_STEPS))
    seen = [row for place, row in enumerate(within) if place % every == 0 or place == len(within) - 1]
    last, kept = x(min(of["now"], until)), list[dict[str, int]]()
    for place, row in enumerate(seen):
        to = x(seen[place + 1]["time"]) if place + 1 < len(seen) else max(last, x(row["time"]))
        if kept and (kept[-1]["temp"], kept[-1]["rh"]) == (row["temp"], row["rh"]):
            kept[-1]["to"] = to
        else:
            kept.append({"x": 0 if place == 0 else x(row["time"]), "to": to, "temp": row["temp"], "rh": row["rh"]})
    return kept


@dataclass(frozen=True)
class Tag:
    """Words at the mark at `x`: which end of them stands there, and the rows that they may take; all in thousandths."""

    key: str
    x: int
    width: int
    by: str
    rows: tuple[int, ...]
    left: int = 0
    row: int = 0
    led: bool = True


def place_tags(tags: Sequence[Tag]) -> list[Tag]:
    """Each in the first of its rows where it touches no other, and no line to a mark runs through it; else left out."""
    placed: list[Tag] = []
    for tag in tags:
        tried = (replace(tag, left=_wished(tag), row=row) for row in tag.rows)
        placed += [one for one in tried if all(_apart(one, other) for other in placed)][:1]
    return placed


def place_every(tags: Sequence[Tag]) -> list[Tag]:
    """The same, and none is left out: what finds no row stands by itself under all others, and no line leads to it."""
    placed = place_tags(tags)
    for tag in tags:
        if min(tag.rows) >= 0 and all(one.key != tag.key for one in placed):
            row = max([-1, *(one.row for one in placed)]) + 1
            placed.append(replace(tag, left=_wished(tag), row=row, led=False))
    return placed


def _wished(tag: Tag) -> int:
    """Where the words begin, as near to their mark as the strip's ends let them."""
    left = {"start": tag.x, "end": tag.x - tag.width}.get(tag.by, tag.x - tag.width // 2)
    return max(0, min(1000 - tag.width, left))


def _apart(one: Tag, other: Tag) -> bool:
    if one.row == other.row:
        return one.left >= other.left + other.width + APART or other.left >= one.left + one.width + APART
    upper, lower = (one, other) if one.row < other.row else (other, one)
    return upper.row < 0 or lower.x < upper.left or lower.x > upper.left + upper.width


def lane(values: Sequence[int], least: int) -> list[int]:
    """A step line through a lane: heights in thousandths from its foot, the range never narrower than `least`."""
    low, high = min(values), max(values)
    wide = max(least, high - low)
    foot = low - (wide - (high - low)) // 2
    return [(value - foot) * 1000 // wide for value in values]
