"""Pushing: against a bare route in the same run, and onto a long history against a short one."""

from __future__ import annotations

import gc
import gzip
import json
import random
from pathlib import Path
from statistics import median

import pytest

from tests.bench.loads import BATCH, Yard, floor, opened, verdict, written
from tests.bench.shares import Shares

pytestmark = pytest.mark.bench

ENTRIES = 10_000
SEED = 20261205


def pushed(data: Path, count: int) -> tuple[float, list[dict[str, object]]]:
    """Seconds for so many entries on a fresh yard, and the entries."""
    with opened(data) as yard:
        entries = written(yard.phone, yard.modules, count, random.Random(SEED))
        # The phone shares this process: its entries are not the server's to walk through at each collection.
        gc.freeze()
        return fill(yard, entries), entries


def fill(yard: Yard, entries: list[dict[str, object]]) -> float:
    return sum(yard.push(entries[start : start + BATCH]) for start in range(0, len(entries), BATCH))


def test_ten_thousand_entries_against_a_bare_route(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ours, floors = [], []
    for turn in range(3):
        seconds, entries = pushed(tmp_path / f"yard-{turn}", ENTRIES)
        ours.append(seconds)
        floors.append(floor(tmp_path / f"bare-{turn}.sqlite", entries))
    size = sum(len(json.dumps(one, separators=(",", ":"))) for one in entries) / len(entries)
    packed = len(gzip.compress(json.dumps(entries).encode(), 5)) / len(entries)
    ratio = median(ours) / median(floors)
    print(f"\n{ENTRIES} entries of {size:.0f} B ({packed:.0f} B gzip), {BATCH} at a time, medians of 3")
    print(f"  bare route {median(floors):.3f} s, here {median(ours):.3f} s")
    print(verdict("push against a bare Flask route and executemany", ratio, 9, "×"))
    shares = Shares().put(monkeypatch)
    total, _ = pushed(tmp_path / "shares", ENTRIES)
    print(f"Shares (with their clocks {total:.3f} s)\n{shares.table(total)}")
    assert ratio > 0


def test_a_long_history_costs_no_more(tmp_path: Path) -> None:
    """The same 100 entries' worth of work, on 10,000 and on 50,000 entries: by turns, so that whatever else the machine
    does meets both alike."""
    chance = random.Random(SEED)
    with opened(tmp_path / "short") as short, opened(tmp_path / "long") as long:
        for yard, length in ((short, 10_000), (long, 50_000)):
            fill(yard, written(yard.phone, yard.modules, length - yard.phone.cursor, chance))
        pairs = [
            [yard.push(written(yard.phone, yard.modules, 100, chance)) for yard in (short, long)] for _ in range(20)
        ]
    medians = [median(times) for times in zip(*pairs, strict=True)]
    print(f"\n100 entries more: {1000 * medians[0]:.1f} ms on 10,000, {1000 * medians[1]:.1f} ms on 50,000")
    print(verdict("100 entries onto 50,000 against onto 10,000", medians[1] / medians[0], 1.2, "×"))
    assert medians[0] > 0
