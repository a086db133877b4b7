"""Time and randomness: the only place on the server that reads either."""

from __future__ import annotations

import secrets
import threading
import time
from datetime import UTC, datetime, timedelta
from typing import Protocol
from uuid import UUID


class Clock(Protocol):
    """What the rest of the server may ask for; the demo and the tests hand in a StoryClock."""

    def now(self) -> datetime:
        """The instant, aware, in UTC."""

    def new_id(self) -> str:
        """A UUIDv7 (RFC 9562) as lower-case text."""

    def token(self) -> str:
        """256 random bits, URL-safe."""


def steady() -> float:
    """Seconds that pass for the machine, whatever its clock is set to: for limits on load, which no story sets."""
    return time.monotonic()


def stamp(instant: datetime) -> str:
    """An aware instant as RFC 3339 UTC in whole seconds: 2026-12-02T14:20:14Z."""
    return instant.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def read_stamp(text: str) -> datetime:
    """Any RFC 3339 text with an offset as an aware UTC instant; ValueError when it has none."""
    instant = datetime.fromisoformat(text.replace("Z", "+00:00"))
    if instant.tzinfo is None:
        raise ValueError(f"{text!r} has no offset")
    return instant.astimezone(UTC)


def uuid7(instant: datetime) -> str:
    """48 bits of milliseconds, then 74 random bits."""
    millis = int(instant.timestamp() * 1000) & ((1 << 48) - 1)
    value = (millis << 80) | secrets.randbits(80)
    value = (value & ~(0xF << 76)) | (0x7 << 76)
    value = (value & ~(0x3 << 62)) | (0x2 << 62)
    return str(UUID(int=value))


class SystemClock:
    """The machine's clock."""

    def now(self) -> datetime:
        return datetime.now(UTC)

    def new_id(self) -> str:
        return uuid7(self.now())

    def token(self) -> str:
        return secrets.token_urlsafe(32)


class StoryClock(SystemClock):
    """A clock that stands still until it is set; never reachable by a route."""

    def __init__(self, start: datetime) -> None:
        self._now = start.astimezone(UTC)
        self._lock = threading.Lock()

    def now(self) -> datetime:
        with self._lock:
            return self._now

    def set(self, instant: datetime) -> None:
        with self._lock:
            self._now = instant.astimezone(UTC)

    def forward(self, *, seconds: float = 0, minutes: float = 0, hours: float = 0) -> None:
        with self._lock:
            self._now += timedelta(seconds=seconds, minutes=minutes, hours=hours)
