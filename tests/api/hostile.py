"""What the tests of broken and hostile phones share."""

from __future__ import annotations

from typing import Any

from flask import Flask

from server import journal
from server.db import reading
from tests.phone import Phone

Phones = dict[str, Phone]


NICK = {"defect": "nick", "room": "bed1", "surface": "B", "light": "raking"}


LONE = "\ud83d"


PHOTO = {"bytes": 10, "px": [1, 1], "shows": "wall", "items": [], "marks": []}


def log(phone: Phone, module: str) -> str:
    item = phone.clock.new_id()
    phone.write("item.logged", item, NICK, module)
    return item


def reasons(answer: dict[str, Any]) -> list[str | None]:
    return [verdict.get("set_aside") for verdict in answer["verdicts"]]


def stored(app: Flask, entry_id: str) -> dict[str, Any]:
    with app.app_context(), reading() as conn:
        return next(one for one in journal.entries(conn) if one["id"] == entry_id)


def sound(app: Flask) -> bool:
    with app.app_context(), reading() as conn:
        return journal.audit(conn)["problems"] == []
