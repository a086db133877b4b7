"""A real server process on loopback, and phones that reach it over HTTP: for tests that end it, and for benchmarks."""

from __future__ import annotations

import http.client
import json
import os
import signal
import socket
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from server.app import create_app
from server.bootstrap.places import ROOT
from server.clock import SystemClock
from server.settings import Settings
from tests.conftest import close_app, settle
from tests.phone import NAMES, PASSCODE, Phone, sign_in

COMMAND = [sys.executable, "-c", "from server.cli import main; main()"]


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


class Served:
    """`rakelight serve` on a data folder, as a process of its own."""

    def __init__(self, data: Path) -> None:
        self.data, self.port = data, free_port()
        self.process: subprocess.Popen[str] | None = None

    def start(self) -> None:
        words = ["serve", "--data", str(self.data), "--port", str(self.port)]
        self.process = subprocess.Popen([*COMMAND, *words], cwd=ROOT, stdout=subprocess.PIPE, text=True)
        for _ in range(400):
            if self.process.poll() is not None:
                break
            try:
                status, _ = request(self.port, "GET", "/api/health", b"", {})
                assert status == 200
                return
            except OSError:
                time.sleep(0.05)
        raise AssertionError("the server did not come up")

    def end(self, how: signal.Signals = signal.SIGTERM) -> None:
        """Sends the signal to this process alone and waits until it is gone."""
        process = self.process
        if process is None:
            return
        if process.poll() is None:
            os.kill(process.pid, how)
        process.wait(20)
        if process.stdout:
            process.stdout.close()
        self.process = None


def command(*words: str) -> dict[str, Any]:
    """What a `rakelight` command answers as JSON, from a process of its own."""
    done = subprocess.run([*COMMAND, *words, "--json"], cwd=ROOT, capture_output=True, text=True)
    assert done.stdout.startswith("{"), done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def request(port: int, method: str, path: str, data: bytes, headers: dict[str, str]) -> tuple[int, bytes]:
    """One request on a connection of its own; OSError when no whole answer came."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    try:
        connection.request(method, path, data, headers)
        answer = connection.getresponse()
        return answer.status, answer.read()
    except http.client.HTTPException as error:
        raise ConnectionError(str(error)) from error
    finally:
        connection.close()


@dataclass
class Answer:
    """What tests.phone reads of an answer."""

    status_code: int
    data: bytes

    @property
    def text(self) -> str:
        return self.data.decode("utf-8", "replace")

    def get_json(self) -> Any:
        return json.loads(self.data)


@dataclass
class Client:
    """In the place of Flask's test client: the same calls, over the wire."""

    port: int

    def post(self, path: str, data: bytes, headers: dict[str, str]) -> Answer:
        return Answer(*request(self.port, "POST", path, data, headers))

    def put(self, path: str, data: bytes, headers: dict[str, str]) -> Answer:
        return Answer(*request(self.port, "PUT", path, data, headers))

    def get(self, path: str, headers: dict[str, str]) -> Answer:
        return Answer(*request(self.port, "GET", path, b"", headers))


@dataclass
class WirePhone(Phone):
    """A phone of tests.phone whose calls go over HTTP to a port."""

    port: int = 0

    @property
    def client(self) -> Any:
        return Client(self.port)


def over_the_wire(phone: Phone, port: int) -> WirePhone:
    """The same enrolment, sending to a served process."""
    own = {name: getattr(phone, name) for name in Phone.__dataclass_fields__}
    return WirePhone(**own, port=port)


def opened_yard(data: Path) -> dict[str, Phone]:
    """Opens and settles a yard in `data`, by the machine's clock; its phones know one module, named LM-0417-A.

    The inspector has a second phone, under "inspector_2".
    """
    app = create_app(Settings(data=data, testing=True), SystemClock())
    phones = settle(app)
    phones["inspector_2"] = sign_in(app, NAMES["inspector"], PASSCODE)
    manager = phones["manager"]
    module = manager.clock.new_id()
    assert "seq" in manager.say("module.added", module, {"serial": "LM-0417-A", "home": "LM-0417"}, module)
    for phone in phones.values():
        phone.sync()
    close_app(app)
    return phones


def module_of(phone: Phone) -> str:
    """The first module that a phone knows."""
    return next(part_id for kind, part_id in phone.parts if kind == "module")
