"""What was done to a coat and found of it, in the order of the journal. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.reports.coat_words import made_of, meter_words

Line = dict[str, Any]


def coat_lines(book: Book, coat: Part, rooms: list[str]) -> list[Line]:
    """[{label, who, when, notes, dead}] of what concerns these rooms."""
    rows = [row for row in coat["lines"] if not _elsewhere(row, rooms)]
    return [_line(book, coat, row) for row in rows]


def _elsewhere(row: Part, rooms: list[str]) -> bool:
    named = row.get("body", {}).get("rooms")
    return named is not None and not set(named) & set(rooms)


def _line(book: Book, coat: Part, row: Part) -> Line:
    verb, body = row["kind"].partition(".")[2], row.get("body", {})
    if "under" in row:
        what = [book.say("packet.coat_below", what=book.kind(row["kind"]))]
        label = book.say("packet.coat_line_below")
    else:
        what = _laid(book, coat) if verb == "laid" else _found(book, body)
        label = book.say(f"packet.coat_line_{verb}")
    notes = [*what, *(book.say(f"packet.coat_ended_{ended}") for ended in row.get("ended", []))]
    if "no" in row:
        notes.append(book.say("packet.no_effect", reason=book.term("reasons", row["no"])))
    if row.get("let_in"):
        notes.append(book.say("packet.let_in"))
    hands = (coat["done_by"] if verb == "laid" else body.get("done_by")) or [row["by"]]
    when = coat["laid"] if verb == "laid" else body.get("looked_at") or body.get("sanded_at") or row["time"]
    return {
        "label": label,
        "who": book.listed([book.person(person) for person in hands]),
        "when": book.time(min(when, row["time"])),
        "notes": [note for note in notes if note],
        "dead": "no" in row,
    }


def _laid(book: Book, coat: Part) -> list[str]:
    """What it is made of, whose rework it is, and why it went on before what it covers was ready."""
    items = [book.part("item", item) for item in coat["items"]]
    numbers = sorted(item["number"] for item in items if item)
    rework = book.say("packet.coat_items", numbers=book.listed(numbers)) if numbers else ""
    early = book.say("packet.coat_early", reason=coat["early"]) if coat["early"] else ""
    written = book.say("packet.coat_written", person=book.person(coat["by"])) if coat["done_by"] else ""
    return [made_of(book, coat), rework, early, written]


def _found(book: Book, body: Part) -> list[str]:
    tried = [book.say(f"coats.try.{one}") for one in body.get("tried", [])]
    said = [body[name].strip().rstrip(".") for name in ("text", "reason") if body.get(name)]
    return [". ".join([*tried, *said]), meter_words(book, body.get("meter"))]
