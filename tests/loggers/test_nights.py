"""The lows of the nights to come, from an hourly forecast."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from server.loggers import looked, nights_of, written

YARD = ZoneInfo("America/Chicago")
NOON = int(datetime(2026, 12, 2, 18, tzinfo=UTC).timestamp())


def forecast(hours: dict[int, int], start: int = NOON) -> bytes:
    """A file of °F by hours after the start."""
    rows = (f"{written(start + hour * 3600)},{degrees}" for hour, degrees in hours.items())
    return "\n".join(("time,temperature (°F)", *rows)).encode()


def nights(data: bytes, now: int = NOON) -> tuple[list[tuple[str, int]], list[str]]:
    look = looked(data, {}, "America/Chicago", None, wants_rh=False)
    found = nights_of(look.found, YARD, now)
    return [(str(one["from"]), int(one["low"])) for one in found], [str(one["key"]) for one in look.found.notes]


def test_each_whole_night_has_its_low_by_the_yard_s_clock() -> None:
    hours = {hour: 50 for hour in range(48)} | {20: 34, 28: 20, 40: 32}
    assert nights(forecast(hours)) == ([("2026-12-03T00:00:00Z", 11), ("2026-12-04T00:00:00Z", 0)], [])


def test_a_night_that_has_begun_counts_from_now_on_and_one_that_is_over_does_not() -> None:
    hours = {hour: 50 - hour for hour in range(8, 24)}
    assert nights(forecast(hours), NOON + 8 * 3600) == ([("2026-12-03T00:00:00Z", -22)], [])
    # Until midnight, six hours after it began.
    assert nights(forecast(hours), NOON + 12 * 3600)[0] != []
    assert nights(forecast(hours), NOON + 12 * 3600 + 1) == ([], [])
    assert nights(forecast(hours), NOON + 13 * 3600) == ([], [])


def test_a_night_with_a_hole_is_noted_and_not_told() -> None:
    hours = {hour: 40 for hour in range(24) if hour not in (13, 14, 15)}
    assert nights(forecast(hours)) == ([], ["night_holes"])
    assert nights(forecast({hour: 40 for hour in range(0, 24, 3)}))[0] != []


def test_no_more_than_fourteen_nights() -> None:
    assert len(nights(forecast({hour: 40 for hour in range(24 * 20)}))[0]) == 14
