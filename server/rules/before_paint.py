"""Whether a room can be primed or painted now: go, wait (until about when), or stop, with each figure.

The label on the can comes first. What nobody has measured is never *go*: without a fresh reading inside it is *wait,
take a reading*. The yard's air and a forecast are not the room's air.
"""

from __future__ import annotations

from typing import Any

from server.rules.climate import dew_point, whole
from server.rules.clocks import DRY, UNRELIABLE, clock
from server.rules.covers import readiness, tops
from server.rules.drying import ready
from server.rules.instants import DAY, seconds
from server.rules.place import Place
from server.rules.schedule import family, next_coat
from server.rules.vocabulary import CURRENT, tables

Check = dict[str, Any]
Row = list[Any]
ORDER = ("go", "wait", "stop")
# A night ends at ten; at six its low is over.
MORNING = 4 * 3600


def before_paint(place: Place, room: str, now: int, label: dict[str, int]) -> dict[str, Any]:
    """{verdict: go|wait|stop, until: seconds|null, checks: [{key, state: met|caution|wait|stop, value, limit}]}.

    `label`: {least_temp?} tenths °C, what the can says. Values are tenths °C (apart, for `surface_over_dew` and
    `dew_rising`), per cent (`no_surface`, `air_rh`), minutes (`reading`: its age) or an instant (`joint_dry`); null
    where nobody knows. `until` is null when a check that waits has no time of its own, or none to rely on.
    """
    rows = fresh_rows(place, room, now)
    checks = [_reading(place, room, now), *_air(rows, label)]
    low, after_night = _low(place, room, now, rows)
    joint, dry_at = _joint(place, room, now)
    checks += [low, joint]
    verdict = max((_verdict(check) for check in checks), key=ORDER.index)
    waits = {"reading": None, "low": after_night, "joint_dry": dry_at}
    times = [waits[check["key"]] for check in checks if check["state"] == "wait"]
    known = [time for time in times if time is not None]
    until = max(known) if verdict == "wait" and len(known) == len(times) else None
    return {"verdict": verdict, "until": until, "checks": checks}


def fresh_rows(place: Place, room: str, now: int) -> list[Row]:
    """Readings inside, of the room or its module, not yet stale, in the order of their times."""
    oldest = now - _limits()["stale_minutes"] * 60
    return [row for row in _inside(place, room) if oldest <= row[0] <= now]


def coat_to_come(place: Place, room: str) -> str:
    """The primer or paint that is next there; the first paint when another coat comes before, or none."""
    coat = next_coat(place, room)
    return coat if coat is not None and family(coat) in ("primer", "paint") else "paint_1"


def _limits() -> dict[str, int]:
    found: dict[str, int] = tables(CURRENT)["drying"]["limits"]
    return found


def _inside(place: Place, room: str) -> list[Row]:
    """Without air of 0 %: a dead sensor has read nothing."""
    airs = [air for air in place["airs"] if air["where"] == "module" or air["room"] == room]
    return sorted((row for air in airs for row in air["rows"] if row[2] > 0), key=_worst_last)


def _worst_last(row: Row) -> tuple[int, ...]:
    """By time; of one time the slowest air last, of that the coldest surface."""
    time, temp, rh, rate, surface = row[:5]
    return time, -rate, 0 if surface is None else 1, -(surface or 0), temp, rh


def _verdict(check: Check) -> str:
    return check["state"] if check["state"] in ORDER else "go"


def _check(key: str, state: str, value: int | None, limit: int | None) -> Check:
    return {"key": key, "state": state, "value": value, "limit": limit}


def _reading(place: Place, room: str, now: int) -> Check:
    """When the air inside was last read."""
    limit = _limits()["stale_minutes"]
    times = [row[0] for row in _inside(place, room) if row[0] <= now]
    age = (now - times[-1]) // 60 if times else None
    return _check("reading", "met" if age is not None and now - times[-1] <= limit * 60 else "wait", age, limit)


def _air(rows: list[Row], label: dict[str, int]) -> list[Check]:
    """What the latest air and surface say; nothing when nobody has read them."""
    if not rows:
        return []
    limits, latest = _limits(), rows[-1]
    least = label.get("least_temp", limits["paint_coldest"])
    cold, damp = latest[1] < least, latest[2] >= limits["paint_rh"]
    return [
        *_dew(rows),
        _check("air_least", "stop" if cold else "met", latest[1], least),
        _check("air_rh", "stop" if damp else "met", latest[2], limits["paint_rh"]),
    ]


def _dew(rows: list[Row]) -> list[Check]:
    """The surface over the dew point of the latest air; of a surface that nobody measured only the air's RH speaks."""
    limits, latest = _limits(), rows[-1]
    measured = [row for row in rows if row[4] is not None]
    if measured:
        apart = whole(measured[-1][4] - dew_point(latest[1], latest[2], CURRENT))
        state = "stop" if apart < limits["dew_margin"] else "met"
        found = [_check("surface_over_dew", state, apart, limits["dew_margin"])]
    else:
        limit = limits["paint_rh_no_surface"]
        found = [_check("no_surface", "stop" if latest[2] >= limit else "met", latest[2], limit)]
    compared = measured if len(measured) > 1 else rows
    if len(compared) > 1:
        rise = whole(_over_dew(compared[-1], compared is measured) - _over_dew(compared[0], compared is measured))
        found.append(_check("dew_rising", "caution" if rise < 0 else "met", rise, 0))
    return found


def _over_dew(row: Row, surface: bool) -> float:
    return float(row[4 if surface else 1] - dew_point(row[1], row[2], CURRENT))


def _low(place: Place, room: str, now: int, rows: list[Row]) -> tuple[Check, int | None]:
    """No low below the limit before the paint is dry by the table; where the heat is on only a caution."""
    limit = _limits()["paint_low"]
    nights = [night for night in (place["forecast"] or {"nights": []})["nights"] if seconds(night["to"]) > now]
    end = _dry_by(place, room, now, rows)
    before = [night for night in nights if end is None or seconds(night["from"]) < end]
    cold = [night for night in before if night["low"] < limit]
    heated = bool(place["heat"] and place["heat"]["on"])
    if not nights:
        return _check("low", "met" if heated else "caution", None, limit), None
    if not cold and _untold(nights, now, end):
        return _check("low", "met" if heated else "caution", None, limit), None
    value = min(night["low"] for night in before or nights[:1])
    if not cold:
        return _check("low", "met", value, limit), None
    return _check("low", "caution" if heated else "wait", value, limit), max(seconds(night["to"]) for night in cold)


def _untold(nights: list[dict[str, Any]], now: int, end: int | None) -> bool:
    """Whether a night comes before the first that is told, and before the paint is dry; its last hours are no night."""
    first = min(nights, key=lambda night: str(night["from"]))
    start, stop = seconds(first["from"]) - DAY, seconds(first["to"]) - DAY
    while stop - MORNING > now:
        if end is None or start < end:
            return True
        start, stop = start - DAY, stop - DAY
    return False


def _dry_by(place: Place, room: str, now: int, rows: list[Row]) -> int | None:
    """When paint laid now is dry by the table in the air as it is; null when nobody knows, or never."""
    if not rows:
        return None
    table = tables(CURRENT)["schedule"]["coats"]
    coat = table.get(coat_to_come(place, room), table["paint_1"])
    air = [{"time": rows[-1][0], "temp": rows[-1][1], "rh": rows[-1][2]}]
    laid = {"laid": now, "material": coat["material"], "thickness": coat.get("thickness", "normal")}
    found: int | None = ready(laid, air, CURRENT)["by_table"]
    return found


def _joint(place: Place, room: str, now: int) -> tuple[Check, int | None]:
    """Whether what lies on the walls may be painted over."""
    found = readiness(place, room, family(coat_to_come(place, room)), now)
    at: int | None = found["at"]
    check = _check("joint_dry", "met" if found["ready"] else "wait", at, None)
    return check, None if _doubted(place, room, now) else at


def _doubted(place: Place, room: str, now: int) -> bool:
    """Whether the time of anything that is not dry there cannot be relied on, also of what is to be dry sooner."""
    found = [clock(place, coat, room, now) for _, coat in tops(place, room)]
    return any(one["state"] not in DRY and UNRELIABLE & set(one["flags"]) for one in found)
