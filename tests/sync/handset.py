"""A phone of this yard: one enrolment at a time, in one or several hands, with all the bad luck there is.

It keeps what a real phone keeps. What was truly on its screen is worked out from the parts it has and its own pending
entries, and told to the world for every entry that it writes.
"""

from __future__ import annotations

import copy
import gzip
import json
from datetime import timedelta
from typing import Any

import orjson

from server.rules import FORM, Workspace, canonical, fold, sha256
from tests.sync.verbs import Verbs
from tests.sync.world import Entry, World

PENDING = 10**15
BREAKS = {"broken_sequence", "used_number", "same_id_other_bytes", "wrong_device"}
NO_NUMBER = {*BREAKS, "malformed", "release_offered"}
STORED = (
    "n", "prev", "epoch", "cursor", "chain", "outbox", "pending", "kept", "aside", "parts", "shown", "staged",
    "offers", "given", "earlier", "why",
)  # fmt: skip


class Refused(Exception):
    """The server answered with something that no phone can go on from."""


class Handset(Verbs):
    def __init__(self, world: World, *people: str) -> None:
        self.world = world
        self.people: list[str] = []
        self.off = timedelta()
        self.epoch, self.cursor, self.chain = "none", 0, ""
        self.parts: dict[tuple[str, str], Entry] = {}
        self.shown: dict[tuple[str, str], frozenset[str]] = {}
        self.staged: Entry | None = None
        self.offers: list[Entry] = []
        self.given: list[Entry] = []
        self.earlier: dict[str, Entry] = {}
        self._count_anew()
        self.enrol(*people)
        world.phones.append(self)

    def _count_anew(self) -> None:
        self.n, self.prev = 0, None
        self.outbox: list[Entry] = []
        self.pending: dict[str, Entry] = {}
        self.kept: dict[str, Entry] = {}
        self.aside: dict[str, Entry] = {}
        self.why: dict[str, str] = {}
        self.broken = False
        self.tail: set[str] = set()
        self.calls: list[tuple[str, bytes]] = []

    # People and enrolments

    def enrol(self, *people: str) -> None:
        """A new enrolment, once the outbox is empty. What was pulled stays, and what the ended one has written."""
        self.earlier.update(_plain({**self.kept, **self.aside}))
        self._count_anew()
        self.device: str = ""
        self.tokens: dict[str, str] = {}
        for person in people or list(self.people):
            self.join(person)
        self.sync()

    def join(self, person: str) -> None:
        """Somebody signs in on this phone, the first or once more."""
        self.device, self.token = self.world.sign_in(self.device or None, self.world.people[person])
        self.tokens[person] = self.token
        if person not in self.people:
            self.people.append(person)

    def hand_to(self, by: str) -> None:
        """Whoever has signed in here takes the phone."""
        if by not in self.tokens:
            self.join(by)
        self.token = self.tokens[by]

    def store(self) -> Entry:
        """What this phone has in its storage, to go back to."""
        return copy.deepcopy({name: getattr(self, name) for name in STORED} | {"device": self.device})

    def go_back(self, stored: Entry) -> None:
        """The phone's storage is as it was once; what it wrote since is lost unless the server has it."""
        lost = {entry["id"] for entry in self.outbox} - {entry["id"] for entry in stored["outbox"]}
        lost |= (self.kept.keys() | self.aside.keys()) - stored["kept"].keys() - stored["aside"].keys()
        self.world.excused |= lost
        for name in STORED:
            setattr(self, name, copy.deepcopy(stored[name]))

    # Screens and writing

    def screen(self) -> frozenset[str]:
        """The entries that this phone's screens show: those in the parts it has, and its own pending ones."""
        return frozenset(self.pending).union(*self.shown.values())

    def view(self) -> Workspace:
        """The parts as the screens draw them: pending entries folded over what was pulled."""
        own = {key: orjson.loads(orjson.dumps(part)) for key, part in self.parts.items()}
        work = Workspace(lambda kind, part_id: own.get((kind, part_id)))
        fold(work, [self._as_pending(entry) for entry in self.pending.values()])
        return work

    def _as_pending(self, entry: Entry) -> Entry:
        now = entry["at"]
        given = {"seq": PENDING + entry["n"], "received_at": now, "time": now, "let_in": 0, "seen_to": entry["seen"]}
        copied: Entry = orjson.loads(orjson.dumps({**entry, **given}))
        return copied

    def write(self, by: str, kind: str, about: str, body: dict[str, Any], module: str | None = None) -> Entry:
        entry: Entry = {
            "id": self.world.clock.new_id(), "device": self.device, "n": self.n + 1, "prev": self.prev,
            "epoch": self.epoch, "seen": self.cursor, "at": self._at(), "by": self.world.people[by], "module": module,
            "about": about, "kind": kind, "body": body, "rules": 1,
        }  # fmt: skip
        self.world.truth[entry["id"]] = self.screen()
        self.world.written[entry["id"]] = entry
        self.n, self.prev = entry["n"], entry["id"]
        self.outbox.append(entry)
        self.pending[entry["id"]] = entry
        return entry

    def _at(self) -> str:
        return (self.world.clock.now() + self.off).isoformat(timespec="seconds")

    # The wire

    def post(self, path: str, data: bytes) -> tuple[int, Entry]:
        headers = {
            "Authorization": f"Bearer {self.token}",
            "Content-Type": "application/json",
            "Content-Encoding": "gzip",
        }
        client = self.world.app.test_client(use_cookies=False)
        answer = client.post(path, data=gzip.compress(data, 1, mtime=0), headers=headers)
        return answer.status_code, answer.get_json()

    def ask(self, path: str, call: Entry) -> tuple[int, Entry]:
        """Asks; when a restored server has forgotten the session or the enrolment, everybody signs in again first."""
        data = json.dumps(call).encode()
        self.calls = [*self.calls[-5:], (path, data)]
        status, answer = self.post(path, data)
        if status == 401 or str(answer.get("type", "")).endswith("unknown_device"):
            for person in self.people:
                self.join(person)
            status, answer = self.post(path, data)
        self.world.catch_up()
        return status, answer

    def sync(self, *, lose: bool = False, most: int = 500, pages: int = 99) -> bool:
        """Pushes and pulls; True when everything went. `lose`: no reply comes; `most` entries, `pages` answers."""
        for _ in range(pages):
            offered = [*self.outbox, *self.offers][:most]
            at = self.staged or {"epoch": self.epoch, "cursor": self.cursor, "chain": self.chain}
            status, answer = self.ask("/api/sync", {
                "device": self.device, "epoch": at["epoch"], "cursor": at["cursor"], "chain": at["chain"],
                "last_n": self.n, "open": sorted({entry["module"] for entry in self.outbox if entry["module"]}),
                "form": FORM,
                "sent_at": self._at(), "entries": offered, "aside": [e["id"] for e in offered if e["id"] in self.why],
            })  # fmt: skip
            if status != 200:
                raise Refused(f"{status} {answer}")
            self.world.offs.discard(self.device)
            self.tail = {entry["module"] for entry in self.outbox if entry not in offered and entry["module"]}
            if lose:
                self.world.told["lost_replies"] += 1
                return False
            more = self._take(answer, at)
            if most < 500 or not more:
                return most == 500
        return False

    def _take(self, answer: Entry, at: Entry) -> bool:
        own = {entry["id"]: entry for entry in [*self.outbox, *self.offers]}
        for verdict in answer["verdicts"]:
            entry = own[verdict["id"]]
            if verdict["sha256"] != sha256(canonical(entry)):
                raise Refused("another hash")
            self._judge(entry, verdict)
        again = self._offer_again(answer, answer["epoch"] != at["epoch"])
        self._pull(answer, at)
        return bool(answer["more"] or again)

    def _judge(self, entry: Entry, verdict: Entry) -> None:
        self.outbox = [one for one in self.outbox if one["id"] != entry["id"]]
        self.offers = [one for one in self.offers if one["id"] != entry["id"]]
        if entry["device"] != self.device:
            return
        if "set_aside" in verdict:
            self.pending.pop(entry["id"], None)
            self.aside[entry["id"]] = entry
            self.broken = self.broken or verdict["set_aside"] in BREAKS
        else:
            self.kept[entry["id"]] = {**entry, "_seq": verdict["seq"]}
        if why := verdict.get("set_aside", verdict.get("let_in")):
            self.why[entry["id"]] = why

    def _offer_again(self, answer: Entry, new_epoch: bool) -> bool:
        """What an older backup has lost goes again, in order; after a new epoch also that of which no count tells."""
        beside = {k for k, why in self.why.items() if why in NO_NUMBER}
        old = {**self.kept, **self.aside} if new_epoch else {k: e for k, e in self.kept.items() if k not in beside}
        lost = {k: entry for k, entry in old.items() if entry["n"] > answer["n"]}
        if new_epoch:
            untold = {k: entry for k, entry in old.items() if k not in lost and (k in self.aside or k in beside)}
            self.offers = [*_plain(untold).values(), *self.earlier.values(), *self.given]
            lost |= untold
        again = [entry for entry in _plain(lost).values() if entry not in self.offers]
        for entry_id in lost:
            self.kept.pop(entry_id, None)
            self.aside.pop(entry_id, None)
        self.outbox = sorted([*again, *self.outbox], key=lambda entry: entry["n"])
        self.pending.update({entry["id"]: entry for entry in again})
        return bool(lost or self.outbox)

    def _pull(self, answer: Entry, at: Entry) -> None:
        """Pages wait aside; the last one replaces what the screens read in one go."""
        over = answer["from"] < at["cursor"] or at["cursor"] == 0
        staged = self.staged if self.staged and not over else {"parts": {}, "shown": {}, "gone": [], "reset": over}
        for module in answer["gone"]:
            staged["parts"] = {key: part for key, part in staged["parts"].items() if part["module"] != module}
        for part in answer["parts"]:
            staged["parts"][part["part"], part["id"]] = part
            staged["shown"][part["part"], part["id"]] = self.world.up_to(part)
        staged["gone"] += answer["gone"]
        staged |= {"epoch": answer["epoch"], "cursor": answer["cursor"], "chain": answer["chain"]}
        self.staged = staged
        if answer["more"]:
            return
        self._replace(staged)

    def _replace(self, staged: Entry) -> None:
        kept = {} if staged["reset"] else {k: p for k, p in self.parts.items() if p["module"] not in staged["gone"]}
        self.parts = {**kept, **staged["parts"]}
        self.shown = {key: self.shown[key] for key in kept} | {key: staged["shown"][key] for key in staged["parts"]}
        self.epoch, self.cursor, self.chain, self.staged = staged["epoch"], staged["cursor"], staged["chain"], None
        for entry_id in list(self.pending):
            if self.kept.get(entry_id, {}).get("_seq", PENDING) <= self.cursor:
                del self.pending[entry_id]


def _plain(entries: dict[str, Entry]) -> dict[str, Entry]:
    """As they were written."""
    return {k: {name: value for name, value in entry.items() if name != "_seq"} for k, entry in entries.items()}
