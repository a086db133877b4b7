"""The air over the yard and inside the modules, made up: each day a coldest, a warmest and a dew point, °F.

Moisture comes from the dew point, so that what is warmed is drier by the same physics in which it is later reckoned.
Days 4 and 5 are a cold snap; the nights after days 9 and 10 are damp, above 90 %.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import cos, exp, pi
from zoneinfo import ZoneInfo

# By working day, 0 for all that was before: coldest, warmest, dew point.
DAYS = (
    (40, 53, 37), (41, 55, 38), (42, 55, 39), (36, 49, 35), (27, 39, 26), (24, 38, 23),
    (34, 47, 32), (39, 52, 37), (41, 53, 40), (43, 52, 42), (42, 50, 40),
)  # fmt: skip


@dataclass(frozen=True)
class Air:
    """°F and whole per cent."""

    temp_f: float
    rh: int

    @property
    def temp(self) -> int:
        """Whole tenths of a degree Celsius."""
        return round((self.temp_f - 32) * 50 / 9)


@dataclass(frozen=True)
class Room:
    """How a module is kept: °F, how far that swings in a day, and the moisture (kPa) over that of the outside air."""

    temp_f: float
    swing: float
    moisture: float


@dataclass(frozen=True)
class Weather:
    """Of a story's working days, in the yard's zone."""

    days: Sequence[date]
    zone: ZoneInfo

    def outside(self, when: datetime) -> Air:
        """The yard's air at an instant."""
        coldest, warmest, dew = self._day(when)
        temp = (coldest + warmest) / 2 + (warmest - coldest) / 2 * _warmth(when.astimezone(self.zone))
        return _air(temp, _pressure(min(dew, temp)))

    def inside(self, when: datetime, room: Room) -> Air:
        """A module's air: the moisture of outside and some of its own, at the warmth that it is kept at."""
        _, _, dew = self._day(when)
        temp = room.temp_f + room.swing * _warmth(when.astimezone(self.zone))
        return _air(temp, _pressure(dew) + room.moisture)

    def line(self, when: datetime) -> Air:
        """The air of the plant's hall, which hardly changes."""
        warm = _warmth(when.astimezone(self.zone))
        return Air(round(70 + warm, 1), round(50 - 2 * warm))

    def _day(self, when: datetime) -> tuple[float, float, float]:
        """Between the noons of two days the numbers go over into each other."""
        local = when.astimezone(self.zone)
        noon = local.replace(hour=12, minute=0, second=0, microsecond=0)
        before = noon if local >= noon else noon - timedelta(days=1)
        share = (local - before) / timedelta(days=1)
        one, two = DAYS[self._number(before.date())], DAYS[self._number((before + timedelta(days=1)).date())]
        cold, warm, dew = (a + (b - a) * share for a, b in zip(one, two, strict=True))
        return cold, warm, dew

    def _number(self, day: date) -> int:
        """Of the working day; what lies between two is as the one before."""
        return sum(1 for one in self.days if one <= day)


def _warmth(local: datetime) -> float:
    """1 at 3 pm, -1 at 3 am."""
    return cos((local.hour + local.minute / 60 - 15) / 12 * pi)


def _pressure(temp_f: float) -> float:
    """Saturation pressure, kPa."""
    c = (temp_f - 32) * 5 / 9
    return 0.61094 * exp(17.625 * c / (c + 243.04))


def _air(temp_f: float, pressure: float) -> Air:
    return Air(round(temp_f, 1), max(5, min(98, round(100 * pressure / _pressure(temp_f)))))
