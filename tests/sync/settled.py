"""The checks of a whole story at its end, of a release at the moment it is given, and what the story had in it."""

from __future__ import annotations

from collections import Counter
from typing import Any

from server.rules import canonical, holds, questions
from tests.sync import oracle
from tests.sync.handset import Handset
from tests.sync.oracle import demand
from tests.sync.world import World

Entry = dict[str, Any]


def check_release(world: World, given: Entry) -> None:
    """A release rests on items and sheets that were approved by people who knew, and its asker knew all of that."""
    world.catch_up()
    entries = [entry for entry in world.entries() if entry["seq"] <= given["seq"]]
    module = given["module"]
    before = [entry for entry in entries if entry["module"] == module and entry["seq"] < given["seq"]]
    weighs = (
        "item.logged",
        *oracle.OBJECTS,
        "item.cleared",
        "item.closed",
        "item.voided",
        "sheet.answered",
        "sheet.signed",
    )
    for entry in before:
        if entry["kind"] in weighs:
            demand(
                entry["id"] in world.asked[given["body"]["release"]], f"released without having seen {entry['kind']}"
            )
    for item in oracle.items_of(before, world.truth).values():
        demand(item.settled(), "released over an item that nobody who knew has settled")
    signs = [entry for entry in before if entry["kind"] == "sheet.signed"]
    for sheet in world.parts("sheet").values():
        if sheet["module"] == module:
            good = [s for s in signs if s["about"] == sheet["id"] and oracle.good_sign(s, sheet, before, world.truth)]
            demand(bool(good), f"released over {sheet['sheet']} that nobody who knew has signed")
    for row in world.waiting():
        demand(not (row["about"] and _concerns(world, row, module)), "released over something set aside")
    answers = [entry for entry in before if entry["kind"] == "phone.answered"]
    for phone in world.phones:
        if module in phone.tail and phone.device not in world.offs:
            demand(_answered(world, phone, entries, answers), "released over a phone that has told of unsent work")


def _answered(world: World, phone: Handset, entries: list[Entry], answers: list[Entry]) -> bool:
    """Whether somebody who had this very tail on the screen has answered for it."""
    told = [entry for entry in entries if entry["kind"] == "device.behind" and entry["about"] == phone.device]
    mine = [answer for answer in answers if answer["body"]["device"] == phone.device]
    return bool(told) and any(told[-1]["id"] in world.truth[answer["id"]] for answer in mine)


def _concerns(world: World, row: Entry, module: str) -> bool:
    entry = world.written.get(row["id"])
    return bool(entry and entry["module"] == module)


def check_story(world: World) -> None:
    """Everything has arrived: the whole of the oracle."""
    world.catch_up()
    entries = world.entries()
    oracle.check_items(world, entries)
    oracle.check_fields(world, entries)
    oracle.check_sheets(world, entries)
    oracle.check_releases(world, entries)
    _once(world, entries)
    _numbers(world, entries)
    _times(entries)
    demand(world.audit() == [], f"audit: {world.audit()[:3]}")
    _same_screens(world)


def _once(world: World, entries: list[Entry]) -> None:
    taken = Counter(entry["id"] for entry in entries)
    aside = Counter(row["id"] for row in world.asides() if row["state"] != "let_in")
    demand(max(taken.values()) == 1, "taken twice")
    counts = Counter((entry["device"], entry["n"]) for entry in entries if not entry["let_in"])
    demand(max(counts.values()) == 1, "one number of a phone used twice")
    for entry_id, entry in world.written.items():
        there = taken[entry_id] + aside[entry_id]
        demand(there <= 1, f"{entry['kind']} is there {there} times")
        demand(there == 1 or entry_id in world.excused, f"{entry['kind']} is missing")
    for phone in world.phones:
        demand(not phone.outbox, f"{len(phone.outbox)} entries do not go")
    for entry in entries:
        ours = world.written.get(entry["id"])
        same = ours is None or canonical({name: entry[name] for name in ours}) == canonical(ours)
        demand(same, "an entry is not as it was written")


def _numbers(world: World, entries: list[Entry]) -> None:
    parts = world.parts("item")
    for module in world.parts("module"):
        logged: list[int] = []
        seen: set[str] = set()
        for entry in entries:
            if entry["kind"] == "item.logged" and entry["module"] == module and entry["about"] not in seen:
                seen.add(entry["about"])
                logged.append(parts[entry["about"]]["number"])
        demand(logged == list(range(1, len(logged) + 1)), f"numbers {logged}")


def _times(entries: list[Entry]) -> None:
    for entry in entries:
        demand(entry["time"] <= entry["received_at"] or bool(entry["let_in"]), "written after it arrived")


def _same_screens(world: World) -> None:
    """A phone that comes new sees what every old one sees."""
    new = Handset(world, "maren")
    for phone in world.phones:
        phone.sync()
    new.sync()
    world.phones.remove(new)
    for phone in world.phones:
        keys = [key for key in new.parts.keys() | phone.parts.keys() if phone.parts.get(key) != new.parts.get(key)]
        demand(not keys, f"an old phone and a new one differ: {sorted(keys)[:3]}")


def check_acknowledged(world: World) -> None:
    """What a phone has been told is taken is there, at every instant; only a restore may take it away for a while."""
    world.catch_up()
    there = {entry_id for entry_id, _ in world.branch}
    for phone in world.phones:
        missing = phone.kept.keys() - there
        demand(not missing or world.restored, f"{len(missing)} acknowledged entries are missing")


def quiesce(world: World) -> None:
    """Signal for everybody until nothing is left to send."""
    for _ in range(4):
        for phone in world.phones:
            phone.sync()
        if not any(phone.outbox or phone.broken for phone in world.phones):
            return
        for phone in world.phones:
            if phone.broken and not phone.outbox:
                phone.enrol()


def count(world: World) -> None:
    """What this story had in it, added to the world's counts."""
    told = world.told
    now = world.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ")
    told["stories"] += 1
    for item in world.parts("item").values():
        told["ended_closes"] += sum("close" in line.get("ended", []) for line in item["lines"])
        told["closes_without_effect"] += sum("no" in line for line in item["lines"] if line["kind"] == "item.closed")
        told["clears_without_effect"] += sum("no" in line for line in item["lines"] if line["kind"] == "item.cleared")
        told["standing_closes"] += bool(item["close"])
        told["voided"] += bool(item["void"])
    for module in world.parts("module").values():
        if module["release"]:
            told["standing_releases"] += 1
            found = holds(module["id"], world.gate_parts(module["id"]), now)
            told["questioned_releases"] += bool(questions(module, found))
        told["pulled_back"] += len(module["releases"])
        told["release_answers"] += len(module["answers"])
    told["undecided_fields"] += oracle.undecided_fields(world)
    kinds = Counter(entry["kind"] for entry in world.entries())
    told["entries"] += sum(kinds.values())
    told["let_ins"] += kinds["entry.let_in"]
    told["set_asides"] += kinds["entry.set_aside"]
    told["tails"] += kinds["device.behind"]
