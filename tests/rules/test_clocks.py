"""What must be true of every clock, whatever was read, laid and found in whatever order."""

from __future__ import annotations

import copy
import itertools
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import Any

from server.rules import UNRELIABLE, clock, instant, room_rh, seconds
from tests.rules.histories import END, HOUR, START, Entry, history, parts_after, place_after

SEEDS = range(160)
HOURS = range(START + 6 * HOUR, END, 17 * HOUR)
AT_END = range(END, END + 1)
Place = dict[str, Any]


def clocks(place: Place, hours: range = HOURS) -> Iterator[tuple[Any, dict[str, Any]]]:
    """(coat, room, hour) and its clock."""
    for coat in place["coats"]:
        for room in coat["rooms"]:
            for at in hours:
                yield (coat["id"], room, at), clock(place, coat, room, at)


def without_seq(parts: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{name: value for name, value in part.items() if name != "seq"} for part in parts if part["part"] == "air"]


def enough(counts: Counter[str], **least: int) -> None:
    """A property that nothing interesting happened to proves nothing."""
    print(dict(counts))
    assert {name: counts[name] for name, wanted in least.items() if counts[name] < wanted} == {}


def test_order_of_arrival_and_how_they_are_sent_change_nothing() -> None:
    """The same readings shuffled, some together in one entry, some twice: the same air parts, the same clocks."""
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        chance, (base, readings) = Random(seed), history(seed)
        other = copy.deepcopy([*readings, *readings[:5]])
        chance.shuffle(other)
        for one, two in itertools.pairwise(other):
            if one["about"] == two["about"]:
                two["body"]["rows"] += one["body"]["rows"]
                counts["sent together"] += 1
        told, shuffled = parts_after(base, readings), parts_after(base, other)
        assert without_seq(told) == without_seq(shuffled), seed
        assert list(clocks(place_after(base, readings))) == list(clocks(place_after(base, other))), seed
        counts["days"] += len(without_seq(told))
        counts["moved"] += [one["body"] for one in other] != [one["body"] for one in readings]
        counts["timed"] += sum(found["likely"] is not None for _, found in clocks(place_after(base, readings)))
    enough(counts, days=300, moved=100, timed=1500, **{"sent together": 500})


def test_splitting_a_reading_changes_nothing() -> None:
    """A row in between that says what held there anyway ends at most that hours were not read."""
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        chance, (base, readings) = Random(seed), history(seed)
        if len({one["about"] for one in readings}) != 1 or len(readings) < 2:
            continue
        between = [halved(chance, *pair) for pair in itertools.pairwise(readings)]
        places = place_after(base, readings), place_after(base, [*readings, *between])
        # Seen from the end: before, a row in between may be known where the next was not.
        for (key, one), (_, other) in zip(clocks(places[0], AT_END), clocks(places[1], AT_END), strict=True):
            for name in ("likely", "by_table", "dried"):
                assert one[name] == other[name], (seed, key)
            assert set(other["flags"]) <= set(one["flags"]), (seed, key)
            counts["gap ended"] += "gap" in set(one["flags"]) - set(other["flags"])
            counts["timed"] += one["likely"] is not None
            counts["heated"] += "heated" in one["flags"]
    enough(counts, timed=150, heated=10, **{"gap ended": 3})


def halved(chance: Random, before: Entry, after: Entry) -> Entry:
    """What `before` said, said once more before `after`."""
    (at, temp, rh, surface), until = before["body"]["rows"][0], seconds(after["body"]["rows"][0][0])
    between = instant(chance.randrange(seconds(at), until))
    return before | {"body": before["body"] | {"rows": [[between, temp, rh, surface]]}}


def test_likely_is_never_after_the_table_and_nothing_doubtful_is_ready() -> None:
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        for key, found in clocks(place_after(*history(seed))):
            assert (found["likely"] is None) <= (found["by_table"] is None), (seed, key)
            if found["by_table"] is not None:
                assert found["laid"] <= found["likely"] <= found["by_table"], (seed, key)
            assert found["dried"]["by_table"] <= found["dried"]["likely"] <= 1000, (seed, key)
            assert found["state"] != "ready" or not set(UNRELIABLE) & set(found["flags"]), (seed, key)
            counts[found["state"]] += 1
            counts["factor"] += found["factor"] is not None
            counts.update(found["flags"])
    enough(
        counts, wet=300, likely=70, ready=70, dry=50, not_dry=100, unsure=500, factor=100, stale=200, gap=200,
        outside=200, heated=30, clock_unsure=50, damp=100, below_limits=100, no_readings=200,
    )  # fmt: skip


def test_hotter_at_the_same_moisture_and_drier_are_never_slower() -> None:
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        chance, (base, readings) = Random(seed), history(seed)
        warmer, less = chance.randrange(0, 60), chance.randrange(0, 20)
        better = [kinder(one, warmer, less) for one in readings]
        # At one hour, as one knew the same by then.
        for (key, one), (_, other) in zip(
            clocks(place_after(base, readings)), clocks(place_after(base, better)), strict=True
        ):
            for end in ("likely", "by_table"):
                if one[end] is not None:
                    assert other[end] is not None, (seed, key)
                    assert other[end] <= one[end], (seed, key)
                    counts["sooner"] += other[end] < one[end]
                assert other["dried"][end] >= one["dried"][end], (seed, key)
    enough(counts, sooner=2000)


def kinder(one: Entry, warmer: int, less: int) -> Entry:
    """The same moisture or less, hotter."""
    ((at, temp, rh, surface),) = one["body"]["rows"]
    drier = max(0, int(room_rh(temp, rh, temp + warmer, 1)) - less)
    return one | {"body": one["body"] | {"rows": [[at, temp + warmer, drier, surface]]}}


def test_what_is_ready_stays_ready_whatever_is_read_later() -> None:
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        base, readings = history(seed)
        place, later = place_after(base, readings), [late(one) for one in readings[-1:]]
        after = place_after(base, [*readings, *later])
        for coat, same in zip(place["coats"], after["coats"], strict=True):
            for room in coat["rooms"]:
                one, other = clock(place, coat, room, END), clock(after, same, room, END + 1)
                if one["state"] == "ready" and later:
                    assert other["state"] == "ready", (seed, coat["id"], room)
                    counts["stayed"] += 1
    enough(counts, stayed=15)


def late(one: Entry) -> Entry:
    """Cold, soaked air at the very end."""
    return one | {"body": one["body"] | {"rows": [[instant(END), -50, 100, None]]}}
