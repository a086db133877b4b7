"""A logger's CSV at a desk: read as on screens, with options for what the file leaves open."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from server import loggers
from server.reports import say

Reading = dict[str, Any]
Command = TypeVar("Command", bound=Callable[..., Any])
OPTIONS = {"zone": "--zone America/Chicago", "unit": "--unit F or --unit C"}
MARKS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}
FORMS = {"mdy": "month first; if not, add --set form=dmy.", "dmy": "day first; if not, add --set form=mdy."}
MOST_SHOWN = 20


def how_options(command: Command) -> Command:
    """How a file is to be read, where it does not say that itself."""
    for option in (
        click.option("--set", "chosen", multiple=True, metavar="FIELD=VALUE", help=f"Of {', '.join(loggers.NAMES)}."),
        click.option("--unit", type=click.Choice(["F", "C"]), help="Of temperatures, where the head does not say."),
        click.option(
            "--zone", help="Of times without an offset: America/Chicago, or -06:00 for a clock never changed."
        ),
    ):
        command = option(command)
    return command


def options(chosen: tuple[str, ...], zone: str | None, unit: str | None) -> dict[str, str]:
    """What those options say."""
    told = dict(one.partition("=")[::2] for one in chosen)
    return told | {name: one for name, one in (("zone", zone), ("unit", unit)) if one}


def sentence(trouble: loggers.Trouble) -> str:
    """A trouble in English, by its line where it has one."""
    told = say(f"loggers.{trouble['key']}", "en", **{name: one for name, one in trouble.items() if name != "key"})
    return told if "line" not in trouble or f"ine {trouble['line']}" in told else f"line {trouble['line']}: {told}"


def sentences(refused: list[loggers.Trouble], most: int = MOST_SHOWN) -> list[str]:
    """The rows that were not taken, each by its line and reason; of a long list the first, and how many more."""
    more = len(refused) - most
    return [sentence(one) for one in refused[:most]] + ([f"… and {more} more."] if more > 0 else [])


def looked(
    data: bytes, told: dict[str, str], now: int | None, *, wants_rh: bool = True, may_guess: str = ""
) -> loggers.Look:
    """The rows of a file of which nothing is open but what one `may_guess`; ValueError says what is wrong with it."""
    if told.keys() - set(loggers.NAMES):
        raise ValueError(f"--set may be one of {', '.join(loggers.NAMES)}.")
    try:
        look = loggers.looked(data, told, None, now, wants_rh=wants_rh)
    except loggers.NotRead as error:
        raise ValueError(sentence(error.told)) from error
    if set(look.asks) - {may_guess}:
        raise ValueError(open_questions(look))
    return look


def open_questions(look: loggers.Look) -> str:
    """What the file leaves open, and how to say it."""
    wanted = [OPTIONS.get(name, f"--set {name}=…") for name in look.asks]
    columns = ", ".join(f"{at}: {loggers.shown(name)}" for at, name in enumerate(look.names[:40]))
    return f"it does not say everything: add {', '.join(wanted)}; its columns are {columns}."


def readings_of(data: bytes, told: dict[str, str], now: int) -> tuple[list[Reading], list[str]]:
    """The good readings {time, temp, rh} in order of time, and notes; ValueError where there is none."""
    look = looked(data, told, None, may_guess="form")
    if not look.found.rows:
        raise ValueError(f"no row of it can be read. {' '.join(sentences(look.found.refused, 3))}")
    return [{"time": row.at, "temp": row.temp, "rh": row.rh} for row in look.found.rows], notes_of(look, now)


def notes_of(look: loggers.Look, now: int) -> list[str]:
    """How it was read, what was skipped, and what a person should look at."""
    plan, found = look.plan, look.found
    mark = MARKS[plan.delimiter] + (", decimal commas" if plan.decimal == "," else "")
    temp, rh = (loggers.shown(look.names[at]) for at in (plan.temp, plan.rh or 0))
    notes = ["The byte-order mark at the beginning was passed over."] if look.mark else []
    notes.append(f"{counted(found.rows)}, read with {mark}: “{temp}” in °{plan.unit}, “{rh}” in %.")
    if found.refused:
        notes.append(f"{counted(found.refused, 'row')} skipped, and not in this:")
        notes += [f"Skipped: {one}" if one[0] != "…" else one for one in sentences(found.refused)]
    notes += [sentence(one) for one in found.notes]
    if "form" in look.asks:
        notes.append(f"Days and months could be either: taken as {FORMS[plan.form]}")
    ahead = sum(row.at > now for row in found.rows)
    told = {
        f"{found.repeated} that stood there twice: taken once.": found.repeated,
        f"{ahead} later than now ({loggers.written(now)}): taken as a forecast.": ahead,
    }
    return [*notes, *(words for words, count in told.items() if count)]


def counted(rows: list[Any], name: str = "reading") -> str:
    return f"{len(rows)} {name}" + ("" if len(rows) == 1 else "s")
