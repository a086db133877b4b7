"""What the air was and is said to become: readings by stream and day, heat, tonight's low, the yard's own factor.

A stream is one place's readings: a room, a module, or the yard outside. Its days are kept in 64 parts, one a UTC day; a
later day takes the place of the one 64 days before it.
"""

from __future__ import annotations

from typing import Any

from server.rules.drying import rate
from server.rules.instants import DAY, day, seconds
from server.rules.parts import Part, Workspace, child_id
from server.rules.seen import Entry

Step = str | None
SLOTS = 64
# A phone's clock may be a little ahead; what is further ahead was not read.
AHEAD = 600
NIGHTS, NIGHTS_AHEAD = 14, 21 * DAY
# Of heat: on and off each day for three weeks; of a factor as many changes.
WORDS = 40


def stream_id(owner: str, room: str | None = None) -> str:
    """The readings of a module or of the yard outside (`owner`), or of a room of a module."""
    return child_id(owner, f"air {room or ''}")


def air_id(stream: str, time: int) -> str:
    """The part that keeps a stream's readings of the day of an instant (seconds since 1970)."""
    return child_id(stream, str(time // DAY % SLOTS))


def heat_id(module: str) -> str:
    """The heat of a module."""
    return child_id(module, "heat")


def forecast_id(yard: str) -> str:
    """The yard's nights to come."""
    return child_id(yard, "forecast")


def learned_id(yard: str) -> str:
    """How fast the yard's own coats dry."""
    return child_id(yard, "learned")


def taken(work: Workspace, entry: Entry) -> Step:
    """Readings of one place, of any days, in any order. A row without an instant was read as the entry was written.

    A phone reckons that instant by the clock error of its last call; the entry's own time is put right at the push.
    """
    if _no_module(work, entry):
        return "no_such_thing"
    latest = seconds(entry["time"]) + AHEAD
    days: dict[int, list[list[Any]]] = {}
    for told in entry["body"]["rows"]:
        time = seconds(entry["time"] if told[0] is None else told[0])
        if time <= latest:
            days.setdefault(time // DAY, []).append(_row(entry, time, told))
    found = [_keep(work, entry, number * DAY, days[number]) for number in sorted(days)]
    if not found:
        return "in_the_future"
    return None if None in found else "too_old" if "too_old" in found else "no_change"


def struck(work: Workspace, entry: Entry) -> Step:
    """Readings of these instants were wrong and are taken back.

    They are remembered: the logger's file may be brought in again, and its sensor may send them again.
    """
    if _no_module(work, entry):
        return "no_such_thing"
    wrong = {seconds(instant) for instant in entry["body"]["at"]}
    why_not: Step = "no_change"
    for number in sorted({time // DAY for time in wrong}):
        part_id = air_id(entry["about"], number * DAY)
        air = work.part("air", part_id)
        rows = [row for row in air["rows"] if row[0] not in wrong] if air else []
        if air is not None and len(rows) < len(air["rows"]):
            work.edit("air", part_id, entry)
            gone = [_read(row) for row in air["rows"] if row[0] in wrong]
            air["struck"] = [*air.get("struck", []), *(one for one in gone if one not in air.get("struck", []))]
            air["rows"], why_not = rows, None
    return why_not


def heat_told(work: Workspace, entry: Entry) -> Step:
    """Heat on or off, since when and to what; the latest word counts, the others for the hours before it."""
    if _no_module(work, entry):
        return "no_such_thing"
    heat, body = work.part("heat", entry["about"]), entry["body"]
    since = min(body["since"], entry["time"]) if "since" in body else None
    told = {"on": body["on"], "since": since, "to": body.get("to")}
    words = [*(heat["words"] if heat else []), {**told, "time": entry["time"]}]
    words = sorted(words, key=lambda word: str(word["time"]))[-WORDS:]
    if heat is not None and heat["time"] > entry["time"]:
        _replace(work, "heat", entry, {"words": words})
        return "overtaken"
    more = {"unvented": body.get("unvented"), "by": entry["by"], "time": entry["time"], "words": words}
    _replace(work, "heat", entry, {**told, **more})
    return None


def forecast_told(work: Workspace, entry: Entry) -> Step:
    """The lows of nights to come; of each night the latest word counts, the last fourteen are kept."""
    forecast = work.part("forecast", entry["about"])
    nights: dict[str, Part] = {night["from"]: night for night in forecast["nights"]} if forecast else {}
    before = dict(nights)
    latest = seconds(entry["time"]) + NIGHTS_AHEAD
    ahead = [night for night in entry["body"]["nights"] if seconds(night["from"]) <= latest]
    if not ahead:
        return "in_the_future"
    for night in ahead:
        known = nights.get(night["from"])
        if known is None or known["time"] <= entry["time"]:
            said = {"by": entry["by"], "time": entry["time"], "source": entry["body"]["source"]}
            nights[night["from"]] = {"from": night["from"], "to": night["to"], "low": night["low"], **said}
    kept = [nights[start] for start in sorted(nights)][-NIGHTS:]
    if kept == [before[start] for start in sorted(before)]:
        return "overtaken"
    _replace(work, "forecast", entry, {"nights": kept})
    return None


def learned(work: Workspace, entry: Entry) -> Step:
    """How fast the yard's own coats dry, by material, and what was said of that before. The server alone says this."""
    known, factors = work.part("learned", entry["about"]), entry["body"]["factors"]
    was: dict[str, list[list[Any]]] = dict(known["was"]) if known else {}
    for material in {**was, **factors}:
        told, rows = factors.get(material, {"percent": 100, "looks": 0}), was.get(material, [])
        if not rows or rows[-1][1] != told["percent"]:
            was[material] = [*rows, [entry["time"], told["percent"], told["looks"]]][-WORDS:]
    _replace(work, "learned", entry, {"factors": factors, "time": entry["time"], "was": was})
    return None


def _no_module(work: Workspace, entry: Entry) -> bool:
    return entry["module"] is not None and work.part("module", entry["module"]) is None


def _row(entry: Entry, time: int, told: list[Any]) -> list[Any]:
    _, temp, rh, surface = told
    speed, body = rate(temp, rh, entry["rules"]), entry["body"]
    return [time, temp, rh, speed, surface, body["source"], entry["by"], body.get("name")]


def _keep(work: Workspace, entry: Entry, midnight: int, rows: list[list[Any]]) -> Step:
    part_id, date = air_id(entry["about"], midnight), day(midnight)
    air = work.part("air", part_id)
    if air is not None and air["day"] > date:
        return "too_old"
    same = air if air is not None and air["day"] == date else {"rows": [], "struck": []}
    known, wrong = same["rows"], same.get("struck", [])
    # What was taken back only a person says again.
    rows = [row for row in rows if row[5] == "hand" or _read(row) not in wrong]
    # Read once is read, however often a file is brought in.
    different: dict[tuple[Any, ...], list[Any]] = {}
    for row in [*known, *rows]:
        different.setdefault((row[0], row[1], row[2], row[4] is not None, row[4] or 0), row)
    if len(different) == len(known):
        return "no_change"
    fields: Part = {"stream": entry["about"], "where": entry["body"]["where"], "room": entry["body"].get("room")}
    if air is not None and not wrong:
        air.pop("struck", None)
    fields |= {"day": date, "rows": [different[key] for key in sorted(different)]}
    _replace(work, "air", entry, fields, part_id)
    return None


def _read(row: list[Any]) -> list[Any]:
    """What a row says was read, whoever brought it."""
    return [row[0], row[1], row[2], row[4]]


def _replace(work: Workspace, kind: str, entry: Entry, fields: Part, part_id: str | None = None) -> None:
    part = work.edit(kind, part_id or entry["about"], entry)
    if part is None:
        work.make(kind, part_id or entry["about"], entry, fields)
    else:
        part.update(fields)
