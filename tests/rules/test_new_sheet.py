"""A sheet is data: one more row in `sheets.json` is answered, signed, holds and goes stale, without a line of code."""

from __future__ import annotations

import uuid

import pytest

from server.rules import sheet_id, tables
from tests.phone import Phone

ROW = {
    "sign": ["shipping"],
    "answer": ["shipping"],
    "lines": {"short": {"by_room": False, "defect": "dirt"}},
    "stale_by": {"item.cleared": {}},
}


def holds_of(phone: Phone, module: str) -> list[tuple[str, str]]:
    """(key, sheet) of the holds of sheets that the server names when it is asked for a release."""
    phone.sync()
    at = {"device": phone.device, "epoch": phone.epoch, "seen": phone.cursor, "chain": phone.chain}
    told = phone.post("/api/release", {"id": phone.clock.new_id(), "module": module, **at})
    assert told.status_code == 409
    return [(hold["key"], hold["sheet"]) for hold in told.get_json()["holds"] if "sheet" in hold]


def test_a_new_sheet_needs_no_code(phones: dict[str, Phone], module: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(tables(1)["sheets"], "shortages", ROW)
    shipping, inspector, crew = (phones[role] for role in ("shipping", "inspector", "crew_lead"))
    about = sheet_id(module, "shortages")
    assert about == str(uuid.uuid5(uuid.UUID(module), "shortages"))
    assert ("sheet_unsigned", "shortages") in holds_of(shipping, module)

    answer = {"sheet": "shortages", "line": "short", "rooms": ["module"], "rest": "yes", "except": []}
    assert "set_aside" in inspector.say("sheet.answered", about, answer, module), "not the inspector's to say"
    assert "seq" in shipping.say("sheet.answered", about, answer, module)
    assert "seq" in shipping.say("sheet.signed", about, {"sheet": "shortages"}, module)
    assert "shortages" not in [sheet for _, sheet in holds_of(shipping, module)]

    item = crew.clock.new_id()
    place = {"defect": "nick", "room": "bath", "surface": "A", "light": "normal"}
    assert "seq" in shipping.say("item.logged", item, place, module)
    crew.sync()
    assert "seq" in crew.say("item.cleared", item, {}, module)
    assert ("sheet_stale", "shortages") in holds_of(shipping, module)
