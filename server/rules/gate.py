"""The gate: everything that stops a module from going to staging, each with who can lift it and the entry behind it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from server.rules import heads as field
from server.rules.coat_holds import coat_holds
from server.rules.instants import seconds
from server.rules.parts import Part, sheet_id
from server.rules.place import place_of, rooms_since
from server.rules.sheets import open_cells, rooms_of
from server.rules.vocabulary import CURRENT, tables

Hold = dict[str, Any]
Parts = dict[str, Part]
LIFTS = ("crew_lead", "inspector", "shipping", "manager", "waiting")


def holds(module_id: str, parts: Iterable[Part], now: str) -> list[Hold]:
    """Every hold of a module, always all of them, in a fixed order.

    `parts`: the module's own and what is the yard's: phones, plans, the yard, its air, what its coats taught.
    `now`: RFC 3339 UTC, for what waits on time.
    Each hold: key, lifts, seq (of the entry behind it), and what its sentence needs. An empty list: nothing stops it.
    """
    parts = list(parts)
    mine, devices, plans = _sorted(module_id, parts)
    module = mine.get("module", {}).get(module_id)
    if module is None:
        return [{"key": "no_such_module", "lifts": "manager", "seq": 0}]
    found = [
        *_items(mine.get("item", {})),
        *_undecided(module, mine.get("item", {})),
        *_plan_undecided(module, plans),
        *_sheets(module, mine.get("sheet", {}), plans),
        *_photos(mine.get("photo", {}), devices),
        *_phones(module, devices),
        *_set_aside(mine.get("set_aside", {})),
        *coat_holds(place_of(module_id, parts), mine.get("coat", {}).values(), seconds(now)),
    ]
    return sorted(found, key=lambda hold: (LIFTS.index(hold["lifts"]), hold["key"], hold.get("room", ""), hold["seq"]))


def questions(module: Part, found: list[Hold]) -> list[Hold]:
    """The holds of a released module that no answer covers: what questions its release."""
    release = module["release"]
    if release is None:
        return []
    covered = max((answer["up_to"] for answer in module["answers"] if answer["release"] == release["id"]), default=0)
    return [hold for hold in found if hold["seq"] > covered]


def _sorted(module_id: str, parts: Iterable[Part]) -> tuple[dict[str, Parts], Parts, Parts]:
    mine: dict[str, Parts] = {}
    devices: Parts = {}
    plans: Parts = {}
    for part in parts:
        if part["part"] == "device":
            devices[part["id"]] = part
        elif part["part"] == "plan":
            plans[part["id"]] = part
        elif part["module"] == module_id:
            mine.setdefault(part["part"], {})[part["id"]] = part
    return mine, devices, plans


def _items(items: dict[str, Part]) -> list[Hold]:
    """One hold for each state, room and (to fix) crew, so that each reads as one sentence."""
    groups: dict[tuple[str, str, str], list[Part]] = {}
    for item in items.values():
        if item["state"] in ("open", "cleared"):
            crew = field.value(item["heads"], "crew") or "" if item["state"] == "open" else ""
            groups.setdefault((item["state"], field.value(item["heads"], "spot")["room"], crew), []).append(item)
    found = []
    for (state, room, crew), members in groups.items():
        members.sort(key=lambda item: int(item["number"]))
        hold: Hold = {
            "key": "items_open" if state == "open" else "items_cleared",
            "lifts": "crew_lead" if state == "open" else "inspector",
            "seq": max(item["since"] for item in members),
            "room": room,
            "numbers": [item["number"] for item in members],
        }
        if state == "open":
            hold["crew"] = crew
            hold["sent_back"] = [item["number"] for item in members if item["sent_back"]]
        found.append(hold)
    return found


def _undecided(module: Part, items: dict[str, Part]) -> list[Hold]:
    found: list[Hold] = []
    for name in field.undecided(module["heads"]):
        seq = field.latest_seq(module["heads"], name)
        found.append({"key": "fact_undecided", "lifts": "manager", "seq": seq, "field": name})
    for item in items.values():
        if item["state"] == "void":
            continue
        for name in field.undecided(item["heads"]):
            found.append(
                {
                    "key": "item_undecided",
                    "lifts": "inspector",
                    "seq": field.latest_seq(item["heads"], name),
                    "field": name,
                    "numbers": [item["number"]],
                    "room": field.value(item["heads"], "spot")["room"],
                }
            )
    return found


def _plan_undecided(module: Part, plans: dict[str, Part]) -> list[Hold]:
    """A room that only one of two drawings has would be asked of nobody."""
    plan = plans.get(field.value(module["heads"], "plan") or "")
    if plan is None or not field.undecided(plan["heads"]):
        return []
    seq = field.latest_seq(plan["heads"], "rooms")
    return [{"key": "plan_undecided", "lifts": "manager", "seq": seq, "plan": plan["id"]}]


def _sheets(module: Part, sheets: dict[str, Part], plans: dict[str, Part]) -> list[Hold]:
    plan = plans.get(field.value(module["heads"], "plan") or "")
    rooms = rooms_of(module, plan)
    found: list[Hold] = []
    for key, row in tables(CURRENT)["sheets"].items():
        sheet = sheets.get(sheet_id(module["id"], key))
        cells = sheet["cells"] if sheet else {}
        unanswered = len(open_cells(key, cells, rooms, CURRENT))
        since = sheet["since"] if sheet else 0
        hold: Hold = {
            "lifts": row["sign"][0],
            "sheet": key,
            "seq": max(since, rooms_since(module, plan) if unanswered else 0),
        }
        if sheet and sheet["stale"]:
            found.append({"key": "sheet_stale", **hold, "stale": sheet["stale"]})
        elif unanswered or not sheet or not sheet["sign"]:
            found.append({"key": "sheet_unsigned", **hold, "unanswered": unanswered})
        undecided = [[name, room] for name in sorted(cells) for room in field.undecided(cells[name])]
        if undecided:
            seq = max(field.latest_seq(cells[name], room) for name, room in undecided)
            found.append({**hold, "key": "sheet_undecided", "seq": seq, "cells": undecided})
    return found


def _photos(photos: dict[str, Part], devices: dict[str, Part]) -> list[Hold]:
    """Photos that have not come, by the phone that has them; but for those that were written off with their phone."""
    groups: dict[str, list[Part]] = {}
    for photo in photos.values():
        phone = devices.get(photo["device"])
        off = phone and (phone["written_off"] or photo["since"] <= phone["written_off_to"])
        if not photo["arrived"] and not off:
            groups.setdefault(photo["device"], []).append(photo)
    return [
        {
            "key": "photos_missing",
            "lifts": "waiting",
            "seq": max(photo["seq"] for photo in members),
            "device": device,
            "by": max(members, key=lambda photo: int(photo["seq"]))["by"],
            "count": len(members),
        }
        for device, members in groups.items()
    ]


def _phones(module: Part, devices: dict[str, Part]) -> list[Hold]:
    found: list[Hold] = []
    for device in devices.values():
        behind = device["behind"]
        if behind is None or device["written_off"] or module["id"] not in behind["modules"]:
            continue
        answer = module["phone_answers"].get(device["id"])
        if answer is None or answer["up_to"] < behind["seq"]:
            found.append(
                {
                    "key": "phone_behind",
                    "lifts": "shipping",
                    "seq": behind["seq"],
                    "device": device["id"],
                    "by": device["person"],
                    "since": behind["time"],
                }
            )
    return found


def _set_aside(asides: dict[str, Part]) -> list[Hold]:
    return [
        {
            "key": "entry_set_aside",
            "lifts": "manager",
            "seq": aside["seq"],
            "by": aside["by"],
            "kind": aside["kind"],
            "reason": aside["reason"],
            "entry": aside["id"],
        }
        for aside in asides.values()
        if aside["state"] == "waiting"
    ]
