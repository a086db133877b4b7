"""How much slower or faster this yard's coats dry than the law says, per material, from what people found by looking.

A look only bounds the time: *not dry* says that the coat needs more than the dose it had by then, *dry* that it needed
no more. So an observation is an interval {low, high} in thousandths of the *likely* dose, each end null when nobody
looked. The factor is the most plausible whole per cent, by a log-normal share about it and a prior about 100 (see
`learned.json`). One look in fifty is taken to be simply wrong: no single look, however wild, can weigh more than that.

A *dry* that nobody tried (a cut through the joint, sands to powder) is no bound: nothing is shortened by the eye alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from server.rules.climate import read, whole
from server.rules.clocks import UNRELIABLE, clock, drying_of
from server.rules.drying import dose_by, doses, held
from server.rules.instants import seconds
from server.rules.parts import Part
from server.rules.place import Place
from server.rules.vocabulary import CURRENT, tables
from server.rules.whose_air import air_for

Observation = dict[str, int | None]
SHOWN = 3


def observations(places: Iterable[Place]) -> dict[str, list[Observation]]:
    """What the yard's looks say, by material: of each coat the last *not dry*, and the first tried *dry* after it.

    Rooms that somebody looked at in one go are one observation, the weakest that they allow: a glance through a module
    is one look, not ten. A look at a coat whose air nobody can rely on says nothing.
    """
    found: dict[str, list[Observation]] = {}
    for place in places:
        for coat in place["coats"]:
            for ends in _by_look(place, coat).values():
                lows = [low for low, _ in ends if low is not None]
                highs = [high for _, high in ends if high is not None]
                if lows or highs:
                    one = {"low": min(lows, default=None), "high": max(highs, default=None)}
                    found.setdefault(coat["material"], []).append(one)
    return found


def learn(observations: list[Observation], version: int) -> dict[str, int]:
    """The factor in per cent of *likely*, and from how many looks; 100 as long as these are too few to speak."""
    table = tables(version)["learned"]
    first, last = table["percent"]["from"], table["percent"]["to"]
    told = {"percent": 100, "looks": len(observations)}
    if len(observations) < tables(version)["drying"]["limits"]["learned_least"]:
        return told
    # Of two equally plausible ones the nearer to the law, then the slower.
    best = min(
        (table["prior"][percent - first] + surprise(observations, percent, version), abs(percent - 100), -percent)
        for percent in range(first, last + 1)
    )
    return told | {"percent": max(-best[2], shown(observations))}


def shown(observations: Iterable[Observation]) -> int:
    """The least per cent that tried looks have shown, 100 at most: the third quickest, one bad look shows nothing.

    Looks that all came late fit any quick yard. What nobody has found dry by then is not taken to be dry sooner.
    """
    highs = sorted(one["high"] for one in observations if one["high"] is not None)
    return min(100, (highs[SHOWN - 1] + 9) // 10) if len(highs) >= SHOWN else 100


def surprise(observations: Iterable[Observation], percent: int, version: int) -> int:
    """How little one would expect these looks in a yard of that factor: -1000 ln of the likelihood, whole."""
    table = tables(version)["learned"]
    doubt: int = table["doubt"]
    found = 0
    for one in observations:
        high = 1000000.0 if one["high"] is None else dry_share(one["high"], percent, version)
        low = 0.0 if one["low"] is None else dry_share(one["low"], percent, version)
        chance = doubt / 2 + (1000000 - doubt) * max(0.0, high - low) / 1000000
        found += whole(read(table["surprise"], chance / 1000))
    return found


def dry_share(dose: int, percent: int, version: int) -> float:
    """The share of coats, in millionths, that are dry after so many thousandths of the dose at that factor."""
    table: dict[str, Any] = tables(version)["learned"]["dry_share"]
    return read(table["millionths"], dose * 10 / percent - table["from"])


def _by_look(place: Place, coat: Part) -> dict[tuple[int | None, int | None], list[tuple[int | None, int | None]]]:
    """(time of the last *not dry*, of the first tried *dry*): the doses by then, of each room that was looked at so."""
    found: dict[tuple[int | None, int | None], list[tuple[int | None, int | None]]] = {}
    for room in coat["rooms"]:
        wet, dry = _looks(coat, room)
        if wet is not None or dry is not None:
            ends = (_dose(place, coat, room, wet), _dose(place, coat, room, dry))
            found.setdefault((wet, dry), []).append(ends)
    return found


def _looks(coat: Part, room: str) -> tuple[int | None, int | None]:
    """When a room of a coat was last found wet since it was sanded, and first found dry after that by trying."""
    told = [line for line in coat["lines"] if "no" not in line and room in line.get("body", {}).get("rooms", [])]
    start = max((_time(line, "sanded_at") for line in told if line["kind"] == "coat.wet_sanded"), default=0)
    start = max(start, seconds(coat["laid"]))
    wet = [_time(line, "looked_at") for line in told if line["kind"] == "coat.found_wet"]
    last = max((time for time in wet if time > start), default=None)
    tried = [line for line in told if line["body"].get("tried") and line["body"].get("reason")]
    dry = [_time(line, "looked_at") for line in tried if line["kind"] == "coat.found_dry"]
    return last, min((time for time in dry if time > (start if last is None else last)), default=None)


def _time(line: Part, told: str) -> int:
    """When it was, never after it was written."""
    written = seconds(line["time"])
    return min(seconds(line["body"][told]), written) if told in line["body"] else written


def _dose(place: Place, coat: Part, room: str, look: int | None) -> int | None:
    """Thousandths of the *likely* dose, by the law alone, that a coat had by a look; null where nobody knows."""
    if look is None:
        return None
    told = clock(place, coat, room, look)
    steps = held(told["laid"], air_for(place, room, told["laid"], look)["rows"], CURRENT)
    long = tables(CURRENT)["drying"]["limits"]["gap_minutes"] * 60
    ends = [look if step["to"] is None else min(step["to"], look) for step in steps]
    if UNRELIABLE & set(told["flags"]) or any(end - one["read"] > long for end, one in zip(ends, steps, strict=True)):
        return None
    return int(dose_by(steps, look) * 1000 // doses(drying_of(coat, told["laid"], None), CURRENT)["likely"])
