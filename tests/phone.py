"""A phone for tests: writes entries and syncs them over HTTP, like every other; keeps what it was told."""

from __future__ import annotations

import gzip
import json
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from server.clock import StoryClock
from server.rules import FORM

ROLES = ("inspector", "crew_lead", "shipping", "manager", "administrator")
PASSCODE = "plane of light 7"
NAMES = {
    "inspector": "Ines Calder",
    "crew_lead": "Teo Marsh",
    "shipping": "Sunniva Holt",
    "manager": "Maren Ostby",
    "administrator": "Adela Quist",
}


@dataclass
class Phone:
    """One enrolment in one person's hand. `off` is how far its clock is wrong; `queue` what has not been taken yet."""

    app: Flask
    person: str
    token: str
    device: str
    epoch: str
    off: timedelta = timedelta()
    n: int = 0
    prev: str | None = None
    cursor: int = 0
    chain: str = ""
    queue: list[dict[str, Any]] = field(default_factory=list)
    parts: dict[tuple[str, str], dict[str, Any]] = field(default_factory=dict)

    @property
    def clock(self) -> StoryClock:
        clock: StoryClock = self.app.extensions["clock"]
        return clock

    @property
    def client(self) -> FlaskClient:
        return self.app.test_client(use_cookies=False)

    def at(self) -> str:
        return (self.clock.now() + self.off).isoformat(timespec="seconds")

    def entry(self, kind: str, about: str, body: dict[str, Any], module: str | None = None) -> dict[str, Any]:
        """The next entry of this phone; not queued."""
        self.n += 1
        made = {
            "id": self.clock.new_id(),
            "device": self.device,
            "n": self.n,
            "prev": self.prev,
            "epoch": self.epoch,
            "seen": self.cursor,
            "at": self.at(),
            "by": self.person,
            "module": module,
            "about": about,
            "kind": kind,
            "body": body,
            "rules": 1,
        }
        self.prev = str(made["id"])
        return made

    def write(self, kind: str, about: str, body: dict[str, Any], module: str | None = None) -> dict[str, Any]:
        made = self.entry(kind, about, body, module)
        self.queue.append(made)
        return made

    def envelope(self, **changed: Any) -> dict[str, Any]:
        call = {
            "device": self.device,
            "epoch": self.epoch,
            "cursor": self.cursor,
            "chain": self.chain,
            "last_n": self.n,
            "open": [],
            "sent_at": self.at(),
            "form": FORM,
            "entries": self.queue,
        }
        return {**call, **changed}

    def sync(self) -> dict[str, Any]:
        """Pushes the queue and pulls until nothing is left; the last answer, with every verdict of the push."""
        verdicts: list[dict[str, Any]] = []
        for _ in range(100):
            response = self.post("/api/sync", self.envelope(), packed=True)
            assert response.status_code == 200, response.text
            answer: dict[str, Any] = response.get_json()
            verdicts += answer["verdicts"]
            judged = {verdict["id"] for verdict in answer["verdicts"]}
            self.queue = [entry for entry in self.queue if entry["id"] not in judged]
            self.parts.update({(part["part"], part["id"]): part for part in answer["parts"]})
            self.cursor, self.chain, self.epoch = answer["cursor"], answer["chain"], answer["epoch"]
            if not answer["more"] and not self.queue:
                return {**answer, "verdicts": verdicts}
        raise AssertionError(f"{len(self.queue)} entries never got a verdict")

    def say(self, kind: str, about: str, body: dict[str, Any], module: str | None = None) -> dict[str, Any]:
        """Writes one entry and syncs; its verdict."""
        self.write(kind, about, body, module)
        verdict: dict[str, Any] = self.sync()["verdicts"][-1]
        return verdict

    def get(self, path: str, **options: Any) -> TestResponse:
        return self.client.get(path, headers=self.bearer(), **options)

    def post(self, path: str, value: Any = None, *, packed: bool = False) -> TestResponse:
        data = json.dumps({} if value is None else value).encode()
        headers = {**self.bearer(), "Content-Type": "application/json"}
        if packed:
            data, headers["Content-Encoding"] = gzip.compress(data, mtime=0), "gzip"
        return self.client.post(path, data=data, headers=headers)

    def put(self, path: str, data: bytes, media: str) -> TestResponse:
        return self.client.put(path, data=data, headers={**self.bearer(), "Content-Type": media})

    def bearer(self) -> dict[str, str]:
        return {"Authorization": f"Bearer {self.token}"}

    def part(self, kind: str, part_id: str) -> dict[str, Any]:
        return self.parts[kind, part_id]


def sign_in(app: Flask, name: str, passcode: str, device: str | None = None, key: str | None = None) -> Phone:
    """A phone whose holder has signed in through the API. `key`: the phone's own secret, where it keeps one."""
    named = {"device": device, "device_key": key}
    ask = {"name": name, "passcode": passcode, "token": True, **{what: word for what, word in named.items() if word}}
    response = app.test_client(use_cookies=False).post("/api/sign-in", json=ask)
    assert response.status_code == 200, response.text
    told = response.get_json()
    return Phone(app, told["person"]["id"], told["token"], told["device"], told["epoch"])


def push(phone: Phone, data: bytes, **headers: str) -> TestResponse:
    """Raw bytes to /api/sync; `Content_Encoding="gzip"` is a header."""
    told = {"Content-Type": "application/json", **{name.replace("_", "-"): value for name, value in headers.items()}}
    return phone.client.post("/api/sync", data=data, headers={**phone.bearer(), **told})


def attempt(
    client: FlaskClient,
    name: str = NAMES["inspector"],
    passcode: str = PASSCODE,
    address: str = "10.0.0.1",
    **more: Any,
) -> TestResponse:
    """One try to sign in from an address, for a bearer token."""
    ask = {"name": name, "passcode": passcode, "token": True, **more}
    return client.post("/api/sign-in", json=ask, environ_base={"REMOTE_ADDR": address})
