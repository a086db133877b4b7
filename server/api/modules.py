"""Modules, as they stand."""

from flask import Blueprint, Response

from server import journal
from server.api.bodies import said
from server.api.described import described
from server.api.problems import NotFound
from server.db import reading

blueprint = Blueprint("modules", __name__)


@blueprint.get("/modules")
@described()
def modules() -> Response:
    """Every module that stands in the yard: its own part, without items, photos and sheets."""
    with reading() as conn:
        return said({"modules": [part for part in journal.parts_named(conn, "module") if not part["left"]]})


@blueprint.get("/modules/<module>")
@described(refuses=(404,))
def module(module: str) -> Response:
    """All parts of one module: itself, its items, photos, sheets, coats, air; and the yard's that coats dry by."""
    with reading() as conn:
        if journal.part(conn, "module", module) is None:
            raise NotFound("There is no such module.")
        return said({"module": module, "parts": journal.parts_of(conn, module), "yard": journal.drying_parts(conn)})
