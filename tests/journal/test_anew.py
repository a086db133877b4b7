"""A data folder whose parts have another form is folded anew at the start, and nothing else in it changes."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from flask import Flask

from server import journal
from server.app import create_app
from server.clock import StoryClock
from server.db import db, reading
from server.journal import anew
from server.rules import FORM
from server.settings import Settings
from tests.conftest import START
from tests.journal.entries import log, sound
from tests.journal.old_parts import everything, form_of, make_old, never_had_a_form
from tests.phone import Phone

Phones = dict[str, Phone]


@pytest.fixture
def database(app: Flask, phones: Phones, module: str, tmp_path: Path) -> Path:
    """A yard with some items and a module that has left, nobody working on it."""
    for _ in range(5):
        log(phones["inspector"], module)
    phones["inspector"].sync()
    other = phones["manager"].clock.new_id()
    phones["manager"].say("module.added", other, {"serial": "LM-0418-A", "home": "LM-0418"}, other)
    phones["inspector"].sync()
    log(phones["inspector"], other)
    phones["inspector"].sync()
    phones["manager"].say("module.left", other, {"why": "gone"}, other)
    with app.app_context():
        db.engine.dispose()
    return tmp_path / "data" / "rakelight.sqlite"


def start(database: Path, told: list[str] | None = None) -> Flask:
    settings = Settings(data=database.parent, testing=True)
    return create_app(settings, StoryClock(START), tell=(told if told is not None else []).append)


def test_a_new_yard_says_its_form(database: Path) -> None:
    assert form_of(database) == FORM


@pytest.mark.parametrize("spoil", [make_old, never_had_a_form])
def test_parts_of_another_form_are_folded_anew(database: Path, spoil: object) -> None:
    before = everything(database)
    assert any(row["gone"] for row in before["part"])
    assert callable(spoil)
    spoil(database)
    assert everything(database) != before
    app = start(database)
    assert everything(database) == before
    assert form_of(database) == FORM
    assert sound(app)


def test_parts_of_this_form_are_left_alone(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(anew, "writing", None)
    start(database)


def test_what_takes_long_says_how_far_it_is(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    start(database, told)
    make_old(database)
    monkeypatch.setattr(anew, "PATIENCE", 1e9)
    start(database, told)
    assert told == []
    make_old(database)
    monkeypatch.setattr(anew, "PATIENCE", 0)
    start(database, told)
    last = len(everything(database)["entry"])
    assert len(told) == last + 1
    assert told[0] == f"This version reads the journal in a new way: 1 of {last} entries done."
    assert told[-1].startswith(f"All {last} entries done in ")


def test_stopped_half_way_it_begins_again(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = everything(database)
    make_old(database)
    old = everything(database)
    monkeypatch.setattr(anew, "PATIENCE", 0)

    def stop(words: str) -> None:
        if f"{len(old['entry'])} of" in words:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        create_app(Settings(data=database.parent, testing=True), StoryClock(START), tell=stop)
    assert (form_of(database), everything(database)) == (0, old)
    start(database)
    assert everything(database) == before


def test_it_is_done_when_it_is_kept(database: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that is full says so at the end: nobody has been told before that all is done."""
    make_old(database)
    old = everything(database)
    monkeypatch.setattr(anew, "PATIENCE", 0)

    def full(*_words: object) -> None:
        raise OSError("database or disk is full")

    monkeypatch.setattr(anew, "store_parts", full)
    told: list[str] = []
    with pytest.raises(OSError, match="full"):
        start(database, told)
    assert told
    assert not [words for words in told if words.startswith("All")]
    assert (form_of(database), everything(database)) == (0, old)


def test_a_damaged_entry_is_told_and_keeps_no_server_from_starting(database: Path) -> None:
    make_old(database)
    with closing(sqlite3.connect(database)) as raw, raw:
        raw.execute("UPDATE entry SET canon = x'7b' WHERE seq = 13")
    told: list[str] = []
    app = start(database, told)
    assert len(told) == 1
    assert "entry 13 is not as it was written" in told[0]
    assert not sound(app)


def test_an_entry_that_somebody_changed_is_told_and_takes_no_effect(database: Path) -> None:
    """What stands there reads well; only the chain tells that nobody wrote it."""
    make_old(database)
    with closing(sqlite3.connect(database)) as raw, raw:
        (before,) = raw.execute("SELECT canon FROM entry WHERE seq = 13").fetchone()
        assert b'"defect":"nick"' in before
        raw.execute(
            "UPDATE entry SET canon = ? WHERE seq = 13", [before.replace(b'"defect":"nick"', b'"defect":"tear"')]
        )
    told: list[str] = []
    app = start(database, told)
    assert len(told) == 1
    assert "the chain breaks at entry 13" in told[0]
    assert "tear" not in repr(everything(database)["part"])
    with app.app_context(), reading() as connection:
        assert journal.audit(connection)["problems"] == ["the chain breaks at entry 13"]


def test_a_server_that_still_runs_writes_nothing_among_parts_of_another_form(
    app: Flask, database: Path, phones: Phones, module: str
) -> None:
    """A command of a later version has been used on its folder: phones keep what they have until it is started anew."""
    app.testing = False
    before = everything(database)
    with closing(sqlite3.connect(database)) as raw, raw:
        raw.execute("UPDATE yard SET form = ?", [FORM + 1])
    log(phones["inspector"], module)
    assert phones["inspector"].post("/api/sync", phones["inspector"].envelope()).status_code == 500
    assert everything(database) == before
    with pytest.raises(journal.OtherForm), app.app_context():
        journal.restored(phones["manager"].person, app.extensions["clock"])
