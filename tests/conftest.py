"""What tests share: a yard on SQLite on disk with the story's clock, and a signed-in phone for each role.

The yard is made once, through the API, and copied for each test: hashing passcodes is slow on purpose.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import settings
from playwright.sync_api import Browser, Playwright, sync_playwright

from server import journal, people
from server.app import create_app
from server.clock import StoryClock
from server.db import db, writing
from server.settings import Settings
from tests.browser import launch
from tests.phone import NAMES, PASSCODE, ROLES, Phone, sign_in

# The same draws on every machine: hypothesis draws otherwise by what it takes for a build server, and a count that is
# met here could be missed there. A long run draws anew.
settings.register_profile("told", derandomize=True, database=None, deadline=None, print_blob=True)
settings.register_profile("long", derandomize=False, database=None, deadline=None, print_blob=True)
settings.load_profile("long" if os.environ.get("RAKELIGHT_LONG") else "told")

START = datetime(2026, 12, 1, 14, 0, tzinfo=UTC)


def open_app(data: Path, clock: StoryClock) -> Flask:
    return create_app(Settings(data=data, testing=True), clock)


def close_app(app: Flask) -> None:
    with app.app_context():
        db.engine.dispose()


def settle(app: Flask) -> dict[str, Phone]:
    """Opens the yard as `rakelight open` does, then names and signs in everybody through the API."""
    with app.app_context(), writing() as conn:
        made = journal.open_yard(
            conn,
            app.extensions["clock"],
            name="Long Meadow",
            zone="America/Chicago",
            bays=["Bay 1", "Bay 2"],
            crews=[{"id": "patch", "name": "Patch crew"}],
            admin_name=NAMES["administrator"],
        )
        people.set_passcode(conn, made["person"], NAMES["administrator"], PASSCODE)
    phones = {"administrator": sign_in(app, NAMES["administrator"], PASSCODE)}
    first = phones["administrator"]
    for role in ROLES[:4]:
        person = first.clock.new_id()
        assert "seq" in first.say("person.named", person, {"name": NAMES[role], "roles": [role]})
        assert first.post(f"/api/people/{person}/passcode", {"passcode": PASSCODE}).status_code == 200
        phones[role] = sign_in(app, NAMES[role], PASSCODE)
    return phones


@pytest.fixture(scope="session")
def settled(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, Phone]]:
    """The data folder of a yard with five people, and their phones."""
    data = tmp_path_factory.mktemp("settled") / "data"
    app = open_app(data, StoryClock(START))
    phones = settle(app)
    close_app(app)
    return data, phones


@pytest.fixture
def clock() -> StoryClock:
    return StoryClock(START)


@pytest.fixture
def empty_app(tmp_path: Path, clock: StoryClock) -> Iterator[Flask]:
    """A server on which no yard has been opened."""
    app = open_app(tmp_path / "empty", clock)
    yield app
    close_app(app)


@pytest.fixture
def app(tmp_path: Path, settled: tuple[Path, dict[str, Phone]], clock: StoryClock) -> Iterator[Flask]:
    """A server with a yard of its own; its data are in `tmp_path / "data"`."""
    shutil.copytree(settled[0], tmp_path / "data")
    app = open_app(tmp_path / "data", clock)
    yield app
    close_app(app)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """Nobody signed in."""
    return app.test_client()


@pytest.fixture
def phones(app: Flask, settled: tuple[Path, dict[str, Phone]]) -> dict[str, Phone]:
    """A signed-in phone for each role."""
    return {role: replace(deepcopy_without_app(phone), app=app) for role, phone in settled[1].items()}


@pytest.fixture
def sign_in_again(app: Flask) -> Callable[..., Phone]:
    """Signs a role's person in once more: `sign_in_again(role, device=None)`."""
    return lambda role, device=None: sign_in(app, NAMES[role], PASSCODE, device)


@pytest.fixture
def module(phones: dict[str, Phone]) -> str:
    """A module without a plan, known to everybody's phone."""
    manager = phones["manager"]
    made = manager.clock.new_id()
    assert "seq" in manager.say("module.added", made, {"serial": "LM-0417-A", "home": "LM-0417"}, made)
    for phone in phones.values():
        phone.sync()
    return made


def deepcopy_without_app(phone: Phone) -> Phone:
    return replace(phone, queue=deepcopy(phone.queue), parts=deepcopy(phone.parts))


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """One for the whole run: a second one cannot start beside it."""
    with sync_playwright() as found:
        yield found


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One real browser; each person in a test has a context of their own in it."""
    found = launch(playwright)
    yield found
    found.close()
