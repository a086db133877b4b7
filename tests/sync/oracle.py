"""What must be true of any story once everything has arrived, worked out from the entries and from what was truly on
their authors' screens. Written apart from the application: it folds nothing and never reads `seen`.
"""

from __future__ import annotations

from typing import Any

from server.rules import holds, questions, undecided
from tests.sync.world import World

Entry = dict[str, Any]
OBJECTS = ("item.amended", "item.placed", "item.sent_back")
WORKS = ("item.cleared", "item.ticked")


class Violation(AssertionError):
    """The application has broken a promise."""


def demand(holds_true: bool, sentence: str) -> None:
    if not holds_true:
        raise Violation(sentence)


class Item:
    """The entries about one item, and which approvals of it are good."""

    def __init__(self, entries: list[Entry], truth: dict[str, frozenset[str]]) -> None:
        self.entries, self.truth = entries, truth
        self.logged = [entry for entry in entries if entry["kind"] == "item.logged"]
        self.objections = [entry for entry in entries if entry["kind"] in OBJECTS]
        worked = [entry for entry in entries if entry["kind"] in WORKS]
        self.hands = {entry["by"] for entry in worked}
        self.hands |= {person for entry in worked for person in entry["body"].get("done_by", [])}

    def of(self, kind: str) -> list[Entry]:
        return [entry for entry in self.entries if entry["kind"] == kind]

    def informed(self, approval: Entry) -> bool:
        """Its author had the item and every objection to it on the screen, also those that arrived later."""
        return all(entry["id"] in self.truth[approval["id"]] for entry in [*self.logged[:1], *self.objections])

    def good_clear(self, clear: Entry) -> bool:
        return self.informed(clear)

    def good_close(self, close: Entry) -> bool:
        had_seen_work = any(
            clear["id"] in self.truth[close["id"]] and self.good_clear(clear) for clear in self.of("item.cleared")
        )
        return had_seen_work and self.informed(close) and close["by"] not in self.hands

    def settled(self) -> bool:
        """Whether a release may rest on this item: closed or void by somebody who knew."""
        closes, voids = self.of("item.closed"), self.of("item.voided")
        return any(self.good_close(close) for close in closes) or any(self.informed(void) for void in voids)


def items_of(entries: list[Entry], truth: dict[str, frozenset[str]]) -> dict[str, Item]:
    about: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry["kind"].startswith("item."):
            about.setdefault(entry["about"], []).append(entry)
    return {item: Item(found, truth) for item, found in about.items() if any(e["kind"] == "item.logged" for e in found)}


def check_items(world: World, entries: list[Entry]) -> None:
    by_seq = {entry["seq"]: entry for entry in entries}
    parts = world.parts("item")
    found = items_of(entries, world.truth)
    demand(parts.keys() == found.keys(), "every logged item is a part")
    for item_id, item in found.items():
        part = parts[item_id]
        if part["close"]:
            demand(
                item.good_close(by_seq[part["close"]["ref"][0]]), f"item {part['number']}: closed unseen or by hands"
            )
        if part["void"]:
            demand(item.informed(by_seq[part["void"]["ref"][0]]), f"item {part['number']}: void unseen")
        for clear in part["clears"]:
            demand(item.good_clear(by_seq[clear["ref"][0]]), f"item {part['number']}: cleared unseen")
        derived = "void" if part["void"] else "closed" if part["close"] else "cleared" if part["clears"] else "open"
        demand(part["state"] == derived, f"item {part['number']}: state")
        demand(set(part["hands"]) == item.hands, f"item {part['number']}: hands")
        told = sorted((line["kind"], line["by"], line["time"]) for line in part["lines"])
        demand(
            told == sorted((e["kind"], e["by"], e["time"]) for e in item.entries), "the history leaves something out"
        )


def check_fields(world: World, entries: list[Entry]) -> None:
    """Whatever nobody who had seen it has overruled is still shown, and two such values hold the module."""
    now = world.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ")
    for part in [*world.parts("item").values(), *world.parts("module").values()]:
        for field in ("defect", "wish", "label"):
            writes = [entry for entry in entries if entry["about"] == part["id"] and field in entry["body"]]
            alive = {
                one["body"][field]
                for one in writes
                if not any(one["id"] in world.truth[other["id"]] for other in writes)
            }
            shown = {head[0] for head in part["heads"].get(field, [])}
            demand(alive <= shown, f"{field}: {alive - shown} was overwritten unseen")
            if len(alive) > 1 and part.get("state") != "void":
                found = holds(part["module"], world.gate_parts(part["module"]), now)
                demand(any(hold.get("field") == field for hold in found), f"{field} is undecided and holds nothing")


def check_sheets(world: World, entries: list[Entry]) -> None:
    by_seq = {entry["seq"]: entry for entry in entries}
    for sheet in world.parts("sheet").values():
        if sheet["sign"]:
            demand(
                good_sign(by_seq[sheet["sign"]["ref"][0]], sheet, entries, world.truth),
                f"{sheet['sheet']}: signed unseen",
            )


def good_sign(sign: Entry, sheet: Entry, entries: list[Entry], truth: dict[str, frozenset[str]]) -> bool:
    """Its author had on the screen every answer that says *no* or something else than what was signed, and for
    cleaning all work of the module."""
    answers = [entry for entry in entries if entry["kind"] == "sheet.answered" and entry["about"] == sheet["id"]]
    known_answers = [answer for answer in answers if answer["id"] in truth[sign["id"]]]
    meant = [
        one["body"]
        for one in known_answers
        if not any(one["id"] in truth[later["id"]] and same_line(one, later) for later in known_answers)
    ]
    for body in (answer["body"] for answer in answers if answer["id"] not in truth[sign["id"]]):
        same = any(one["line"] == body["line"] and said(one) == said(body) for one in meant)
        if said(body)["value"] == "no" or not same:
            return False
    if sheet["sheet"] != "cleaning":
        return True
    work = [entry for entry in entries if entry["kind"] in WORKS and entry["module"] == sheet["module"]]
    known = items_of(entries, truth)
    return all(
        entry["id"] in truth[sign["id"]] for entry in work if entry["about"] in known and after_log(entry, entries)
    )


def said(body: Entry) -> Entry:
    """What an answer for the whole module says."""
    excepted: list[Entry] = body["except"]
    return excepted[0] if excepted else {"room": "module", "value": body["rest"]}


def same_line(one: Entry, other: Entry) -> bool:
    return bool(one["body"]["line"] == other["body"]["line"])


def after_log(work: Entry, entries: list[Entry]) -> bool:
    """Work on an item that had not been logged yet has no wall to spoil."""
    return any(e["kind"] == "item.logged" and e["about"] == work["about"] and e["seq"] < work["seq"] for e in entries)


def check_releases(world: World, entries: list[Entry]) -> None:
    """Which release is in force; and what came after it and unsettled something is a question until truly answered."""
    now = world.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ")
    found = items_of(entries, world.truth)
    for module in world.parts("module").values():
        given = [e for e in entries if e["kind"] == "release.given" and e["about"] == module["id"]]
        backs = [e for e in entries if e["kind"] == "release.pulled_back" and e["about"] == module["id"]]
        standing = [g for g in given if not any(named(b, g) and b["seq"] > g["seq"] for b in backs)]
        in_force = module["release"]["id"] if module["release"] else None
        demand(
            [one["body"]["release"] for one in standing] == ([in_force] if in_force else []),
            "another release in force",
        )
        if not standing:
            continue
        open_questions = questions(module, holds(module["id"], world.gate_parts(module["id"]), now))
        asked = {number for hold in open_questions for number in hold.get("numbers", [])}
        for item_id, item in found.items():
            if item.logged[0]["module"] == module["id"] and unanswered(item, standing[0], entries, world.truth):
                number = world.parts("item")[item_id]["number"]
                demand(number in asked, f"item {number} unsettles a release and nobody is asked")


def named(entry: Entry, given: Entry) -> bool:
    return bool(entry["body"]["release"] == given["body"]["release"])


def unanswered(item: Item, given: Entry, entries: list[Entry], truth: dict[str, frozenset[str]]) -> bool:
    late = {e["id"] for e in [*item.logged, *item.objections] if e["seq"] > given["seq"]}
    answers = [e for e in entries if e["kind"] == "release.answered" and named(e, given)]
    return bool(late) and not item.settled() and not any(late <= truth[answer["id"]] for answer in answers)


def undecided_fields(world: World) -> int:
    parts = [*world.parts("item").values(), *world.parts("module").values()]
    return sum(len(undecided(part["heads"])) for part in parts)
