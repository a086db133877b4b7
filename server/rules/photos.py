"""Records of photos; the bytes travel apart."""

from __future__ import annotations

from server.rules import heads as field
from server.rules.parts import Workspace
from server.rules.seen import Entry

Step = str | None


def added(work: Workspace, entry: Entry) -> Step:
    """A photo taken; one may serve several items."""
    if work.part("photo", entry["about"]) is not None:
        return "exists_already"
    body = entry["body"]
    kept = {name: body[name] for name in ("sha256", "bytes", "px", "shows", "room", "surface") if name in body}
    fields = {
        **kept,
        "heads": {},
        "device": entry["device"],
        "by": entry["by"],
        "time": entry["time"],
        "arrived": False,
        "since": entry["seq"],
    }
    photo = work.make("photo", entry["about"], entry, fields)
    field.put(photo["heads"], "marked", {"items": body["items"], "marks": body["marks"]}, entry)
    return None


def marked(work: Workspace, entry: Entry) -> Step:
    """Other marks; they are data, never pixels."""
    photo = work.edit("photo", entry["about"], entry)
    if photo is None:
        return "no_such_thing"
    field.put(photo["heads"], "marked", {name: entry["body"][name] for name in ("items", "marks")}, entry)
    return None


def arrived(work: Workspace, entry: Entry) -> Step:
    """The server holds the bytes under their hash."""
    photo = work.edit("photo", entry["about"], entry)
    if photo is None:
        return "no_such_thing"
    photo["arrived"] = True
    return None
