"""An application of this process at an address on loopback, and its end."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from flask import Flask
from waitress import wasyncore
from waitress.server import create_server


@contextmanager
def on_loopback(app: Flask, threads: int) -> Iterator[int]:
    """The app on a port of its own, until the end of the block."""
    with running(create_server(app, host="127.0.0.1", port=0, threads=threads)) as port:
        yield port


@contextmanager
def running(server: Any) -> Iterator[int]:
    """A waitress server at work in a thread; its port.

    Its loop closes its own sockets: closed from outside it would go on to wait for one that is gone.
    """
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield server.effective_port
    finally:
        server.task_dispatcher.shutdown()
        server.trigger.pull_trigger(lambda: wasyncore.close_all(server._map, ignore_all=True))
        thread.join(timeout=10)
