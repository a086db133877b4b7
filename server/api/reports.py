"""Paper: the module packet as a PDF."""

import threading

from flask import Blueprint, Response, current_app, request

from server import journal, reports
from server.api import limits
from server.api.described import described
from server.api.problems import NoPaper, NotFound, NotNow, NotUnderstood
from server.db import reading

blueprint = Blueprint("reports", __name__)
# A browser's own PDF viewer may count as an object.
POLICY = "default-src 'none'; object-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
# Each takes a process, a core and some hundred megabytes.
AT_ONCE = threading.BoundedSemaphore(2)


@blueprint.get("/modules/<module>/packet.pdf")
@described(
    gives="application/pdf",
    refuses=(400, 404, 429, 503),
    query={"lang": {"type": "string", "enum": list(reports.LANGUAGES)}},
)
def packet(module: str) -> Response:
    """The packet that goes with a module: its items, photos, sheets, release and history."""
    language = request.args.get("lang", "en")
    if language not in reports.LANGUAGES:
        raise NotUnderstood(f"lang may be: {', '.join(reports.LANGUAGES)}.")
    with reading() as conn:
        if journal.part(conn, "module", module) is None:
            raise NotFound("There is no such module.")
    limits.paper()
    if not AT_ONCE.acquire(blocking=False):
        raise NotNow("Other papers are being made. Ask again shortly.", headers={"Retry-After": "5"})
    try:
        paper = reports.packet(module, language, current_app.extensions["clock"])
    except reports.PaperTooSlow as error:
        raise NotNow(str(error), headers={"Retry-After": "60"}) from error
    except reports.PaperFailed as error:
        # What a library said may name files of this machine: that is for the log.
        mark = current_app.extensions["clock"].new_id()
        current_app.logger.error("no paper %s: %s", mark, error)
        raise NoPaper(
            f"Nothing is lost: it can be made again. The server's log says why, under {mark}.", mark=mark
        ) from error
    finally:
        AT_ONCE.release()
    headers = {"Content-Disposition": f'inline; filename="packet-{module}.pdf"', "Content-Security-Policy": POLICY}
    return Response(paper, content_type="application/pdf", headers=headers)
