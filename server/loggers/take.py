"""The rows of a file by a confirmed plan. What cannot be read is told by its line; nothing is dropped in silence."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from itertools import pairwise
from typing import Any

from server.loggers.measures import humidity, temperature
from server.loggers.plan import Plan
from server.loggers.text import Rows
from server.loggers.times import moment_of, read, written, zone_of
from server.loggers.trouble import NotRead, Trouble

Timed = tuple[int, list[str], datetime | NotRead]
AHEAD = 600
GAP_DAYS = 2


@dataclass(frozen=True, order=True)
class Row:
    """One reading: `at` seconds since 1970, tenths °C, whole per cent (None in a forecast); `line` in its file."""

    at: int
    temp: int
    rh: int | None
    surface: int | None = None
    line: int = field(default=0, compare=False)


@dataclass
class Found:
    """`rows` in order of time, each once; `refused` by line; `notes` are what a person should look at."""

    rows: list[Row] = field(default_factory=list)
    refused: list[Trouble] = field(default_factory=list)
    notes: list[Trouble] = field(default_factory=list)
    repeated: int = 0

    def readings(self) -> list[tuple[int, int, int, int | None]]:
        """The rows as the journal takes them; not for a forecast, which knows no humidity."""
        return [(row.at, row.temp, row.rh, row.surface) for row in self.rows if row.rh is not None]

    def late(self, readings: list[tuple[int, int, int, int | None]], named: str) -> None:
        """Counts what the journal found too old among the refused; `named`: by row or by line."""
        lines = {(row.at, row.temp, row.rh, row.surface): row.line for row in self.rows}
        self.refused += [{"key": "too_old", "value": written(one[0]), named: lines[one]} for one in readings]
        self.refused.sort(key=lambda one: int(one[named]))


def taken(rows: Rows, plan: Plan, now: int | None) -> Found:
    """Reads every row under the head. `now`: refuse what is more than ten minutes later; None for a forecast."""
    head = next((cells for line, cells in rows if line == plan.head), [])
    rows = [row for row in rows if row[0] > plan.head]
    if not rows:
        raise NotRead("head_only")
    found, good, doubled, before = Found(), list[Row](), list[int](), None
    zone = zone_of(plan.zone) if plan.zone else None
    for line, cells, told in forwards([(line, cells, _told(cells, plan)) for line, cells in rows]):
        try:
            if isinstance(told, NotRead):
                raise told
            if head and any(cells[len(head) :]):
                # Decimal commas in a file of commas: every later column would be another's.
                raise NotRead("many_fields", n=len(cells), wanted=len(head))
            at, twice = moment_of(told, zone, before)
            before = at
            if now is not None and at > now + AHEAD:
                raise NotRead("in_the_future", value=written(at))
            good.append(_row(cells, plan, at, line))
        except NotRead as error:
            found.refused.append({**error.told, "line": line})
            continue
        if twice:
            doubled.append(line)
    fractions = sum(one["key"] == "rh_fraction" for one in found.refused)
    if fractions > 1:
        # Not a bad row or two, but how the file is written: said once, with what to do. There 1.02 is 102 %, not 1 %.
        over = [row for row in good if row.rh in (1, 2)]
        good = [row for row in good if row.rh not in (1, 2)]
        found.refused += [{"key": "rh_fraction", "value": str(row.rh), "line": row.line} for row in over]
        found.notes.append({"key": "rh_fractions", "n": fractions + len(over)})
    found.refused.sort(key=lambda one: int(one["line"]))
    return settled(found, good, doubled)


def forwards(rows: list[Timed]) -> list[Timed]:
    """Oldest first: some loggers write the newest on top, and the doubled hour is told apart by what came before."""
    walls = [told.replace(tzinfo=None) for _, _, told in rows if isinstance(told, datetime)]
    downs = sum(two < one for one, two in pairwise(walls))
    return rows[::-1] if 2 * downs > len(walls) - 1 else rows


def _told(cells: list[str], plan: Plan) -> datetime | NotRead:
    try:
        return read(" ".join(_cell(cells, place) for place in plan.times), plan.form)
    except NotRead as error:
        return error


def _row(cells: list[str], plan: Plan, at: int, line: int) -> Row:
    temp, rh = _cell(cells, plan.temp), None if plan.rh is None else _cell(cells, plan.rh)
    if not temp and not rh:
        raise NotRead("no_measure")
    surface = _cell(cells, plan.surface) if plan.surface is not None and plan.surface < len(cells) else ""
    return Row(
        at,
        temperature(temp, plan.unit, plan.decimal),
        None if rh is None else humidity(rh, plan.decimal),
        temperature(surface, plan.unit, plan.decimal) if surface else None,
        line,
    )


def _cell(cells: list[str], place: int) -> str:
    if place >= len(cells):
        raise NotRead("few_fields", n=len(cells), wanted=place + 1)
    return cells[place]


def settled(found: Found, rows: list[Row], doubled: list[int]) -> Found:
    """In order, each once, and notes about what was sorted, doubled, missing or doubtful."""
    found.rows = sorted(set(rows), key=lambda row: (row.at, row.temp, row.rh or 0, row.surface or 0))
    found.repeated = len(rows) - len(found.rows)
    steps = [(one.at, two.at) for one, two in pairwise(found.rows)]
    gaps = [(start, end) for start, end in steps if end - start >= GAP_DAYS * 86_400]
    counts = {
        "out_of_order": sum(two.at < one.at for one, two in pairwise(rows)),
        "same_time": sum(start == end for start, end in steps),
        "hour_twice": len(doubled),
        "saturated": sum(row.rh == 100 for row in found.rows),
        "bone_dry": sum(row.rh == 0 for row in found.rows),
    }
    found.notes += [_noted(key, n, doubled) for key, n in counts.items() if n]
    found.notes += [
        {"key": "days_missing", "n": (end - start) // 86_400, "from": written(start), "to": written(end)}
        for start, end in gaps[:20]
    ]
    return found


def _noted(key: str, n: int, doubled: list[int]) -> dict[str, Any]:
    return {"key": key, "n": n, **({"line": min(doubled)} if key == "hour_twice" else {})}
