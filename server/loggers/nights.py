"""The lows of the nights, from an hourly forecast: a night is 18:00 to 10:00 on the yard's clock."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from itertools import pairwise

from server.loggers.take import Found
from server.loggers.times import written

BEGINS, ENDS = time(18), time(10)
MOST_NIGHTS, WIDEST = 14, 3 * 3600
# Later than that, what is left of the night may be warmer than what was told of the whole.
UNTIL_MIDNIGHT = 6 * 3600
Night = dict[str, str | int]


def nights_of(found: Found, zone: tzinfo, now: int) -> list[Night]:
    """{from, to, low} for each night that the forecast covers from now on; a night with holes is noted, not told.

    A hole is more than three hours: the coldest one could be in it.
    """
    times = [row.at for row in found.rows]
    if not times:
        return []
    day, last = datetime.fromtimestamp(times[0], zone).date() - timedelta(days=1), times[-1]
    nights: list[Night] = []
    while len(nights) < MOST_NIGHTS and _second(day, BEGINS, zone) <= last:
        start, end = _second(day, BEGINS, zone), _second(day + timedelta(days=1), ENDS, zone)
        inside = found.rows[bisect_left(times, start) : bisect_right(times, end)]
        ahead = [max(start, now), *(row.at for row in inside if row.at > max(start, now)), end]
        if inside and now <= start + UNTIL_MIDNIGHT:
            if all(two - one <= WIDEST for one, two in pairwise(ahead)):
                low = min(row.temp for row in inside)
                nights.append({"from": written(start), "to": written(end), "low": low})
            else:
                found.notes.append({"key": "night_holes", "value": day.isoformat()})
        day += timedelta(days=1)
    return nights


def _second(day: date, clock: time, zone: tzinfo) -> int:
    return int(datetime.combine(day, clock, zone).astimezone(UTC).timestamp())
