"""Where the time of a push goes: named steps wrapped with a clock, each counted without the steps inside it."""

from __future__ import annotations

import functools
import importlib
import time
from collections import defaultdict
from collections.abc import Callable
from typing import Any

import pytest

# (module, name in it, step). What is not named here (HTTP, threads, the phone's own connection) is the rest.
STEPS = [
    ("server.api.bodies", "raw_body", "inflate"),
    ("server.api.bodies", "read_json", "parse JSON"),
    ("server.api.sync", "judged", "check form"),
    ("server.journal.sync", "prepare", "look up entries and parts"),
    ("server.journal.sync", "verdict", "judge"),
    ("server.journal.judge", "may", "who may"),
    ("server.journal.writer", "quick", "canonical text of entries and parts"),
    ("server.journal.writer", "link", "chain"),
    ("server.journal.writer", "fold_one", "fold"),
    ("server.journal.writer", "Writer._photo_added", "look up photos"),
    ("server.journal.writer", "Writer.append", "append"),
    ("server.journal.writer", "Writer._part", "read parts"),
    ("server.journal.writer", "Writer.flush", "insert entries"),
    ("server.journal.writer", "store_parts", "keep parts"),
    ("server.journal.sync", "_answer", "answer"),
    ("sqlalchemy.engine.base", "RootTransaction.commit", "commit"),
    ("server.api.bodies", "pack", "pack the answer"),
]


class Shares:
    def __init__(self) -> None:
        self.seconds: dict[str, float] = defaultdict(float)
        self.inside: list[float] = []

    def put(self, patch: pytest.MonkeyPatch) -> Shares:
        """Wraps each step where it is called."""
        for module, name, step in STEPS:
            owner: Any = importlib.import_module(module)
            *classes, last = name.split(".")
            for one in classes:
                owner = getattr(owner, one)
            patch.setattr(owner, last, self.timed(getattr(owner, last), step))
        return self

    def timed(self, call: Callable[..., Any], step: str) -> Callable[..., Any]:
        @functools.wraps(call)
        def clocked(*words: Any, **named: Any) -> Any:
            self.inside.append(0.0)
            begun = time.perf_counter()
            try:
                return call(*words, **named)
            finally:
                whole = time.perf_counter() - begun
                self.seconds[step] += whole - self.inside.pop()
                if self.inside:
                    self.inside[-1] += whole

        return clocked

    def table(self, total: float) -> str:
        """Shares of the total, largest first; the clocks themselves are in them."""
        rows = sorted(self.seconds.items(), key=lambda row: -row[1])
        rows.append(("the rest: HTTP, routing, signing in", total - sum(self.seconds.values())))
        return "\n".join(f"  {step:<44}{100 * seconds / total:>6.1f} %" for step, seconds in rows)
