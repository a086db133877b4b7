"""Kinds of a newer phone wait, and are judged again when the server has learnt them."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask

from server import journal
from server.api import offered
from server.db import reading
from server.rules import tables
from tests.phone import Phone

NICK = {"defect": "nick", "room": "bath", "surface": "B", "light": "raking"}


@pytest.fixture
def older(app: Flask, monkeypatch: pytest.MonkeyPatch) -> Any:
    """A server that does not know `item.given` yet; called, it is started again with the newer program."""
    row = tables(1)["kinds"]["item.given"]
    monkeypatch.delitem(tables(1)["kinds"], "item.given")
    offered.kind_row.cache_clear()

    def learn() -> None:
        tables(1)["kinds"]["item.given"] = row
        offered.kind_row.cache_clear()
        app.extensions.pop("learnt", None)

    yield learn
    learn()


def told(phone: Phone, module: str, body: dict[str, Any], by: str | None = None) -> str:
    """Logs an item, gives it to a crew, and pushes; the item's id. The second has to wait."""
    item = phone.clock.new_id()
    phone.write("item.logged", item, NICK, module)
    phone.write("item.given", item, body, module)
    phone.queue[-1]["by"] = by or phone.person
    reasons = [verdict.get("set_aside") for verdict in phone.sync()["verdicts"]]
    assert reasons == [None, "unknown_kind"]
    return item


def reason(app: Flask) -> str:
    with app.app_context(), reading() as conn:
        assert journal.audit(conn)["problems"] == []
        waiting = [one for one in journal.parts_named(conn, "set_aside") if one["state"] == "waiting"]
    return str(waiting[0]["reason"]) if waiting else ""


def test_what_can_be_taken_goes_in_under_its_own_author(
    app: Flask, phones: dict[str, Phone], module: str, older: Any
) -> None:
    phone = phones["inspector"]
    item = told(phone, module, {"crew": "patch"})
    sent = phone.prev
    older()
    phone.sync()
    assert phone.part("item", item)["heads"]["crew"][0][2] == phone.person
    assert reason(app) == ""
    with app.app_context(), reading() as conn:
        assert [one["let_in"] for one in journal.entries(conn) if one["id"] == sent] == [1]


def test_what_stays_unknown_waits_on(app: Flask, phones: dict[str, Phone], module: str, older: Any) -> None:
    told(phones["inspector"], module, {"crew": "patch"})
    app.extensions.pop("learnt")
    phones["inspector"].sync()
    assert reason(app) == "unknown_kind"


@pytest.mark.parametrize("why", ["malformed", "not_signed_in", "not_your_role"])
def test_what_cannot_be_taken_waits_for_the_reason_that_holds_now(
    app: Flask, phones: dict[str, Phone], module: str, older: Any, why: str
) -> None:
    phone = phones["crew_lead"] if why == "not_your_role" else phones["inspector"]
    by = phones["manager"].person if why == "not_signed_in" else None
    if why == "malformed":
        told(phone, module, {"crew": 7})
    elif by:
        item = phone.clock.new_id()
        phone.write("item.given", item, {"crew": "patch"}, module)
        phone.queue[-1]["by"] = by
        assert phone.sync()["verdicts"][0]["set_aside"] == "unknown_kind"
    else:
        told(phone, module, {"crew": "patch"})
    older()
    phone.sync()
    assert reason(app) == why
