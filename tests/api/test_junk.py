"""What is no entry, or only almost one: kept once, refused together when too large, and it holds up nothing."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from PIL import Image

from server import journal
from server.db import reading
from server.rules import sha256
from tests.journal.entries import LONE, NICK, Phones, reasons, sound
from tests.phone import push

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


@pytest.mark.parametrize("body", [{}, {"sha256": 7}, {"sha256": "../.."}, {"sha256": ["a" * 64]}], ids=str)
def test_a_photo_under_rules_nobody_knows_yet_waits(phones: Phones, module: str, body: dict[str, Any]) -> None:
    phone = phones["inspector"]
    phone.write("photo.added", phone.clock.new_id(), body, module)
    phone.queue[-1]["rules"] = 2
    assert reasons(phone.sync()) == ["unknown_kind"]
