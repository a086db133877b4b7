"""The envelope of a sync: what is refused whole, what is judged entry by entry, what is packed and how far."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select

from server.api import offered, schemas
from server.db import db, reading
from server.rules import canonical, tables
from tests.phone import Phone, push

Phones = dict[str, Phone]
NICK = {"defect": "nick", "room": "bed1", "surface": "B", "light": "raking"}


def test_a_push_is_taken_and_its_parts_come_back(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    item = phone.clock.new_id()
    sent = phone.write("item.logged", item, NICK, module)
    answer = phone.sync()
    assert answer["rakelight"] == 1
    assert answer["verdicts"][0]["id"] == sent["id"]
    assert answer["verdicts"][0]["seq"] == answer["cursor"]
    assert phone.part("item", item)["state"] == "open"


def test_the_same_push_again_gets_the_same_verdict(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    phone.write("item.logged", phone.clock.new_id(), NICK, module)
    call = phone.envelope()
    first = phone.post("/api/sync", call).get_json()
    assert phone.post("/api/sync", call).get_json()["verdicts"] == first["verdicts"]


@pytest.mark.parametrize("missing", ["device", "epoch", "cursor", "chain", "last_n", "open", "sent_at", "entries"])
def test_an_envelope_without_a_field_is_refused_whole(phones: Phones, missing: str) -> None:
    call = phones["inspector"].envelope()
    del call[missing]
    response = phones["inspector"].post("/api/sync", call)
    assert response.status_code == 422
    assert missing in response.get_json()["fields"]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("cursor", -1),
        ("cursor", True),
        ("cursor", "1"),
        ("cursor", 1.0),
        ("last_n", None),
        ("open", ["bed1"]),
        ("open", {}),
        ("sent_at", "today"),
        ("sent_at", "2026-12-01T14:00:00"),
        ("sent_at", "2026-13-01T14:00:00Z"),
        ("entries", {}),
        ("device", "../../etc"),
        ("role", "manager"),
    ],
)
def test_an_envelope_with_a_bad_field_is_refused_whole(phones: Phones, field: str, value: Any) -> None:
    response = phones["inspector"].post("/api/sync", phones["inspector"].envelope(**{field: value}))
    assert response.status_code == 422
    assert list(response.get_json()["fields"]) == [field]


def test_another_device_than_the_sessions_is_refused(phones: Phones) -> None:
    call = phones["inspector"].envelope(device=phones["manager"].device)
    response = phones["inspector"].post("/api/sync", call)
    assert (response.status_code, response.get_json()["type"]) == (403, "urn:rakelight:problem:other_device")


def test_one_bad_entry_does_not_hold_up_the_next(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    phone.write("item.logged", phone.clock.new_id(), {**NICK, "surface": "roof"}, module)
    phone.write("item.logged", phone.clock.new_id(), NICK, module)
    verdicts = phone.sync()["verdicts"]
    assert verdicts[0]["set_aside"] == "malformed"
    assert "seq" in verdicts[1]


BAD_ENTRIES: list[dict[str, Any]] = [
    {"id": "not-a-uuid"},
    {"id": "0192d0c0-0000-4000-8000-000000000000"},
    {"n": 0},
    {"n": True},
    {"n": 1.5},
    {"n": 2**60},
    {"prev": "somebody"},
    {"prev": None, "n": 7},
    {"seen": -1},
    {"at": "2026-12-01 14:00"},
    {"at": "0000-12-01T14:00:00Z"},
    {"at": "2026-12-01T14:00:00+99:00"},
    {"by": None},
    {"by": "administrator'--"},
    {"module": 7},
    {"module": None},
    {"about": ""},
    {"kind": "item.logged\u0000"},
    {"kind": "__proto__"},
    {"kind": "x" * 5000},
    {"rules": "1"},
    {"rules": 0},
    {"seat": 4},
    {"body": None},
    {"body": []},
    {"body": {}},
    {"body": {**NICK, "seq": 1}},
    {"body": {**NICK, "along": 1000}},
    {"body": {**NICK, "along": 1000.5, "up": 3}},
    {"body": {**NICK, "along": -1, "up": 3}},
    {"body": {**NICK, "along": 10**9, "up": 3}},
    {"body": {**NICK, "along": 1, "up": 3, "words": {"across": "left", "height": "low"}}},
    {"body": {**NICK, "words": {"across": "left"}}},
    {"body": {**NICK, "defect": "gremlin"}},
    {"body": {**NICK, "room": "__proto__"}},
    {"body": {**NICK, "room": "Bed 1"}},
    {"body": {**NICK, "wish": None}},
    {"body": {**NICK, "wish": "\u0007"}},
    {"body": {**NICK, "wish": "x" * 2001}},
    {"body": {**NICK, "wish": {"$gt": ""}}},
    {"body": {**NICK, "light": ["raking"]}},
]


@pytest.mark.parametrize("changed", [{}, *BAD_ENTRIES], ids=lambda one: json.dumps(one)[:40])
def test_the_schema_and_its_fast_reading_agree(changed: dict[str, Any]) -> None:
    uuid = "0192d0c0-0000-7000-8000-000000000000"
    good = {"id": uuid, "device": "d", "n": 1, "prev": None, "epoch": "e", "seen": 0, "at": "2026-12-01T14:00:00Z",
            "by": uuid, "module": uuid, "about": uuid, "kind": "item.logged", "body": NICK, "rules": 1}  # fmt: skip
    entry, whole = {**good, **changed}, schemas.Entry()
    assert offered.accepts(whole)(entry) is not bool(whole.validate(entry))
    if isinstance(entry["body"], dict):
        body = schemas.body_schema("item.logged", tables(1)["kinds"]["item.logged"]["body"])()
        assert offered.accepts(body)(entry["body"]) is not bool(body.validate(entry["body"]))


@pytest.mark.parametrize("changed", BAD_ENTRIES, ids=lambda one: json.dumps(one)[:40])
def test_a_hostile_entry_is_set_aside_alone(phones: Phones, module: str, changed: dict[str, Any]) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    response = phone.post("/api/sync", phone.envelope(entries=[{**entry, **changed}]))
    assert response.status_code == 200, response.text
    assert response.get_json()["verdicts"][0]["set_aside"] == "malformed"


@pytest.mark.parametrize("value", [None, 7, "entry", [], [[]], {}, {"id": {}}], ids=str)
def test_what_is_no_entry_at_all_is_set_aside_alone(phones: Phones, module: str, value: Any) -> None:
    phone = phones["inspector"]
    good = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    response = phone.post("/api/sync", phone.envelope(entries=[value, good]))
    assert response.status_code == 200, response.text
    bad, taken = response.get_json()["verdicts"]
    assert bad["set_aside"] == "malformed"
    assert "seq" in taken


def test_a_lone_surrogate_costs_one_entry_its_place(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    bad = phone.entry("item.logged", phone.clock.new_id(), {**NICK, "wish": "\ud83d"}, module)
    good = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    response = push(phone, json.dumps(phone.envelope(entries=[bad, good])).encode())
    assert response.status_code == 200, response.text
    assert [("seq" in one) for one in response.get_json()["verdicts"]] == [False, True]


@pytest.mark.parametrize("depth", [9, 100, 300, 900, 1020])
def test_an_entry_nested_too_deeply_is_set_aside_or_refused_and_breaks_nothing(
    phones: Phones, module: str, depth: int
) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    data = json.dumps(phone.envelope(entries=[entry])).replace('"nick"', "[" * depth + "]" * depth)
    response = push(phone, data.encode())
    assert response.status_code == 400 or response.get_json()["verdicts"][0]["set_aside"] == "malformed"
    assert response.status_code in (200, 400)


def test_an_entry_over_its_size_is_set_aside(phones: Phones, module: str) -> None:
    phone = phones["manager"]
    rooms = [
        {
            "id": f"r{i}",
            "name": "x" * 200,
            "l": 1,
            "w": 1,
            "h": 1,
            "walls": {wall: {"sight": "y" * 300, "openings": [], "things": []} for wall in "ABCD"},
        }
        for i in range(60)
    ]
    assert phone.say("plan.drawn", phone.clock.new_id(), {"name": "Large", "rooms": rooms})["set_aside"] == "malformed"


def test_a_kind_nobody_knows_yet_waits(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    assert phone.say("option.fitted", phone.clock.new_id(), {"room": "bed1"}, module)["set_aside"] == "unknown_kind"


def test_rules_nobody_knows_yet_wait(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), {**NICK, "sheen": "satin"}, module)
    answer = phone.post("/api/sync", phone.envelope(entries=[{**entry, "rules": 2}])).get_json()
    assert answer["verdicts"][0]["set_aside"] == "unknown_kind"


def test_a_phone_cannot_write_as_the_server(phones: Phones, module: str) -> None:
    phone = phones["shipping"]
    body = {"release": phone.clock.new_id(), "holds_answered": [], "by": phone.person}
    assert "set_aside" in phone.say("release.given", module, body, module)
    assert phone.part("module", module)["release"] is None


def test_fields_of_the_server_have_no_effect(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    entry = phone.entry("item.logged", phone.clock.new_id(), NICK, module)
    forged = {**entry, "seq": 1, "let_in": 1, "time": "2001-01-01T00:00:00Z"}
    verdict = phone.post("/api/sync", phone.envelope(entries=[forged])).get_json()["verdicts"][0]
    assert verdict["seq"] > 1
    phone.sync()
    assert phone.part("item", entry["about"])["time"] == "2026-12-01T14:00:00Z"


def test_more_than_five_hundred_entries_are_refused_together(phones: Phones) -> None:
    phone = phones["inspector"]
    assert phone.post("/api/sync", phone.envelope(entries=[{}] * 501)).status_code == 413
    assert phone.post("/api/sync", phone.envelope(entries=[])).status_code == 200


def test_nothing_signed_in_changes_nothing(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    phone.write("item.logged", phone.clock.new_id(), NICK, module)
    call = phone.envelope()
    with phone.app.app_context(), reading() as conn:
        before = conn.execute(select(db.metadata.tables["yard"].c.seq)).scalar_one()
    response = phone.app.test_client().post("/api/sync", json=call)
    assert (response.status_code, response.get_json()["type"]) == (401, "urn:rakelight:problem:not_signed_in")
    with phone.app.app_context(), reading() as conn:
        assert conn.execute(select(db.metadata.tables["yard"].c.seq)).scalar_one() == before
    assert "seq" in phone.sync()["verdicts"][0]


NAMES = st.from_regex(r"[a-z_]{1,8}", fullmatch=True)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.text(st.characters(exclude_categories=["Cs"])),
        lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES, inner, max_size=4),
        max_leaves=12,
    )
)
def test_offered_bytes_are_the_canonical_ones(value: Any) -> None:
    assert offered.as_bytes(value) == canonical(value)
