"""The security log: what is in it, and what never is."""

from __future__ import annotations

import json
import logging

import pytest
from flask.testing import FlaskClient

from tests.phone import NAMES, PASSCODE, Phone


@pytest.fixture(autouse=True)
def listening(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.INFO, logger="rakelight.security")


def lines(caplog: pytest.LogCaptureFixture) -> list[dict[str, str]]:
    return [json.loads(record.message) for record in caplog.records if record.name == "rakelight.security"]


def test_each_event_is_one_line(
    client: FlaskClient, phones: dict[str, Phone], caplog: pytest.LogCaptureFixture
) -> None:
    client.post("/api/sign-in", json={"name": NAMES["manager"], "passcode": PASSCODE, "token": True})
    for _ in range(6):
        client.post("/api/sign-in", json={"name": NAMES["shipping"], "passcode": "planted secret"})
    client.get("/api/people/me")
    client.post("/api/sign-out", headers={"Sec-Fetch-Site": "cross-site", "Origin": "https://elsewhere.example"})
    phones["inspector"].post("/api/devices/none/write-off", {"reason": "lost"})
    administrator = phones["administrator"]
    administrator.post(f"/api/people/{phones['inspector'].person}/passcode", {"passcode": "another planted secret"})
    administrator.post(f"/api/people/{phones['inspector'].person}/close-account")
    found = [line["what"] for line in lines(caplog)]
    assert found == [
        "signed_in", *["sign_in_failed"] * 5, "sign_in_delayed", "not_signed_in", "cross_site", "refused",
        "passcode_set", "account_closed",
    ]  # fmt: skip


def test_no_secret_and_no_line_of_somebody_elses_making(
    client: FlaskClient, phones: dict[str, Phone], caplog: pytest.LogCaptureFixture
) -> None:
    client.post("/api/sign-in", json={"name": "planted secret", "passcode": "planted secret"})
    client.get("/api/people/me", headers={"Authorization": "Bearer planted secret"})
    client.get('/api/modules/x%0a{"what":"signed_in"}')
    phones["inspector"].get("/api/people/me")
    assert "planted secret" not in caplog.text
    assert phones["inspector"].token not in caplog.text
    assert "signed_in" not in [line["what"] for line in lines(caplog)]
    assert all("\n" not in record.message for record in caplog.records)
