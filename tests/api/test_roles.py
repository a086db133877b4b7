"""Every route for every role and for nobody: each cell is asserted, and a route outside the table answers nobody."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from server.app import create_app
from server.clock import StoryClock
from tests.phone import ROLES, Phone

Phones = dict[str, Phone]
PHOTO = "0" * 64
OPEN_TO_ALL = {
    ("GET", "/"),
    ("GET", "/modules"),
    ("GET", "/api/health"),
    ("GET", "/api/openapi.json"),
    ("GET", "/api/rules"),
    ("GET", "/api/people/names"),
    ("POST", "/api/sign-in"),
    ("POST", "/api/sign-out"),
}
SIGNED_IN = {
    ("GET", "/api/people/me"),
    ("POST", "/api/sync"),
    ("PUT", f"/api/photos/{PHOTO}"),
    ("GET", f"/api/photos/{PHOTO}/thumb.jpg"),
    ("GET", "/api/modules"),
    ("GET", "/api/modules/none"),
    ("GET", "/api/modules/none/packet.pdf"),
}
# A logger's file and a forecast, by their readers; a sensor's own key is no person's.
READERS = {"inspector", "crew_lead", "manager"}
FILES = {
    ("POST", "/api/readings/csv/look"): READERS,
    ("POST", "/api/readings/csv"): READERS,
    ("POST", "/api/forecast/csv/look"): READERS | {"shipping"},
    ("POST", "/api/forecast/csv"): READERS | {"shipping"},
}
SENSORS = {("POST", "/api/readings")}
ONE_ROLE = {
    ("POST", "/api/release"): "shipping",
    ("GET", "/api/set-aside/none"): "manager",
    ("POST", "/api/set-aside/none/let-in"): "manager",
    ("POST", "/api/set-aside/none/keep-out"): "manager",
    ("POST", "/api/devices/none/write-off"): "manager",
    ("GET", "/api/sensors"): "manager",
    ("POST", "/api/sensors"): "manager",
    ("POST", "/api/sensors/none/revoke"): "manager",
    ("POST", "/api/people/none/passcode"): "administrator",
    ("POST", "/api/people/none/close-account"): "administrator",
}


# Whoever opens a yard is its first manager too.
HELD = {role: {role} for role in ROLES} | {"administrator": {"administrator", "manager"}}


def status(client: FlaskClient, phone: Phone | None, method: str, path: str) -> int:
    headers = phone.bearer() if phone else {}
    media = "image/jpeg" if method == "PUT" else "text/csv" if "/csv" in path else "application/json"
    options: dict[str, Any] = {} if method == "GET" else {"data": b"{}", "content_type": media}
    return client.open(path, method=method, headers=headers, **options).status_code


def test_the_table_here_names_every_route(app: Flask) -> None:
    told = {(method, path) for method, path in [*OPEN_TO_ALL, *SIGNED_IN, *FILES, *SENSORS, *ONE_ROLE]}
    adapter = app.url_map.bind("localhost")
    reached = {adapter.match(path, method=method)[0] for method, path in told}
    assert reached == {rule.endpoint for rule in app.url_map.iter_rules()}


@pytest.mark.parametrize("role", [None, *ROLES])
def test_each_role_gets_through_where_it_may_and_nowhere_else(app: Flask, phones: Phones, role: str | None) -> None:
    phone, client = (phones[role] if role else None), app.test_client(use_cookies=False)
    for method, path in sorted(SIGNED_IN):
        found = status(client, phone, method, path)
        assert (found == 401) == (role is None), (method, path, found)
        assert found != 403, (method, path)
    for (method, path), who in ONE_ROLE.items():
        found = status(client, phone, method, path)
        expected = 401 if role is None else None if who in HELD[role] else 403
        assert (found == expected) if expected else (found in (200, 404, 422)), (method, path, role, found)
    for (method, path), readers in FILES.items():
        expected = 401 if role is None else 422 if HELD[role] & readers else 403
        assert status(client, phone, method, path) == expected, (method, path, role)
    for method, path in SENSORS:
        assert status(client, phone, method, path) == 401, (method, path, role)
    for method, path in sorted(OPEN_TO_ALL - {("POST", "/api/sign-out")}):
        assert status(client, phone, method, path) in (200, 404, 422), (method, path)


def test_a_route_outside_the_table_answers_nobody(app: Flask, phones: Phones) -> None:
    fresh = create_app(app.extensions["settings"], StoryClock(app.extensions["clock"].now()))
    fresh.add_url_rule("/api/forgotten", "forgotten.route", lambda: "here")
    client = fresh.test_client(use_cookies=False)
    assert client.get("/api/forgotten").status_code == 401
    for phone in phones.values():
        assert client.get("/api/forgotten", headers=phone.bearer()).status_code == 403


def test_a_changed_role_holds_from_the_next_request_on(phones: Phones) -> None:
    shipping, administrator = phones["shipping"], phones["administrator"]
    assert shipping.post("/api/release").status_code == 422
    administrator.say("person.named", shipping.person, {"name": "Sunniva Holt", "roles": ["crew_lead"]})
    assert shipping.post("/api/release").status_code == 403


def test_a_person_without_a_role_reads_nothing(phones: Phones) -> None:
    shipping, administrator = phones["shipping"], phones["administrator"]
    administrator.say("person.named", shipping.person, {"name": "Sunniva Holt", "roles": []})
    assert shipping.post("/api/sync", shipping.envelope()).status_code == 403
