"""What reads air without a person: sensors that post with a key of their own, and loggers whose file is brought in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from urllib.parse import urlencode

from seed_demo.phones import Phone
from seed_demo.weather import Air
from seed_demo.wire import Json, Transport, call

HOUR = timedelta(hours=1)
Reads = Callable[[datetime], Air]


def hours(begins: datetime, ends: datetime) -> list[datetime]:
    """Every full hour from the one to the other."""
    first = begins.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
    first += HOUR if first < begins else timedelta(0)
    return [first + number * HOUR for number in range(int((ends - first) / HOUR) + 1)] if first <= ends else []


@dataclass
class Sensor:
    """A box on a wall: it reads every full hour and posts what it has read since it last posted."""

    name: str
    key: str
    reads: Reads
    next: datetime

    def posts(self, transport: Transport, now: datetime) -> int:
        """How many rows were taken."""
        rows: list[Json] = []
        for when in hours(self.next, now):
            air = self.reads(when)
            rows.append({"at": when.isoformat(), "temp_f": air.temp_f, "rh": air.rh})
            self.next = when + HOUR
        taken = 0
        for start in range(0, len(rows), 500):
            reply = call(transport, "POST", "/api/readings", {"rows": rows[start : start + 500]}, self.key)
            if reply.status != 200:
                raise OSError(f"{self.name}: {reply.status} {reply.body}")
            taken += reply.body["taken"]
        return taken


def csv_file(reads: Reads, begins: datetime, ends: datetime, phone: Phone) -> bytes:
    """A logger's file as such boxes write them: local time, °F, per cent, every full hour."""
    lines = ["Time,Temperature (°F),RH (%)"]
    for when in hours(begins, ends):
        air = reads(when)
        lines.append(f"{when.astimezone(phone.zone).isoformat(timespec='minutes')},{air.temp_f},{air.rh}")
    return "\r\n".join(lines).encode()


def brings_in(phone: Phone, data: bytes, module: str, room: str | None, name: str) -> int:
    """Look at the file, confirm how it was understood, bring it in; how many readings were taken."""
    plan = phone.post_file("/api/readings/csv/look", data, "text/csv")["plan"]
    told = {key: value for key, value in plan.items() if value is not None}
    told["times"] = ",".join(map(str, told["times"]))
    told |= {"where": "room" if room else "module", "module": module, "name": name}
    told |= {"room": room} if room else {}
    taken: int = phone.post_file(f"/api/readings/csv?{urlencode(told)}", data, "text/csv")["taken"]
    return taken
