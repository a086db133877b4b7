"""What an entry rests on: the thing that it is about, and the module that this stands in."""

from __future__ import annotations

from server.journal.writer import Entry
from server.rules import Workspace, tables

MAKES = ("item.logged", "photo.added", "module.added", "person.named", "plan.drawn", "sheet.answered", "sheet.signed")


def missing(work: Workspace, fields: Entry) -> str | None:
    """The id of what an entry of a known kind rests on and the journal does not have; None when all is there."""
    part = tables(fields["rules"])["kinds"][fields["kind"]]["part"]
    if fields["kind"] not in MAKES and part != "sheet" and work.part(part, fields["about"]) is None:
        return str(fields["about"])
    if part in ("yard", "person", "plan") or fields["kind"] == "module.added":
        return None
    if not fields["module"] or work.part("module", fields["module"]) is None:
        return str(fields["module"] or fields["about"])
    return None
