"""An older backup is put back: phones offer again what it lacks."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable
from pathlib import Path

from click.testing import CliRunner
from flask import Flask
from PIL import Image

from server.cli import main
from tests.journal.backup import Backup, again, make_ready, release, sent
from tests.journal.entries import Phones, log, sound, stops
from tests.phone import NAMES, PASSCODE, Phone, sign_in


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
