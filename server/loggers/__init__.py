"""What loggers, sensors and forecasts write, as the journal keeps it. Pure: bytes and `now` in, rows out."""

from __future__ import annotations

from dataclasses import dataclass

from server.loggers.guess import guessed
from server.loggers.nights import nights_of
from server.loggers.plan import NAMES, Plan, changed, changes, whole_plan
from server.loggers.posted import MOST_ROWS, posted
from server.loggers.take import Found, Row, taken
from server.loggers.text import decoded, rows_of
from server.loggers.times import moment_of, read, written, zone_of
from server.loggers.trouble import NotRead, Trouble, shown

__all__ = [
    "MOST_ROWS",
    "NAMES",
    "Found",
    "Look",
    "NotRead",
    "Plan",
    "Row",
    "Trouble",
    "confirmed",
    "looked",
    "moment_of",
    "nights_of",
    "posted",
    "read",
    "shown",
    "written",
    "zone_of",
]


@dataclass(frozen=True)
class Look:
    """How a file would be read, and what it would give. `asks`: fields of the plan for a person to confirm."""

    encoding: str
    mark: bool
    names: list[str]
    plan: Plan
    asks: list[str]
    found: Found
    cells: dict[int, list[str]]


def looked(data: bytes, told: dict[str, str], zone: str | None, now: int | None, *, wants_rh: bool = True) -> Look:
    """A first guess, with what a person has `told` already in its place. NotRead when there is nothing to show."""
    text, encoding, mark = decoded(data)
    chosen = changes(told)
    guess = guessed(text, zone, wants_rh, chosen)
    plan = changed(guess.plan, chosen)
    if wants_rh and plan.rh is None:
        raise NotRead("plan_missing", name="rh")
    asks = [name for name in guess.asks if name not in chosen]
    cells = {line: one for line, one in guess.rows[:2000] if line > plan.head}
    return Look(encoding, mark, guess.names, plan, asks, taken(guess.rows, plan, now), cells)


def confirmed(data: bytes, told: dict[str, str], now: int | None, *, wants_rh: bool = True) -> Found:
    """The rows of a file by the plan that a person confirmed, every field of it told."""
    plan = whole_plan(changes(told), wants_rh)
    return taken(rows_of(decoded(data)[0], plan.delimiter), plan, now)
