"""A first guess at how a file is to be read, from the names of its columns and what stands in them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from server.loggers.plan import Plan
from server.loggers.text import Rows, delimiter_of, rows_of
from server.loggers.times import FORMS, read
from server.loggers.trouble import NotRead, shown

TIME = r"time|date|stamp|fecha|hora|zeit|datum|uhr"
TEMP = r"temp"
NOT_AIR = r"dew|roc[ií]o|tau|surf|wall|superf|pared|ober|wind|feels|heat ?index|apparent"
SURFACE = r"surf|wall|superf|pared|ober"
HUMID = r"\br\.?h\b|hum|feucht"
NOT_RELATIVE = r"abs|spec|\bg ?/"
SCALE = r"[°º]\s*([FC])\b|[(\[]\s*([FC])\s*[)\]]|(?:\b|_)([FC])\b|(fahrenheit)|(celsius|cent[ií]grad)"
OFFSET = r"(?:GMT|UTC)\s*([+-]\d{1,2}(?::?\d{2})?)"
HEADS_WITHIN, SAMPLE = 40, 2000
_DECIMAL_COMMA = re.compile(r"[+−-]?\d+,\d+ ?[%°FC]*")


@dataclass(frozen=True)
class Guess:
    """`asks`: the fields that the file does not settle, for a person to confirm."""

    plan: Plan
    names: list[str]
    rows: Rows
    asks: list[str]


def guessed(text: str, zone: str | None, wants_rh: bool, chosen: dict[str, Any]) -> Guess:
    """`zone`: what to offer for times that carry no offset; `chosen` by a person: what hangs on that is read there."""
    mark = chosen.get("delimiter") or delimiter_of(text)
    rows = rows_of(text, mark)
    line, names = head_of(rows, chosen.get("head"))
    below = [row for row in rows if row[0] > line]
    if not below:
        raise NotRead("head_only")
    asks: list[str] = []
    temp, rh, surface = columns_of(names, below, wants_rh, asks)
    temp, rh = chosen.get("temp", temp), chosen.get("rh", rh)
    times = chosen.get("times") or times_of(names, below, asks)
    said = [" ".join(cells[place] for place in times if place < len(cells)) for _, cells in below[:SAMPLE]]
    unit = unit_of(_name(names, temp), [cells[temp] for _, cells in below[:SAMPLE] if temp < len(cells)], asks)
    decimal = decimal_of(below[:SAMPLE], [place for place in (temp, rh) if place is not None])
    plan = Plan(mark, decimal, line, times, form_of(said, asks), temp, unit, rh, surface)
    return Guess(with_zone(plan, names, said, zone, asks), names, rows, asks)


def head_of(rows: Rows, told: int | None) -> tuple[int, list[str]]:
    """The line of the names (0 when there is none) and the names, one for every column."""
    width = max(len(cells) for _, cells in rows[:SAMPLE])
    line, cells = next((row for row in rows if row[0] == told), (0, [])) if told is not None else _head(rows)
    names = [*cells, *([""] * width)][:width]
    return line, [name or f"{at + 1}" for at, name in enumerate(names)]


def _head(rows: Rows) -> tuple[int, list[str]]:
    """The first row that names times and something measured; else the one above the first row that holds a time."""
    for line, cells in rows[:HEADS_WITHIN]:
        if place(cells, TIME) is not None and (places(cells, TEMP) or places(cells, HUMID)):
            return line, cells
    above: tuple[int, list[str]] = (0, [])
    for line, cells in rows[:HEADS_WITHIN]:
        if any(forms_of([cell]) for cell in (*cells, *map(" ".join, pairwise(cells)))):
            return above
        above = (line, cells)
    raise NotRead("no_times", names=", ".join(map(shown, rows[0][1][:20])))


def places(names: list[str], pattern: str, unless: str | None = None) -> list[int]:
    """The columns whose names say so."""
    said = [at for at, name in enumerate(names) if re.search(pattern, name, re.IGNORECASE)]
    return [at for at in said if not (unless and re.search(unless, names[at], re.IGNORECASE))]


def place(names: list[str], pattern: str) -> int | None:
    return next(iter(places(names, pattern)), None)


def columns_of(names: list[str], rows: Rows, wants_rh: bool, asks: list[str]) -> tuple[int, int | None, int | None]:
    """The places of air, humidity and surface temperature; what no name tells is asked, with a number offered."""
    temps, rhs = places(names, TEMP, NOT_AIR), places(names, HUMID, NOT_RELATIVE)
    temp, rh, surface = next(iter(temps), None), next(iter(rhs), None), place(names, SURFACE)
    first = rows[0][1]
    spare = [at for at, cell in enumerate(first) if _is_number(cell) and not forms_of([cell])]
    spare = [at for at in spare if at not in (temp, rh, surface)]
    if temp is None:
        asks.append("temp")
        temp = spare.pop(0) if spare else len(names) - 1
    # Two of a name, or inside and outside: which of them, no name tells.
    asks += ["temp"] * (len(temps) > 1) + ["rh"] * (len(rhs) > 1 and wants_rh)
    if rh is None and wants_rh:
        asks.append("rh")
        rh = spare.pop(0) if spare else len(names) - 1
    return temp, rh if wants_rh else None, surface


def times_of(names: list[str], rows: Rows, asks: list[str]) -> tuple[int, ...]:
    """One column with whole times, or one of days and one of hours."""
    named = [at for at, name in enumerate(names) if re.search(TIME, name, re.IGNORECASE)] or [*range(len(names))]
    first = rows[0][1]
    whole = [at for at in named if at < len(first) and forms_of([first[at]])]
    if whole:
        return (whole[0],)
    for at in named:
        for other in named:
            if at != other and max(at, other) < len(first) and forms_of([f"{first[at]} {first[other]}"]):
                return (at, other)
    if len(named) == len(names):
        asks.append("times")
    return (named[0],)


def forms_of(said: list[str]) -> list[str]:
    """The forms in which every one of these can be read."""
    return [form for form in FORMS if all(_reads(one, form) for one in said)]


def form_of(said: list[str], asks: list[str]) -> str:
    """The one form in which most can be read; asks when day and month could be either."""
    counts = {form: sum(_reads(one, form) for one in said) for form in FORMS}
    best = max(counts.values())
    good = [form for form, count in counts.items() if count == best]
    if best and {"mdy", "dmy"} <= set(good):
        asks.append("form")
        return "dmy" if "." in said[0].split(" ")[0] else "mdy"
    return good[0]


def unit_of(name: str, cells: list[str], asks: list[str]) -> str:
    """What the column's name or its cells say; else asked, with the likelier one offered."""
    found = re.search(SCALE, name, re.IGNORECASE)
    if found:
        return next(one for one in found.groups() if one)[0].upper()
    written = {cell[-1].upper() for cell in cells if cell}
    if written and written <= {"F", "C"} and len(written) == 1:
        return written.pop()
    asks.append("unit")
    values = sorted(float(cell.replace(",", ".")) for cell in cells if _is_number(cell))
    return "F" if values and values[len(values) // 2] > 40 else "C"


def decimal_of(rows: Rows, places: list[int]) -> str:
    cells = (cells[at] for _, cells in rows for at in places if at < len(cells))
    return "," if any(_DECIMAL_COMMA.fullmatch(cell) for cell in cells) else "."


def with_zone(plan: Plan, names: list[str], said: list[str], offered: str | None, asks: list[str]) -> Plan:
    """Times that carry no offset need a zone: the head's own, or the one offered, which a person confirms."""
    if all(_carries(one, plan.form) for one in said):
        return plan
    heads = " ".join(_name(names, at) for at in plan.times)
    told = re.search(OFFSET, heads, re.IGNORECASE)
    if not told:
        asks.append("zone")
    return replace(plan, zone=told[1] if told else offered)


def _name(names: list[str], at: int) -> str:
    return names[at] if at < len(names) else ""


def _carries(cell: str, form: str) -> bool:
    return not _reads(cell, form) or read(cell, form).tzinfo is not None


def _reads(cell: str, form: str) -> bool:
    try:
        read(cell, form)
    except NotRead:
        return False
    return True


def _is_number(cell: str) -> bool:
    return re.fullmatch(r"[+-]?[0-9]{1,9}([.,][0-9]{1,9})?", cell) is not None
