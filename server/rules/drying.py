"""When a coat is dry: the law fitted to the handbook's table, summed over changing air. Always an estimate.

hours = K / (saturation pressure * (1 - RH)^0.9), K = 22.5 kPa·h *likely*, 26.6 *by the table* (never shorter than it).

A reading {time, temp, rh} (whole seconds since 1970 UTC, tenths °C, per cent) **holds** until the next one, the latest
for ever, the first also backwards to the laying. Not a straight line between two readings: the clock on the screen
carries the latest reading forward, and with a line each new reading would take back what the yard was told about hours
that are over. A long hold is called a gap, and not relied on.

A rate is a whole number, 1/10000 Pa, and a dose is rate times seconds, whole too: sums are exact in both languages, so
that splitting an interval or another order of arrival changes nothing, to the second.
"""

from __future__ import annotations

import functools
from typing import Any

from server.rules.climate import read, saturation, whole
from server.rules.vocabulary import tables

Reading = dict[str, Any]
ENDS = ("likely", "by_table")


def rate(temp: float, rh: float, version: int) -> int:
    """How fast a coat dries: saturation pressure * (1 - RH)^0.9 in ten-thousandths of a pascal; 0 in saturated air."""
    return whole(saturation(temp, version) * read(tables(version)["drying"]["thirst"], rh) / 10000)


def doses(coat: dict[str, Any], version: int) -> dict[str, int]:
    """The dose at which a coat is dry, `likely` and `by_table`.

    Compound takes K. Latex has no published law: its label's least time at the label's air, stretched by this one.
    `percent`: what this yard's own looks say of the material: above 100 it lengthens both ends, below only *likely*.
    """
    thickness, percent = coat.get("thickness", "normal"), coat.get("percent", 100)
    return dict(_doses(coat["material"], thickness, coat.get("label_minutes"), percent, version))


@functools.lru_cache(maxsize=256)
def _doses(name: str, thick: str, label_minutes: int | None, percent: int, version: int) -> dict[str, int]:
    table = tables(version)["drying"]
    material, law, thickness = table["materials"][name], table["law"], table["thickness"][thick]
    if material["clock"] == "label":
        minutes = label_minutes or material["minutes"]
        least = minutes * 60 * rate(material["temp"], material["rh"], version)
        base = {"likely": least, "by_table": ceiling(least * law["k_by_table"], law["k_likely"])}
    else:
        base = {end: law[f"k_{end}"] * 3600 * 1000000 for end in ENDS}
    dose = {end: ceiling(base[end] * thickness[end], 1000) for end in ENDS}
    by_end = {"likely": percent, "by_table": max(100, percent)}
    return {end: ceiling(dose[end] * by_end[end], 100) for end in ENDS}


def held(laid: int, readings: list[Reading], version: int) -> list[Reading]:
    """The air from the laying on, in order: {from, to, read, temp, rh, rate}; `read` when it was read, last `to` null.

    Of two readings of one time the slower air counts, so that the order of arrival does not. A reading may bring its
    `rate`, and `read` where it was read at another time than it counts from.
    """
    told = sorted(_told(one, version) for one in readings)
    kept = [one for place, one in enumerate(told) if place == 0 or told[place - 1][0] != one[0]]
    steps: list[Reading] = []
    for place, (time, speed, temp, rh, read_at) in enumerate(kept):
        after = kept[place + 1][0] if place + 1 < len(kept) else None
        if after is None or after > laid:
            start = laid if not steps else time
            steps.append({"from": start, "to": after, "read": read_at, "temp": temp, "rh": rh, "rate": speed})
    return steps


def _told(one: Reading, version: int) -> tuple[int, int, float, float, int]:
    time: int = one["time"]
    speed: int = one["rate"] if "rate" in one else rate(one["temp"], one["rh"], version)
    read_at: int = one.get("read", time)
    return time, speed, one["temp"], one["rh"], read_at


def reached(steps: list[Reading], dose: int) -> int | None:
    """The second at which the air has dried that much, rounded up to the minute; null when it never does."""
    left = dose
    for step in steps:
        if step["rate"] and (step["to"] is None or step["rate"] * (step["to"] - step["from"]) >= left):
            return ceiling(int(step["from"] + ceiling(left, step["rate"])), 60) * 60
        if step["to"] is not None:
            left -= step["rate"] * (step["to"] - step["from"])
    return None


def dried(coat: dict[str, Any], readings: list[Reading], until: int, version: int) -> dict[str, int]:
    """How much of a coat is dry at an instant, in whole thousandths, by each end; 1000 only when it is dry."""
    return dried_by(coat, held(coat["laid"], readings, version), until, version)


def dried_by(coat: dict[str, Any], steps: list[Reading], until: int, version: int) -> dict[str, int]:
    """The same over air that is in order already."""
    got = dose_by(steps, until)
    return {end: min(got, dose) * 1000 // dose for end, dose in doses(coat, version).items()}


def dose_by(steps: list[Reading], until: int) -> int:
    """What the air has dried by an instant."""
    got = 0
    for step in steps:
        last, first = step["to"], step["from"]
        if last is None or last > until:
            last = until
        if last > first:
            got += step["rate"] * (last - first)
    return got


def ready(coat: dict[str, Any], readings: list[Reading], version: int) -> dict[str, Any]:
    """When a coat {laid, material, thickness?, set_minutes?, label_minutes?} is dry: {likely, by_table, set, flags}.

    Whole minutes in seconds since 1970, null when not in this air. `set`: a setting-type coat can take the next coat
    from then on, but primer and paint wait for `likely` and `by_table`. No minutes, or 0 of them, are none told: a bag
    that nobody read has no set time, a can its material's. Flags: see `flags_of`.
    """
    return ready_by(coat, held(coat["laid"], readings, version), version)


def ready_by(coat: dict[str, Any], steps: list[Reading], version: int) -> dict[str, Any]:
    """The same over air that is in order already."""
    found: dict[str, Any] = {}
    clock = tables(version)["drying"]["materials"][coat["material"]]
    label = (coat.get("label_minutes") or clock["minutes"]) if clock["clock"] == "label" else 0
    least = ceiling(coat["laid"] + label * 60, 60) * 60
    for end, dose in doses(coat, version).items():
        instant = reached(steps, dose)
        found[end] = None if instant is None else max(instant, least)
    bag = coat.get("set_minutes") if clock["clock"] == "set" else None
    found["set"] = coat["laid"] + bag * 60 if bag else None
    found["flags"] = flags_of(steps, found, version)
    return found


def flags_of(steps: list[Reading], found: dict[str, Any], version: int) -> list[str]:
    """Why the answer is not to be relied on, while the coat is not yet dry by the table.

    `no_readings`; `below_limits`, `above_limits`: out of limits, not merely slow; `damp`: above 90 % RH a 3-point error
    multiplies the time by 1.4 to 2.3; `bone_dry`: no air is at 0 %, so a dead sensor said it; `gap`: a wet coat's
    reading held for more than 4 hours before another came, or before the first; `dry_out`: dry before it had set is
    weak.
    """
    limits = tables(version)["drying"]["limits"]
    long, end = limits["gap_minutes"] * 60, found["by_table"]
    wet = [step for step in steps if end is None or step["from"] < end]
    temps, damp = [step["temp"] for step in wet] or [limits["coldest"]], [step["rh"] for step in wet]
    told = {
        "no_readings": not steps,
        "below_limits": min(temps) < limits["coldest"],
        "above_limits": max(temps) > limits["hottest"],
        "damp": max(damp, default=0) > limits["reliable_rh"],
        "bone_dry": 0 in damp,
        "gap": _longest(wet, end) > long,
        "dry_out": found["set"] is not None and found["likely"] is not None and found["likely"] < found["set"],
    }
    return [flag for flag, is_so in told.items() if is_so]


def _longest(wet: list[Reading], end: int | None) -> int:
    """How long a reading held at most before another came, or before it was read, while the coat was wet."""
    longest = 0
    for step in wet:
        read, last = step["read"], step["to"]
        if last is not None:
            if end is not None and last > end:
                last = end
            if last - read > longest:
                longest = last - read
        if read - step["from"] > longest:
            longest = read - step["from"]
    return longest


def ceiling(number: int, by: int) -> int:
    """A quotient of whole numbers, rounded up."""
    return (number - number % by) // by + (1 if number % by > 0 else 0)
