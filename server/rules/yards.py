"""The yard itself, its people, plans and phones, and what was set aside."""

from __future__ import annotations

from server.rules import heads as field
from server.rules.parts import Workspace
from server.rules.seen import Entry

Step = str | None


def opened(work: Workspace, entry: Entry) -> Step:
    """The first entry of a journal."""
    if work.part("yard", entry["about"]) is not None:
        return "exists_already"
    work.make("yard", entry["about"], entry, {**entry["body"], "epochs": []})
    return None


def amended(work: Workspace, entry: Entry) -> Step:
    """Other name, zone, bays or crews."""
    yard = work.edit("yard", entry["about"], entry)
    if yard is None:
        return "no_such_thing"
    yard.update(entry["body"])
    return None


def restored(work: Workspace, entry: Entry) -> Step:
    """A new epoch after an old backup: what was seen of the old one counts up to the cut."""
    yard = work.edit("yard", entry["about"], entry)
    if yard is None:
        return "no_such_thing"
    yard["epochs"].append({"epoch": entry["body"]["old"], "cut": entry["body"]["cut"], "time": entry["time"]})
    return None


def person_named(work: Workspace, entry: Entry) -> Step:
    """A person; an account given later keeps the id."""
    body = entry["body"]
    person = work.edit("person", entry["about"], entry)
    if person is None:
        person = work.make("person", entry["about"], entry, {})
        person["module"] = None
    person["name"], person["crew"], person["roles"] = body["name"], body.get("crew"), sorted(body["roles"])
    return None


def plan_drawn(work: Workspace, entry: Entry) -> Step:
    """A plan; drawn again under the same id it replaces the former.

    Its rooms are what sheets and coats are asked for: two drawings of which neither had seen the other both stay.
    """
    plan = work.edit("plan", entry["about"], entry)
    if plan is None:
        plan = work.make("plan", entry["about"], entry, {"heads": {}})
        plan["module"] = None
    field.put(plan["heads"], "rooms", entry["body"]["rooms"], entry)
    plan["name"], plan["rooms"] = entry["body"]["name"], entry["body"]["rooms"]
    plan["from"] = entry["body"].get("from")
    return None


def device_enrolled(work: Workspace, entry: Entry) -> Step:
    """A new enrolment of a phone."""
    if work.part("device", entry["about"]) is not None:
        return "exists_already"
    fields = {"person": entry["body"]["person"], "since": entry["time"]}
    work.make("device", entry["about"], entry, {**fields, "behind": None, "written_off": None, "written_off_to": 0})
    return None


def device_behind(work: Workspace, entry: Entry) -> Step:
    """A tail or a gap opens (modules named) or ends (none): word from this phone, so it has not gone for good.

    Whoever wrote it off knew nothing of what comes from now on; what had come until then stays written off.
    """
    device = work.edit("device", entry["about"], entry)
    if device is None:
        return "no_such_thing"
    body = entry["body"]
    opens = {"last_n": body["last_n"], "modules": body["modules"], "seq": entry["seq"], "time": entry["time"]}
    device["behind"] = opens if body["modules"] else None
    if device["written_off"]:
        device["written_off"], device["written_off_to"] = None, device["written_off"]["seq"]
    return None


def device_written_off(work: Workspace, entry: Entry) -> Step:
    """A phone that will not come back; its missing photos are lost, unless it is heard from again."""
    device = work.edit("device", entry["about"], entry)
    if device is None:
        return "no_such_thing"
    device["written_off"] = {**entry["body"], "time": entry["time"], "seq": entry["seq"]}
    return None


def set_aside(work: Workspace, entry: Entry) -> Step:
    """An entry that was not taken, kept whole, with the reason."""
    body = entry["body"]
    told = {name: body[name] for name in ("kind", "by", "device", "n", "reason", "sha256")}
    fields = {**told, "time": entry["time"], "state": "waiting"}
    work.make("set_aside", body["sha256"], entry, fields)
    return None


def let_in(work: Workspace, entry: Entry) -> Step:
    """It counts after all; the entry itself follows under its own author."""
    return _decided(work, entry, "let_in")


def kept_out(work: Workspace, entry: Entry) -> Step:
    """A manager decided that it stays out."""
    return _decided(work, entry, "kept_out")


def _decided(work: Workspace, entry: Entry, state: str) -> Step:
    found = work.edit("set_aside", entry["body"]["sha256"], entry)
    if found is None:
        return "no_such_thing"
    found["state"] = state
    return None
