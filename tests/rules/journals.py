"""Random journals as a bad week in a yard makes them: phones without signal, stale eyes, work set aside and let in.

A journal comes from its seed alone. Nobody checks roles here: the fold must stand what the edge would refuse.
"""

from __future__ import annotations

import random
from typing import Any

from server.rules import Workspace, fold
from tests.rules.doings import DOINGS, SERVER_DOINGS, Told
from tests.rules.doings_of_coats import DOINGS_OF_COATS, learn

Entry = dict[str, Any]
PENDING = 10**15


class Phone:
    """One enrolment: what it has pulled, what it has not yet sent, who holds it."""

    def __init__(self, device: str, people: list[str]) -> None:
        self.device, self.people = device, people
        self.seen, self.n = 0, 0
        self.last: str | None = None
        self.outbox: list[Entry] = []


class Yard:
    """A yard told by chance; `entries` is its journal so far, `work` the same journal folded."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.entries: list[Entry] = []
        self.work = Workspace(lambda kind, part_id: None)
        self.aside: list[tuple[Entry, str]] = []
        self.yard, self.modules = self.uuid(), [self.uuid(), self.uuid()]
        self.plans = [self.uuid(), self.uuid()]
        self.items: dict[str, str] = {}
        self.photos: dict[str, str] = {}
        self.coats: dict[str, str] = {}
        self.releases = [self.uuid()]
        self.people = [self.uuid() for _ in range(7)]
        self.server = Phone("server", ["server"])
        # Two people on one phone, one person on two phones.
        crew = [self.people[0:2], self.people[1:2], self.people[2:4], self.people[4:5], self.people[5:7]]
        self.phones = [Phone(self.uuid(), people) for people in crew]
        self.ids = {phone.device: phone for phone in self.phones}

    def uuid(self) -> str:
        """A UUID from this yard's chance."""
        text = f"{self.chance.getrandbits(128):032x}"
        return f"{text[:8]}-{text[8:12]}-7{text[13:16]}-8{text[17:20]}-{text[20:]}"

    def time(self) -> str:
        """An instant that goes on with the journal, now and then not."""
        minute = len(self.entries) if self.chance.random() < 0.9 else self.chance.randrange(600)
        return f"2026-12-02T{6 + minute // 60:02}:{minute % 60:02}:{self.chance.randrange(60):02}Z"

    def write(self, phone: Phone, told: Told) -> Entry:
        """An entry as the phone makes it, in its outbox."""
        phone.n += 1
        entry: Entry = {
            "id": self.uuid(),
            "device": phone.device,
            "n": phone.n,
            "prev": phone.last,
            "epoch": "e",
            "seen": phone.seen,
            "at": self.time(),
            "by": self.chance.choice(phone.people),
            "module": told.module,
            "about": told.about,
            "kind": told.kind,
            "body": told.body,
            "rules": 1,
        }
        phone.last = entry["id"]
        phone.outbox.append(entry)
        return entry

    def take(self, entry: Entry, let_in: int = 0) -> None:
        """Into the journal, with what the server gives."""
        seq = len(self.entries) + 1
        # An older epoch counts up to the cut, an unknown chain not at all.
        # A wrong clock is put right.
        time = self.time() if self.chance.random() < 0.04 else entry["at"]
        seen_to = self.chance.choice([0, entry["seen"] // 2]) if self.chance.random() < 0.04 else entry["seen"]
        taken = {
            **entry,
            "seq": seq,
            "received_at": time,
            "time": time,
            "let_in": let_in,
            "seen_to": seen_to if entry["device"] != "server" else seq - 1,
        }
        self.entries.append(taken)
        fold(self.work, [taken])

    def say(self, told: Told) -> None:
        """An entry of the server's own device."""
        self.write(self.server, told)
        self.take(self.server.outbox.pop())

    def sync(self, phone: Phone) -> None:
        """Sends what is in the outbox, all or only the first of it, and pulls."""
        sent = len(phone.outbox) if self.chance.random() < 0.8 else self.chance.randrange(len(phone.outbox) + 1)
        for entry in phone.outbox[:sent]:
            self.take(entry) if self.chance.random() < 0.95 else self.put_aside(entry)
        del phone.outbox[:sent]
        if self.chance.random() < 0.85:
            phone.seen = len(self.entries)

    def put_aside(self, entry: Entry) -> None:
        """Not taken; a later `entry.let_in` brings it."""
        sha256 = f"{self.chance.getrandbits(256):064x}"
        body = {
            "entry": entry["id"],
            "sha256": sha256,
            "reason": "not_your_role",
            "kind": entry["kind"],
            "by": entry["by"],
            "device": entry["device"],
            "n": entry["n"],
        }
        self.say(Told("entry.set_aside", entry["module"], entry["id"], body))
        self.aside.append((entry, sha256))

    def decide(self) -> None:
        """Lets the oldest set-aside entry in, or keeps it out."""
        entry, sha256 = self.aside.pop(0)
        body = {"entry": entry["id"], "sha256": sha256, "by": self.people[5]}
        if self.chance.random() < 0.75:
            self.say(Told("entry.let_in", entry["module"], entry["id"], body))
            self.take(entry, let_in=1)
        else:
            self.say(Told("entry.kept_out", entry["module"], entry["id"], {**body, "reason": "a mistake"}))


def journal(seed: int) -> list[Entry]:
    """The entries of one journal, in its order, as the fold takes them."""
    yard = Yard(seed)
    _begin(yard)
    doings, weights = zip(*DOINGS, *DOINGS_OF_COATS, strict=True)
    for _ in range(yard.chance.randrange(30, 200)):
        roll = yard.chance.random()
        phone = yard.chance.choice(yard.phones)
        if roll < 0.25:
            yard.sync(phone)
        elif roll < 0.30 and yard.aside:
            yard.decide()
        elif roll < 0.40:
            yard.say(yard.chance.choice([*SERVER_DOINGS, learn])(yard))
        else:
            if yard.chance.random() < 0.4:
                yard.sync(phone)
            for told in yard.chance.choices(doings, weights)[0](yard):
                yard.write(phone, told)
            if yard.chance.random() < 0.5:
                yard.sync(phone)
    return [*yard.entries, *_pending(yard)]


def _begin(yard: Yard) -> None:
    yard.say(
        Told(
            "yard.opened",
            None,
            yard.yard,
            {
                "name": "Yard 7",
                "zone": "America/Chicago",
                "bays": ["1", "2"],
                "crews": [{"id": "north", "name": "North"}],
            },
        )
    )
    for phone in yard.phones:
        yard.say(Told("device.enrolled", None, phone.device, {"person": phone.people[0]}))
    office = yard.phones[-1]
    for kind, module, about, body in _facts(yard):
        yard.write(office, Told(kind, module, about, body))
        yard.take(office.outbox.pop())
    for phone in yard.phones[: yard.chance.randrange(6)]:
        phone.seen = len(yard.entries)


def _facts(yard: Yard) -> list[tuple[str, str | None, str, dict[str, Any]]]:
    size: dict[str, Any] = {"l": 3000, "w": 2000, "h": 2440, "walls": {}}
    rooms = [{"id": room, "name": room, **size} for room in ("bath", "hall")]
    told: list[tuple[str, str | None, str, dict[str, Any]]] = [
        ("plan.drawn", None, yard.plans[0], {"name": "Plan", "rooms": rooms})
    ]
    for number, module in enumerate(yard.modules):
        plan = {"plan": yard.plans[0]} if yard.chance.random() < 0.7 else {}
        told.append(("module.added", module, module, {"serial": f"14{number}-A", "home": "14", **plan}))
    return told


def _pending(yard: Yard) -> list[Entry]:
    """What one phone has not sent, as a phone folds it over the parts that it has."""
    phone = yard.chance.choice(yard.phones)
    return [
        {
            **entry,
            "seq": PENDING + entry["n"],
            "received_at": entry["at"],
            "time": entry["at"],
            "let_in": 0,
            "seen_to": entry["seen"],
        }
        for entry in phone.outbox
    ]
