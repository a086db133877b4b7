"""Readings from a sensor: no person, no phone, one key for one place."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, current_app, g

from server import journal, loggers
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.problems import NotAccepted
from server.api.sensors import no_place
from server.api.troubles import in_words

blueprint = Blueprint("readings", __name__)


@blueprint.post("/readings")
@described(asks=schemas.ReadingsAsk, refuses=(400, 404, 409, 413, 415, 422, 429))
def take() -> Response:
    """Readings of the place that the key stands for: good rows are taken, the answer says which were not and why."""
    clock, sensor = current_app.extensions["clock"], g.sensor
    found = loggers.posted(asked(schemas.ReadingsAsk())["rows"], int(clock.now().timestamp()))
    if not found.rows:
        refused = [in_words(one) for one in found.refused]
        raise NotAccepted(f"No row could be taken. {refused[0]['text']}", refused=refused)
    place = journal.Place(sensor["module"], sensor["room"], "sensor", sensor["name"])
    return said(brought(place, found, "row"))


def brought(place: journal.Place, found: loggers.Found, named: str, by: str = "server") -> dict[str, Any]:
    """Writes what was found; the answer about it. `named`: how a refused row is named, row or line."""
    try:
        told = journal.bring_readings(place, found.readings(), current_app.extensions["clock"], by)
    except journal.NoPlace as error:
        raise no_place(error) from error
    found.late(told.too_old, named)
    return {
        "taken": len(told.taken),
        "known": len(told.known) + found.repeated,
        "entries": told.entries,
        "refused_count": len(found.refused),
        "refused": [in_words(one) for one in found.refused[: loggers.MOST_ROWS]],
        "notes": [in_words(one) for one in found.notes],
    }
