"""Instants as whole seconds since 1970 and back, by the calendar's own arithmetic: no clock, no time zone table."""

from __future__ import annotations

import functools

DAY = 86400
DAYS_BEFORE_1970 = 719468


# The same few instants are read again and again: of a coat for each of its rooms.
@functools.lru_cache(maxsize=4096)
def seconds(text: str) -> int:
    """Whole seconds since 1970 of an RFC 3339 instant with Z or an offset; a fraction is dropped."""
    days = _days(int(text[:4]), int(text[5:7]), int(text[8:10]))
    local = days * DAY + int(text[11:13]) * 3600 + int(text[14:16]) * 60 + int(text[17:19])
    return local - _offset(text)


def instant(since_1970: int) -> str:
    """UTC in whole seconds with Z."""
    rest = since_1970 % DAY
    clock = f"{rest // 3600:02}:{rest // 60 % 60:02}:{rest % 60:02}"
    return f"{day(since_1970)}T{clock}Z"


def day(since_1970: int) -> str:
    """The UTC day of an instant, YYYY-MM-DD."""
    # Years that begin in March: the leap day is the last of its year, and months have a formula.
    days = since_1970 // DAY + DAYS_BEFORE_1970
    era, of_era = days // 146097, days % 146097
    year = (of_era - of_era // 1460 + of_era // 36524 - of_era // 146096) // 365
    of_year = of_era - (365 * year + year // 4 - year // 100)
    month = (5 * of_year + 2) // 153
    date = of_year - (153 * month + 2) // 5 + 1
    return f"{era * 400 + year + (1 if month > 9 else 0):04}-{month + 3 if month < 10 else month - 9:02}-{date:02}"


def _days(year: int, month: int, date: int) -> int:
    year -= 1 if month < 3 else 0
    era, of_era = year // 400, year % 400
    of_year = (153 * (month - 3 if month > 2 else month + 9) + 2) // 5 + date - 1
    return era * 146097 + of_era * 365 + of_era // 4 - of_era // 100 + of_year - DAYS_BEFORE_1970


def _offset(text: str) -> int:
    if text.endswith("Z"):
        return 0
    east = int(text[-5:-3]) * 3600 + int(text[-2:]) * 60
    return east if text[-6] == "+" else -east
