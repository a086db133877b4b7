"""A yard on the real application and SQLite on disk, and what only the teller knows: what was truly on which screen.

`branch` is the journal as it stands now, `truth` the ids of the entries that were on the author's screen when an entry
was written (never taken from `seen`), `excused` what is allowed to be missing because its phone lost it.
"""

from __future__ import annotations

import functools
import shutil
import sqlite3
from collections import Counter
from contextlib import AbstractContextManager, closing
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any
from uuid import UUID

from sqlalchemy import select

from server import journal, people
from server.app import create_app
from server.clock import StoryClock
from server.db import db, reading, writing
from server.journal import tables as t
from server.settings import Settings
from tests.sync.copies import again, copy_database

Entry = dict[str, Any]
START = datetime(2026, 12, 1, 14, 0, tzinfo=UTC)
PEOPLE = {
    "ines": ["inspector"],
    "ola": ["crew_lead", "inspector"],
    "teo": ["crew_lead"],
    "sunniva": ["shipping"],
}
HOME = {"room": "module", "release": "module", "phone": "module"}


def home(entry: Entry) -> tuple[str, str]:
    """The part that an entry is about."""
    word = entry["kind"].split(".")[0]
    return HOME.get(word, word), entry["about"]


class SeededClock(StoryClock):
    """Its ids and tokens are the same each time a story is told."""

    chance = Random(0)

    def new_id(self) -> str:
        value = (int(self.now().timestamp() * 1000) << 80) | self.chance.getrandbits(80)
        return str(UUID(int=(value & ~(0xF << 76) & ~(0x3 << 62)) | (0x7 << 76) | (0x2 << 62)))

    def token(self) -> str:
        return f"{self.chance.getrandbits(256):064x}"


class World:
    """One server that is told many stories: `begin` goes back to the same morning each time."""

    def __init__(self, data: Path, page: int = 7) -> None:
        self.data = data
        self.clock = SeededClock(START)
        self.app = create_app(Settings(data=data, testing=True), self.clock)
        self.database = data / "rakelight.sqlite"
        self.told: Counter[str] = Counter()
        self.people: dict[str, str] = {}
        self.modules: list[str] = []
        self._plain_sync = journal.sync
        journal.sync = functools.partial(journal.sync, page=page)
        self._phones: tuple[list[Any], tuple[Any, ...], Any] | None = None
        self._forget()
        self._open()

    def _forget(self) -> None:
        self.branch: list[tuple[str, tuple[str, str]]] = []
        self.truth: dict[str, frozenset[str]] = {}
        self.written: dict[str, Entry] = {}
        self.asked: dict[str, frozenset[str]] = {}
        self.excused: set[str] = set()
        self.phones: list[Any] = []
        self.offs: set[str] = set()
        self.backup_at: int | None = None
        self.restored = False

    def context(self) -> AbstractContextManager[Any]:
        return self.app.app_context()

    def close(self) -> None:
        journal.sync = self._plain_sync
        with self.context():
            db.engine.dispose()

    def _open(self) -> None:
        """Names everybody, then lets `morning` tell how the day begins, and keeps all of it to begin again from."""
        from tests.sync.morning import begin

        with self.context(), writing() as conn:
            made = journal.open_yard(
                conn, self.clock, name="Long Meadow", zone="America/Chicago", bays=["1"], crews=[], admin_name="Maren"
            )
            people.set_passcode(conn, made["person"], "Maren", "plane of light 7")
        self.people["maren"] = made["person"]
        begin(self)
        copy_database(self.database, self.data / "morning.sqlite")
        self._morning = self._now()

    def begin(self) -> None:
        """The same morning again: same journal, no phones yet."""
        self._forget()
        self._swap_in(self.data / "morning.sqlite")
        self._recall(self._morning)
        self.clock.chance = Random(1)

    def begin_with(self, phones: list[list[str]]) -> None:
        """The same morning again with a phone for each of these hands, all synced; made once and then copied."""
        kept = self.data / "phones.sqlite"
        if self._phones is None:
            from tests.sync.handset import Handset

            self.begin()
            for people in phones:
                Handset(self, *people)
            copy_database(self.database, kept)
            self._phones = [again(phone) for phone in self.phones], self._now(), self.clock.chance.getstate()
        made, now, chance = self._phones
        self._forget()
        self._swap_in(kept)
        self._recall(now)
        self.clock.chance.setstate(chance)
        self.phones = [again(phone) for phone in made]

    def _now(self) -> tuple[Any, ...]:
        return list(self.branch), dict(self.truth), dict(self.written), self.clock.now()

    def _recall(self, kept: tuple[Any, ...]) -> None:
        branch, truth, written, now = kept
        self.branch, self.truth, self.written = list(branch), dict(truth), dict(written)
        self.clock.set(now)

    def _swap_in(self, kept: Path) -> None:
        with self.context():
            db.engine.dispose()
        for tail in ("-wal", "-shm"):
            Path(f"{self.database}{tail}").unlink(missing_ok=True)
        shutil.copyfile(kept, self.database)

    # What only the teller knows

    def catch_up(self) -> None:
        """Reads what the journal took since the last look."""
        with closing(sqlite3.connect(self.database)) as conn:
            new = "SELECT id, kind, about FROM entry WHERE seq > ? ORDER BY seq"
            rows = conn.execute(new, (len(self.branch),)).fetchall()
        self.branch += [(row[0], home({"kind": row[1], "about": row[2]})) for row in rows]

    def up_to(self, part: Entry) -> frozenset[str]:
        """The entries that a part of this journal shows: those about it, up to its own number."""
        key = (part["part"], part["id"])
        return frozenset(entry_id for entry_id, at in self.branch[: part["seq"]] if at == key)

    # What the office does

    def sign_in(self, device: str | None, person: str) -> tuple[str, str]:
        """As the sign-in route does after the passcode: (device, token)."""
        with self.context(), writing() as conn:
            device = (
                journal.admit(conn, device, person, self.clock) if device else journal.enrol(conn, person, self.clock)
            )
            return device, people.start_session(conn, person, device, "bearer", self.clock)

    def back_up(self) -> None:
        self.catch_up()
        copy_database(self.database, self.data / "backup.sqlite")
        self.backup_at = len(self.branch)

    def restore(self) -> None:
        """The old backup stands in and the manager confirms it; phones that are gone cannot offer again."""
        assert self.backup_at is not None
        self.catch_up()
        self.told["restores"] += 1
        self.restored = True
        current = {phone.device for phone in self.phones}
        current |= {entry["device"] for phone in self.phones for entry in phone.earlier.values()}
        self.excused |= {id for id, entry in self.written.items() if entry["device"] not in current}
        self._swap_in(self.data / "backup.sqlite")
        self.branch = self.branch[: self.backup_at]
        with self.context():
            journal.restored(self.people["maren"], self.clock)
        self.catch_up()

    def waiting(self) -> list[Entry]:
        """What was set aside and waits, oldest first."""
        with self.context(), reading() as conn:
            rows = conn.execute(select(t.set_aside).where(t.set_aside.c.state == "waiting")).mappings().all()
            return sorted((dict(row) for row in rows), key=lambda row: (row["device"], row["n"], row["sha256"]))

    def asides(self) -> list[Entry]:
        with self.context(), reading() as conn:
            return [dict(row) for row in conn.execute(select(t.set_aside)).mappings().all()]

    def let_in(self, sha256: str) -> bool:
        try:
            with self.context():
                journal.let_in(sha256, self.people["maren"], self.clock)
        except journal.CannotLetIn:
            return False
        self.catch_up()
        return True

    def keep_out(self, sha256: str) -> None:
        with self.context():
            journal.keep_out(sha256, self.people["maren"], "a copy", self.clock)
        self.catch_up()

    def write_off(self, device: str) -> None:
        with self.context():
            journal.write_off(device, self.people["maren"], "lost in the yard", self.clock)
        self.offs.add(device)

    def entries(self) -> list[Entry]:
        with self.context(), reading() as conn:
            return journal.entries(conn)

    def audit(self) -> list[str]:
        with self.context(), reading() as conn:
            problems: list[str] = journal.audit(conn)["problems"]
            return problems

    def parts(self, kind: str) -> dict[str, Entry]:
        with self.context(), reading() as conn:
            return {part["id"]: part for part in journal.parts_named(conn, kind)}

    def gate_parts(self, module: str) -> list[Entry]:
        with self.context(), reading() as conn:
            return journal.gate_parts(conn, module)
