"""Devices that will not come back."""

from flask import Blueprint, Response, current_app, g

from server import journal
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.problems import NotFound

blueprint = Blueprint("devices", __name__)


@blueprint.post("/devices/<device>/write-off")
@described(asks=schemas.Reason, refuses=(400, 404, 413, 415, 422))
def write_off(device: str) -> Response:
    """Nothing more is awaited from this device: lifts what its unsent work and its photos hold."""
    reason = asked(schemas.Reason())["reason"]
    try:
        journal.write_off(device, g.session.person, reason, current_app.extensions["clock"])
    except KeyError as error:
        raise NotFound("There is no such device.") from error
    return said({"device": device, "written_off": True})
