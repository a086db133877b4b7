"""A real server on loopback for tests that hold a real browser, and hands that use the screens as people do."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from flask import Flask

from server.app import create_app
from server.clock import SystemClock
from server.rules import tables
from server.settings import Settings
from tests.conftest import close_app, settle
from tests.loopback import on_loopback
from tests.phone import Phone

ROOM = {
    "id": "bath",
    "name": "Bath 2",
    "l": 2740,
    "w": 2130,
    "h": 2440,
    "walls": {
        "A": {
            "sight": "window",
            "openings": [{"kind": "window", "along": 950, "up": 1370, "w": 610, "h": 610}],
            "things": [],
        },
        "B": {
            "sight": "mirror",
            "openings": [],
            "things": [{"name": "mirror", "along": 400, "up": 1050, "w": 1020, "h": 910}],
        },
        "C": {
            "sight": "door",
            "openings": [{"kind": "door", "along": 1700, "up": 0, "w": 710, "h": 2030}],
            "things": [],
        },
        "D": {"openings": [], "things": []},
    },
}


@dataclass
class Place:
    """A served yard: its address, the app behind it, everybody's API phone, and one module with a bath."""

    url: str
    app: Flask
    phones: dict[str, Phone]
    module: str
    data: Path


@pytest.fixture
def place(tmp_path: Path) -> Iterator[Place]:
    app = create_app(Settings(data=tmp_path / "data", testing=True, static=None), SystemClock())
    phones = settle(app)
    with on_loopback(app, threads=8) as port:
        manager = phones["manager"]
        plan, module = manager.clock.new_id(), manager.clock.new_id()
        manager.say("plan.drawn", plan, {"name": "Two rooms", "rooms": [ROOM]})
        facts = {"serial": "LM-0417-A", "home": "LM-0417", "plan": plan, "pickup": "2026-12-20T13:00:00Z"}
        assert "seq" in manager.say("module.added", module, facts, module)
        yield Place(f"http://127.0.0.1:{port}", app, phones, module, tmp_path / "data")
    close_app(app)


def parts(place: Place, kind: str) -> list[dict[str, Any]]:
    """All parts of a kind as the server has them now."""
    phone = place.phones["manager"]
    phone.sync()
    return [part for part in phone.parts.values() if part["part"] == kind]


def sign_sheets(place: Place, phone: Phone, rooms: Sequence[str] = ("bath",)) -> None:
    """Both sheets answered for these rooms and signed through the API."""
    for name, sheet in tables(1)["sheets"].items():
        about = str(uuid.uuid5(uuid.UUID(place.module), name))
        for line, spec in sheet["lines"].items():
            where = list(rooms) if spec["by_room"] else ["module"]
            body = {"sheet": name, "line": line, "rooms": where, "rest": "yes", "except": []}
            assert "seq" in phone.say("sheet.answered", about, body, place.module)
        phone.sync()
        assert "seq" in phone.say("sheet.signed", about, {"sheet": name}, place.module)
