"""Passcodes: which are good enough, how they are kept, who sets them."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from sqlalchemy import select

from server import people
from server.db import db, reading
from tests.phone import PASSCODE, Phone, attempt

Phones = dict[str, Phone]


def rows(app: Flask, table: str) -> list[Any]:
    with app.app_context(), reading() as conn:
        return list(conn.execute(select(db.metadata.tables[table])).mappings())


def test_hashes_are_argon2id_of_the_agreed_cost(app: Flask) -> None:
    for row in rows(app, "account"):
        found = re.match(r"\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$", row["passcode"])
        assert found
        memory, passes, lanes = map(int, found.groups())
        assert (memory >= 19456, passes >= 2, lanes) == (True, True, 1)


def test_a_new_passcode_ends_every_session_of_that_person(phones: Phones, sign_in_again: Callable[..., Phone]) -> None:
    inspector, administrator = phones["inspector"], phones["administrator"]
    others = [inspector, sign_in_again("inspector"), sign_in_again("inspector")]
    path = f"/api/people/{inspector.person}/passcode"
    assert administrator.post(path, {"passcode": "lines of dust 4"}).status_code == 200
    assert [phone.get("/api/people/me").status_code for phone in others] == [401] * 3
    assert attempt(inspector.app.test_client()).status_code == 401
    assert attempt(inspector.app.test_client(), passcode="lines of dust 4").status_code == 200


def test_a_person_named_on_a_phone_gets_an_account_under_the_same_id(phones: Phones) -> None:
    lead, administrator = phones["crew_lead"], phones["administrator"]
    person = lead.clock.new_id()
    assert "seq" in lead.say("person.named", person, {"name": "Rui Bellamy", "crew": "patch", "roles": []})
    client = lead.app.test_client()
    assert "Rui Bellamy" not in client.get("/api/people/names").get_json()["names"]
    # Somebody whom a crew lead may rename is nobody to sign in as.
    assert administrator.post(f"/api/people/{person}/passcode", {"passcode": PASSCODE}).status_code == 422
    administrator.say("person.named", person, {"name": "Rui Bellamy", "crew": "patch", "roles": ["shipping"]})
    assert administrator.post(f"/api/people/{person}/passcode", {"passcode": PASSCODE}).status_code == 200
    assert attempt(client, "Rui Bellamy").get_json()["person"] == {
        "id": person, "name": "Rui Bellamy", "roles": ["shipping"], "crew": "patch",
    }  # fmt: skip


def test_two_people_cannot_sign_in_under_one_name(phones: Phones) -> None:
    administrator = phones["administrator"]
    twin = administrator.clock.new_id()
    administrator.say("person.named", twin, {"name": "INES calder", "roles": ["shipping"]})
    assert administrator.post(f"/api/people/{twin}/passcode", {"passcode": PASSCODE}).status_code == 409


@pytest.mark.parametrize(
    ("passcode", "good"),
    [
        ("seven 7", False),
        ("8 of us!", True),
        ("x" * 128, False),
        ("long " * 25 + "abc", True),
        ("long " * 25 + "abcd", False),
        ("password", False),
        ("Password1", False),
        ("12345678", False),
        ("aaaaaaaa", False),
        ("abababab", False),
        ("Ines Calder", False),
        ("ines  calder", False),
        ("rakelight", False),
        ("contraseña larga", True),
        ("ножницы и бумага", True),
        ("👷👷🧱🧱🏠🏠🔦🔦", True),
    ],
)
def test_which_passcodes_are_good_enough(passcode: str, good: bool) -> None:
    assert (people.problem_with(passcode, "Ines Calder") is None) is good


def test_a_passcode_that_is_not_good_enough_is_refused_with_a_sentence(phones: Phones) -> None:
    response = phones["administrator"].post(f"/api/people/{phones['inspector'].person}/passcode", {"passcode": "short"})
    assert response.status_code == 422
    assert response.get_json()["detail"].endswith("characters.")


def test_a_passcode_is_not_cut_and_one_of_two_keyboards_is_the_same(phones: Phones) -> None:
    inspector, administrator = phones["inspector"], phones["administrator"]
    long = "n\u0303" + "a long one " * 8
    administrator.post(f"/api/people/{inspector.person}/passcode", {"passcode": long})
    client = inspector.app.test_client()
    assert attempt(client, passcode=long[:72]).status_code == 401
    assert attempt(client, passcode=long.replace("n\u0303", "\u00f1")).status_code == 200
