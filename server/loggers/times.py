"""Times as loggers write them, into seconds since 1970; daylight saving's missing and doubled hour are told.

Forms: `ymd` (RFC 3339 is one of them), `mdy`, `dmy`, `epoch` (seconds), `epoch_ms`. All may carry AM/PM and an offset.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from server.loggers.trouble import NotRead, shown

FORMS = ("ymd", "mdy", "dmy", "epoch", "epoch_ms")
LONGEST = 60
ORDER = {"ymd": (0, 1, 2), "mdy": (2, 0, 1), "dmy": (2, 1, 0)}
_DATE = r"([0-9]{1,4})([-/.])([0-9]{1,2})\2([0-9]{1,4})"
_CLOCK = r"([0-9]{1,2}):([0-9]{2})(?::([0-9]{2})(?:[.,][0-9]{1,9})?)?(?:\s*([ap])\.?\s?m\.?)?"
_OFFSET = r"(?:\s*(z|utc|gmt)?\s*([+-][0-9]{2}:?[0-9]{2})?)"
_WHOLE = re.compile(rf"{_DATE}(?:[tT]|,?\s+){_CLOCK}{_OFFSET}", re.IGNORECASE)
_FIXED = re.compile(r"(?:utc|gmt)?([+-])([0-9]{1,2})(?::?([0-9]{2}))?", re.IGNORECASE)


def zone_of(name: str) -> tzinfo:
    """An IANA zone, or a fixed offset as -06:00; NotRead when there is no such zone."""
    fixed = _FIXED.fullmatch(name.strip())
    if fixed and int(fixed[2]) <= 14 and int(fixed[3] or 0) < 60:
        ahead = timedelta(hours=int(fixed[2]), minutes=int(fixed[3] or 0))
        return timezone(-ahead if fixed[1] == "-" else ahead)
    if name.strip().upper() in ("UTC", "GMT", "Z"):
        return UTC
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise NotRead("zone_unknown", value=shown(name)) from error


def read(text: str, form: str) -> datetime:
    """What a cell says: aware where it carries an offset or counts seconds, else the clock on some wall."""
    if form in ("epoch", "epoch_ms"):
        return _counted(text, form)
    found = _WHOLE.fullmatch(text.strip()) if len(text) <= LONGEST else None
    if not found:
        raise NotRead("no_time", value=shown(text))
    fields = (found[1], found[3], found[4])
    year, month, day = (fields[place] for place in ORDER[form])
    if len(year) not in (2, 4) or len(month) > 2 or len(day) > 2:
        raise NotRead("no_time", value=shown(text))
    try:
        moment = datetime(
            int(year) + (2000 if len(year) == 2 else 0),
            int(month),
            int(day),
            _hour(int(found[5]), found[8]),
            int(found[6]),
            int(found[7] or 0),
        )
    except ValueError as error:
        raise NotRead("no_time", value=shown(text)) from error
    if found[10]:
        return moment.replace(tzinfo=zone_of(found[10]))
    return moment.replace(tzinfo=UTC) if found[9] else moment


def _hour(hour: int, half: str | None) -> int:
    """12 AM is 0 h, 12 PM is noon; ValueError for 13 PM."""
    if not half:
        return hour
    if not 1 <= hour <= 12:
        raise ValueError("no such hour")
    return hour % 12 + (12 if half.lower() == "p" else 0)


def _counted(text: str, form: str) -> datetime:
    """Seconds or milliseconds since 1970; only since 1973, so that no temperature looks like one."""
    found = re.fullmatch(r"([0-9]{9,10})" + (r"[0-9]{3}" if form == "epoch_ms" else r"(?:\.[0-9]{1,9})?"), text.strip())
    if not found:
        raise NotRead("no_time", value=shown(text))
    return datetime.fromtimestamp(int(found[1]), UTC)


def moment_of(told: datetime, zone: tzinfo | None, before: int | None) -> tuple[int, bool]:
    """Seconds since 1970, and whether that hour came twice; then what stands `before` it in the file decides which."""
    doubled = False
    if not 2000 <= told.year < 2200:
        raise NotRead("clock_unset", value=told.strftime("%Y-%m-%d %H:%M"))
    if told.tzinfo is None:
        if zone is None:
            raise NotRead("zone_missing")
        first, second = (int(told.replace(tzinfo=zone, fold=fold).timestamp()) for fold in (0, 1))
        if datetime.fromtimestamp(first, zone).replace(tzinfo=None, fold=0) != told:
            raise NotRead("hour_missing", value=told.strftime("%Y-%m-%d %H:%M"))
        doubled = first != second
        seconds = second if doubled and before is not None and before >= first else first
    else:
        seconds = int(told.timestamp())
    return seconds, doubled


def written(seconds: int) -> str:
    """An instant as RFC 3339 UTC in whole seconds."""
    return datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
