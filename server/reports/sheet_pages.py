"""Sheets as page data: every line with its answers by room, and who signed. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.reports.hold_pages import stale_words
from server.rules import CURRENT, rooms_of, sheet_id, tables, values

Page = dict[str, Any]


def sheet_pages(book: Book) -> list[Page]:
    """Every sheet that the rules know, answered or not."""
    return [_sheet(book, key, row) for key, row in tables(CURRENT)["sheets"].items()]


def _sheet(book: Book, key: str, row: Part) -> Page:
    sheet = book.part("sheet", sheet_id(book.module, key))
    rooms = rooms_of(book.part("module", book.module), book.plan)
    lines = []
    for name, line in row["lines"].items():
        cells = sheet["cells"].get(name, {}) if sheet else {}
        wanted = rooms if line["by_room"] else ["module"]
        lines.append({"asks": book.say(f"sheets.{key}.{name}"), "answers": _answers(book, cells, wanted)})
    return {"name": book.term("yard.sheet", key), **_signature(book, sheet), "lines": lines}


def _answers(book: Book, cells: Part, rooms: list[str]) -> list[Page]:
    """Rooms with one answer read as one: `Yes: all rooms`; what differs stands by itself."""
    groups: dict[tuple[str, str], list[str]] = {}
    for room in [*rooms, *(room for room in cells if room not in rooms)]:
        said = [_answer(book, found) for found in values(cells, room)] or [("open", book.say("packet.answer_open"))]
        kind = said[0][0] if len(said) == 1 else "undecided"
        groups.setdefault((kind, book.say("packet.or").join(words for _, words in said)), []).append(room)
    whole = len(groups) == 1
    return [
        {"kind": kind, "words": words, "rooms": _rooms(book, found, whole)} for (kind, words), found in groups.items()
    ]


def _answer(book: Book, found: Part) -> tuple[str, str]:
    words = book.say(f"packet.answer_{found['value']}")
    if found.get("reason"):
        words = book.say("packet.answer_because", answer=words, reason=found["reason"])
    item = book.part("item", found.get("item"))
    if item:
        words = book.say("packet.answer_item", answer=words, number=item["number"])
    return found["value"], words


def _rooms(book: Book, rooms: list[str], whole: bool) -> str:
    if rooms == ["module"]:
        return ""
    return book.say("packet.all_rooms") if whole else book.listed([book.room(room) for room in rooms])


def _signature(book: Book, sheet: Part | None) -> Page:
    if sheet and sheet["sign"]:
        sign = sheet["sign"]
        return {
            "signed": True,
            "signature": book.say("packet.signed", person=book.person(sign["by"]), time=book.time(sign["time"])),
        }
    if sheet and sheet["stale"]:
        stale = sheet["stale"]
        what = stale_words(book, sheet["sheet"], stale)
        words = book.say("packet.stale", what=what, person=book.person(stale["by"]), time=book.time(stale["time"]))
        return {"signed": False, "signature": words}
    return {"signed": False, "signature": book.say("packet.not_signed")}
