"""A logger's CSV: columns guessed from their names, °F or °C, semicolons, decimal commas, a byte-order mark.

Nothing is dropped in silence: a row that cannot be read refuses the file and is named; what was sorted, doubled or
guessed is said in the notes.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from datetime import tzinfo
from itertools import pairwise
from typing import Any

from server.cli.measures import humidity, instant, temperature, written

Reading = dict[str, Any]


def readings_of(data: bytes, zone: tzinfo | None, unit: str | None, now: int) -> tuple[list[Reading], list[str]]:
    """The readings {time, temp, rh} in order of time, and notes; ValueError says what cannot be read, and where."""
    notes: list[str] = []
    text = decoded(data, notes)
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        raise ValueError("the file is empty")
    mark = max((";", "\t", ","), key=lines[0].count)
    rows = list(csv.reader(text.splitlines(), delimiter=mark))
    top = next(place for place, row in enumerate(rows) if any(cell.strip() for cell in row))
    columns = Columns([cell.strip() for cell in rows[top]], unit)
    below = [(line, row) for line, row in enumerate(rows[top + 1 :], top + 2) if any(map(str.strip, row))]
    found = [columns.reading(row, line, zone) for line, row in below]
    if not found:
        raise ValueError("the file has a head but no readings")
    commas = any("," in row[columns.temp] for _, row in below)
    kind = {";": "semicolons", "\t": "tabs", ",": "commas"}[mark] + (", decimal commas" if commas else "")
    where = f"“{columns.names[columns.temp]}” in °{columns.unit}, “{columns.names[columns.rh]}” in per cent"
    notes.append(f"{len(found)} readings, read with {kind}: {where}.")
    return in_order(found, notes, now), notes


def decoded(data: bytes, notes: list[str]) -> str:
    """The text of the file, in one of the encodings that loggers write."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16")
    if data.startswith(b"\xef\xbb\xbf"):
        notes.append("The byte-order mark at the beginning was passed over.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


class Columns:
    """Which column holds what."""

    def __init__(self, names: list[str], unit: str | None) -> None:
        self.names = names
        self.times = [place for place, name in enumerate(names) if re.search(r"time|date", name, re.IGNORECASE)][:2]
        self.temp = self.place(r"^(?!.*dew).*temp", "temperature")
        self.rh = self.place(r"\brh\b|rh_|humid", "relative humidity")
        if not self.times:
            raise ValueError(f"no column of times among {', '.join(names)}: its name must hold “time” or “date”")
        scale = re.search(r"(?:°|º|\(|\[|_|\bdeg\.?|\s)\s*([FC])\b|fahrenheit|celsius", names[self.temp], re.IGNORECASE)
        told = scale[1] or scale[0][0] if scale else None
        if not told and not unit:
            raise ValueError(f"“{names[self.temp]}” does not say °F or °C: add --unit F or --unit C")
        self.unit = unit or str(told).upper()

    def place(self, pattern: str, what: str) -> int:
        for place, name in enumerate(self.names):
            if re.search(pattern, name, re.IGNORECASE):
                return place
        raise ValueError(f"no column of {what} among {', '.join(self.names)}")

    def reading(self, row: list[str], line: int, zone: tzinfo | None) -> Reading:
        if len(row) <= max(*self.times, self.temp, self.rh) or any(map(str.strip, row[len(self.names) :])):
            raise ValueError(f"line {line}: {len(row)} fields where the head names {len(self.names)}")
        try:
            return {
                "time": instant(" ".join(row[place].strip() for place in self.times), zone),
                "temp": temperature(row[self.temp], self.unit),
                "rh": humidity(row[self.rh], saturated=True),
            }
        except ValueError as error:
            raise ValueError(f"line {line}: {error}") from error


def in_order(found: list[Reading], notes: list[str], now: int) -> list[Reading]:
    """Sorted by time, with a note for each thing that a person should look at."""
    times = [one["time"] for one in found]
    held = sorted(found, key=lambda one: int(one["time"]))
    counts: dict[str, Callable[[], int]] = {
        "{n} out of order: sorted by time.": lambda: sum(b < a for a, b in pairwise(times)),
        "{n} of a time that is there already: the slower air counts.": lambda: len(times) - len(set(times)),
        "{n} later than now ({now}): taken as a forecast.": lambda: sum(time > now for time in times),
        "{n} of saturated air (100 %): fog, or a wet sensor.": lambda: sum(one["rh"] == 100 for one in found),
    }
    notes += [words.format(n=count(), now=written(now)) for words, count in counts.items() if count()]
    return held
