"""Numbers of loggers and sensors as a journal keeps them: whole tenths °C, whole per cent.

Exact fractions in between, so that a value on an edge is rounded the same everywhere, halves upwards.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Any

from server.loggers.trouble import NotRead, shown, shown_value

# The air of a yard, and what the drying law can reckon with: -22 to 140 °F.
COLDEST, HOTTEST = -300, 600
LONGEST = 60
_NUMBER = re.compile(r"[+-]?[0-9]{1,9}(?:[.][0-9]{0,9})?")
_SCALE = re.compile(r"\s*(?:°|º|deg)?\s*([FC])\Z", re.IGNORECASE)


def number(text: str, decimal: str = ".") -> Fraction:
    """A number with this decimal mark; a minus sign of typesetters is one too."""
    plain = text.strip().replace("−", "-")
    if decimal == ",":
        plain = plain.replace(",", ".") if "." not in plain else "?"
    if not _NUMBER.fullmatch(plain):
        raise NotRead("no_number", value=shown(text))
    return Fraction(plain.rstrip("."))


def whole(value: Fraction) -> int:
    """The nearest whole number, halves upwards."""
    return math.floor(value + Fraction(1, 2))


def tenths(value: Fraction, unit: str) -> int:
    """Whole tenths °C of degrees in `unit`, F or C."""
    kept = whole((value - 32) * 50 / 9 if unit == "F" else value * 10)
    if not COLDEST <= kept <= HOTTEST:
        raise NotRead("temp_beyond", value=plain(value), unit=unit)
    return kept


def per_cent(value: Fraction) -> int:
    """Whole per cent. 0 and 100 are taken as they come: a dry or a wet sensor, which screens may doubt.

    Between them no air of a yard is at 1 or less: 0.5 for 50 would have a coat dry in half its time.
    """
    if 0 < value <= 1:
        raise NotRead("rh_fraction", value=plain(value))
    kept = whole(value)
    if not 0 <= kept <= 100:
        raise NotRead("rh_beyond", value=plain(value))
    return kept


def temperature(text: str, unit: str, decimal: str = ".") -> int:
    """Tenths °C of a cell; a scale written in the cell itself counts before `unit`."""
    text = _short(text)
    scale = _SCALE.search(text)
    bare = text[: scale.start()] if scale else text.rstrip("°º ")
    return tenths(number(bare, decimal), scale[1].upper() if scale else unit)


def humidity(text: str, decimal: str = ".") -> int:
    """Per cent of a cell."""
    return per_cent(number(_short(text).removesuffix("%"), decimal))


def _short(text: str) -> str:
    """No measure is longer: a pattern is not let loose on a cell of a hundred thousand blanks."""
    if len(text) > LONGEST:
        raise NotRead("no_number", value=shown(text))
    return text.strip()


def told_number(value: Any) -> Fraction:
    """A number of a JSON body, by the digits it was written with."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not -(10**9) < value < 10**9:
        raise NotRead("no_number", value=shown_value(value))
    return Fraction(repr(value))


def plain(value: Fraction) -> str:
    """As it was read, without a tail of noughts."""
    return f"{float(value):g}"
