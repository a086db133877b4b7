"""Paper: the module packet as a PDF."""

from flask import Blueprint, Response, current_app, request

from server import journal, reports
from server.api.described import described
from server.api.problems import NotFound, NotUnderstood
from server.db import reading

blueprint = Blueprint("reports", __name__)
LANGUAGES = ("en", "es")


@blueprint.get("/modules/<module>/packet.pdf")
@described(gives="application/pdf", refuses=(400, 404), query={"lang": {"type": "string", "enum": list(LANGUAGES)}})
def packet(module: str) -> Response:
    """The packet that goes with a module: its items, photos, sheets, release and history."""
    language = request.args.get("lang", "en")
    if language not in LANGUAGES:
        raise NotUnderstood(f"lang may be: {', '.join(LANGUAGES)}.")
    with reading() as conn:
        if journal.part(conn, "module", module) is None:
            raise NotFound("There is no such module.")
    paper = reports.packet(module, language, current_app.extensions["clock"])
    headers = {"Content-Disposition": f'inline; filename="packet-{module}.pdf"'}
    return Response(paper, content_type="application/pdf", headers=headers)
