"""Temperatures, humidities and instants as people type them; what cannot be is refused with a sentence."""

from __future__ import annotations

import re
from datetime import UTC, datetime, tzinfo
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import click

from server.rules import celsius

COLDEST, HOTTEST = -300, 600
NUMBER = r"([+-]?[0-9]+(?:[.,][0-9]+)?)"
FORMS = ("%m/%d/%Y %H:%M", "%m/%d/%Y %H:%M:%S", "%m/%d/%Y %I:%M %p", "%m/%d/%Y %I:%M:%S %p", "%d.%m.%Y %H:%M",
         "%d.%m.%Y %H:%M:%S", "%m/%d/%y %H:%M:%S", "%m/%d/%y %I:%M:%S %p")  # fmt: skip


def number(text: str) -> float:
    """A number with a decimal point or comma; ValueError for anything else."""
    found = re.fullmatch(NUMBER, text.strip())
    if not found:
        raise ValueError(f"“{text}” is no number")
    return float(found[1].replace(",", "."))


def temperature(text: str, unit: str | None = None) -> float:
    """Tenths °C of "70F" or "21.5 °C", or of a bare number in `unit`; ValueError says what is wrong."""
    found = re.fullmatch(NUMBER + r"\s*°?\s*([FfCc]?)", text.strip())
    if not found:
        raise ValueError(f"“{text}” is no temperature: write 70F or 21C")
    scale = found[2].upper() or unit
    if not scale:
        raise ValueError(f"“{text}” does not say which scale: write {found[1]}F or {found[1]}C")
    tenths = number(found[1]) * 10
    kept = celsius(tenths) if scale == "F" else tenths
    if not COLDEST <= kept <= HOTTEST:
        raise ValueError(f"{found[1]} °{scale} is not the air of a yard: -22 to 140 °F (-30 to 60 °C) can be reckoned")
    return kept


def humidity(text: str, saturated: bool = False) -> float:
    """Per cent above 0 and below 100, or up to 100 when `saturated` air may be; ValueError says what is wrong."""
    found = number(text.strip().removesuffix("%"))
    if found == 100 and saturated:
        return found
    if found <= 0:
        raise ValueError(f"a relative humidity of {found:g} % does not occur: look at the sensor")
    if found > 100:
        raise ValueError(f"a relative humidity of {found:g} % cannot be: 100 % is saturated air")
    if found == 100:
        raise ValueError("at 100 % the air is saturated, or the sensor is wet: nothing dries, and no time can be given")
    return found


def instant(text: str, zone: tzinfo | None = None) -> int:
    """Seconds since 1970; a time without an offset is a local time of `zone`. ValueError says what is wrong."""
    found = None
    for form in (None, *FORMS):
        try:
            found = datetime.fromisoformat(text.strip()) if form is None else datetime.strptime(text.strip(), form)
            break
        except ValueError:
            continue
    if found is None:
        raise ValueError(f"“{text}” is no time: write 2026-12-02T08:00-06:00")
    if found.tzinfo is None and zone is None:
        raise ValueError(f"“{text}” does not say where: add an offset such as -06:00, or name a --zone")
    seconds = int((found if found.tzinfo else found.replace(tzinfo=zone)).timestamp())
    if seconds < 946684800:
        raise ValueError(f"“{text}” is before the year 2000: is the logger's clock set?")
    return seconds


def written(seconds: int | None) -> str | None:
    """An instant as RFC 3339 in UTC."""
    return None if seconds is None else datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


class Temperature(click.ParamType):
    name = "temperature"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        try:
            return value if isinstance(value, float) else temperature(value)
        except ValueError as error:
            self.fail(f"{error}.", param, ctx)


class Humidity(click.ParamType):
    name = "percent"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        try:
            return value if isinstance(value, float) else humidity(value)
        except ValueError as error:
            self.fail(f"{error}.", param, ctx)


class Zone(click.ParamType):
    name = "zone"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tzinfo:
        try:
            return value if isinstance(value, tzinfo) else ZoneInfo(value)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            self.fail(f"“{value}” is no time zone: write America/Chicago.", param, ctx)
