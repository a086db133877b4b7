"""An older backup is put back: nobody has seen what it never held."""

from __future__ import annotations

from flask import Flask

from tests.journal.backup import Backup, again, sent
from tests.journal.entries import Phones, log, sound, stored


def test_seen_counts_up_to_the_cut_of_a_confirmed_restore(
    app: Flask, phones: Phones, module: str, backup: Backup
) -> None:
    inspector, lead = phones["inspector"], phones["crew_lead"]
    item = log(inspector, module)
    sent(inspector)
    lead.sync()
    backup.take()
    cut = lead.cursor
    lead.write("item.cleared", item, {}, module)
    cleared = sent(lead)
    inspector.sync()
    inspector.write("item.closed", item, {}, module)
    closed = sent(inspector)
    assert closed[0]["seen"] > cut
    backup.swap_in()
    backup.confirm(phones["manager"].person)
    # The close comes back before the clear that it rests on: it has no effect, and the clear stands without it.
    assert "seq" in again(inspector, closed)[0]
    assert "seq" in again(lead, cleared)[0]
    assert stored(app, closed[0]["id"])["seen_to"] == cut
    lead.sync()
    assert lead.part("item", item)["state"] == "cleared"
    inspector.sync()
    assert "seq" in inspector.say("item.closed", item, {}, module)
    assert inspector.part("item", item)["state"] == "closed"
    assert sound(app)


def test_the_past_of_an_unconfirmed_backup_counts_for_nothing_even_when_it_is_confirmed_later(
    app: Flask, phones: Phones, module: str, backup: Backup
) -> None:
    inspector, lead = phones["inspector"], phones["crew_lead"]
    backup.take()
    log(lead, module)
    sent(lead)
    inspector.sync()
    log(inspector, module)
    kept = list(inspector.queue)
    backup.swap_in()
    # Somebody else's work takes the numbers that the lost work had; only then is the backup confirmed.
    for _ in range(3):
        assert "seq" in phones["manager"].say("module.moved", module, {"bay": "Bay 2"}, module)
    call = inspector.envelope(entries=kept)
    assert inspector.post("/api/sync", call).get_json()["from"] == 0
    backup.confirm(phones["manager"].person)
    assert "seq" in again(inspector, kept)[0]
    assert stored(app, kept[0]["id"])["seen_to"] == 0


def test_what_was_written_while_the_answer_came_saw_the_lost_past(app: Flask, phones: Phones, module: str) -> None:
    inspector = phones["inspector"]
    log(inspector, module)
    entry = inspector.queue[-1]
    call = inspector.envelope(cursor=0, chain="")
    assert entry["seen"] > 0
    assert inspector.post("/api/sync", call).status_code == 200
    assert stored(app, entry["id"])["seen_to"] == 0
