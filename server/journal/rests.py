"""What an entry rests on: the thing that it is about, and the module that this stands in; and whose yard it means."""

from __future__ import annotations

from collections.abc import Callable

from server.journal.folding import Entry
from server.rules import Workspace, forecast_id, learned_id, stream_id, tables

MAKES = ("item.logged", "photo.added", "module.added", "person.named", "plan.drawn", "coat.laid")
# Their ids are reckoned from what they are about, so the first word makes them.
MADE_AT_ONCE = ("sheet", "air", "heat", "forecast", "learned")


def missing(work: Workspace, fields: Entry) -> str | None:
    """The id of what an entry of a known kind rests on and the journal does not have; None when all is there."""
    part = tables(fields["rules"])["kinds"][fields["kind"]]["part"]
    if fields["kind"] not in MAKES and part not in MADE_AT_ONCE and work.part(part, fields["about"]) is None:
        return str(fields["about"])
    if part in ("yard", "person", "plan", "forecast", "learned") or fields["kind"] == "module.added":
        return None
    if part == "air" and not fields["module"]:
        return None
    if not fields["module"] or work.part("module", fields["module"]) is None:
        return str(fields["module"] or fields["about"])
    return None


def astray(work: Workspace, yard: str, fields: Entry) -> bool:
    """Whether an entry of a known kind is about what stands in another module than it says, or in another yard."""
    existing = work.part(tables(fields["rules"])["kinds"][fields["kind"]]["part"], fields["about"])
    elsewhere = existing is not None and existing["module"] not in (None, fields["module"])
    return elsewhere or not _of_this_yard(yard, fields)


def _of_this_yard(yard: str, fields: Entry) -> bool:
    """Whether what stands in no module, air outside and the nights to come, is about this yard's own."""
    part = tables(fields["rules"])["kinds"][fields["kind"]]["part"]
    own: dict[str, Callable[[str], str]] = {"air": stream_id, "forecast": forecast_id, "learned": learned_id}
    return fields["module"] is not None or part not in own or fields["about"] == own[part](yard)
