"""What the journal does with entries: taken once, set aside with a reason, let in later, held while one is missing."""

from __future__ import annotations

from flask import Flask

from server import journal
from server.clock import StoryClock
from server.db import reading
from tests.journal.entries import NICK, Phones, log, reasons, stops
from tests.phone import Phone


def test_a_repeat_is_taken_once_and_answered_the_same(app: Flask, phones: Phones, module: str) -> None:
    inspector = phones["inspector"]
    log(inspector, module)
    call = inspector.envelope()
    first = inspector.post("/api/sync", call, packed=True).get_json()
    again = inspector.post("/api/sync", call, packed=True).get_json()
    assert first["verdicts"] == again["verdicts"]
    with app.app_context(), reading() as conn:
        assert [one["kind"] for one in journal.entries(conn)].count("item.logged") == 1


def test_the_same_id_with_other_bytes_is_set_aside_and_both_are_kept(app: Flask, phones: Phones, module: str) -> None:
    inspector = phones["inspector"]
    log(inspector, module)
    inspector.sync()
    forged = inspector.entry("item.logged", inspector.clock.new_id(), {**NICK, "defect": "dent"}, module)
    forged["id"] = inspector.prev = forged["prev"]
    inspector.queue = [forged]
    assert reasons(inspector.sync()) == ["same_id_other_bytes"]
    assert "entry_set_aside" in stops(app, module)


def test_one_entry_nobody_may_say_does_not_hold_up_the_next(phones: Phones, module: str) -> None:
    lead = phones["crew_lead"]
    item = log(lead, module)
    lead.write("item.closed", item, {}, module)
    log(lead, module)
    assert reasons(lead.sync()) == [None, "not_your_role", None]


def test_a_broken_count_sets_aside_what_follows_and_holds_the_open_modules(
    app: Flask, phones: Phones, module: str
) -> None:
    inspector = phones["inspector"]
    log(inspector, module)
    inspector.queue = []
    log(inspector, module)
    answer = inspector.post("/api/sync", inspector.envelope(open=[module]), packed=True).get_json()
    assert reasons(answer) == ["broken_sequence"]
    assert {"phone_behind", "entry_set_aside"} <= set(stops(app, module))


def test_what_rests_on_a_set_aside_item_is_let_in_with_it_in_order(app: Flask, phones: Phones, module: str) -> None:
    manager = phones["manager"]
    item = log(manager, module)
    lead = phones["crew_lead"]
    assert reasons(manager.sync()) == ["not_your_role"]
    lead.write("item.ticked", item, {"steps": ["fill"]}, module)
    lead.write("item.cleared", item, {}, module)
    assert reasons(lead.sync()) == ["rests_on_set_aside", "rests_on_set_aside"]
    with app.app_context(), reading() as conn:
        waiting = next(one for one in journal.parts_named(conn, "set_aside") if one["kind"] == "item.logged")
    assert manager.post(f"/api/set-aside/{waiting['id']}/let-in").status_code == 200
    manager.sync()
    part = manager.part("item", item)
    assert part["state"] == "cleared"
    assert [line["kind"] for line in part["lines"]] == ["item.logged", "item.ticked", "item.cleared"]
    assert all(line["let_in"] == 1 for line in part["lines"])


def test_an_unsent_tail_opens_and_ends_a_hold(app: Flask, phones: Phones, module: str) -> None:
    inspector = phones["inspector"]
    log(inspector, module)
    log(inspector, module)
    last = inspector.queue.pop()
    inspector.post("/api/sync", inspector.envelope(open=[module]), packed=True)
    assert "phone_behind" in stops(app, module)
    inspector.queue = [last]
    inspector.sync()
    assert "phone_behind" not in stops(app, module)


def test_time_is_corrected_and_kept_between_what_was_seen_and_the_arrival(
    clock: StoryClock, phones: Phones, module: str
) -> None:
    from datetime import timedelta

    inspector = phones["inspector"]
    inspector.off = timedelta(days=3)
    item = log(inspector, module)
    clock.forward(minutes=30)
    inspector.sync()
    assert inspector.part("item", item)["time"] == "2026-12-01T14:00:00Z"


def test_people_whose_account_is_closed_are_set_aside_on_every_phone(phones: Phones, module: str) -> None:
    inspector, administrator = phones["inspector"], phones["administrator"]
    assert administrator.post(f"/api/people/{phones['shipping'].person}/close-account").status_code == 200
    made = inspector.entry("module.moved", module, {"bay": "Bay 2"}, module)
    made["by"] = phones["shipping"].person
    inspector.queue = [made]
    assert reasons(inspector.sync()) == ["not_signed_in"]


def test_a_module_that_left_is_gone_from_phones_until_something_late_comes(phones: Phones, module: str) -> None:
    manager, inspector = phones["manager"], phones["inspector"]
    item = log(inspector, module)
    inspector.sync()
    manager.sync()
    late = log(inspector, module)
    held, inspector.queue = inspector.queue, []
    assert "seq" in manager.say("module.left", module, {"why": "Picked up"}, module)
    first = manager.post("/api/sync", manager.envelope(cursor=0, chain=""), packed=True).get_json()
    assert module not in {part["module"] for part in first["parts"]}
    answer = inspector.post("/api/sync", inspector.envelope(last_n=inspector.n - 1, entries=[]), packed=True).get_json()
    assert answer["gone"] == [module]
    inspector.queue = held
    inspector.sync()
    manager.parts.clear()
    manager.sync()
    assert {("module", module), ("item", late)} <= set(manager.parts)
    assert ("item", item) not in manager.parts


def test_pages_end_between_numbers_and_give_everything(app: Flask, phones: Phones, module: str) -> None:
    import json

    inspector = phones["inspector"]
    for _ in range(12):
        log(inspector, module)
    inspector.sync()
    with app.app_context():
        seen: dict[tuple[str, str], int] = {}
        cursor, chain, pages = 0, "", 0
        while True:
            call = inspector.envelope(cursor=cursor, chain=chain, entries=[])
            answer = json.loads(journal.sync(call, [], app.extensions["clock"], page=3))
            seen |= {(part["part"], part["id"]): part["seq"] for part in answer["parts"]}
            cursor, chain, pages = answer["cursor"], answer["chain"], pages + 1
            if not answer["more"]:
                break
        with reading() as conn:
            assert journal.audit(conn)["problems"] == []
    assert pages > 4
    assert {key: part["seq"] for key, part in inspector.parts.items()}.items() <= seen.items()


def test_a_phone_that_was_written_off_and_comes_back_is_awaited_again(app: Flask, phones: Phones, module: str) -> None:
    inspector, manager = phones["inspector"], phones["manager"]
    photograph(inspector, module, "a")
    log(inspector, module)
    last = inspector.queue.pop()
    behind = inspector.envelope(open=[module])
    inspector.post("/api/sync", behind, packed=True)
    assert {"phone_behind", "photos_missing"} <= set(stops(app, module))
    assert manager.post(f"/api/devices/{inspector.device}/write-off", {"reason": "Lost"}).status_code == 200
    assert not {"phone_behind", "photos_missing"} & set(stops(app, module))

    inspector.post("/api/sync", {**behind, "entries": []}, packed=True)
    assert "phone_behind" in stops(app, module), "it says that it has the same tail still"
    assert "photos_missing" not in stops(app, module), "these were written off"
    inspector.queue = [last]
    photograph(inspector, module, "b")
    inspector.sync()
    assert "phone_behind" not in stops(app, module)
    assert "photos_missing" in stops(app, module)
    manager.sync()
    assert manager.part("device", inspector.device)["written_off"] is None


def test_even_an_old_call_brings_a_written_off_phone_back(app: Flask, phones: Phones, module: str) -> None:
    inspector, manager = phones["inspector"], phones["manager"]
    old = inspector.envelope(open=[module], entries=[])
    log(inspector, module)
    inspector.post("/api/sync", inspector.envelope(open=[module], entries=[]), packed=True)
    manager.post(f"/api/devices/{inspector.device}/write-off", {"reason": "Lost"})
    inspector.post("/api/sync", old, packed=True)
    manager.sync()
    assert manager.part("device", inspector.device)["written_off"] is None, "to await too much is safe"


def photograph(phone: Phone, module: str, name: str) -> None:
    body = {"sha256": name * 64, "bytes": 9, "px": [4, 3], "shows": "wall", "items": [], "marks": []}
    phone.write("photo.added", phone.clock.new_id(), body, module)
