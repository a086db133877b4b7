"""A phone as an actor: one enrolment with its own count, outbox, clock and bad luck.

It keeps what a real phone keeps (``n``, ``prev``, ``epoch``, ``seen``, unsent entries, unsent photos, the parts that it
pulled) and reaches the server only through a ``Transport``. The trade's verbs are in ``workers``; this file knows
entries but not what they mean. Bad luck is asked for: ``signal = False`` is a dead spot, ``clock_error`` a wrong
clock, ``sync(lose_reply=True)`` an answer that never came.
"""

from __future__ import annotations

import hashlib
import random
import secrets
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo

from seed_demo.wire import Json, Reply, Transport, call, digest
from server.rules import FORM

BLOCK = 500


class PhoneError(Exception):
    """The server said something that a phone cannot go on from; ``reply`` is what it said."""

    def __init__(self, what: str, reply: Reply) -> None:
        super().__init__(f"{what}: {reply.status} {reply.body}")
        self.reply = reply


@dataclass
class Photo:
    """Bytes that wait until the server has confirmed their hash."""

    sha256: str
    data: bytes
    media: str


@dataclass
class Phone:
    """One enrolment. ``now`` gives the true time (aware); what the phone believes is ``now() + clock_error``."""

    transport: Transport
    now: Callable[[], datetime]
    zone: tzinfo
    name: str = "phone"
    clock_error: timedelta = timedelta(0)
    signal: bool = True

    device: str | None = None
    epoch: str = ""
    n: int = 0
    prev: str | None = None
    cursor: int = 0
    seen: int = 0
    chain: str = "0" * 64
    outbox: list[Json] = field(default_factory=list)
    photos: list[Photo] = field(default_factory=list)
    parts: dict[tuple[str, str], Json] = field(default_factory=dict)
    set_aside: dict[str, str] = field(default_factory=dict)
    tokens: dict[str, str] = field(default_factory=dict)
    holder: str = ""
    lost: int = 0

    def __post_init__(self) -> None:
        self._random = random.Random()
        self._secret = secrets.token_hex(32)

    # Time and ids

    def believed_now(self) -> datetime:
        """The time that this phone's clock shows, in the yard's zone."""
        return (self.now() + self.clock_error).astimezone(self.zone)

    def new_id(self) -> str:
        """A UUIDv7 of the phone's own time."""
        millis = int(self.believed_now().timestamp() * 1000)
        bits = self._random.getrandbits(74)
        value = millis << 80 | 7 << 76 | (bits >> 62) << 64 | 2 << 62 | bits & (1 << 62) - 1
        return str(uuid.UUID(int=value))

    # People

    def sign_in(self, name: str, passcode: str) -> Json:
        """Sign a person in on this phone, enrolling it the first time; the answer's ``person``."""
        ask: Json = {"name": name, "passcode": passcode, "token": True, "device_key": self._secret}
        if self.device is not None:
            ask["device"] = self.device
        reply = call(self.transport, "POST", "/api/sign-in", ask)
        if reply.status != 200:
            raise PhoneError(f"{name} could not sign in on {self.name}", reply)
        if reply.body["device"] != self.device:
            self._begin(reply.body)
        person: Json = reply.body["person"]
        self.tokens[person["id"]] = reply.body["token"]
        self.hand_to(person["id"])
        return person

    def hand_to(self, person: str) -> None:
        """Somebody who has signed in here before takes the phone; works without signal."""
        self.holder = person

    def _begin(self, answer: Json) -> None:
        """A new enrolment: its own count, and everything pulled again from the start."""
        self.device, self.epoch = answer["device"], answer["epoch"]
        self.n, self.prev, self.cursor, self.seen, self.chain = 0, None, 0, 0, "0" * 64
        self.parts.clear()
        self._random.seed(f"{self.name} {self.device}")

    # Writing

    def write(self, kind: str, module: str | None, about: str, body: Json) -> Json:
        """Write one entry into the outbox, by the person who holds the phone; the entry."""
        entry: Json = {
            "id": self.new_id(), "device": self.device, "n": self.n + 1, "prev": self.prev, "epoch": self.epoch,
            "seen": self.seen, "at": self.believed_now().isoformat(timespec="seconds"), "by": self.holder,
            "module": module, "about": about, "kind": kind, "body": body, "rules": 1,
        }  # fmt: skip
        self.n, self.prev = entry["n"], entry["id"]
        self.outbox.append(entry)
        return entry

    def keep_photo(self, data: bytes, media: str = "image/jpeg") -> str:
        """Keep the bytes of a photo until the server has them; their SHA-256."""
        sha256 = hashlib.sha256(data).hexdigest()
        self.photos.append(Photo(sha256, data, media))
        return sha256

    def part(self, kind: str, about: str) -> Json | None:
        """A part as this phone last pulled it."""
        return self.parts.get((kind, about))

    # Sending

    def sync(self, *, lose_reply: bool = False, most: int | None = None) -> bool:
        """Push the outbox and pull until nothing is left; False when something is left to do.

        Without signal nothing happens. A lost reply reaches the server but not the phone, which therefore offers the
        same entries again. With ``most`` the signal goes away after so many entries: the rest and the photos stay.
        """
        if not self.signal:
            return False
        while True:
            offered = self.outbox[: BLOCK if most is None else most]
            body = self.post("/api/sync", self._ask(offered))
            if lose_reply:
                self.lost += 1
                return False
            self._take(offered, body)
            if most is not None:
                self.signal = False
                return False
            if not body["more"] and not self.outbox:
                break
        return self.send_photos()

    def send_photos(self) -> bool:
        """Send the photos whose entries have gone; False when some have to wait."""
        while self.photos and self.signal:
            photo = self.photos[0]
            headers = {"Content-Type": photo.media, "Authorization": f"Bearer {self._token()}"}
            reply = self.transport.send("PUT", f"/api/photos/{photo.sha256}", photo.data, headers)
            if reply.status not in (200, 201) or reply.body.get("sha256") != photo.sha256:
                raise PhoneError(f"photo {photo.sha256[:8]}", reply)
            self.photos.pop(0)
        return not self.photos

    def post(self, path: str, body: Json) -> Json:
        """Post as the holder; the answer's JSON. Raises ``PhoneError`` unless the answer is 200 or 201."""
        return self._good(path, call(self.transport, "POST", path, body, self._token()))

    def post_file(self, path: str, data: bytes, media: str) -> Json:
        """Post a file as the holder; as ``post``."""
        headers = {"Content-Type": media, "Authorization": f"Bearer {self._token()}"}
        return self._good(path, self.transport.send("POST", path, data, headers))

    def _good(self, path: str, reply: Reply) -> Json:
        if reply.status not in (200, 201):
            raise PhoneError(path, reply)
        return reply.body

    def _token(self) -> str:
        return self.tokens[self.holder]

    def _ask(self, offered: list[Json]) -> Json:
        waiting = {entry["module"] for entry in self.outbox if entry["module"]}
        return {
            "device": self.device, "epoch": self.epoch, "cursor": self.cursor, "chain": self.chain, "last_n": self.n,
            "open": sorted(waiting), "sent_at": self.believed_now().isoformat(timespec="seconds"),
            "form": FORM, "entries": offered,
        }  # fmt: skip

    def _take(self, offered: list[Json], body: Json) -> None:
        """Believe an answer only as far as its hashes go, then take verdicts and parts."""
        if body.get("rakelight") != 1:
            raise PhoneError("not Rakelight", Reply(200, body))
        verdicts = {verdict["id"]: verdict for verdict in body["verdicts"]}
        for entry in offered:
            verdict = verdicts.get(entry["id"])
            if verdict is None or verdict["sha256"] != digest(entry):
                raise PhoneError(f"no verdict for entry {entry['n']}", Reply(200, body))
            if "set_aside" in verdict:
                self.set_aside[entry["id"]] = verdict["set_aside"]
        self.outbox = self.outbox[len(offered) :]
        if body.get("from") == 0:
            self.parts.clear()
        # What went goes first: something late may bring a module back in the same answer.
        for module in body["gone"]:
            self.parts = {key: part for key, part in self.parts.items() if part.get("module") != module}
        for part in body["parts"]:
            self.parts[part["part"], part["id"]] = part
        self.epoch, self.cursor, self.chain = body["epoch"], body["cursor"], body["chain"]
        if not body["more"]:
            self.seen = self.cursor
