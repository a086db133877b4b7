"""An older backup is put back: phones offer again what it lacks, and nobody has seen what it never held."""

from __future__ import annotations

import hashlib
import io
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from flask import Flask
from PIL import Image

from server import journal
from server.cli import main
from server.db import db, reading
from server.rules import holds, sheet_id
from tests.phone import NAMES, PASSCODE, Phone, sign_in

Phones = dict[str, Phone]
SPOT = {"room": "bath", "surface": "B", "along": 900, "up": 1200}
LINES = {"cleaning": ["debris"], "wrap_and_seal": ["open_side", "roof_edge", "heat_and_water_off"]}


class Backup:
    """A copy of the database made while the server runs, and its return in place of the younger one."""

    def __init__(self, app: Flask, data: Path) -> None:
        self.app, self.live, self.kept = app, data / "rakelight.sqlite", data / "kept.sqlite"

    def take(self) -> None:
        with closing(sqlite3.connect(self.live)) as live, closing(sqlite3.connect(self.kept)) as kept:
            live.backup(kept)

    def swap_in(self) -> None:
        with self.app.app_context():
            db.engine.dispose()
        for name in ("rakelight.sqlite-wal", "rakelight.sqlite-shm"):
            (self.live.parent / name).unlink(missing_ok=True)
        shutil.copy(self.kept, self.live)

    def confirm(self, manager: str) -> None:
        with self.app.app_context():
            journal.restored(manager, self.app.extensions["clock"])


@pytest.fixture
def backup(app: Flask, tmp_path: Path) -> Backup:
    return Backup(app, tmp_path / "data")


def log(phone: Phone, module: str) -> str:
    item = phone.clock.new_id()
    phone.write("item.logged", item, {"defect": "nick", "light": "raking", **SPOT}, module)
    return item


def sent(phone: Phone) -> list[dict[str, Any]]:
    """Sends what waits; the entries, as a phone keeps them for thirty days."""
    kept = list(phone.queue)
    assert all("seq" in verdict for verdict in phone.sync()["verdicts"])
    return kept


def again(phone: Phone, kept: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Offers kept entries again, as the answer to a phone from another past asks it to."""
    phone.queue = [*kept, *phone.queue]
    verdicts: list[dict[str, Any]] = phone.sync()["verdicts"]
    return verdicts


def stored(app: Flask, entry_id: str) -> dict[str, Any]:
    with app.app_context(), reading() as conn:
        return next(one for one in journal.entries(conn) if one["id"] == entry_id)


def stops(app: Flask, module: str) -> list[str]:
    with app.app_context(), reading() as conn:
        return [hold["key"] for hold in holds(module, journal.gate_parts(conn, module), "2026-12-01T14:00:00Z")]


def sound(app: Flask) -> bool:
    with app.app_context(), reading() as conn:
        return journal.audit(conn)["problems"] == []


def make_ready(inspector: Phone, module: str) -> None:
    for sheet, lines in LINES.items():
        about = sheet_id(module, sheet)
        for line in lines:
            body = {"sheet": sheet, "line": line, "rooms": ["module"], "rest": "yes", "except": []}
            inspector.write("sheet.answered", about, body, module)
        inspector.write("sheet.signed", about, {"sheet": sheet}, module)


def release(shipping: Phone, module: str) -> dict[str, Any]:
    shipping.sync()
    ask = {"id": shipping.clock.new_id(), "module": module, "device": shipping.device, "epoch": shipping.epoch}
    answer = shipping.post("/api/release", {**ask, "seen": shipping.cursor, "chain": shipping.chain})
    assert answer.status_code == 200, answer.text
    entry: dict[str, Any] = answer.get_json()["entry"]
    return entry


def test_an_offered_release_holds_the_module_until_the_manager_lets_it_in(
    app: Flask, phones: Phones, module: str, backup: Backup
) -> None:
    backup.take()
    make_ready(phones["inspector"], module)
    kept = sent(phones["inspector"])
    given = release(phones["shipping"], module)
    backup.swap_in()
    backup.confirm(phones["manager"].person)
    assert all("seq" in one for one in again(phones["inspector"], kept))
    assert stops(app, module) == []
    assert [one.get("set_aside") for one in again(phones["shipping"], [given])] == ["release_offered"]
    assert stops(app, module) == ["entry_set_aside"]
    assert phones["manager"].post(f"/api/set-aside/{given['id']}/let-in").status_code == 200
    phones["manager"].sync()
    part = phones["manager"].part("module", module)
    assert part["release"]["id"] == given["body"]["release"]
    assert part["release"]["by"] == phones["shipping"].person
    assert part["release"]["time"] == given["time"]
    # The asking is forgotten, the release is not: asked again it is refused, and nothing is released twice.
    shipping = phones["shipping"]
    shipping.sync()
    ask = {"id": given["body"]["release"], "module": module, "device": shipping.device, "epoch": shipping.epoch}
    repeat = shipping.post("/api/release", {**ask, "seen": shipping.cursor, "chain": shipping.chain})
    assert (repeat.status_code, repeat.get_json()["reason"]) == (409, "released")
    assert again(shipping, [given])[0]["seq"] == part["release"]["seq"]
    assert sound(app)


def test_an_enrolment_the_backup_forgot_goes_on_from_its_first_kept_entry(
    app: Flask, module: str, phones: Phones, backup: Backup, sign_in_again: Callable[..., Phone]
) -> None:
    backup.take()
    young = sign_in_again("inspector")
    young.sync()
    for _ in range(4):
        log(young, module)
    kept = sent(young)
    backup.swap_in()
    backup.confirm(phones["manager"].person)
    assert young.post("/api/sync", young.envelope()).status_code == 401
    back = sign_in(app, NAMES["inspector"], PASSCODE, young.device)
    assert back.device == young.device
    young.token = back.token
    # The first two are older than thirty days: the phone has let go of them.
    assert all("seq" in one for one in again(young, kept[2:]))
    log(young, module)
    assert "seq" in young.sync()["verdicts"][0]
    assert sound(app)


def test_signed_in_before_the_backup_stays_signed_in(
    phones: Phones, backup: Backup, sign_in_again: Callable[..., Phone]
) -> None:
    backup.take()
    young = sign_in_again("inspector", phones["inspector"].device)
    backup.swap_in()
    backup.confirm(phones["manager"].person)
    assert phones["inspector"].get("/api/people/me").status_code == 200
    assert young.get("/api/people/me").status_code == 401


def test_what_a_colleague_wrote_after_the_backup_waits_for_the_manager(
    app: Flask, phones: Phones, module: str, backup: Backup
) -> None:
    inspector = phones["inspector"]
    backup.take()
    lead = sign_in(app, NAMES["crew_lead"], PASSCODE, inspector.device)
    item = log(inspector, module)
    inspector.queue[-1]["by"] = lead.person
    kept = sent(inspector)
    backup.swap_in()
    backup.confirm(phones["manager"].person)
    assert [one.get("set_aside") for one in again(inspector, kept)] == ["not_signed_in"]
    assert phones["manager"].post(f"/api/set-aside/{kept[0]['id']}/let-in").status_code == 200
    phones["manager"].sync()
    assert phones["manager"].part("item", item)["by"] == lead.person


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


def picture(shade: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (32, 24), (shade, shade, shade)).save(out, "JPEG")
    return out.getvalue()


def add_photo(phone: Phone, module: str, data: bytes) -> str:
    photo = phone.clock.new_id()
    body = {"sha256": hashlib.sha256(data).hexdigest(), "bytes": len(data), "px": [32, 24], "shows": "wall"}
    phone.write("photo.added", photo, {**body, "items": [], "marks": []}, module)
    return photo


def put(phone: Phone, data: bytes) -> None:
    assert phone.put(f"/api/photos/{hashlib.sha256(data).hexdigest()}", data, "image/jpeg").status_code == 201


def test_photos_that_are_still_here_have_arrived(
    app: Flask, phones: Phones, module: str, backup: Backup, tmp_path: Path
) -> None:
    inspector, before, after = phones["inspector"], picture(80), picture(160)
    first = add_photo(inspector, module, before)
    sent(inspector)
    backup.take()
    put(inspector, before)
    second = add_photo(inspector, module, after)
    kept = sent(inspector)
    put(inspector, after)
    backup.swap_in()
    words = ["restored", "--data", str(tmp_path / "data"), "--manager", NAMES["manager"], "--yes"]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    assert "seq" in again(inspector, kept)[0]
    inspector.sync()
    assert [inspector.part("photo", one)["arrived"] for one in (first, second)] == [True, True]
    assert "photos_missing" not in stops(app, module)
    assert sound(app)
