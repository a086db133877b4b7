"""What a broken or hostile phone may claim: a clock, a cursor, a device, a release; nobody gains by it."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from server import journal, reports
from server.db import reading
from tests.journal.entries import LONE, NICK, Phones, log, reasons, stored
from tests.phone import NAMES, Phone, attempt


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
        assert [one["kind"] for one in journal.entries(conn)].count("item.logged") == 30


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
