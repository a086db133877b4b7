"""What a broken or hostile phone may send: nothing breaks, nothing holds up the rest, nobody gains by it."""

from __future__ import annotations

import io
import json
import threading
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image

from server import journal, reports
from server.db import reading
from server.rules import sha256
from tests.phone import NAMES, PASSCODE, Phone, attempt, push, sign_in

Phones = dict[str, Phone]
NICK = {"defect": "nick", "room": "bed1", "surface": "B", "light": "raking"}
LONE = "\ud83d"
PHOTO = {"bytes": 10, "px": [1, 1], "shows": "wall", "items": [], "marks": []}
JUNK: list[dict[str, Any]] = [
    {"id": {}},
    {"id": 7},
    {"id": LONE},
    {"id": "x" * 60_000},
    {"kind": LONE},
    {"by": LONE},
    {"device": LONE},
    {"module": LONE},
    {"about": LONE},
    {"prev": ["x"]},
    {"n": True},
    {"n": 2**70, "at": LONE},
    {"seen": 10**400},
    {"kind": "photo.added", "body": {"sha256": LONE}},
    {"kind": "photo.added", "about": LONE, "body": {"sha256": "a" * 64}},
]


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


@pytest.mark.parametrize("changed", JUNK, ids=lambda one: json.dumps(one)[:40])
def test_junk_in_any_field_is_kept_once_and_the_push_goes_through(
    phones: Phones, module: str, changed: dict[str, Any]
) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    data = json.dumps(phone.envelope(entries=[{**entry, **changed}])).encode()
    first, second = push(phone, data), push(phone, data)
    assert (first.status_code, second.status_code) == (200, 200), first.text
    assert reasons(first.get_json()) == ["malformed"]
    assert first.get_json()["verdicts"] == second.get_json()["verdicts"]
    assert first.get_json()["cursor"] == second.get_json()["cursor"]
    assert sound(phone.app)


@pytest.mark.parametrize("value", [None, 7, {}, [], "entry"], ids=str)
def test_what_is_no_entry_at_all_is_kept_once(phones: Phones, value: Any) -> None:
    phone = phones["inspector"]
    for _ in range(2):
        response = phone.post("/api/sync", phone.envelope(entries=[value, value]))
        assert response.status_code == 200, response.text
        assert reasons(response.get_json()) == ["malformed", "malformed"]
    with phone.app.app_context(), reading() as conn:
        assert len(journal.parts_named(conn, "set_aside")) == 1


def test_an_entry_without_id_uses_up_no_number(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    without = {name: value for name, value in entry.items() if name != "id"}
    assert reasons(phone.post("/api/sync", phone.envelope(entries=[without, entry])).get_json()) == ["malformed", None]


def test_five_hundred_entries_of_the_largest_size_are_refused_together(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    entry = {**phone.entry("item.logged", phone.clock.new_id(), NICK, module), "body": {"wish": "x" * 64_000}}
    assert phone.post("/api/sync", phone.envelope(entries=[entry] * 500), packed=True).status_code == 413


def test_one_photo_told_twice_in_one_push(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    photo = phone.clock.new_id()
    for _ in range(2):
        phone.write("photo.added", photo, {**PHOTO, "sha256": "a" * 64}, module)
    assert reasons(phone.sync()) == [None, None]


def test_bytes_of_another_photo_do_not_make_this_one_arrive(phones: Phones, module: str) -> None:
    phone, out = phones["inspector"], io.BytesIO()
    Image.new("RGB", (8, 8)).save(out, "PNG")
    here, missing = phone.clock.new_id(), phone.clock.new_id()
    digest = sha256(out.getvalue())
    phone.write("photo.added", here, {**PHOTO, "sha256": digest}, module)
    phone.write("photo.added", missing, {**PHOTO, "sha256": "b" * 64}, module)
    phone.sync()
    assert phone.put(f"/api/photos/{digest}", out.getvalue(), "image/png").status_code == 201
    phone.write("photo.added", missing, {**PHOTO, "sha256": digest}, module)
    phone.sync()
    phone.sync()
    assert [phone.part("photo", one)["arrived"] for one in (here, missing)] == [True, False]


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


def test_one_batch_pushed_by_two_threads_is_taken_once(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    for _ in range(30):
        log(phone, module)
    call, together, answers = phone.envelope(), threading.Barrier(2), []

    def send() -> None:
        together.wait()
        answers.append(phone.post("/api/sync", call, packed=True).get_json()["verdicts"])

    threads = [threading.Thread(target=send) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers[0] == answers[1]
    with phone.app.app_context(), reading() as conn:
        assert len([one for one in journal.module_entries(conn, module) if one["kind"] == "item.logged"]) == 30


def test_modules_that_do_not_exist_open_no_tail(phones: Phones, module: str) -> None:
    phone, manager = phones["inspector"], phones["manager"]
    junk = [phone.clock.new_id() for _ in range(400)]
    phone.post("/api/sync", phone.envelope(open=[*junk, module], last_n=phone.n + 5))
    manager.sync()
    assert manager.part("device", phone.device)["behind"]["modules"] == [module]
    phone.post("/api/sync", phone.envelope(open=junk, last_n=phone.n + 5))
    manager.sync()
    assert manager.part("device", phone.device)["behind"] is None


@pytest.mark.parametrize("device", ["__proto__", "constructor", "a" * 11, "../etc/passwd", "k7q2m4x0"])
def test_a_device_that_no_server_minted_is_not_admitted(client: FlaskClient, device: str) -> None:
    assert attempt(client, device=device).status_code == 422


@pytest.mark.parametrize("body", [{}, {"sha256": 7}, {"sha256": "../.."}, {"sha256": ["a" * 64]}], ids=str)
def test_a_photo_under_rules_nobody_knows_yet_waits(phones: Phones, module: str, body: dict[str, Any]) -> None:
    phone = phones["inspector"]
    phone.write("photo.added", phone.clock.new_id(), body, module)
    phone.queue[-1]["rules"] = 2
    assert reasons(phone.sync()) == ["unknown_kind"]


@pytest.mark.parametrize("name", [NAMES["inspector"], "Nobody"])
def test_a_passcode_that_cannot_be_hashed_is_refused(client: FlaskClient, name: str) -> None:
    assert attempt(client, name=name, passcode=LONE).status_code == 422


def test_seen_beyond_the_head_counts_for_nothing(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    log(phone, module)
    phone.queue[-1]["seen"] = 10**9
    entry_id = phone.queue[-1]["id"]
    assert reasons(phone.sync()) == [None]
    assert stored(phone.app, entry_id)["seen_to"] == 0


def test_an_answer_covers_nothing_that_is_still_to_come(phones: Phones, module: str) -> None:
    phone = phones["shipping"]
    body = {"device": phones["inspector"].device, "up_to": 10**9, "reason": "It is in the office"}
    assert "seq" in phone.say("phone.answered", module, body, module)
    phone.sync()
    assert phone.part("module", module)["phone_answers"][body["device"]]["up_to"] < phone.cursor


@pytest.mark.parametrize("off", [timedelta(days=-26 * 365), timedelta(days=4000), timedelta(hours=-24)])
def test_a_clock_that_lost_its_battery_is_corrected(phones: Phones, module: str, off: timedelta) -> None:
    phone = phones["inspector"]
    phone.off = off
    item = log(phone, module)
    phone.queue[-1]["seen"] = 0
    phone.clock.forward(minutes=30)
    phone.sync()
    assert phone.part("item", item)["time"] == "2026-12-01T14:00:00Z"


@pytest.mark.parametrize("at", ["0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "2026-12-31T23:59:60Z"])
@pytest.mark.parametrize("field", ["at", "sent_at"])
def test_times_no_phone_shows_are_refused(phones: Phones, module: str, field: str, at: str) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    if field == "sent_at":
        assert phone.post("/api/sync", phone.envelope(sent_at=at)).status_code == 422
        return
    assert reasons(phone.post("/api/sync", phone.envelope(entries=[{**entry, "at": at}])).get_json()) == ["malformed"]


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


def test_one_release_id_answers_one_person_and_a_module_that_left_is_not_released(
    phones: Phones, module: str, sign_in_again: Callable[..., Phone]
) -> None:
    shipping, manager = phones["shipping"], phones["manager"]
    body = {"name": NAMES["manager"], "roles": ["manager", "shipping"]}
    assert "seq" in phones["administrator"].say("person.named", manager.person, body)
    ask = {"id": shipping.clock.new_id(), "module": module}

    def asks(phone: Phone) -> dict[str, Any]:
        phone.sync()
        call = {**ask, "device": phone.device, "epoch": phone.epoch, "seen": phone.cursor, "chain": phone.chain}
        told: dict[str, Any] = phone.post("/api/release", call).get_json()
        return told

    first = asks(shipping)
    assert (first["status"], first["reason"]) == (409, "held")
    assert asks(manager)["reason"] == "used_id"
    assert asks(shipping) == first
    assert "seq" in manager.say("module.left", module, {"why": "Sold"}, module)
    ask["id"] = shipping.clock.new_id()
    assert asks(shipping)["status"] == 404


def test_paper_that_cannot_be_made_is_a_problem_that_says_so(
    phones: Phones, module: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(*_: object) -> bytes:
        raise reports.PaperFailed("cannot open /secret/place")

    monkeypatch.setattr(reports, "packet", broken)
    answer = phones["manager"].get(f"/api/modules/{module}/packet.pdf")
    told = answer.get_json()
    assert (answer.status_code, told["type"]) == (503, "urn:rakelight:problem:no_paper")
    assert "/secret" not in answer.text
    assert told["mark"] in caplog.text
