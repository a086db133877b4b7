"""Requests that another site makes a browser send: refused before anything is read or written."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from tests.phone import NAMES, PASSCODE

SAME = {"Sec-Fetch-Site": "same-origin"}


@pytest.fixture
def browser(client: FlaskClient) -> FlaskClient:
    """A browser with the manager's cookie."""
    ask = {"name": NAMES["manager"], "passcode": PASSCODE}
    assert client.post("/api/sign-in", json=ask, headers=SAME).status_code == 200
    return client


@pytest.mark.parametrize(
    ("headers", "passes"),
    [
        ({"Sec-Fetch-Site": "same-origin"}, True),
        ({"Sec-Fetch-Site": "none"}, True),
        ({"Sec-Fetch-Site": "same-site"}, False),
        ({"Sec-Fetch-Site": "cross-site"}, False),
        ({"Sec-Fetch-Site": "cross-site", "Origin": "http://localhost"}, False),
        ({"Origin": "http://localhost"}, True),
        ({"Origin": "http://elsewhere.example"}, False),
        ({"Origin": "http://localhost.elsewhere.example"}, False),
        ({"Origin": "null"}, False),
        ({}, False),
    ],
)
def test_where_a_request_with_a_cookie_comes_from(browser: FlaskClient, headers: dict[str, str], passes: bool) -> None:
    response = browser.post("/api/devices/none/write-off", json={"reason": "lost"}, headers=headers)
    assert response.status_code == (404 if passes else 403)
    assert response.get_json()["type"].endswith("not_found" if passes else "cross_site")


@pytest.mark.parametrize("media", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"])
def test_a_form_cannot_write(browser: FlaskClient, media: str) -> None:
    response = browser.post("/api/devices/none/write-off", data=b'{"reason":"lost"}', content_type=media, headers=SAME)
    assert response.status_code == 415


def test_a_form_of_another_site_cannot_sign_anybody_out(browser: FlaskClient) -> None:
    assert browser.post("/api/sign-out", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403
    assert browser.get("/api/people/me").status_code == 200
    assert browser.post("/api/sign-out", headers=SAME).status_code == 200
    assert browser.get("/api/people/me").status_code == 401


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(client: FlaskClient) -> None:
    response = client.post("/api/sign-in", json={"name": NAMES["manager"], "passcode": PASSCODE})
    cookie = response.headers["Set-Cookie"]
    assert cookie.startswith("rakelight=")
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(cookie.split("; "))
    assert "Secure" not in cookie  # this test server is asked over plain HTTP
    assert "token" not in response.get_json()


def test_a_cookies_token_is_no_bearer_token(browser: FlaskClient) -> None:
    cookie = browser.get_cookie("rakelight")
    assert cookie is not None
    fresh = browser.application.test_client(use_cookies=False)
    assert fresh.get("/api/people/me", headers={"Authorization": f"Bearer {cookie.value}"}).status_code == 401
