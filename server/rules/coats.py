"""The life of a coat: laid on rooms (or one wall), looked at room by room, sanded wet, covered early and answered.

When it is dry is no part of the fold; `clocks` reckons that from what is kept here and from the air.
"""

from __future__ import annotations

from typing import Any

from server.rules.coat_looks import looks_in
from server.rules.instants import seconds
from server.rules.parts import Part, Workspace, line
from server.rules.seen import Entry, hear, note, ref_of, seen_all
from server.rules.vocabulary import tables

Step = str | None
WHY_NOT = ("unseen_objection", "overtaken", "no_change")


def laid(work: Workspace, entry: Entry) -> Step:
    """A new coat. It makes itself known to the coats that it covers, and has heard what was objected to these."""
    if work.part("coat", entry["about"]) is not None:
        return "exists_already"
    if work.part("module", entry["module"]) is None:
        return "no_such_thing"
    if "surface" in entry["body"] and len(entry["body"]["rooms"]) > 1:
        return "malformed"
    coat = work.make("coat", entry["about"], entry, _fresh(entry))
    for below in _coats(work, coat["over"], coat):
        work.edit("coat", below["id"], entry)
        below["covered_by"].append(coat["id"])
        # Laid over it, it was not there before it, whatever hour is given.
        coat["laid"] = max(coat["laid"], below["laid"])
        for room in _shared(below["cells"], coat["rooms"]):
            hear(coat["objections"], below["cells"][room]["objections"])
    line(coat, entry)
    return None


def found_wet(work: Workspace, entry: Entry) -> Step:
    """A look that says not dry: an objection, and it governs until somebody looks again."""
    coat = work.edit("coat", entry["about"], entry)
    if coat is None:
        return "no_such_thing"
    rooms = _shared(coat["cells"], entry["body"]["rooms"])
    time = max(_when(entry, "looked_at"), coat["laid"])
    for room in rooms:
        cell = coat["cells"][room]
        sanded_since = cell["restart"] is not None and cell["restart"] > time
        if not sanded_since and (cell["wet"] is None or cell["wet"]["time"] <= time):
            cell["wet"] = {"by": entry["by"], "time": time, **_told(entry, "text", "meter")}
    return _objected(work, coat, entry, rooms)


def wet_sanded(work: Workspace, entry: Entry) -> Step:
    """Worked wet: an objection, and the clock of these rooms starts again."""
    coat = work.edit("coat", entry["about"], entry)
    if coat is None:
        return "no_such_thing"
    rooms = _shared(coat["cells"], entry["body"]["rooms"])
    time = max(_when(entry, "sanded_at"), coat["laid"])
    if rooms and _unsure(entry):
        coat["unsure"] = 1
    for room in rooms:
        cell = coat["cells"][room]
        cell["restart"] = max(cell["restart"] or time, time)
        if cell["wet"] and cell["wet"]["time"] < time:
            cell["wet"] = None
    return _objected(work, coat, entry, rooms)


def found_dry(work: Workspace, entry: Entry) -> Step:
    """A look that says dry: an approval, in each room where its author knew of every look that said otherwise."""
    coat = work.edit("coat", entry["about"], entry)
    if coat is None:
        return "no_such_thing"
    rooms = _shared(coat["cells"], entry["body"]["rooms"])
    why_not: Step = "no_such_thing"
    if coat["void"]:
        why_not = "void_coat"
    elif rooms:
        found = [_dry(coat, room, entry) for room in rooms]
        why_not = None if None in found else next(reason for reason in WHY_NOT if reason in found)
    line(coat, entry, why_not, body=entry["body"])
    return why_not


def answered(work: Workspace, entry: Entry) -> Step:
    """It covers what was not ready, and may stay: an approval by somebody whose hands were not on it.

    It keeps up to where its author had seen: for what was laid or found under it unseen somebody answers again.
    """
    coat = work.edit("coat", entry["about"], entry)
    if coat is None:
        return "no_such_thing"
    why_not: Step = None
    if coat["void"]:
        why_not = "void_coat"
    elif not seen_all(entry, coat["objections"]):
        why_not = "unseen_objection"
    elif entry["by"] in (coat["by"], *coat["done_by"]):
        why_not = "hands_on_it"
    elif coat["answer"] and entry["seen_to"] <= coat["answer"]["seen"]:
        why_not = "no_change"
    else:
        coat["answer"] = {**_approval(entry), "seen": entry["seen_to"]}
    line(coat, entry, why_not, body=entry["body"])
    return why_not


def voided(work: Workspace, entry: Entry) -> Step:
    """It was never laid like this: an approval.

    What an inspector is to answer is not taken away by the hands that laid it: a cover that says itself that it was
    early, or what still lies under another coat.
    """
    coat = work.edit("coat", entry["about"], entry)
    if coat is None:
        return "no_such_thing"
    why_not: Step = None
    if not all(seen_all(entry, cell["objections"]) for cell in coat["cells"].values()):
        why_not = "unseen_objection"
    elif coat["void"]:
        why_not = "no_change"
    elif entry["by"] in (coat["by"], *coat["done_by"]) and _weighs(work, coat):
        why_not = "hands_on_it"
    else:
        coat["void"] = _approval(entry)
    line(coat, entry, why_not, body=entry["body"])
    return why_not


def _fresh(entry: Entry) -> Part:
    body = entry["body"]
    row = tables(entry["rules"])["schedule"]["coats"].get(body["coat"], {})
    rooms = list(dict.fromkeys(body["rooms"]))
    return {
        "ref": ref_of(entry),
        "coat": body["coat"],
        "rooms": rooms,
        "surface": body.get("surface"),
        "material": body["material"],
        "thickness": body.get("thickness", row.get("thickness", "normal")),
        "set_minutes": body.get("set_minutes"),
        "label_minutes": body.get("label_minutes"),
        "paint": body.get("paint"),
        "laid": _when(entry, "laid_at"),
        "by": entry["by"],
        "done_by": body.get("done_by", []),
        "time": entry["time"],
        "unsure": _unsure(entry),
        "early": body.get("early"),
        "over": list(dict.fromkeys(body.get("over", []))),
        "items": list(dict.fromkeys(body.get("items", []))),
        "covered_by": [],
        "cells": {room: {"objections": {}, "wet": None, "dry": None, "restart": None} for room in rooms},
        "objections": {},
        "answer": None,
        "void": None,
        "since": entry["seq"],
        "lines": [],
    }


def _coats(work: Workspace, ids: list[str], coat: Part) -> list[Part]:
    """The other coats of the same module with these ids."""
    found = [work.part("coat", part_id) for part_id in ids if part_id != coat["id"]]
    return [one for one in found if one is not None and one["module"] == coat["module"]]


def _shared(cells: Part, rooms: list[str]) -> list[str]:
    return [room for room in dict.fromkeys(rooms) if room in cells]


def _when(entry: Entry, name: str) -> str:
    """The instant that the author gave; never after the entry's own."""
    return str(min(entry["body"].get(name, entry["time"]), entry["time"]))


def _unsure(entry: Entry) -> int:
    """1 where nobody may rely on the hour: the phone's clock was far off, or the entry came in late."""
    off = abs(seconds(entry["time"]) - seconds(entry["at"]))
    return int(bool(entry["let_in"]) or off > tables(entry["rules"])["drying"]["limits"]["unsure_seconds"])


def _weighs(work: Workspace, coat: Part) -> bool:
    """Whether an inspector is to be asked: it was laid early, or another coat lies on it."""
    early = coat["early"] is not None and coat["answer"] is None
    return early or any(above["void"] is None for above in _coats(work, coat["covered_by"], coat))


def _told(entry: Entry, *names: str) -> dict[str, Any]:
    return {name: entry["body"][name] for name in names if name in entry["body"]}


def _approval(entry: Entry) -> Part:
    return {"ref": ref_of(entry), "by": entry["by"], "time": entry["time"], "reason": entry["body"]["reason"]}


def _dry(coat: Part, room: str, entry: Entry) -> Step:
    cell = coat["cells"][room]
    if not seen_all(entry, cell["objections"]):
        return "unseen_objection"
    time = _when(entry, "looked_at")
    # Looked before the coat was laid, sanded wet or ever found wet, it says nothing of the coat as it is.
    if time < max(coat["laid"], cell["restart"] or "", *looks_in(coat, room, "coat.found_wet")):
        return "overtaken"
    body = entry["body"]
    told = {"tried": body.get("tried", []), "reason": body.get("reason"), **_told(entry, "meter")}
    look = {"ref": ref_of(entry), "by": entry["by"], "time": time, **told}
    if time != entry["time"]:
        look["told"] = entry["time"]
    if cell["dry"] and not _says_more(look, cell["dry"]):
        return "no_change"
    cell["wet"], cell["dry"] = None, look
    return None


def _says_more(look: Part, known: Part) -> bool:
    """A tried look before any other, of two tried ones the earlier, of two others the later."""
    tried = [bool(one["tried"] and one["reason"]) for one in (look, known)]
    if tried[0] != tried[1]:
        return tried[0]
    return bool(look["time"] < known["time"] if tried[0] else look["time"] > known["time"])


def _objected(work: Workspace, coat: Part, entry: Entry, rooms: list[str]) -> Step:
    """Notes an objection in rooms and on what covers them; what stands there cannot have seen it, so it ends."""
    if not rooms:
        line(coat, entry, "no_such_thing", body=entry["body"])
        return "no_such_thing"
    ended = ["dry"] if any(coat["cells"][room]["dry"] for room in rooms) else []
    for room in rooms:
        note(coat["cells"][room]["objections"], entry)
        coat["cells"][room]["dry"] = None
    ended += ["void"] if coat["void"] else []
    coat["void"], coat["since"] = None, entry["seq"]
    _line(coat, entry, ended, body=entry["body"])
    for above in _coats(work, coat["covered_by"], coat):
        if _shared(above["cells"], rooms):
            work.edit("coat", above["id"], entry)
            note(above["objections"], entry)
            _line(above, entry, ["answer"] if above["answer"] else [], under=coat["id"])
            above["answer"], above["since"] = None, entry["seq"]
    return None


def _line(coat: Part, entry: Entry, ended: list[str], **extra: Any) -> None:
    if ended:
        extra["ended"] = ended
    line(coat, entry, None, **extra)
