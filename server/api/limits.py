"""How often one person may call what costs much: a bucket that fills steadily, in memory, since there is one process.

A phone that is told 429 keeps everything and comes back after Retry-After; the buckets are wide enough that a phone
with days of work behind it never meets them.
"""

from __future__ import annotations

import threading
from math import ceil

from flask import current_app, g

from server.api.noted import note
from server.api.problems import SlowDown
from server.clock import steady


class Buckets:
    """`most` calls at once for each key, and as many again spread evenly over every `seconds`."""

    def __init__(self, most: int, seconds: float) -> None:
        self.most, self.each = most, seconds / most
        self._lock = threading.Lock()
        self._full_at: dict[str, float] = {}

    def take(self, key: str, now: float) -> int:
        """Counts a call; whole seconds to wait when the bucket is empty (then it is not counted), else 0."""
        with self._lock:
            # When the bucket will be full again says all there is to know of it.
            full_at = max(self._full_at.get(key, now), now) + self.each
            late = full_at - now - self.most * self.each
            if late > 1e-6:
                return ceil(late)
            self._full_at[key] = full_at
            return 0


def push() -> None:
    """Counts a push of this person; SlowDown with Retry-After."""
    _count("push", current_app.extensions["settings"].pushes_a_minute, 60)


def paper() -> None:
    """Counts a paper of this person; SlowDown with Retry-After."""
    _count("paper", current_app.extensions["settings"].papers_an_hour, 3600)


def file() -> None:
    """Counts a logger's file or a forecast of this person; SlowDown with Retry-After."""
    _count("file", current_app.extensions["settings"].files_an_hour, 3600)


def _count(what: str, most: int | None, seconds: float) -> None:
    if most is None:
        return
    buckets: Buckets = current_app.extensions.setdefault(f"limit_{what}", Buckets(most, seconds))
    wait = buckets.take(g.session.person, steady())
    if wait:
        note("too_often", limit=what, person=g.session.person)
        raise SlowDown(f"Try again in {wait} s.", headers={"Retry-After": str(wait)})
