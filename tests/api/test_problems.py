"""Whatever goes wrong is told as a problem (RFC 9457), and told no further than it should be."""

from __future__ import annotations

import sqlite3
from typing import Any

import pytest
from flask import Flask
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import ServiceUnavailable

from server import journal
from server.api import reports
from tests.phone import Phone

Phones = dict[str, Phone]


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/api/none", 404),
        ("POST", "/api/none", 404),
        ("GET", "/api/sync", 405),
        ("DELETE", "/api/photos/" + "0" * 64, 405),
        ("GET", "/api/modules/none", 404),
        ("GET", "/api/modules/none/packet.pdf", 404),
        ("GET", "/api/modules/none/packet.pdf?lang=de", 400),
        ("GET", "/api/photos/" + "0" * 64 + "/thumb.jpg", 404),
        ("GET", "/api/photos/..%2f..%2fetc/thumb.jpg", 404),
        ("GET", "/api/photos/" + "A" * 64 + "/thumb.jpg", 404),
    ],
)
def test_a_refusal_is_a_problem(phones: Phones, method: str, path: str, status: int) -> None:
    phone = phones["shipping"]
    response = phone.client.open(path, method=method, headers=phone.bearer())
    assert response.status_code == status
    assert response.mimetype == "application/problem+json"
    told = response.get_json()
    assert told["status"] == status
    assert told["type"].startswith("urn:rakelight:problem:")
    assert {"title", "detail"} <= told.keys()


def test_a_wrong_method_says_which_are_right(phones: Phones) -> None:
    response = phones["shipping"].get("/api/sync")
    assert {"POST", "OPTIONS"} == set(response.headers["Allow"].split(", "))


def breaking(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def broken(*_: Any) -> Any:
        raise error

    monkeypatch.setattr(journal, "parts_of", broken)


def test_retry_after_is_kept(phones: Phones, module: str, monkeypatch: pytest.MonkeyPatch) -> None:
    breaking(monkeypatch, ServiceUnavailable(retry_after=17))
    response = phones["shipping"].get(f"/api/modules/{module}")
    assert (response.status_code, response.headers["Retry-After"]) == (503, "17")


def test_a_full_disk_is_told_as_one(phones: Phones, module: str, monkeypatch: pytest.MonkeyPatch) -> None:
    breaking(monkeypatch, OperationalError("x", {}, sqlite3.OperationalError("database or disk is full")))
    response = phones["shipping"].get(f"/api/modules/{module}")
    assert (response.status_code, response.get_json()["type"]) == (507, "urn:rakelight:problem:no_room")


def test_a_broken_program_says_nothing_of_itself(
    app: Flask, phones: Phones, module: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    breaking(monkeypatch, RuntimeError("the key is under the mat"))
    response = phones["shipping"].get(f"/api/modules/{module}")
    assert response.status_code == 500
    assert "mat" not in response.text
    assert "Traceback" not in response.text
    assert response.get_json()["mark"] in caplog.text


def test_a_check_of_roles_that_breaks_lets_nobody_through(
    phones: Phones, module: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: Any) -> Any:
        raise RuntimeError("no parts today")

    monkeypatch.setattr(journal, "part", broken)
    assert phones["manager"].post("/api/devices/none/write-off", {"reason": "lost"}).status_code == 500


def test_a_server_without_a_yard_says_so(empty_app: Flask) -> None:
    client = empty_app.test_client()
    assert client.get("/api/health").get_json()["yard"] is False
    assert client.get("/api/people/names").get_json() == {"names": []}
    response = client.post("/api/sign-in", json={"name": "Ines Calder", "passcode": "plane of light 7"})
    assert response.status_code == 401


def test_a_third_paper_at_once_waits(phones: Phones, module: str) -> None:
    with reports.AT_ONCE, reports.AT_ONCE:
        response = phones["shipping"].get(f"/api/modules/{module}/packet.pdf")
    assert response.status_code == 503
    assert int(response.headers["Retry-After"]) > 0
