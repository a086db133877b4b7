"""What tests of the journal write, and what they find there."""

from __future__ import annotations

from typing import Any

from flask import Flask

from server import journal
from server.db import reading
from server.rules import holds
from tests.phone import Phone

Phones = dict[str, Phone]
NICK = {"defect": "nick", "room": "bath", "surface": "B", "along": 900, "up": 1200, "light": "raking"}
# Half of a pair: no text at all.
LONE = "\ud83d"


def log(phone: Phone, module: str) -> str:
    """Writes up a nick, unsent; the item's id."""
    item = phone.clock.new_id()
    phone.write("item.logged", item, NICK, module)
    return item


def reasons(answer: dict[str, Any]) -> list[str | None]:
    """Of each verdict why it was set aside; None where it was taken."""
    return [verdict.get("set_aside") for verdict in answer["verdicts"]]


def stored(app: Flask, entry_id: str) -> dict[str, Any]:
    """The entry as the journal keeps it."""
    with app.app_context(), reading() as conn:
        return next(one for one in journal.entries(conn) if one["id"] == entry_id)


def stops(app: Flask, module: str) -> list[str]:
    """The keys of the module's holds."""
    with app.app_context(), reading() as conn:
        return [hold["key"] for hold in holds(module, journal.gate_parts(conn, module), "2026-12-01T14:00:00Z")]


def sound(app: Flask) -> bool:
    """Whether an audit finds nothing."""
    with app.app_context(), reading() as conn:
        return not journal.audit(conn)["problems"]
