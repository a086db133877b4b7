"""The clock of one coat in one room: when it is likely dry and when by the table, and what people found by looking."""

from __future__ import annotations

from typing import Any

from server.rules.coat_looks import cell_then
from server.rules.drying import dried_by, held, ready_by
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place, once
from server.rules.vocabulary import CURRENT, tables
from server.rules.whose_air import Air, air_for, air_room

Clock = dict[str, Any]
# What makes a time one that nobody may rely on: then only a look says that a coat is ready.
UNRELIABLE = frozenset(
    ("no_readings", "below_limits", "above_limits", "damp", "bone_dry", "gap", "stale", "outside", "clock_unsure")
)
DRY = ("ready", "dry")


def clock(place: Place, coat: Part, room: str, at: int, told_by: int | None = None) -> Clock:
    """A coat's clock in one of its rooms, as it stands at `at` (seconds since 1970), by looks told by then or by
    `told_by`.

    {laid, likely, by_table, set: seconds or null, dried: thousandths by each end, whose, flags, state, ready_at,
    latest: {time, temp, rh} or null, factor: {percent, looks} or null}. `laid` is its last wet sanding, if there was
    one. States: `wet`; `likely` dry; `ready` by the table; `dry` by a look; `not_dry` by a look; `unsure`: by the
    table, by a time that nobody may rely on. `ready_at`: when it may be covered, null where only a look can say so.
    """
    cell = cell_then(coat, room, at, at if told_by is None else told_by)
    found = _of_air(place, coat, room, _laid(coat, cell), at)
    state = _state(cell, found, found["flags"], at)
    return {**found, "state": state, "ready_at": _ready_at(state, cell, found)}


def _of_air(place: Place, coat: Part, room: str, laid: int, at: int) -> Clock:
    """The clock by its air alone: of one instant reckoned once for all rooms that share it."""
    kept: dict[int, dict[tuple[str, int, str], Clock]] = once(place, ("clocks",), dict)
    if at not in kept:
        kept.clear()
    clocks, key = kept.setdefault(at, {}), (coat["id"], laid, air_room(place, room))
    if key not in clocks:
        clocks[key] = _reckoned(place, coat, room, laid, at)
    return clocks[key]


def _reckoned(place: Place, coat: Part, room: str, laid: int, at: int) -> Clock:
    air = air_for(place, room, laid, at)
    factor = factor_of(place, coat["material"], at)
    dries = drying_of(coat, laid, factor)
    steps = held(laid, air["rows"], CURRENT)
    found = ready_by(dries, steps, CURRENT)
    flags = [*found["flags"], *_doubts(coat, air, found["by_table"], at)]
    return {
        "laid": laid,
        "likely": found["likely"],
        "by_table": found["by_table"],
        "set": found["set"],
        "dried": dried_by(dries, steps, at, CURRENT),
        "whose": air["whose"],
        "flags": flags,
        "latest": _latest(air),
        "factor": factor,
    }


def factor_of(place: Place, material: str, at: int | None = None) -> dict[str, int] | None:
    """What the yard's own looks say of a material; null while they are too few, or the office has switched it off.

    At an hour that is over what they said then: a look of today makes no cover of last week early.
    """
    learned = place["learned"]
    if ((place["yard"] or {}).get("coats") or {}).get("learned") is False or learned is None:
        return None
    found: dict[str, int] | None = learned["factors"].get(material)
    if at is not None and at < seconds(learned["time"]):
        told = [row for row in learned.get("was", {}).get(material, ()) if seconds(row[0]) <= at]
        found = {"percent": told[-1][1], "looks": told[-1][2]} if told else None
    least = tables(CURRENT)["drying"]["limits"]["learned_least"]
    return found if found is not None and found["looks"] >= least else None


def _laid(coat: Part, cell: Part) -> int:
    """From when it dries: a joint that was worked wet starts again."""
    return max(seconds(coat["laid"]), seconds(cell["restart"] or coat["laid"]))


def drying_of(coat: Part, laid: int, factor: dict[str, int] | None) -> dict[str, Any]:
    """A coat part as `drying` takes it, laid at `laid`."""
    table = tables(CURRENT)["drying"]
    material = coat["material"] if coat["material"] in table["materials"] else "drying_type"
    thickness = coat["thickness"] if coat["thickness"] in table["thickness"] else "normal"
    minutes = {name: coat[name] for name in ("set_minutes", "label_minutes") if coat[name] is not None}
    percent = factor["percent"] if factor else 100
    return {"laid": laid, "material": material, "thickness": thickness, "percent": percent, **minutes}


def stale(read: int, by_table: int | None, at: int) -> bool:
    """Whether at an instant a last reading is too old to carry forward, for a coat not dry by the table by then."""
    longest = tables(CURRENT)["drying"]["limits"]["stale_minutes"] * 60
    return at - read > longest and (by_table is None or by_table > read + longest)


def _doubts(coat: Part, air: Air, by_table: int | None, at: int) -> list[str]:
    """What the drying law cannot see: readings too old to carry forward, whose air it was, a phone's wrong clock."""
    rows = air["rows"]
    is_stale = bool(rows) and stale(rows[-1]["read"], by_table, at)
    # Whose air it was once it was dry is no doubt about that.
    whose = {row["whose"] for row in rows if by_table is None or row["time"] < by_table}
    told = {"stale": is_stale, **{flag: flag in whose for flag in air["flags"]}, "clock_unsure": bool(coat["unsure"])}
    return [flag for flag, is_so in told.items() if is_so]


def _state(cell: Part, found: Clock, flags: list[str], at: int) -> str:
    if cell["wet"] is not None:
        return "not_dry"
    if _look_counts(cell["dry"], found["by_table"]):
        return "dry"
    if found["likely"] is None:
        return "wet" if "no_readings" not in flags else "unsure"
    if at < found["likely"]:
        return "wet"
    if found["by_table"] is None or at < found["by_table"]:
        return "likely"
    return "unsure" if UNRELIABLE & set(flags) else "ready"


def _look_counts(look: Part | None, by_table: int | None) -> bool:
    """*Dry* before the table's time needs a reason and what was tried: neither the eye nor a meter ends it early."""
    if look is None:
        return False
    tried = bool(look["tried"]) and bool(look["reason"])
    return tried or (by_table is not None and seconds(look["time"]) >= by_table)


def _ready_at(state: str, cell: Part, found: Clock) -> int | None:
    if state == "dry":
        return seconds(cell["dry"]["time"])
    by_table: int | None = found["by_table"]
    return None if state in ("not_dry", "unsure") else by_table


def _latest(air: Air) -> dict[str, int] | None:
    if not air["rows"]:
        return None
    last = air["rows"][-1]
    return {"time": last["read"], "temp": last["temp"], "rh": last["rh"]}
