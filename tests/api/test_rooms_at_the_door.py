"""Routes that hand a request to one room: photos, release, set-aside entries, devices, modules."""

from __future__ import annotations

import hashlib
import io
import sqlite3
from collections.abc import Callable
from contextlib import closing
from typing import Any

import pytest
from PIL import Image

from tests.phone import Phone

Phones = dict[str, Phone]
NICK = {"defect": "nick", "room": "bed1", "surface": "B", "light": "raking"}


def jpeg(colour: tuple[int, int, int] = (200, 195, 180)) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (320, 240), colour).save(out, "JPEG")
    return out.getvalue()


def add_photo(phone: Phone, module: str, data: bytes) -> tuple[str, str]:
    """A photo's entry, taken; (its hash, its id)."""
    sha256, photo = hashlib.sha256(data).hexdigest(), phone.clock.new_id()
    body = {"sha256": sha256, "bytes": len(data), "px": [320, 240], "shows": "wall", "items": [], "marks": []}
    assert "seq" in phone.say("photo.added", photo, body, module)
    return sha256, photo


def test_a_photo_waits_for_its_entry_then_arrives_once(phones: Phones, module: str) -> None:
    phone, data = phones["inspector"], jpeg()
    path = f"/api/photos/{hashlib.sha256(data).hexdigest()}"
    early = phone.put(path, data, "image/jpeg")
    assert (early.status_code, early.get_json()["type"]) == (409, "urn:rakelight:problem:not_wanted")
    sha256, photo = add_photo(phone, module, data)
    assert phone.get(f"{path}/thumb.jpg").status_code == 404
    first = phone.put(path, data, "image/jpeg")
    assert (first.status_code, first.get_json()) == (201, {"sha256": sha256})
    assert phone.put(path, data, "image/jpeg").status_code == 200
    phone.sync()
    assert phone.part("photo", photo)["arrived"] is True


def test_a_photo_is_shown_as_a_rendition_that_can_do_nothing(phones: Phones, module: str) -> None:
    phone, data = phones["inspector"], jpeg()
    sha256, _ = add_photo(phone, module, data)
    phone.put(f"/api/photos/{sha256}", data, "image/jpeg")
    response = phones["shipping"].get(f"/api/photos/{sha256}/thumb.jpg")
    assert (response.status_code, response.mimetype) == (200, "image/jpeg")
    assert "sandbox" in response.headers["Content-Security-Policy"]
    assert response.headers["Cache-Control"].startswith("private")
    assert response.data != data
    assert phone.get(f"/api/photos/{sha256}/original.jpg").status_code == 404


@pytest.mark.parametrize(
    ("change", "status"),
    [
        (lambda data: data + b"x", 422),
        (lambda data: b"", 422),
        (lambda data: b"<svg xmlns='http://www.w3.org/2000/svg'/>", 422),
        (lambda data: b"x" * (16 * 1024 * 1024), 413),
    ],
)
def test_other_bytes_than_the_hash_promises_are_refused(
    phones: Phones, module: str, change: Callable[[bytes], bytes], status: int
) -> None:
    phone, data = phones["inspector"], jpeg()
    sha256, photo = add_photo(phone, module, data)
    response = phone.put(f"/api/photos/{sha256}", change(data), "image/jpeg")
    assert response.status_code in (status, 415)
    assert response.mimetype == "application/problem+json"
    phone.sync()
    assert phone.part("photo", photo)["arrived"] is False


def test_a_page_under_a_photos_hash_is_refused(phones: Phones, module: str) -> None:
    phone, data = phones["inspector"], b"<html><script>alert(1)</script></html>"
    sha256, _ = add_photo(phone, module, data)
    response = phone.put(f"/api/photos/{sha256}", data, "image/jpeg")
    assert response.status_code == 415
    assert phone.get(f"/api/photos/{sha256}/screen.jpg").status_code == 404


def ask(phone: Phone, module: str, /, **changed: Any) -> Any:
    call = {"id": phone.clock.new_id(), "module": module, "device": phone.device, "epoch": phone.epoch,
            "seen": phone.cursor, "chain": phone.chain, **changed}  # fmt: skip
    return phone.post("/api/release", call)


def test_a_release_that_is_held_says_everything_that_holds(phones: Phones, module: str) -> None:
    phone = phones["shipping"]
    response = ask(phone, module)
    told = response.get_json()
    assert (response.status_code, told["type"]) == (409, "urn:rakelight:problem:held")
    assert {"key", "lifts"} <= told["holds"][0].keys()


def test_a_release_asked_without_having_seen_everything_is_behind(phones: Phones, module: str) -> None:
    phones["inspector"].say("item.logged", module[:-1] + "0", NICK, module)
    told = ask(phones["shipping"], module).get_json()
    assert told["type"] == "urn:rakelight:problem:behind"


@pytest.mark.parametrize(
    ("changed", "status"),
    [
        ({"module": "0192d0c0-0000-7000-8000-000000000000"}, 404),
        ({"device": "somebody"}, 403),
        ({"id": "now"}, 422),
        ({"seen": -1}, 422),
        ({"by": "0192d0c0-0000-7000-8000-000000000000"}, 422),
        ({"holds": []}, 422),
    ],
)
def test_a_release_asked_wrongly(phones: Phones, module: str, changed: dict[str, Any], status: int) -> None:
    assert ask(phones["shipping"], module, **changed).status_code == status


def set_aside(phone: Phone, module: str) -> dict[str, Any]:
    """An entry that is not its author's to say."""
    entry = phone.write("module.amended", module, {"label": "LM 1"}, module)
    assert phone.sync()["verdicts"][0]["set_aside"] == "not_your_role"
    return entry


def test_the_manager_lets_in_or_keeps_out_once(phones: Phones, module: str) -> None:
    inspector, manager = phones["inspector"], phones["manager"]
    first, second = set_aside(inspector, module), set_aside(inspector, module)
    manager.sync()
    (digest, _) = [part["sha256"] for (kind, _), part in manager.parts.items() if kind == "set_aside"]
    assert manager.get(f"/api/set-aside/{digest}").get_json()["entry"]["body"] == {"label": "LM 1"}
    assert inspector.get(f"/api/set-aside/{digest}").status_code == 403
    assert inspector.post(f"/api/set-aside/{first['id']}/let-in").status_code == 403
    assert manager.post(f"/api/set-aside/{first['id']}/let-in").get_json()["state"] == "let_in"
    assert manager.post(f"/api/set-aside/{first['id']}/let-in").status_code == 404
    path = f"/api/set-aside/{second['id']}/keep-out"
    assert manager.post(path).status_code == 422
    assert manager.post(path, {"reason": "written by mistake"}).get_json()["state"] == "kept_out"
    manager.sync()
    states = {part["state"] for (kind, _), part in manager.parts.items() if kind == "set_aside"}
    assert states == {"let_in", "kept_out"}


def test_what_can_never_be_folded_is_not_let_in(phones: Phones, module: str) -> None:
    inspector, manager = phones["inspector"], phones["manager"]
    bad = inspector.write("item.logged", inspector.clock.new_id(), {"surface": "roof"}, module)
    inspector.sync()
    response = manager.post(f"/api/set-aside/{bad['id']}/let-in")
    assert (response.status_code, response.get_json()["reason"]) == (409, "malformed")


def test_a_device_is_written_off_with_a_reason(phones: Phones, module: str) -> None:
    inspector, manager = phones["inspector"], phones["manager"]
    path = f"/api/devices/{inspector.device}/write-off"
    assert manager.post(path, {"reason": "  "}).status_code == 422
    assert manager.post(path, {"reason": "fell from the roof"}).status_code == 200
    manager.sync()
    assert manager.part("device", inspector.device)["written_off"]
    assert manager.post("/api/devices/none/write-off", {"reason": "lost"}).status_code == 404


def test_a_module_is_read_whole(phones: Phones, module: str) -> None:
    phones["inspector"].say("item.logged", phones["inspector"].clock.new_id(), NICK, module)
    told = phones["shipping"].get(f"/api/modules/{module}").get_json()
    assert told["module"] == module
    assert {part["part"] for part in told["parts"]} >= {"module", "item"}


def test_modules_in_the_yard_are_listed_until_they_leave(phones: Phones, module: str) -> None:
    manager = phones["manager"]
    assert [part["id"] for part in manager.get("/api/modules").get_json()["modules"]] == [module]
    assert "seq" in manager.say("module.left", module, {"why": "picked up"}, module)
    assert manager.get("/api/modules").get_json() == {"modules": []}
    assert manager.get(f"/api/modules/{module}").status_code == 200


def test_reading_changes_nothing(phones: Phones, module: str) -> None:
    manager = phones["manager"]

    def dump() -> list[str]:
        with closing(sqlite3.connect(manager.app.extensions["settings"].database)) as raw:
            return list(raw.iterdump())

    before = dump()
    for rule in manager.app.url_map.iter_rules():
        if "GET" in (rule.methods or ()):
            path = rule.rule.replace("<module>", module).replace("<page:path>", "modules")
            manager.get(path.replace("<sha256>", "0" * 64).replace("<size>", "thumb"))
    assert dump() == before


def test_the_packet_is_a_pdf(phones: Phones, module: str) -> None:
    response = phones["manager"].get(f"/api/modules/{module}/packet.pdf?lang=es")
    assert (response.status_code, response.mimetype) == (200, "application/pdf")
    assert response.data.startswith(b"%PDF-")
    assert response.headers["Content-Security-Policy"].startswith("default-src 'none'; object-src 'self'")
