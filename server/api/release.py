"""Asking for a release: the one thing that the server decides alone."""

from flask import Blueprint, Response, current_app, g

from server import journal
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.problems import Behind, Conflict, Held, NotAllowed, NotFound, OtherDevice, Problem

blueprint = Blueprint("release", __name__)
REFUSALS: dict[str, type[Problem]] = {
    "behind": Behind,
    "held": Held,
    "no_such_module": NotFound,
    "not_your_role": NotAllowed,
}


@blueprint.post("/release")
@described(asks=schemas.ReleaseAsk, refuses=(400, 404, 409, 413, 415, 422))
def release() -> Response:
    """Sends a module to staging, or says everything that still stops it; the same id gets the same answer."""
    call = asked(schemas.ReleaseAsk())
    if call["device"] != g.session.device:
        raise OtherDevice()
    given = journal.ask_release(call, g.session.person, current_app.extensions["clock"])
    if given.entry is None:
        refusal = REFUSALS.get(given.problem or "", Conflict)
        raise refusal(holds=given.holds, reason=given.problem)
    return said({"entry": given.entry})
