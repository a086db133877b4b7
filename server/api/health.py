"""Whether the server answers and its database can be read."""

from flask import Blueprint, Response, current_app

from server import journal
from server.api.bodies import said
from server.api.described import described
from server.clock import stamp
from server.db import reading

blueprint = Blueprint("health", __name__)


@blueprint.get("/health")
@described(refuses=(500,))
def health() -> Response:
    """Alive, and whether a yard has been opened."""
    with reading() as conn:
        facts = journal.yard_facts(conn)
    return said({"rakelight": 1, "yard": facts is not None, "now": stamp(current_app.extensions["clock"].now())})
