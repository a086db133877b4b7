"""Release reads what coats dry by, the yard's too, in its own transaction; who has not seen a coat looks again."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from flask import Flask

from server import journal
from server.db import reading
from server.rules import stream_id
from tests.phone import Phone

Phones = dict[str, Phone]


def asked(phone: Phone, module: str) -> dict[str, Any]:
    """What release answers to this phone as it stands."""
    call = {"id": phone.clock.new_id(), "module": module, "device": phone.device, "epoch": phone.epoch}
    told: dict[str, Any] = phone.post("/api/release", {**call, "seen": phone.cursor, "chain": phone.chain}).get_json()
    return told


def lay(lead: Phone, module: str) -> str:
    coat = lead.clock.new_id()
    body = {"coat": "tape", "rooms": ["bath"], "material": "drying_type"}
    assert "seq" in lead.say("coat.laid", coat, body, module)
    return coat


def yard_of(app: Flask) -> str:
    with app.app_context(), reading() as conn:
        facts = journal.yard_facts(conn)
    assert facts is not None
    return str(facts["yard"])


def coat_holds(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return [hold for hold in answer["holds"] if hold["key"].startswith("coat_")]


def test_a_coat_laid_meanwhile_makes_the_asker_look_again(phones: Phones, module: str) -> None:
    lay(phones["crew_lead"], module)
    assert asked(phones["shipping"], module)["reason"] == "behind"
    phones["shipping"].sync()
    answer = asked(phones["shipping"], module)
    assert answer["reason"] == "held"
    assert [(hold["key"], hold["flags"]) for hold in coat_holds(answer)] == [("coat_look", ["no_readings"])]


def test_the_yards_air_counts_at_the_gate_and_goes_with_the_module(app: Flask, phones: Phones, module: str) -> None:
    lead, shipping, yard = phones["crew_lead"], phones["shipping"], yard_of(app)
    lay(lead, module)
    body = {
        "where": "yard",
        "source": "hand",
        "rows": [[lead.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ"), 211, 50, None]],
    }
    assert "seq" in lead.say("reading.taken", stream_id(yard), body)
    shipping.sync()
    (wet,) = coat_holds(asked(shipping, module))
    assert (wet["key"], wet["lifts"], wet["rooms"]) == ("coat_wet", "waiting", ["bath"])
    told = shipping.get(f"/api/modules/{module}").get_json()
    assert {part["part"] for part in told["yard"]} == {"yard", "air"}
    assert "coat" in {part["part"] for part in told["parts"]}


def test_time_alone_makes_an_old_reading_nothing_to_rely_on(app: Flask, phones: Phones, module: str) -> None:
    """Only the release's own clock went on; the answer is another."""
    lead, shipping = phones["crew_lead"], phones["shipping"]
    lay(lead, module)
    body = {
        "where": "module",
        "source": "hand",
        "rows": [[lead.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ"), 211, 50, None]],
    }
    lead.say("reading.taken", stream_id(module), body, module)
    shipping.sync()
    assert [hold["key"] for hold in coat_holds(asked(shipping, module))] == ["coat_wet"]
    shipping.clock.forward(seconds=timedelta(hours=30).total_seconds())
    assert [hold["flags"] for hold in coat_holds(asked(shipping, module))] == [["stale"]]
