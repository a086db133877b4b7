"""What the yard's coats teach is said by the server once after looks that change it, and after nothing else."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask

from server import journal
from server.db import reading
from server.rules import learned_id, stream_id
from tests.phone import Phone

Phones = dict[str, Phone]
TRIED = {"rooms": ["bath"], "tried": ["cut"], "reason": "Dry to the paper"}


def said(app: Flask) -> list[dict[str, Any]]:
    with app.app_context(), reading() as conn:
        assert journal.audit(conn)["problems"] == []
        return [one for one in journal.entries(conn) if one["kind"] == "drying.learned"]


@pytest.fixture
def coat(phones: Phones, module: str) -> str:
    """A coat of compound in a bath that is read every two hours, and 10 hours gone by."""
    lead = phones["crew_lead"]
    made = lay(lead, module)
    for _ in range(5):
        rows = [[lead.at().replace("+00:00", "Z"), 211, 50, None]]
        body = {"where": "room", "room": "bath", "source": "hand", "rows": rows}
        assert "seq" in lead.say("reading.taken", stream_id(module, "bath"), body, module)
        lead.clock.forward(hours=2)
    return made


def lay(lead: Phone, module: str) -> str:
    made = lead.clock.new_id()
    body = {"coat": "tape", "rooms": ["bath"], "material": "drying_type"}
    assert "seq" in lead.say("coat.laid", made, body, module)
    return made


def test_a_look_that_changes_the_factors_is_followed_by_one_word_of_the_server(
    app: Flask, phones: Phones, module: str, coat: str
) -> None:
    lead = phones["crew_lead"]
    assert said(app) == []
    lead.write("coat.found_wet", coat, {"rooms": ["bath"]}, module)
    lead.write("coat.found_wet", coat, {"rooms": ["bath"]}, module)
    lead.sync()
    (entry,) = said(app)
    assert (entry["by"], entry["module"]) == ("server", None)
    assert entry["body"] == {"factors": {"drying_type": {"percent": 100, "looks": 1}}}
    with app.app_context(), reading() as conn:
        yard = journal.parts_named(conn, "yard")[0]["id"]
    assert lead.part("learned", learned_id(yard))["factors"] == entry["body"]["factors"]


def test_what_changes_nothing_is_not_said(app: Flask, phones: Phones, module: str, coat: str) -> None:
    lead = phones["crew_lead"]
    assert "seq" in lead.say("coat.found_dry", coat, {"rooms": ["bath"]}, module)
    assert said(app) == []
    assert "seq" in lead.say("coat.found_dry", coat, TRIED, module)
    assert len(said(app)) == 1
    call = lead.envelope()
    lead.post("/api/sync", call)
    lay(lead, module)
    assert len(said(app)) == 1


def test_a_yard_that_switched_it_off_is_told_nothing(app: Flask, phones: Phones, module: str, coat: str) -> None:
    with app.app_context(), reading() as conn:
        yard = journal.parts_named(conn, "yard")[0]["id"]
    manager, lead = phones["manager"], phones["crew_lead"]
    assert "seq" in manager.say("yard.amended", yard, {"coats": {"learned": False}})
    lead.say("coat.found_wet", coat, {"rooms": ["bath"]}, module)
    assert said(app) == []
    assert "seq" in manager.say("yard.amended", yard, {"coats": {"learned": True}})
    lead.clock.forward(minutes=5)
    lead.say("coat.found_wet", coat, {"rooms": ["bath"]}, module)
    assert len(said(app)) == 1


def test_from_twenty_looks_on_it_speaks(app: Flask, phones: Phones, module: str) -> None:
    """Every coat is still wet long after the likely time: the yard is slower than the law."""
    lead = phones["crew_lead"]
    coats = [lay(lead, module) for _ in range(20)]
    for _ in range(15):
        rows = [[lead.at().replace("+00:00", "Z"), 211, 50, None]]
        body = {"where": "module", "source": "hand", "rows": rows}
        lead.say("reading.taken", stream_id(module), body, module)
        lead.clock.forward(hours=2)
    for coat in coats[:19]:
        lead.write("coat.found_wet", coat, {"rooms": ["bath"]}, module)
    lead.sync()
    assert said(app)[-1]["body"]["factors"] == {"drying_type": {"percent": 100, "looks": 19}}
    lead.say("coat.found_wet", coats[19], {"rooms": ["bath"]}, module)
    told = said(app)
    assert len(told) == 2
    assert told[-1]["body"]["factors"]["drying_type"]["looks"] == 20
    assert told[-1]["body"]["factors"]["drying_type"]["percent"] > 120
