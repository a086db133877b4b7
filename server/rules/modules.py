"""A module's facts, where it stands, and its release."""

from __future__ import annotations

from typing import Any

from server.rules import heads as field
from server.rules.parts import Part, Workspace, line
from server.rules.seen import Entry

Step = str | None
FACTS = ("serial", "home", "order", "model", "programme", "label", "pickup", "plan", "mirrored", "finish", "coats")


def added(work: Workspace, entry: Entry) -> Step:
    """A new module in the yard."""
    if work.part("module", entry["about"]) is not None:
        return "exists_already"
    module = work.make(
        "module",
        entry["about"],
        entry,
        {
            "module": entry["about"],
            "heads": {},
            "rooms": [],
            "last_number": 0,
            "left": None,
            "release": None,
            "releases": [],
            "answers": [],
            "phone_answers": {},
            "lines": [],
        },
    )
    _write_facts(module, entry)
    line(module, entry)
    return None


def amended(work: Workspace, entry: Entry) -> Step:
    """Other facts; what two people wrote unseen of each other stays beside each other."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    _write_facts(module, entry)
    line(module, entry, body=entry["body"])
    return None


def moved(work: Workspace, entry: Entry) -> Step:
    """Into another bay."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    field.put(module["heads"], "bay", entry["body"]["bay"], entry)
    line(module, entry, body=entry["body"])
    return None


def left(work: Workspace, entry: Entry) -> Step:
    """Out of the yard: phones drop it."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    module["left"] = {"seq": entry["seq"], "why": entry["body"]["why"], "time": entry["time"]}
    line(module, entry, body=entry["body"])
    return None


def room_added(work: Workspace, entry: Entry) -> Step:
    """A room that is in no plan; it works without measures."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    why_not = None
    if any(room["room"] == entry["body"]["room"] for room in module["rooms"]):
        why_not = "exists_already"
    else:
        module["rooms"].append({"room": entry["body"]["room"], "name": entry["body"]["name"], "seq": entry["seq"]})
    line(module, entry, why_not, body=entry["body"])
    return why_not


def release_given(work: Workspace, entry: Entry) -> Step:
    """To staging. The server alone writes this, in the transaction that found no hold."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    why_not: Step = None
    if module["release"]:
        why_not = "exists_already"
    else:
        body = entry["body"]
        module["release"] = {
            "id": body["release"],
            "by": body["by"],
            "time": entry["time"],
            "seq": entry["seq"],
            "holds_answered": body["holds_answered"],
        }
    line(module, entry, why_not, by=entry["body"]["by"])
    return why_not


def pulled_back(work: Workspace, entry: Entry) -> Step:
    """Back from staging; only the release it names."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    why_not = _not_this_release(module, entry)
    if why_not is None:
        back = {"by": entry["by"], "time": entry["time"], "reason": entry["body"]["reason"]}
        module["releases"].append({**module["release"], "pulled_back": back})
        module["release"] = None
    line(module, entry, why_not, body=entry["body"])
    return why_not


def release_answered(work: Workspace, entry: Entry) -> Step:
    """What came in after the release changes nothing, with a reason; covers only what its author had seen."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    why_not = _not_this_release(module, entry)
    if why_not is None:
        body = entry["body"]
        module["answers"].append(
            {
                "release": body["release"],
                "up_to": min(body["up_to"], entry["seen_to"]),
                "reason": body["reason"],
                "by": entry["by"],
                "time": entry["time"],
            }
        )
    line(module, entry, why_not, body=entry["body"])
    return why_not


def phone_answered(work: Workspace, entry: Entry) -> Step:
    """A phone's unsent tail does not matter to this module, with a reason."""
    module = work.edit("module", entry["about"], entry)
    if module is None:
        return "no_such_thing"
    answers, body = module["phone_answers"], entry["body"]
    up_to = min(body["up_to"], entry["seen_to"])
    before = answers.get(body["device"])
    # One answer ends no other: a late one that covers less takes nothing away.
    if before is None or before["up_to"] <= up_to:
        answers[body["device"]] = {
            "up_to": up_to,
            "reason": body["reason"],
            "by": entry["by"],
            "time": entry["time"],
        }
    line(module, entry, body=entry["body"])
    return None


def _not_this_release(module: Part, entry: Entry) -> Step:
    if module["release"] is None:
        return "not_released"
    return None if module["release"]["id"] == entry["body"]["release"] else "another_release"


def _write_facts(module: Part, entry: Entry) -> None:
    body: dict[str, Any] = entry["body"]
    for name in FACTS:
        if name in body:
            field.put(module["heads"], name, body[name], entry)
