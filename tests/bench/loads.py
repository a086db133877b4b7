"""What the benchmarks push: a yard's worth of entries, and the bare route that they are measured against."""

from __future__ import annotations

import gzip
import http.client
import json
import random
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import Flask, request

from server.app import create_app
from server.clock import SystemClock
from server.settings import Settings
from tests.conftest import close_app, settle
from tests.loopback import on_loopback
from tests.phone import NAMES, PASSCODE, Phone, sign_in

BATCH = 500


@contextmanager
def serving(app: Flask) -> Iterator[http.client.HTTPConnection]:
    """The app on a loopback port in threads of this process, and one connection to it."""
    with on_loopback(app, threads=4) as port:
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
        yield connection
        connection.close()


@dataclass
class Yard:
    """A served yard, an inspector's phone on it, everybody's phones, and its modules."""

    app: Flask
    connection: http.client.HTTPConnection
    phone: Phone
    phones: dict[str, Phone]
    modules: list[str]

    def push(self, entries: list[dict[str, Any]]) -> float:
        """Seconds from the first byte sent to the last received; the phone moves on as its own code would."""
        phone = self.phone
        seconds, answer = posted(self.connection, "/api/sync", phone.envelope(entries=entries), phone.bearer())
        assert all("seq" in verdict for verdict in answer["verdicts"]), answer["verdicts"][:3]
        phone.cursor, phone.chain = answer["cursor"], answer["chain"]
        return seconds


@contextmanager
def opened(data: Path, modules: int = 20) -> Iterator[Yard]:
    app = create_app(Settings(data=data, testing=True), SystemClock())
    phones = settle(app)
    manager, made = phones["manager"], []
    for number in range(modules):
        module = manager.clock.new_id()
        facts = {"serial": f"LM-{number:04}-A", "home": f"LM-{number:04}", "pickup": "2026-12-20T13:00:00Z"}
        manager.write("module.added", module, facts, module)
        made.append(module)
    manager.sync()
    inspector = sign_in(app, NAMES["inspector"], PASSCODE)
    inspector.sync()
    with serving(app) as connection:
        yield Yard(app, connection, inspector, phones, made)
    close_app(app)


def written(phone: Phone, modules: list[str], count: int, chance: random.Random) -> list[dict[str, Any]]:
    """Entries as an inspector writes them, of about 500 bytes: two items, a photo of both, a change, a move; again.

    Whole stories of five, so at least `count`.
    """
    made: list[dict[str, Any]] = []
    while len(made) < count:
        module, items = chance.choice(modules), [phone.clock.new_id(), phone.clock.new_id()]
        for item in items:
            spot = {"room": chance.choice(ROOMS), "surface": chance.choice("ABCD"), "along": chance.randrange(4000)}
            given = {"wish": chance.choice(WISHES), "crew": "patch", "charge": "electrical", "light": "raking"}
            body = {"defect": chance.choice(DEFECTS), **spot, "up": chance.randrange(2400), **given}
            made.append(phone.entry("item.logged", item, body, module))
        marked = [[item, chance.randrange(2048), chance.randrange(1536)] for item in items]
        photo = {"sha256": f"{chance.randrange(1 << 256):064x}", "bytes": 412_345, "px": [2048, 1536]}
        shown = {"shows": "before", "room": "kitchen", "surface": "A", "items": marked, "marks": []}
        made.append(phone.entry("photo.added", phone.clock.new_id(), {**photo, **shown}, module))
        made.append(phone.entry("item.amended", items[0], {"wish": chance.choice(WISHES) * 2}, module))
        moved = {"room": "kitchen", "surface": "C", "along": chance.randrange(4000), "up": chance.randrange(2400)}
        made.append(phone.entry("item.placed", items[1], moved, module))
    return made


ROOMS = ("kitchen", "bath", "bed1", "bed2", "hall")
DEFECTS = ("nick", "scratch", "dent", "screw_pop", "dirt")
WISHES = ("sand it flush and touch up to the break", "texture differs from the field", "skim both sides of the joint")


def posted(
    connection: http.client.HTTPConnection, path: str, value: Any, headers: dict[str, str]
) -> tuple[float, dict[str, Any]]:
    """Packing before and unpacking afterwards are the client's own and not timed."""
    data = gzip.compress(json.dumps(value, separators=(",", ":")).encode(), 5, mtime=0)
    told = {"Content-Type": "application/json", "Content-Encoding": "gzip", "Accept-Encoding": "gzip", **headers}
    begun = time.perf_counter()
    connection.request("POST", path, data, told)
    response = connection.getresponse()
    body = response.read()
    seconds = time.perf_counter() - begun
    assert response.status == 200, body[:300]
    if response.headers.get("Content-Encoding") == "gzip":
        body = gzip.decompress(body)
    answer: dict[str, Any] = json.loads(body)
    return seconds, answer


def bare(database: Path) -> Flask:
    """The floor: the same bytes taken apart and kept durably, and nothing known about them."""
    app = Flask("bare")
    raw = sqlite3.connect(database, check_same_thread=False, isolation_level=None)
    raw.execute("PRAGMA journal_mode=WAL")
    raw.execute("PRAGMA synchronous=FULL")
    raw.execute("CREATE TABLE entry (id TEXT PRIMARY KEY, device TEXT, n INTEGER, body BLOB)")

    @app.post("/api/sync")
    def take() -> dict[str, Any]:
        call = json.loads(gzip.decompress(request.get_data()))
        rows = [(one["id"], one["device"], one["n"], json.dumps(one)) for one in call["entries"]]
        raw.execute("BEGIN IMMEDIATE")
        raw.executemany("INSERT INTO entry VALUES (?, ?, ?, ?)", rows)
        raw.execute("COMMIT")
        return {"ids": [row[0] for row in rows]}

    app.extensions["bare"] = raw
    return app


def floor(database: Path, entries: list[dict[str, Any]]) -> float:
    """Seconds that the bare route takes for these entries, in batches."""
    app = bare(database)
    with closing(app.extensions["bare"]), serving(app) as connection:
        return sum(
            posted(connection, "/api/sync", {"entries": entries[start : start + BATCH]}, {})[0]
            for start in range(0, len(entries), BATCH)
        )


def verdict(name: str, figure: float, target: float, unit: str) -> str:
    """One line of the table."""
    return f"{name:<58}{figure:>10.2f}{unit:<4} target {target:g}{unit}: {'met' if figure <= target else 'not met'}"
