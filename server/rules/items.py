"""The life of a punch item. Each step changes parts and returns None, or the reason why it had no effect."""

from __future__ import annotations

from typing import Any

from server.rules import heads as field
from server.rules.parts import Part, Workspace, line
from server.rules.seen import Entry, has_seen, note, ref_of, seen_all
from server.rules.sheets import spoil
from server.rules.vocabulary import tables

Step = str | None
SPOT = ("room", "surface", "along", "up", "words")


def logged(work: Workspace, entry: Entry) -> Step:
    """A new item; it takes the module's next number."""
    if work.part("item", entry["about"]) is not None:
        return "exists_already"
    module = work.edit("module", entry["module"], entry)
    if module is None:
        return "no_such_thing"
    module["last_number"] += 1
    body = entry["body"]
    item = work.make("item", entry["about"], entry, _fresh(entry, module["last_number"]))
    field.put(item["heads"], "defect", body["defect"], entry)
    field.put(item["heads"], "spot", _spot(body), entry)
    for name in ("wish", "crew", "charge"):
        if name in body:
            field.put(item["heads"], name, body[name], entry)
    line(item, entry)
    return None


def amended(work: Workspace, entry: Entry) -> Step:
    """Another defect or wish: an objection."""
    return _written(work, entry, {name: entry["body"][name] for name in ("defect", "wish") if name in entry["body"]})


def placed(work: Workspace, entry: Entry) -> Step:
    """Another spot: an objection."""
    return _written(work, entry, {"spot": _spot(entry["body"])})


def given(work: Workspace, entry: Entry) -> Step:
    """Another crew or charge: no objection, what is wanted on the wall stays the same."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    for name in ("crew", "charge"):
        if name in entry["body"]:
            field.put(item["heads"], name, entry["body"][name], entry)
    line(item, entry, body=entry["body"])
    return None


def ticked(work: Workspace, entry: Entry) -> Step:
    """Rework steps done. Hands count with or without effect."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    ended = _laid_hands(item, entry)
    why_not = _not_workable(item, entry)
    if why_not is None:
        order = _steps(item, entry)
        done = set(item["ticks"]) | set(entry["body"]["steps"])
        item["ticks"] = [step for step in order if step in done]
    _finish(work, item, entry, why_not, ended)
    return why_not


def cleared(work: Workspace, entry: Entry) -> Step:
    """The crew says it is fixed: an approval."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    ended = _laid_hands(item, entry)
    why_not = _not_workable(item, entry)
    if why_not is None and needs_after_photo(item, entry["rules"]) and not entry["body"].get("after"):
        why_not = "needs_after_photo"
    if why_not is None:
        item["clears"].append({"ref": ref_of(entry), "by": entry["by"], "time": entry["time"]})
        item["sent_back"] = None
        item["ticks"] = _steps(item, entry)
    _finish(work, item, entry, why_not, ended)
    return why_not


def closed(work: Workspace, entry: Entry) -> Step:
    """An inspector whose hands were not on it found the wall right: an approval on a clear that was seen."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    why_not = _not_closable(item, entry)
    if why_not is None:
        item["close"] = {"ref": ref_of(entry), "by": entry["by"], "time": entry["time"]}
    _finish(work, item, entry, why_not, [])
    return why_not


def sent_back(work: Workspace, entry: Entry) -> Step:
    """Not right yet: an objection, and the rework begins again."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    ended = _objected(item, entry)
    item["sent_backs"] += 1
    item["ticks"] = []
    item["sent_back"] = {**entry["body"], "by": entry["by"], "time": entry["time"]}
    _finish(work, item, entry, None, ended)
    return None


def voided(work: Workspace, entry: Entry) -> Step:
    """It was no defect: an approval."""
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    why_not = None
    if not seen_all(entry, item["objections"]):
        why_not = "unseen_objection"
    elif item["void"]:
        why_not = "no_change"
    else:
        reason = entry["body"]["reason"]
        item["void"] = {"ref": ref_of(entry), "by": entry["by"], "time": entry["time"], "reason": reason}
    _finish(work, item, entry, why_not, [])
    return why_not


def needs_after_photo(item: Part, version: int) -> bool:
    """A hole, a tape repair, or a second send-back asks for a photo of the repair."""
    defects = tables(version)["defects"]
    wanted = any(defects.get(key, {}).get("photo_after") for key in field.values(item["heads"], "defect"))
    return bool(wanted or item["sent_backs"] >= 2)


def next_step(item: Part, version: int) -> str | None:
    """The next rework step of an open item; None when all are ticked."""
    row = tables(version)["defects"].get(field.value(item["heads"], "defect"), {"steps": []})
    left = [step for step in row["steps"] if step not in item["ticks"]]
    return left[0] if left else None


def _fresh(entry: Entry, number: int) -> Part:
    return {
        "number": number,
        "state": "open",
        "heads": {},
        "light": entry["body"]["light"],
        "by": entry["by"],
        "time": entry["time"],
        "ticks": [],
        "sent_backs": 0,
        "sent_back": None,
        "objections": {},
        "clears": [],
        "close": None,
        "void": None,
        "hands": [],
        "since": entry["seq"],
        "lines": [],
    }


def _spot(body: dict[str, Any]) -> dict[str, Any]:
    return {name: body[name] for name in SPOT if name in body}


def _steps(item: Part, entry: Entry) -> list[str]:
    row = tables(entry["rules"])["defects"].get(field.value(item["heads"], "defect"), {"steps": []})
    return list(row["steps"])


def _written(work: Workspace, entry: Entry, new: dict[str, Any]) -> Step:
    item = work.edit("item", entry["about"], entry)
    if item is None:
        return "no_such_thing"
    ended = _objected(item, entry)
    changed = [name for name, value in new.items() if field.put(item["heads"], name, value, entry)]
    if "defect" in changed:
        item["ticks"] = []
    _finish(work, item, entry, None, ended)
    return None


def _objected(item: Part, entry: Entry) -> list[str]:
    """Notes an objection; nothing that stands can have seen it, so all of it ends.

    The hold of the item is as new as its latest objection, so that no older answer covers it.
    """
    note(item["objections"], entry)
    item["since"] = entry["seq"]
    standing = {"clear": item["clears"], "close": item["close"], "void": item["void"]}
    ended = [name for name, there in standing.items() if there]
    item["clears"], item["close"], item["void"] = [], None, None
    return ended


def _laid_hands(item: Part, entry: Entry) -> list[str]:
    """Adds whose hands were on it; a close by one of them ends."""
    hands = {entry["by"], *entry["body"].get("done_by", [])}
    item["hands"] = sorted(set(item["hands"]) | hands)
    if item["close"] and item["close"]["by"] in hands:
        item["close"] = None
        return ["close"]
    return []


def _not_workable(item: Part, entry: Entry) -> Step:
    if not seen_all(entry, item["objections"]):
        return "unseen_objection"
    return "void_item" if item["void"] else None


def _not_closable(item: Part, entry: Entry) -> Step:
    if not seen_all(entry, item["objections"]):
        return "unseen_objection"
    if item["void"]:
        return "void_item"
    if not item["clears"]:
        return "not_cleared"
    if not any(has_seen(entry, clear["ref"]) for clear in item["clears"]):
        return "unseen_work"
    if entry["by"] in item["hands"]:
        return "hands_on_it"
    return "no_change" if item["close"] else None


def _finish(work: Workspace, item: Part, entry: Entry, why_not: Step, ended: list[str]) -> None:
    """Derives the state, writes the history line and lets signed sheets hear of it."""
    before = item["state"]
    item["state"] = "void" if item["void"] else "closed" if item["close"] else "cleared" if item["clears"] else "open"
    if before != item["state"]:
        item["since"] = entry["seq"]
    extra: dict[str, Any] = {"body": entry["body"]} if entry["body"] else {}
    if ended:
        extra["ended"] = ended
    line(item, entry, why_not, **extra)
    spoil(work, item, entry)
