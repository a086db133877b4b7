"""A copy of the database that is put back, and what the tests of restores share."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from flask import Flask

from server import journal
from server.db import db
from server.rules import sheet_id
from tests.phone import Phone

LINES = {"cleaning": ["debris"], "wrap_and_seal": ["open_side", "roof_edge", "heat_and_water_off"]}


class Backup:
    """A copy of the database made while the server runs, and its return in place of the younger one."""

    def __init__(self, app: Flask, data: Path) -> None:
        self.app, self.live, self.kept = app, data / "rakelight.sqlite", data / "kept.sqlite"

    def take(self) -> None:
        with closing(sqlite3.connect(self.live)) as live, closing(sqlite3.connect(self.kept)) as kept:
            live.backup(kept)

    def swap_in(self) -> None:
        with self.app.app_context():
            db.engine.dispose()
        for name in ("rakelight.sqlite-wal", "rakelight.sqlite-shm"):
            (self.live.parent / name).unlink(missing_ok=True)
        shutil.copy(self.kept, self.live)

    def confirm(self, manager: str) -> None:
        with self.app.app_context():
            journal.restored(manager, self.app.extensions["clock"])


def sent(phone: Phone) -> list[dict[str, Any]]:
    """Sends what waits; the entries, as a phone keeps them for thirty days."""
    kept = list(phone.queue)
    assert all("seq" in verdict for verdict in phone.sync()["verdicts"])
    return kept


def again(phone: Phone, kept: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Offers kept entries again, as the answer to a phone from another past asks it to."""
    phone.queue = [*kept, *phone.queue]
    verdicts: list[dict[str, Any]] = phone.sync()["verdicts"]
    return verdicts


def make_ready(inspector: Phone, module: str) -> None:
    for sheet, lines in LINES.items():
        about = sheet_id(module, sheet)
        for line in lines:
            body = {"sheet": sheet, "line": line, "rooms": ["module"], "rest": "yes", "except": []}
            inspector.write("sheet.answered", about, body, module)
        inspector.write("sheet.signed", about, {"sheet": sheet}, module)


def release(shipping: Phone, module: str) -> dict[str, Any]:
    shipping.sync()
    ask = {"id": shipping.clock.new_id(), "module": module, "device": shipping.device, "epoch": shipping.epoch}
    answer = shipping.post("/api/release", {**ask, "seen": shipping.cursor, "chain": shipping.chain})
    assert answer.status_code == 200, answer.text
    entry: dict[str, Any] = answer.get_json()["entry"]
    return entry
