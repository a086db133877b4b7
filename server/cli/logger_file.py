"""A logger's CSV for one question at a desk: read as on screens, but all of it or nothing, and with nobody to ask."""

from __future__ import annotations

from typing import Any

from server import loggers
from server.reports import say

Reading = dict[str, Any]
OPTIONS = {"zone": "--zone America/Chicago", "unit": "--unit F or --unit C"}
MARKS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}


def sentence(trouble: loggers.Trouble) -> str:
    """A trouble in English, by its line where it has one."""
    told = say(f"loggers.{trouble['key']}", "en", **{name: one for name, one in trouble.items() if name != "key"})
    return f"line {trouble['line']}: {told}" if "line" in trouble and "{line}" not in told else told


def open_questions(look: loggers.Look, how: str = "") -> str:
    """What the file leaves open, and how to say it; empty when nothing is. `how`: the option for everything else."""
    wanted = [OPTIONS.get(name, f"{how} {name}=…" if how else f"a head that tells {name}") for name in look.asks]
    columns = ", ".join(f"{at}: {name}" for at, name in enumerate(look.names))
    return f"it does not say everything: add {', '.join(wanted)}; its columns are {columns}" if wanted else ""


def readings_of(data: bytes, zone: str | None, unit: str | None, now: int) -> tuple[list[Reading], list[str]]:
    """The readings {time, temp, rh} in order of time, and notes; ValueError says what cannot be read, and where."""
    told = {name: one for name, one in (("zone", zone), ("unit", unit)) if one}
    try:
        look = loggers.looked(data, told, None, None)
    except loggers.NotRead as error:
        raise ValueError(sentence(error.told)) from error
    if set(look.asks) - {"form"}:
        raise ValueError(open_questions(look))
    if look.found.refused:
        raise ValueError(sentence(look.found.refused[0]))
    return [{"time": row.at, "temp": row.temp, "rh": row.rh} for row in look.found.rows], notes_of(look, now)


def notes_of(look: loggers.Look, now: int) -> list[str]:
    """How it was read, and what a person should look at."""
    plan, found = look.plan, look.found
    mark = MARKS[plan.delimiter] + (", decimal commas" if plan.decimal == "," else "")
    rh = look.names[plan.rh or 0]
    notes = ["The byte-order mark at the beginning was passed over."] if look.mark else []
    notes.append(
        f"{len(found.rows)} readings, read with {mark}: “{look.names[plan.temp]}” in °{plan.unit}, “{rh}” in %."
    )
    notes += [sentence(one) for one in found.notes]
    ahead = sum(row.at > now for row in found.rows)
    if "form" in look.asks:
        notes.append("Days and months could be either: " + {"mdy": "month first.", "dmy": "day first."}[plan.form])
    told = {
        f"{found.repeated} that stood there twice: taken once.": found.repeated,
        f"{ahead} later than now ({loggers.written(now)}): taken as a forecast.": ahead,
    }
    return [*notes, *(words for words, count in told.items() if count)]
