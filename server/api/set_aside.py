"""What was set aside: a manager lets it in or keeps it out."""

import json

from flask import Blueprint, Response, current_app, g

from server import journal
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.problems import Conflict, NotFound, Problem
from server.db import reading

blueprint = Blueprint("set_aside", __name__)


@blueprint.get("/set-aside/<entry>")
@described(refuses=(404,))
def kept(entry: str) -> Response:
    """A set-aside entry as it came, by its hash: a manager sees what there is to decide. Null when unreadable."""
    with reading() as conn:
        came = journal.set_aside_bytes(conn, entry)
    if came is None:
        raise NotFound("No entry of this hash was set aside.")
    return said({"entry": _read(came)})


@blueprint.post("/set-aside/<entry>/let-in")
@described(refuses=(400, 404, 409, 415))
def let_in(entry: str) -> Response:
    """Gives a set-aside entry, and what rests on it, its place in the journal."""
    try:
        journal.let_in(entry, g.session.person, current_app.extensions["clock"])
    except journal.CannotLetIn as error:
        raise cannot(error) from error
    return said({"entry": entry, "state": "let_in"})


@blueprint.post("/set-aside/<entry>/keep-out")
@described(asks=schemas.Reason, refuses=(400, 404, 409, 413, 415, 422))
def keep_out(entry: str) -> Response:
    """Says for good that a set-aside entry stays out, and why; it is kept all the same."""
    reason = asked(schemas.Reason())["reason"]
    try:
        journal.keep_out(entry, g.session.person, reason, current_app.extensions["clock"])
    except journal.CannotLetIn as error:
        raise cannot(error) from error
    return said({"entry": entry, "state": "kept_out"})


def _read(came: bytes) -> object:
    try:
        found = json.loads(came)
    except ValueError:
        return None
    return found if isinstance(found, dict) else None


def cannot(error: journal.CannotLetIn) -> Problem:
    """The refusal for an entry that does not wait, or that can never be folded."""
    if error.reason == "unknown":
        return NotFound("No entry of this id waits to be let in.")
    if error.reason == "not_arrived":
        return Conflict("What this entry is about is not there yet.", reason=error.reason)
    return Conflict("This entry can never be let in.", reason=error.reason)
