"""Temperatures, humidities and instants as people type them; what cannot be is refused with a sentence."""

from __future__ import annotations

import re
from datetime import UTC, datetime, tzinfo
from typing import Any

import click

from server import loggers
from server.rules import celsius

COLDEST, HOTTEST = -300, 600
NUMBER = r"([+-]?[0-9]+(?:[.,][0-9]+)?)"
WRONG = {
    "hour_missing": "that hour did not exist there, the clocks went forward: add the offset, such as -06:00",
    "clock_unset": "no coat of this yard was laid in that year",
}


def number(text: str) -> float:
    """A number with a decimal point or comma; ValueError for anything else."""
    found = re.fullmatch(NUMBER, text.strip())
    if not found:
        raise ValueError(f"“{text}” is no number")
    if re.search(",[0-9]{3}$", found[1]):
        raise ValueError(f"“{text}” could be thousands or a decimal comma: write a point, or no comma")
    # No minus zero.
    return float(found[1].replace(",", ".")) + 0.0


def temperature(text: str) -> float:
    """Tenths °C of "70F" or "21.5 °C"; ValueError says what is wrong."""
    found = re.fullmatch(NUMBER + r"\s*°?\s*([FfCc]?)", text.strip())
    if not found:
        raise ValueError(f"“{text}” is no temperature: write 70F or 21C")
    scale = found[2].upper()
    if not scale:
        raise ValueError(f"“{text}” does not say which scale: write {found[1]}F or {found[1]}C")
    tenths = number(found[1]) * 10
    kept = celsius(tenths) if scale == "F" else tenths
    if not COLDEST <= kept <= HOTTEST:
        raise ValueError(f"{found[1]} °{scale} is not the air of a yard: -22 to 140 °F (-30 to 60 °C) can be reckoned")
    return kept


def humidity(text: str) -> float:
    """Per cent above 1 and below 100; ValueError says what is wrong."""
    found = number(text.strip().removesuffix("%"))
    if found <= 0:
        raise ValueError(f"a relative humidity of {found:g} % does not occur: look at the sensor")
    if found <= 1:
        raise ValueError(f"a relative humidity of {found:g} % does not occur in a yard: 50 % is written 50, not 0.5")
    if found > 100:
        raise ValueError(f"a relative humidity of {found:g} % cannot be: 100 % is saturated air")
    if found == 100:
        raise ValueError(
            "at 100 % the air is saturated, or the sensor is wet: nothing dries, no time can be given, and the "
            "dew point is the air's own temperature"
        )
    return found


def instant(text: str, zone: tzinfo | None = None) -> int:
    """Seconds since 1970; a time without an offset is a local time of `zone`. ValueError says what is wrong."""
    found = {one for one in (_read(text.strip(), form) for form in ("ymd", "mdy", "dmy")) if one is not None}
    if not found:
        raise ValueError(f"“{text}” is no time: write 2026-12-02T08:00-06:00")
    if len(found) > 1:
        raise ValueError(f"“{text}” could be two days: write 2026-12-02T08:00-06:00")
    (told,) = found
    if told.tzinfo is None and zone is None:
        raise ValueError(f"“{text}” does not say where: add an offset such as -06:00, or name a --zone")
    try:
        seconds, doubled = loggers.moment_of(told, zone, None)
    except loggers.NotRead as error:
        raise ValueError(f"“{text}”: {WRONG[error.told['key']]}") from error
    if doubled:
        raise ValueError(f"“{text}” came twice when the clocks went back: add the offset, such as -06:00")
    return seconds


def _read(text: str, form: str) -> datetime | None:
    try:
        return loggers.read(text, form)
    except loggers.NotRead:
        return None


def written(seconds: int | None) -> str | None:
    """An instant as RFC 3339 in UTC."""
    return None if seconds is None else datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


class Temperature(click.ParamType[float]):
    name = "temperature"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        try:
            return value if isinstance(value, float) else temperature(value)
        except ValueError as error:
            self.fail(f"{error}.", param, ctx)


class Humidity(click.ParamType[float]):
    name = "percent"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        try:
            return value if isinstance(value, float) else humidity(value)
        except ValueError as error:
            self.fail(f"{error}.", param, ctx)
