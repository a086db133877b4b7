"""The description is valid and leaves no route out."""

from __future__ import annotations

import re
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from openapi_spec_validator import validate

from server.api.access import ANYONE, ROLES


def described(client: FlaskClient) -> dict[str, Any]:
    told: dict[str, Any] = client.get("/api/openapi.json").get_json()
    return told


def test_the_description_is_valid(client: FlaskClient) -> None:
    told = described(client)
    assert told["openapi"] == "3.1.0"
    validate(told)


def test_every_route_is_described_and_in_the_table_of_roles(app: Flask, client: FlaskClient) -> None:
    expected = {
        (re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule), method.lower())
        for rule in app.url_map.iter_rules()
        for method in rule.methods or ()
        if rule.rule.startswith("/api/") and method not in ("HEAD", "OPTIONS")
    }
    told = {(path, method) for path, operations in described(client)["paths"].items() for method in operations}
    assert told == expected
    assert {rule.endpoint for rule in app.url_map.iter_rules()} == set(ROLES)


def test_every_operation_says_what_it_is_for_and_what_it_refuses(client: FlaskClient) -> None:
    for path, operations in described(client)["paths"].items():
        for method, one in operations.items():
            assert len(one["summary"]) > 15, path
            assert any(status.startswith("2") for status in one["responses"]), path
            closed = ROLES[one["operationId"].replace("_", ".", 1)] if one["operationId"].count("_") == 1 else None
            if closed is not None and closed != ANYONE:
                assert {"401", "403"} <= one["responses"].keys(), path
                assert one["security"], path
            if method in ("post", "put") and "requestBody" in one:
                assert "415" in one["responses"], path


def test_the_bodies_that_are_asked_for_are_described(client: FlaskClient) -> None:
    schemas = described(client)["components"]["schemas"]
    assert {"Entry", "SyncAsk", "SignIn", "Passcode", "Reason", "ReleaseAsk", "Problem"} <= schemas.keys()
    assert set(schemas["Entry"]["required"]) >= {
        "id",
        "device",
        "n",
        "prev",
        "epoch",
        "seen",
        "at",
        "by",
        "kind",
        "body",
    }
