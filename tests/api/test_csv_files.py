"""A logger's file and an hourly forecast through the API: looked at, confirmed, brought in once."""

from __future__ import annotations

import gzip
from datetime import UTC, datetime
from typing import Any
from urllib.parse import urlencode

import pytest
from flask import Flask
from werkzeug.test import TestResponse

from server import journal
from server.db import reading
from tests.phone import NAMES, Phone

Phones = dict[str, Phone]
HEAD = "time,temp (°F),RH %"
ROWS = ("2026-11-30T08:00-06:00,70,50", "2026-11-30T16:00-06:00,50,80")


def send(phone: Phone, path: str, data: str | bytes, media: str = "text/csv", **query: Any) -> TestResponse:
    told = {name: one for name, one in query.items() if one is not None}
    packed = data.encode() if isinstance(data, str) else data
    headers = {**phone.bearer(), "Content-Type": media}
    return phone.client.post(f"/api/{path}?{urlencode(told)}", data=packed, headers=headers)


def plan(answer: TestResponse, **changed: Any) -> dict[str, Any]:
    """The plan of a look as a screen sends it back."""
    assert answer.status_code == 200, answer.text
    told = {**answer.get_json()["plan"], **changed}
    return {**told, "times": ",".join(map(str, told["times"]))}


def entries(app: Flask, kind: str = "reading.taken") -> list[dict[str, Any]]:
    with app.app_context(), reading() as conn:
        assert journal.audit(conn)["problems"] == []
        return [one for one in journal.entries(conn) if one["kind"] == kind]


def test_a_file_is_looked_at_confirmed_and_brought_in_once(app: Flask, phones: Phones, module: str) -> None:
    phone, data = phones["crew_lead"], "\n".join((HEAD, *ROWS, ROWS[0], "2026-11-30T09:00-06:00,70,130"))
    look = send(phone, "readings/csv/look", data)
    told = look.get_json()
    assert (told["count"], told["repeated"], told["asks"], told["encoding"], told["mark"]) == (2, 1, [], "utf-8", False)
    assert told["columns"][1] == {"name": "temp (°F)", "examples": ["70", "50", "70"]}
    assert told["rows"][0] == {
        "line": 2, "at": "2026-11-30T14:00:00Z", "temp": 211, "rh": 50, "surface": None, "said": ROWS[0].split(","),
    }  # fmt: skip
    assert [(one["key"], one["line"]) for one in told["refused"]] == [("rh_beyond", 5)]
    assert entries(app) == []
    where = {"where": "room", "module": module, "room": "bath", "name": "Logger 3"}
    first = send(phone, "readings/csv", data, **plan(look), **where).get_json()
    assert (first["taken"], first["known"], first["refused_count"], first["entries"]) == (2, 1, 1, 1)
    again = send(phone, "readings/csv", data, **plan(look), **where).get_json()
    assert (again["taken"], again["known"], again["entries"]) == (0, 3, 0)
    (entry,) = entries(app)
    assert (entry["by"], entry["module"]) == (phone.person, module)
    assert entry["body"]["source"] == "logger"
    assert entry["body"]["rows"] == [["2026-11-30T14:00:00Z", 211, 50, None], ["2026-11-30T22:00:00Z", 100, 80, None]]


def test_thousands_of_rows_in_one_transaction_and_any_packing(app: Flask, phones: Phones) -> None:
    start = int(datetime(2026, 10, 20, tzinfo=UTC).timestamp())
    rows = (f"{start + 600 * n};{n % 300 / 10:.1f};{2 + n % 98}".replace(".", ",") for n in range(5000))
    data = "\n".join(("Zeit;Temp °C;rF Feuchte", *rows)).encode("utf-16")
    phone = phones["inspector"]
    look = send(phone, "readings/csv/look", data)
    assert (look.get_json()["count"], look.get_json()["encoding"], look.get_json()["mark"]) == (5000, "utf-16", True)
    headers = {**phone.bearer(), "Content-Type": "text/csv", "Content-Encoding": "gzip"}
    told = phone.client.post(
        "/api/readings/csv?" + urlencode({k: v for k, v in plan(look, where="yard").items() if v is not None}),
        data=gzip.compress(data),
        headers=headers,
    ).get_json()
    assert (told["taken"], told["entries"]) == (5000, 10)
    assert {len(one["body"]["rows"]) for one in entries(app)} == {500}
    phone.sync()
    airs = [part for part in phone.parts.values() if part["part"] == "air"]
    assert sum(len(part["rows"]) for part in airs) == 5000


@pytest.mark.parametrize(
    ("data", "key"),
    [(b"", "file_empty"), (b"\xef\xbb\xbf", "file_empty"), (HEAD.encode(), "head_only"), (b"PK\x03\x04", "workbook"),
     (b"\x00\x01", "no_text"), (b"x", "one_column"), (b'a,"b\n', "quotes"), (b"a,b\n", "no_times")],
)  # fmt: skip
@pytest.mark.parametrize("route", ["readings", "forecast"])
def test_what_is_no_table_is_a_problem_that_says_so(phones: Phones, route: str, data: bytes, key: str) -> None:
    answer = send(phones["manager"], f"{route}/csv/look", data)
    assert (answer.status_code, answer.mimetype) == (422, "application/problem+json")
    assert answer.get_json()["trouble"]["key"] == key
    assert answer.get_json()["detail"] == answer.get_json()["trouble"]["text"]


@pytest.mark.parametrize(
    ("query", "status"),
    [
        ({}, 422), ({"where": "room"}, 422), ({"where": "attic"}, 422), ({"where": "yard", "room": "bath"}, 422),
        ({"where": "module", "module": "01890000-0000-7000-8000-000000000000"}, 404),
        ({"where": "module", "module": "x"}, 422), ({"where": "yard", "by": "me"}, 400),
        ({"where": "yard", "temp": "x"}, 422), ({"where": "yard", "zone": "Mars/X"}, 422),
        ({"where": "yard", "delimiter": ""}, 422), ({"where": "yard", "times": "7"}, 200),
    ],
)  # fmt: skip
def test_a_plan_or_a_place_that_cannot_be(app: Flask, phones: Phones, query: dict[str, str], status: int) -> None:
    data = "\n".join((HEAD, *ROWS))
    told = plan(send(phones["manager"], "readings/csv/look", data))
    answer = send(phones["manager"], "readings/csv", data, **{**told, **query})
    assert answer.status_code == status, answer.text
    assert entries(app) == []
    if status == 200:
        assert [one["key"] for one in answer.get_json()["refused"]] == ["few_fields", "few_fields"]


def test_a_query_says_each_thing_once_and_another_site_nothing(phones: Phones) -> None:
    phone, headers = phones["manager"], {**phones["manager"].bearer(), "Content-Type": "text/csv"}
    twice = phone.client.post("/api/readings/csv/look?unit=F&unit=C", data=HEAD, headers=headers)
    assert twice.status_code == 400
    for media in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "application/json"):
        assert send(phone, "readings/csv/look", HEAD, media).status_code == 415
    other = {**headers, "Sec-Fetch-Site": "cross-site"}
    assert phone.client.post("/api/readings/csv/look", data=HEAD, headers=other).status_code == 403


def test_local_times_are_asked_for_their_zone(phones: Phones) -> None:
    data = "Date,Time,Temp,Humidity\n11/30/2026,08:00 AM,70,50\n"
    told = send(phones["manager"], "readings/csv/look", data).get_json()
    assert (told["asks"], told["plan"]["zone"], told["from"]) == (
        ["unit", "zone"],
        "America/Chicago",
        "2026-11-30T14:00:00Z",
    )
    other = send(phones["manager"], "readings/csv/look", data, zone="Europe/Madrid", unit="F").get_json()
    assert (other["asks"], other["from"]) == ([], "2026-11-30T07:00:00Z")


def test_an_hourly_forecast_tells_the_nights(app: Flask, phones: Phones) -> None:
    start = int(datetime(2026, 12, 1, 14, tzinfo=UTC).timestamp())
    rows = [f"{start + 3600 * hour},{30 if hour == 20 else 45}" for hour in range(40)]
    data, phone = "\n".join(("Time,Temperature (°F)", *rows)), phones["shipping"]
    look = send(phone, "forecast/csv/look", data)
    night = {"from": "2026-12-02T00:00:00Z", "to": "2026-12-02T16:00:00Z", "low": -11}
    assert look.get_json()["nights"] == [night]
    told = {name: one for name, one in plan(look).items() if one is not None}
    assert send(phone, "forecast/csv", data, **told).get_json()["told"] == 1
    assert send(phone, "forecast/csv", data, **told).get_json()["told"] == 0
    (entry,) = entries(app, "forecast.told")
    assert (entry["by"], entry["body"]) == (phone.person, {"nights": [night], "source": "hourly"})
    late = send(phone, "forecast/csv", "\n".join(("Time,Temperature (°F)", rows[0])), **told)
    assert (late.status_code, late.get_json()["trouble"]["key"]) == (422, "no_nights")


def test_a_person_without_the_role_brings_nothing_in(app: Flask, phones: Phones) -> None:
    data = "\n".join((HEAD, *ROWS))
    told = plan(send(phones["manager"], "readings/csv/look", data), where="yard")
    body = {"name": NAMES["crew_lead"], "roles": ["shipping"]}
    phones["administrator"].say("person.named", phones["crew_lead"].person, body)
    assert send(phones["crew_lead"], "readings/csv", data, **told).status_code == 403
    assert entries(app) == []
