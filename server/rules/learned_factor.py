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
from server.rules.vocabulary import tables

Observation = dict[str, int | None]


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
    return told | {"percent": -best[2]}


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
