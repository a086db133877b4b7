"""The server's process is killed while phones push: nothing acknowledged is missing, nothing is doubled."""

from __future__ import annotations

import hashlib
import os
import random
import signal
import sqlite3
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from tests.photos.pictures import encoded, halves
from tests.served import Served, WirePhone, command, module_of, opened_yard, over_the_wire

ROUNDS = 50 if os.environ.get("RAKELIGHT_LONG") else 8
SEED = 20261203


class Pusher(threading.Thread):
    """Writes and pushes until the server is gone. `taken`: what it was told of, entry id -> seq; `photos`: hashes."""

    def __init__(self, phone: WirePhone, chance: random.Random) -> None:
        super().__init__(daemon=True)
        self.phone, self.chance = phone, chance
        self.module = module_of(phone)
        self.written: list[str] = []
        self.taken: dict[str, int] = {}
        self.photos: list[str] = []
        self.problem: str | None = None

    def run(self) -> None:
        try:
            while True:
                self.write()
                self.push()
        except OSError:
            return
        except AssertionError as error:
            self.problem = str(error)

    def write(self) -> None:
        """A handful of items and one photo of them."""
        phone, spot = self.phone, {"room": "bed1", "surface": "B", "light": "raking"}
        for _ in range(self.chance.randint(1, 40)):
            entry = phone.write("item.logged", phone.clock.new_id(), {"defect": "nick", **spot}, self.module)
            self.written.append(entry["id"])

    def push(self) -> None:
        for verdict in self.phone.sync()["verdicts"]:
            assert "seq" in verdict, verdict
            self.taken[verdict["id"]] = verdict["seq"]
        data = encoded(halves((60, 40)), comment=self.phone.clock.new_id().encode())
        sha256 = hashlib.sha256(data).hexdigest()
        body = {"sha256": sha256, "bytes": len(data), "px": [60, 40], "shows": "wall", "items": [], "marks": []}
        self.written.append(self.phone.write("photo.added", self.phone.clock.new_id(), body, self.module)["id"])
        for verdict in self.phone.sync()["verdicts"]:
            self.taken[verdict["id"]] = verdict["seq"]
        if self.phone.put(f"/api/photos/{sha256}", data, "image/jpeg").status_code in (200, 201):
            self.photos.append(sha256)


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    found = Served(tmp_path / "data")
    yield found
    found.end()


def kept(data: Path) -> list[tuple[str, int, str, int]]:
    with closing(sqlite3.connect(data / "rakelight.sqlite")) as raw:
        return raw.execute("SELECT id, seq, device, n FROM entry ORDER BY seq").fetchall()


def numbers(data: Path) -> list[int]:
    with closing(sqlite3.connect(data / "rakelight.sqlite")) as raw:
        told = raw.execute("SELECT json_extract(CAST(body AS TEXT), '$.number') FROM part WHERE kind = 'item'")
        return [row[0] for row in told.fetchall()]


def look(data: Path, pushers: list[Pusher]) -> None:
    """Everything that was acknowledged is there, once, where it was said to be; and the record is sound."""
    rows = kept(data)
    places = {entry: seq for entry, seq, _, _ in rows}
    for pusher in pushers:
        assert pusher.problem is None
        assert {entry: places.get(entry) for entry in pusher.taken} == pusher.taken
    assert [seq for _, seq, _, _ in rows] == list(range(1, len(rows) + 1))
    assert max(Counter((device, n) for _, _, device, n in rows).values()) == 1
    assert len(set(numbers(data))) == len(numbers(data))
    audited = command("audit", "--data", str(data))
    assert audited["ok"], audited
    assert {sha256 for one in pushers for sha256 in one.photos} <= set(audited["photos"]["whole"])


def test_nothing_acknowledged_is_missing_and_nothing_doubled(
    served: Served, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(SEED)
    yard = opened_yard(served.data)
    phones = [over_the_wire(yard[role], served.port) for role in ("inspector", "inspector_2")]
    history: list[Pusher] = []
    cut_off = unheard = 0
    for _ in range(ROUNDS):
        served.start()
        pushers = [Pusher(phone, chance) for phone in phones]
        for pusher in pushers:
            pusher.start()
        time.sleep(chance.uniform(0.0, 0.5))
        served.end(signal.SIGKILL)
        for pusher in pushers:
            pusher.join(30)
        history += pushers
        look(served.data, history)
        there = {entry for entry, _, _, _ in kept(served.data)}
        queued = [entry["id"] for phone in phones for entry in phone.queue]
        cut_off, unheard = cut_off + bool(queued), unheard + bool(there & set(queued))
    served.start()
    for pusher in history[-2:]:
        for verdict in pusher.phone.sync()["verdicts"]:
            pusher.taken[verdict["id"]] = verdict["seq"]
    served.end()
    look(served.data, history)
    written = {entry for pusher in history for entry in pusher.written}
    with capsys.disabled():
        print(f"\n{ROUNDS} kills, {cut_off} inside a push, {unheard} of these after its commit; {len(written)} entries")
    assert written <= {entry for entry, _, _, _ in kept(served.data)}
    assert cut_off >= ROUNDS // 2, "the kills fall where they should"
    assert unheard >= ROUNDS // 50, "and at least one of fifty after a commit that no phone heard of"
