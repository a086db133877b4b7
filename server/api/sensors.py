"""Sensors: the manager makes a key for one place, sees when it was last heard, and revokes it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from flask import Blueprint, Response, current_app, g

from server import journal, people
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.noted import note
from server.api.problems import Conflict, NotAccepted, NotFound, Problem
from server.clock import stamp
from server.db import reading, writing

blueprint = Blueprint("sensors", __name__)
TIMES = ("made_at", "heard_at", "revoked_at")


@blueprint.get("/sensors")
@described()
def sensors() -> Response:
    """Every sensor with its place and when it was last heard; never its key."""
    with reading() as conn:
        return said({"sensors": [shown(one) for one in people.sensors(conn)]})


@blueprint.post("/sensors")
@described(asks=schemas.SensorAsk, status=201, refuses=(400, 404, 409, 413, 415, 422))
def make() -> Response:
    """A new sensor for a room, a module, or the yard outside; its key is in this answer and never again."""
    ask, clock = asked(schemas.SensorAsk()), current_app.extensions["clock"]
    module, room = ask.get("module"), ask.get("room")
    with writing() as conn:
        try:
            journal.place_exists(conn, module, room, clock)
        except journal.NoPlace as error:
            raise no_place(error) from error
        made, key = people.make_sensor(conn, ask["name"].strip(), module, room, g.session.person, clock)
    note("sensor_made", by=g.session.person, sensor=made["id"])
    return said({**shown(made), "key": key}, 201)


@blueprint.post("/sensors/<sensor>/revoke")
@described(refuses=(400, 404))
def revoke(sensor: str) -> Response:
    """The sensor's key is dead from now on; its readings stay. A new one is made, never the old one again."""
    with writing() as conn:
        if not people.revoke_sensor(conn, sensor, current_app.extensions["clock"]):
            raise NotFound("There is no such sensor.")
    note("sensor_revoked", by=g.session.person, sensor=sensor)
    return said({"id": sensor, "revoked": True})


def shown(one: dict[str, Any]) -> dict[str, Any]:
    """Its times as instants."""
    times = {name: one[name] and stamp(datetime.fromtimestamp(one[name], UTC)) for name in TIMES}
    return {**one, **times}


def no_place(error: journal.NoPlace) -> Problem:
    """The refusal for a place where nothing can be read."""
    if error.reason == "no_module":
        return NotFound("There is no such module.")
    if error.reason == "module_left":
        return Conflict("This module has left the yard: nothing is read there any more.", reason="module_left")
    return NotAccepted("This module has no such room.", reason="no_room")
