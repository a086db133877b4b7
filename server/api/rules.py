"""The rules tables, so that a phone has what the server has."""

from flask import Blueprint, Response

from server.api.bodies import said
from server.api.described import described
from server.rules import CURRENT, tables

blueprint = Blueprint("rules", __name__)


@blueprint.get("/rules")
@described()
def rules() -> Response:
    """The tables of the version in force: kinds, roles, defects, sheets, reasons."""
    return said({"rules": CURRENT, **tables(CURRENT)})
