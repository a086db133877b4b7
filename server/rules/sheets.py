"""Sheets: lines answered by room, signed by a person of the right role, spoilt by what their data names."""

from __future__ import annotations

from typing import Any

from server.rules import heads as field
from server.rules.parts import Part, Workspace, line, sheet_id
from server.rules.seen import Entry, has_seen, note, ref_of, seen_all
from server.rules.vocabulary import tables

Step = str | None
WHOLE_MODULE = "module"


def answered(work: Workspace, entry: Entry) -> Step:
    """Answers one line for several rooms.

    An objection to the sheet: a *no*, another answer than before, and the first answer for a room that a standing
    signature cannot have meant, because it came later.
    """
    body = entry["body"]
    if body["sheet"] not in tables(entry["rules"])["sheets"]:
        return "no_such_thing"
    if work.part("module", entry["module"]) is None:
        return "no_such_thing"
    sheet = _sheet(work, entry["module"], body["sheet"], entry)
    cells = sheet["cells"].setdefault(body["line"], {})
    excepted = {row["room"]: row for row in body["except"]}
    objects = False
    for room in dict.fromkeys([*body["rooms"], *excepted]):
        answer = _answer(excepted.get(room), body)
        asked_before = room in cells
        changed = field.put(cells, room, answer, entry)
        objects = objects or answer["value"] == "no" or (changed and (asked_before or bool(sheet["sign"])))
    if objects:
        _object(sheet, entry, {"line": body["line"]})
    line(sheet, entry, line=body["line"])
    return None


def signed(work: Workspace, entry: Entry) -> Step:
    """A signature under every answer: an approval; with a line unanswered it has no effect."""
    key = entry["body"]["sheet"]
    if key not in tables(entry["rules"])["sheets"]:
        return "no_such_thing"
    module = work.part("module", entry["module"])
    if module is None:
        return "no_such_thing"
    sheet = _sheet(work, entry["module"], key, entry)
    plan = work.part("plan", field.value(module["heads"], "plan") or "")
    why_not: Step = None
    if not seen_all(entry, sheet["objections"]):
        why_not = "unseen_objection"
    elif open_cells(key, sheet["cells"], rooms_of(module, plan), entry["rules"]):
        why_not = "unanswered_lines"
    elif not _seen_answers(sheet, entry):
        why_not = "unseen_work"
    else:
        sheet["sign"] = {"ref": ref_of(entry), "by": entry["by"], "time": entry["time"]}
        sheet["stale"] = None
    line(sheet, entry, why_not)
    return why_not


def spoil(work: Workspace, item: Part, entry: Entry) -> None:
    """Lets the sheets hear of work on an item: what their `stale_by` names ends a signature that had not seen it."""
    for key, sheet_row in tables(entry["rules"])["sheets"].items():
        by = sheet_row["stale_by"].get(entry["kind"])
        if by is None:
            continue
        if "defects" in by and not set(field.values(item["heads"], "defect")) & set(by["defects"]):
            continue
        spot = field.value(item["heads"], "spot")
        _object(_sheet(work, item["module"], key, entry), entry, {"room": spot["room"], "number": item["number"]})


def rooms_of(module: Part | None, plan: Part | None) -> list[str]:
    """The room keys of a module: its plan's, then those added."""
    planned = [room["id"] for room in plan["rooms"]] if plan else []
    added = [room["room"] for room in module["rooms"]] if module else []
    return planned + [room for room in added if room not in planned]


def open_cells(key: str, cells: Part, rooms: list[str], version: int) -> list[list[str]]:
    """[line, room] of every cell of a sheet without an answer.

    A *no* is one with its item only: the item is what holds the module, and without it nothing would.
    """
    missing = []
    for name, row in tables(version)["sheets"][key]["lines"].items():
        wanted = rooms if row["by_room"] else [WHOLE_MODULE]
        missing += [[name, room] for room in wanted if not _stands(cells.get(name, {}).get(room, []))]
    return missing


def _stands(cell: list[list[Any]]) -> bool:
    return bool(cell) and all(head[0]["value"] != "no" or "item" in head[0] for head in cell)


def _sheet(work: Workspace, module: str, key: str, entry: Entry) -> Part:
    found = work.edit("sheet", sheet_id(module, key), entry)
    if found is not None:
        return found
    fresh: Part = {
        "module": module,
        "sheet": key,
        "cells": {},
        "objections": {},
        "sign": None,
        "stale": None,
        "since": 0,
        "lines": [],
    }
    return work.make("sheet", sheet_id(module, key), entry, fresh)


def _seen_answers(sheet: Part, entry: Entry) -> bool:
    cells = [cell for line_cells in sheet["cells"].values() for cell in line_cells.values()]
    return all(has_seen(entry, head[1]) for cell in cells for head in cell)


def _object(sheet: Part, entry: Entry, what: dict[str, Any]) -> None:
    """Notes an objection; the hold of the sheet is as new as its latest, so that no older answer covers it."""
    note(sheet["objections"], entry)
    sheet["since"] = entry["seq"]
    if sheet["sign"]:
        sheet["stale"] = {"kind": entry["kind"], "by": entry["by"], "time": entry["time"], **what}
        sheet["sign"] = None


def _answer(exception: dict[str, Any] | None, body: dict[str, Any]) -> dict[str, Any]:
    if exception is not None:
        return {name: exception[name] for name in ("value", "reason", "item") if name in exception}
    return {"value": body["rest"], **({"reason": body["reason"]} if "reason" in body else {})}
