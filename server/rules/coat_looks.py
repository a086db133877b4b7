"""What people found and did in one room of a coat, and how that stood at an hour that is over."""

from __future__ import annotations

from typing import Any

from server.rules.instants import seconds
from server.rules.parts import Part

NOTHING: dict[str, Any] = {"wet": None, "dry": None, "restart": None}


def looks_in(coat: Part, room: str, kind: str) -> list[str]:
    """When a room of a coat was found wet, or sanded wet: every time of it that the coat's history knows."""
    return [time for time, _ in _told_in(coat, room, kind)]


def _told_in(coat: Part, room: str, kind: str) -> list[tuple[str, str]]:
    """(when it was, when it was told)"""
    given = "sanded_at" if kind == "coat.wet_sanded" else "looked_at"
    return [
        (max(min(line["body"].get(given, line["time"]), line["time"]), coat["laid"]), line["time"])
        for line in coat["lines"]
        if line["kind"] == kind and "no" not in line and room in line.get("body", {}).get("rooms", ())
    ]


def cell_of(coat: Part, room: str) -> Part:
    """What people did and found in one room of a coat."""
    found: Part | None = coat["cells"].get(room)
    return found or NOTHING


def cell_then(coat: Part, room: str, at: int, told_by: int) -> Part:
    """The same as it stood at `at`, by what had been told by `told_by`; *not dry* governs at any hour.

    What was said later takes nothing back: the coat was wet until the look that ended that, and before too, for nothing
    gets wet by itself. A look or a sanding that is told when another coat has been told of already, for whatever hour
    before it, does not end that it was wet when that went on.
    """
    cell = cell_of(coat, room)
    dry = cell["dry"]
    if dry is not None and (seconds(dry["time"]) > at or seconds(dry.get("told", dry["time"])) > told_by):
        dry = None
    told = _told_in(coat, room, "coat.wet_sanded")
    sanded = [*(time for time, _ in told), *([cell["restart"]] if cell["restart"] else [])]
    restart = max((time for time in sanded if seconds(time) <= at), default=None)
    wet = cell["wet"]
    if wet is None:
        known = [time for time, when in told if seconds(when) <= told_by]
        again = min((time for time in known if seconds(time) > at), default="9")
        last = max((time for time in looks_in(coat, room, "coat.found_wet") if time < again), default="")
        ended = any(last < time for time in known if seconds(time) <= at) or (dry is not None and dry["time"] >= last)
        wet = {"by": "", "time": last} if last and not ended else None
    return {"wet": wet, "dry": dry, "restart": restart}
