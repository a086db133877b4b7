"""The description of every route (OpenAPI 3.1), made from the routes themselves: one that is missing cannot be."""

from __future__ import annotations

import re
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from flask import Blueprint, Response, current_app
from werkzeug.routing import Rule

from server.api import schemas
from server.api.access import ANYONE, ROLES, SENSOR
from server.api.bodies import said
from server.api.described import DESCRIBED, Description, described
from server.api.problems import MEDIA

blueprint = Blueprint("openapi", __name__)
PROBLEM = {
    "type": "object",
    "required": ["type", "title", "status", "detail"],
    "properties": {
        "type": {"type": "string", "description": "urn:rakelight:problem:…"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
    },
}


@blueprint.get("/openapi.json")
@described()
def description() -> Response:
    """This description."""
    return said(spec().to_dict())


def spec() -> APISpec:
    """The description of the running program."""
    whole = APISpec(
        title="Rakelight",
        version="1",
        openapi_version="3.1.0",
        info={"description": "The punch list and release of modules. Errors are problem details (RFC 9457)."},
        plugins=[MarshmallowPlugin()],
    )
    whole.components.schema("Problem", PROBLEM)
    whole.components.schema("Entry", schema=schemas.Entry)
    whole.components.security_scheme("bearer", {"type": "http", "scheme": "bearer"})
    whole.components.security_scheme(
        "sensor", {"type": "http", "scheme": "bearer", "description": "a sensor's key, which the manager made"}
    )
    whole.components.security_scheme("cookie", {"type": "apiKey", "in": "cookie", "name": "rakelight"})
    for rule in sorted(current_app.url_map.iter_rules(), key=lambda one: one.rule):
        if rule.rule.startswith("/api/"):
            whole.path(path=re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule), operations=operations(rule))
    return whole


def operations(rule: Rule) -> dict[str, Any]:
    """The methods of one route."""
    view = current_app.view_functions[rule.endpoint]
    told = DESCRIBED.get(rule.endpoint, Description())
    roles = ROLES.get(rule.endpoint, frozenset())
    one: dict[str, Any] = {
        "operationId": rule.endpoint.replace(".", "_"),
        "summary": (view.__doc__ or "").strip().split("\n")[0],
        "responses": responses(told, roles),
        "parameters": parameters(rule, told),
    }
    if roles != ANYONE:
        one["security"] = [{"sensor": []}] if roles == SENSOR else [{"bearer": []}, {"cookie": []}]
        one["description"] = "For: " + ", ".join(sorted(roles)) + "."
    if told.asks is not None:
        one["requestBody"] = {"required": True, "content": asked(told.asks)}
    return {method.lower(): one for method in sorted(rule.methods or ()) if method not in ("HEAD", "OPTIONS")}


def asked(asks: Any) -> dict[str, Any]:
    if isinstance(asks, tuple):
        return {media: {"schema": {"type": "string", "contentMediaType": media}} for media in asks}
    return {"application/json": {"schema": asks}}


def responses(told: Description, roles: frozenset[str]) -> dict[str, Any]:
    shape = {"type": "object"} if told.gives == "application/json" else {"type": "string"}
    good = {"description": "As asked.", "content": {told.gives: {"schema": shape}}}
    refused = {*told.refuses, *(() if roles == ANYONE else (401, 403))}
    problem = {
        "description": "Refused.",
        "content": {MEDIA: {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }
    return {str(told.status): good} | {str(status): problem for status in sorted(refused)}


def parameters(rule: Rule, told: Description) -> list[dict[str, Any]]:
    paths = [
        {"name": name, "in": "path", "required": True, "schema": {"type": "string"}} for name in sorted(rule.arguments)
    ]
    return paths + [{"name": name, "in": "query", "schema": shape} for name, shape in told.query.items()]
