"""The story told once into a folder, and a small yard of its own for tests of one phone."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from flask import Flask

from seed_demo import start, yard
from seed_demo.phones import Phone
from seed_demo.story import Story
from seed_demo.wire import FlaskTransport
from seed_demo.workers import Worker
from server import journal
from server.app import create_app
from server.clock import StoryClock, stamp
from server.db import reading
from server.rules import holds
from server.settings import Settings
from tests.conftest import close_app


@dataclass
class Told:
    """The told story, the app on its folder, and how long the telling took."""

    story: Story
    app: Flask
    folder: Path
    seconds: float


@pytest.fixture(scope="session")
def told(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Told]:
    folder = tmp_path_factory.mktemp("story")
    began = time.monotonic()
    story = start.seed(folder, date(2026, 12, 1))
    seconds = time.monotonic() - began
    app = create_app(Settings(data=folder, testing=True), StoryClock(story.now))
    for worker in story.workers.values():
        worker.phone.transport = FlaskTransport(app)
    yield Told(story, app, folder, seconds)
    close_app(app)


def holds_of(told: Told, serial: str) -> list[dict[str, Any]]:
    """What stops a module at the end of the story."""
    module = told.story.modules[serial]
    with told.app.app_context(), reading() as conn:
        return holds(module, journal.gate_parts(conn, module), stamp(told.story.now))


@dataclass
class Small:
    """A yard with one module and two people, each on a phone."""

    app: Flask
    clock: StoryClock
    module: str
    inspector: Worker
    lead: Worker


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Small]:
    clock = StoryClock(datetime(2026, 12, 1, 15, tzinfo=UTC))
    app = create_app(Settings(data=tmp_path / "data", testing=True), clock)
    start.open_yard(app)

    def worker(person: yard.Person) -> Worker:
        phone = Phone(FlaskTransport(app), clock.now, ZoneInfo(yard.ZONE), person.name)
        return Worker(phone, person.name, person.passcode)

    admin = worker(yard.ADMINISTRATOR)
    people = {one.roles[0]: one for one in yard.PEOPLE if one.name != "Ferris Oakey"}
    for role in ("inspector", "crew_lead"):
        named = admin.names(people[role].name, [role], people[role].crew)
        admin.sync()
        admin.phone.post(f"/api/people/{named}/passcode", {"passcode": people[role].passcode})
    module = admin.adds_module(admin.phone.new_id(), {"serial": "9001-A", "home": "9001"})
    admin.sync()
    workers = [worker(people[role]) for role in ("inspector", "crew_lead")]
    for one in workers:
        one.sync()
    yield Small(app, clock, module, *workers)
    close_app(app)
