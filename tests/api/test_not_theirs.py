"""What is not that person's to say, or to let in: a role, the server's own words, another module's work."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask

from server import journal
from server.db import reading
from tests.journal.entries import NICK, Phones, log, reasons, sound
from tests.phone import NAMES, PASSCODE, sign_in


def test_a_module_let_in_brings_its_items_and_what_was_done_on_them(phones: Phones) -> None:
    phone, lead, manager = phones["inspector"], phones["crew_lead"], phones["manager"]
    made = phone.clock.new_id()
    phone.write("module.added", made, {"serial": "LM-0500-A", "home": "LM-0500"}, made)
    item = log(phone, made)
    assert reasons(phone.sync()) == ["not_your_role", "rests_on_set_aside"]
    lead.write("item.cleared", item, {}, made)
    assert reasons(lead.sync()) == ["rests_on_set_aside"]
    with phone.app.app_context(), reading() as conn:
        waiting = next(one for one in journal.parts_named(conn, "set_aside") if one["kind"] == "module.added")
    assert manager.post(f"/api/set-aside/{waiting['id']}/let-in").status_code == 200
    manager.sync()
    assert manager.part("item", item)["state"] == "cleared"
    assert sound(phone.app)


def test_what_waits_under_another_module_stays_outside(phones: Phones, module: str) -> None:
    manager, phone = phones["manager"], phones["inspector"]
    other = manager.clock.new_id()
    assert "seq" in manager.say("module.added", other, {"serial": "LM-0501-A", "home": "LM-0501"}, other)
    item = phone.clock.new_id()
    phone.write("item.amended", item, {"wish": "Not here"}, other)
    assert reasons(phone.sync()) == ["not_arrived"]
    phone.write("item.logged", item, NICK, module)
    assert reasons(phone.sync()) == [None]
    assert "wish" not in phone.part("item", item)["heads"]
    with phone.app.app_context(), reading() as conn:
        waiting = next(one for one in journal.parts_named(conn, "set_aside") if one["kind"] == "item.amended")
    assert manager.post(f"/api/set-aside/{waiting['id']}/let-in").status_code == 409


def test_nobody_lets_in_a_role_that_they_may_not_give(phones: Phones) -> None:
    manager = phones["manager"]
    manager.sync()
    body = {"name": NAMES["manager"], "roles": ["administrator", "manager"]}
    assert manager.say("person.named", manager.person, body)["set_aside"] == "not_your_role"
    answer = manager.post(f"/api/set-aside/{manager.prev}/let-in")
    assert (answer.status_code, answer.get_json()["reason"]) == (409, "not_your_role")


@pytest.mark.parametrize("kind", ["device.written_off", "entry.kept_out", "journal.restored", "photo.arrived"])
def test_what_only_the_server_says_is_never_let_in(phones: Phones, module: str, kind: str) -> None:
    manager = phones["manager"]
    bodies: dict[str, dict[str, Any]] = {
        "device.written_off": {"reason": "Lost", "by": manager.person},
        "entry.kept_out": {"entry": module, "sha256": "a" * 64, "by": manager.person, "reason": "No"},
        "journal.restored": {"old": "e", "cut": 0, "chain": "", "by": manager.person},
        "photo.arrived": {"sha256": "a" * 64},
    }
    entry = manager.entry(kind, manager.clock.new_id(), bodies[kind], None if kind != "photo.arrived" else module)
    answer = manager.post("/api/sync", manager.envelope(entries=[{**entry, "device": "another"}])).get_json()
    assert reasons(answer) == ["wrong_device"]
    assert manager.post(f"/api/set-aside/{entry['id']}/let-in").status_code == 409


def test_a_manager_cannot_take_the_last_administrators_role(phones: Phones) -> None:
    manager, administrator = phones["manager"], phones["administrator"]
    manager.sync()
    body = {"name": NAMES["administrator"], "roles": []}
    assert manager.say("person.named", administrator.person, body)["set_aside"] == "not_your_role"


def test_a_crew_lead_renames_nobody_who_has_a_role_and_gives_none(phones: Phones) -> None:
    lead = phones["crew_lead"]
    body = {"name": "Somebody Else", "roles": []}
    assert lead.say("person.named", phones["inspector"].person, body)["set_aside"] == "not_your_role"
    helper = lead.clock.new_id()
    assert "seq" in lead.say("person.named", helper, {**body, "crew": "patch"})
    assert lead.say("person.named", helper, {**body, "roles": ["inspector"]})["set_aside"] == "not_your_role"


def test_a_role_taken_in_the_middle_of_a_push_counts_from_there_on(app: Flask, phones: Phones, module: str) -> None:
    administrator, inspector = phones["administrator"], phones["inspector"]
    sign_in(app, NAMES["inspector"], PASSCODE, administrator.device)
    log(administrator, module)
    administrator.write("person.named", inspector.person, {"name": NAMES["inspector"], "roles": []})
    log(administrator, module)
    for entry in (administrator.queue[0], administrator.queue[2]):
        entry["by"] = inspector.person
    assert reasons(administrator.sync()) == [None, None, "not_your_role"]


def test_what_was_kept_out_stays_out_when_it_comes_again(phones: Phones, module: str) -> None:
    manager = phones["manager"]
    log(manager, module)
    call = manager.envelope()
    entry_id = manager.queue[0]["id"]
    first = manager.post("/api/sync", call).get_json()["verdicts"]
    assert first[0]["set_aside"] == "not_your_role"
    assert manager.post(f"/api/set-aside/{entry_id}/keep-out", {"reason": "By mistake"}).status_code == 200
    assert manager.post("/api/sync", call).get_json()["verdicts"] == first
    assert manager.post(f"/api/set-aside/{entry_id}/let-in").status_code == 404
