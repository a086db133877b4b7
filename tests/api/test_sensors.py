"""A sensor's key: made by a manager, shown once, good for the readings of one place, and dead when revoked."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from server import journal
from server.db import reading
from tests.phone import Phone

Phones = dict[str, Phone]
ROW = {"at": "2026-12-01T08:00:00-06:00", "temp_f": 70, "rh": 50}
Post = Callable[..., TestResponse]


@pytest.fixture
def made(phones: Phones, module: str) -> dict[str, Any]:
    answer = phones["manager"].post("/api/sensors", {"name": "Probe 7", "module": module, "room": "bath"})
    assert answer.status_code == 201, answer.text
    told: dict[str, Any] = answer.get_json()
    return told


@pytest.fixture
def post(client: FlaskClient, made: dict[str, Any]) -> Post:
    def send(rows: Any, key: str | None = None, address: str = "10.0.0.9") -> TestResponse:
        headers = {"Authorization": f"Bearer {key or made['key']}"}
        data = rows if isinstance(rows, bytes) else json.dumps({"rows": rows})
        where = {"REMOTE_ADDR": address}
        return client.post(
            "/api/readings", data=data, content_type="application/json", headers=headers, environ_base=where
        )

    return send


def said(app: Flask, kind: str = "reading.taken") -> list[dict[str, Any]]:
    with app.app_context(), reading() as conn:
        assert journal.audit(conn)["problems"] == []
        return [one for one in journal.entries(conn) if one["kind"] == kind]


def test_a_post_becomes_an_entry_of_the_server_s_device(app: Flask, phones: Phones, module: str, post: Post) -> None:
    answer = post([ROW, {"temp_c": 21.55, "rh": 49.5, "surface_c": 18}])
    assert answer.status_code == 200, answer.text
    assert {name: answer.get_json()[name] for name in ("taken", "known", "refused")} == {
        "taken": 2, "known": 0, "refused": [],
    }  # fmt: skip
    (entry,) = said(app)
    assert (entry["by"], entry["module"]) == ("server", module)
    assert entry["body"] == {
        "where": "room", "room": "bath", "source": "sensor", "name": "Probe 7",
        "rows": [["2026-12-01T14:00:00Z", 211, 50, None], ["2026-12-01T14:00:00Z", 216, 50, 180]],
    }  # fmt: skip
    phone = phones["crew_lead"]
    phone.sync()
    (air,) = [part for part in phone.parts.values() if part["part"] == "air"]
    assert [row[1] for row in air["rows"]] == [211, 216]


def test_a_sensor_s_clock_may_be_ten_minutes_ahead(post: Post) -> None:
    assert post([{**ROW, "at": "2026-12-01T14:10:00Z"}]).get_json()["taken"] == 1
    assert post([{**ROW, "at": "2026-12-01T14:10:01Z"}]).get_json()["refused"][0]["key"] == "in_the_future"


def test_a_repeat_writes_nothing(app: Flask, post: Post) -> None:
    later = {**ROW, "at": "2026-12-01T13:50:00Z"}
    assert post([ROW]).get_json()["taken"] == 1
    again = post([ROW, later, later]).get_json()
    assert (again["taken"], again["known"]) == (1, 2)
    assert post([later, ROW]).get_json()["taken"] == 0
    assert len(said(app)) == 2


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"rh": 130}, "rh_beyond"), ({"rh": -5}, "rh_beyond"), ({"temp_f": 700}, "temp_beyond"),
        ({"rh": 0.5}, "rh_fraction"), ({"rh": "50"}, "no_number"), ({"rh": None}, "no_number"),
        ({"rh": True}, "no_number"), ({"rh": 10**400}, "no_number"), ({"temp_c": 20}, "two_scales"),
        ({"at": "2026-12-01T08:00:00"}, "offset_missing"), ({"at": "2026-12-01T14:20:00Z"}, "in_the_future"),
        ({"at": "1970-01-01T00:00:00Z"}, "clock_unset"), ({"at": "yesterday"}, "no_time"), ({"at": 7}, "no_time"),
        ({"at": "\ud83d"}, "no_time"), ({"by": "me"}, "field_unknown"), ({"\ud83d": 1}, "field_unknown"),
        ({"surface_f": "cold"}, "no_number"), ({"at": "0001-01-01T00:00:00+23:59"}, "clock_unset"),
    ],
)  # fmt: skip
def test_a_bad_row_costs_no_other(app: Flask, post: Post, changed: dict[str, Any], key: str) -> None:
    answer = post([{**ROW, **changed}, ROW])
    assert answer.status_code == 200
    (refused,) = answer.get_json()["refused"]
    assert (refused["key"], refused["row"]) == (key, 0)
    assert len(refused["text"]) > 10
    assert answer.get_json()["taken"] == 1
    alone = post([{**ROW, **changed}])
    assert (alone.status_code, alone.mimetype) == (422, "application/problem+json")
    assert alone.get_json()["detail"] == f"No row could be taken. {refused['text']}"
    assert [one["key"] for one in alone.get_json()["refused"]] == [key]
    assert len(said(app)) == 1


def test_the_ends_of_humidity_days_apart_and_out_of_order_are_taken_and_noted(app: Flask, post: Post) -> None:
    days = [("2026-11-28T08:00:00Z", 100), ("2026-11-20T08:00:00Z", 0), ("2026-11-20T08:00:00Z", 40)]
    told = post([{"at": at, "temp_c": 20, "rh": rh} for at, rh in days]).get_json()
    assert told["taken"] == 3
    assert {note["key"] for note in told["notes"]} == {
        "out_of_order", "same_time", "saturated", "bone_dry", "days_missing",
    }  # fmt: skip
    old = post([{**ROW, "at": "2026-09-17T08:00:00Z"}]).get_json()
    assert [one["key"] for one in old["refused"]] == ["too_old"]
    assert len(said(app)) == 1


@pytest.mark.parametrize(
    "body", [b"", b"[]", b"{}", b'{"rows": []}', b'{"rows": 7}', b'{"rows": [1]}', b"{", b'{"rows":[NaN]}']
)
def test_what_is_no_post_of_rows_is_refused(app: Flask, post: Post, body: bytes) -> None:
    assert post(body).status_code in (400, 422)
    assert said(app) == []


def test_what_is_wrong_is_said_as_its_sender_wrote_it(post: Post) -> None:
    for changed, said in (
        ({"rh": None}, "“null” is"),
        ({"rh": True}, "“true” is"),
        ({"at": None}, "“null” is no time"),
    ):
        assert said in post([{**ROW, **changed}]).get_json()["detail"]
    assert post([{**ROW, "at": "2026-12-01t14:00:00z"}]).get_json()["taken"] == 1
    for deep in (100, 995, 1015):
        row = b'{"temp_c": 20, "rh": ' + b"[" * deep + b"]" * deep + b"}"
        refused = post(b'{"rows": [' + row + b"]}")
        assert (refused.status_code, refused.get_json()["refused"][0]["value"]) == (422, "[…]")


def test_a_body_that_is_too_large_is_told_how_much_may_come(post: Post) -> None:
    refused = post(b" " * (9 * 1024 * 1024))
    assert (refused.status_code, refused.mimetype) == (413, "application/problem+json")
    assert refused.get_json()["detail"] == "A body may have 2097152 bytes here: send it in parts, or packed with gzip."


def test_no_more_than_five_hundred_rows(post: Post) -> None:
    rows = [{"at": f"2026-11-30T{n // 60:02}:{n % 60:02}:00Z", "temp_c": 20, "rh": 50} for n in range(501)]
    refused = post(rows)
    assert refused.status_code == 422
    assert "At most 500 at once" in refused.get_data(as_text=True)
    assert post(rows[:500]).get_json()["taken"] == 500


def test_keys_are_kept_as_hashes_and_shown_once(
    tmp_path: Path, phones: Phones, made: dict[str, Any], post: Post
) -> None:
    assert re.fullmatch(r"rls_[\w-]{43}", made["key"])
    post([ROW])
    (listed,) = phones["manager"].get("/api/sensors").get_json()["sensors"]
    assert listed == {name: one for name, one in made.items() if name != "key"} | {"heard_at": "2026-12-01T14:00:00Z"}
    stored = b"".join(path.read_bytes() for path in (tmp_path / "data").glob("rakelight.sqlite*"))
    assert made["key"].encode() not in stored
    assert b"Probe 7" in stored


def test_a_key_opens_nothing_else_and_a_session_is_no_key(
    client: FlaskClient, phones: Phones, made: dict[str, Any], post: Post
) -> None:
    headers = {"Authorization": f"Bearer {made['key']}"}
    for path in ("/api/modules", "/api/sensors", "/api/people/me"):
        assert client.get(path, headers=headers).status_code == 401
    for key in (phones["manager"].token, "rls_" + "0" * 43, "x", "\u00ff"):
        assert post([ROW], key).get_json()["type"].endswith(":unknown_key")
    assert client.post("/api/readings", json={"rows": [ROW]}).status_code == 401


def test_a_revoked_key_is_dead_at_once(app: Flask, phones: Phones, made: dict[str, Any], post: Post) -> None:
    for _ in range(2):
        assert phones["manager"].post(f"/api/sensors/{made['id']}/revoke").status_code == 200
    refused = post([ROW])
    assert (refused.status_code, refused.get_json()["type"]) == (403, "urn:rakelight:problem:key_revoked")
    assert said(app) == []
    assert phones["manager"].post("/api/sensors/none/revoke").status_code == 404


def test_a_module_that_left_is_not_read_any_more(app: Flask, phones: Phones, module: str, post: Post) -> None:
    phones["manager"].say("module.left", module, {"why": "Sold"}, module)
    refused = post([ROW])
    assert (refused.status_code, refused.get_json()["reason"]) == (409, "module_left")
    assert phones["manager"].post("/api/sensors", {"name": "x", "module": module}).status_code == 409
    assert said(app) == []


@pytest.mark.parametrize(
    ("ask", "status"),
    [
        ({"name": "Mast"}, 201), ({"name": " "}, 422), ({}, 422), ({"name": "x", "room": "bath"}, 422),
        ({"name": "x", "module": "7"}, 422), ({"name": "x", "module": "01890000-0000-7000-8000-000000000000"}, 404),
        ({"name": "x", "key": "mine"}, 422),
    ],
)  # fmt: skip
def test_what_a_sensor_may_be(phones: Phones, ask: dict[str, Any], status: int) -> None:
    assert phones["manager"].post("/api/sensors", ask).status_code == status


def test_a_sensor_outside_reads_for_the_yard(app: Flask, phones: Phones, post: Post) -> None:
    key = phones["manager"].post("/api/sensors", {"name": "Mast"}).get_json()["key"]
    assert post([ROW], key).get_json()["taken"] == 1
    (entry,) = said(app)
    assert (entry["module"], entry["body"]["where"]) == (None, "yard")


def test_too_often_is_slowed_down_for_this_key_alone(app: Flask, phones: Phones, module: str, post: Post) -> None:
    other = phones["manager"].post("/api/sensors", {"name": "Mast"}).get_json()["key"]
    assert {post([ROW]).status_code for _ in range(60)} == {200}
    slow = post([ROW])
    assert (slow.status_code, slow.headers["Retry-After"]) == (429, "60")
    assert post([ROW], other).status_code == 200
    app.extensions["clock"].forward(seconds=61)
    assert post([ROW]).status_code == 200


def test_wrong_keys_are_slowed_down_and_right_ones_from_there_are_not(post: Post) -> None:
    found = [post([ROW], "rls_guess").status_code for _ in range(40)]
    assert (found[:30], set(found[30:])) == ([401] * 30, {429})
    assert post([ROW]).status_code == 200


def test_two_posts_at_once_write_each_row_once(app: Flask, post: Post) -> None:
    with ThreadPoolExecutor(4) as pool:
        told = [one.get_json()["taken"] for one in pool.map(lambda _: post([ROW]), range(8))]
    assert sorted(told) == [0] * 7 + [1]
    assert len(said(app)) == 1
