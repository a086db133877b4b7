"""The packet of a module: everything the manager hands over, as page data. Pure: the template only lays it out."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.reports.coat_pages import coat_pages
from server.reports.hold_pages import hold_groups
from server.reports.room_pages import finish_of, room_pages
from server.reports.sheet_pages import sheet_pages
from server.rules import holds, questions, rooms_of, value, values

Page = dict[str, Any]


def packet_page(book: Book) -> Page:
    """Page data of the whole packet. LookupError when the module is not among the parts."""
    rooms, loose = room_pages(book)
    serial = str(value(book.heads, "serial") or "")
    home = str(value(book.heads, "home") or "")
    return {
        "lang": book.lang,
        "serial": serial,
        "home": home,
        "title": book.say("packet.title", serial=serial),
        "yard": book.yard["name"],
        "printed": book.say("packet.printed", time=book.time(book.now)),
        "facts": _facts(book),
        "finishes": _finishes(book),
        "release": _release(book),
        "coats": coat_pages(book),
        "rooms": rooms,
        "loose": loose,
        "sheets": sheet_pages(book),
        "history": _history(book),
        "journal": _journal(book),
    }


def _facts(book: Book) -> list[Page]:
    """The module's facts; two values nobody has decided between stand both, and say so."""
    rows = []
    for name in ("serial", "home", "order", "model", "programme", "label", "bay", "pickup", "plan"):
        found = [book.fact(name, one) for one in values(book.heads, name)]
        words = book.say("packet.or").join(found) or book.say("packet.none")
        rows.append(
            {
                "name": book.say(f"packet.field_{name}"),
                "value": words,
                "undecided": book.say("packet.undecided") if len(found) > 1 else "",
            }
        )
    return rows


def _finishes(book: Book) -> list[Page]:
    """Rooms that share a finish in one row."""
    groups: dict[str, list[str]] = {}
    for room in rooms_of(book.part("module", book.module), book.plan):
        groups.setdefault(finish_of(book, room), []).append(book.room(room))
    return [{"finish": finish, "rooms": book.listed(list(rooms))} for finish, rooms in groups.items() if finish]


def _release(book: Book) -> Page:
    module = book.part("module", book.module) or {}
    found = holds(book.module, book.parts, book.now)
    release = module["release"]
    past = [row for old in module["releases"] for row in _past(book, old)]
    answers = [_answered(book, row) for row in module["answers"]]
    if release is None:
        words = book.say_n("packet.not_released", len(found)) if found else book.say("packet.not_released_clear")
        return {"given": False, "words": words, "groups": hold_groups(book, found), "past": past, "answers": answers}
    asked = questions(module, found)
    stood = [_stood(book, row) for row in release["holds_answered"]]
    return {
        "given": True,
        "words": book.say("packet.released", person=book.person(release["by"]), time=book.time(release["time"])),
        "stood": stood,
        "stood_words": book.say("packet.holds_answered" if stood else "packet.no_holds"),
        "questioned": book.say_n("packet.questioned", len(asked)) if asked else "",
        "groups": hold_groups(book, asked),
        "past": past,
        "answers": answers,
    }


def _stood(book: Book, row: Part) -> Page:
    """What shipping had answered when it released: phones not heard from, each with the reason given."""
    device = book.part("device", row["device"]) or {"person": None}
    words = book.say("holds.phone_behind", name=book.person(device["person"]))
    answer = book.say(
        "packet.answered", person=book.person(row["by"]), time=book.time(row["time"]), reason=row["reason"]
    )
    return {"words": words, "details": [answer]}


def _past(book: Book, old: Part) -> list[str]:
    back = old["pulled_back"]
    return [
        book.say("packet.released", person=book.person(old["by"]), time=book.time(old["time"])),
        book.say(
            "packet.pulled_back", person=book.person(back["by"]), time=book.time(back["time"]), reason=back["reason"]
        ),
    ]


def _answered(book: Book, row: Part) -> str:
    return book.say("packet.answered", person=book.person(row["by"]), time=book.time(row["time"]), reason=row["reason"])


def _history(book: Book) -> list[Page]:
    """What happened to the module and its sheets, in order; an item's own history stands with the item."""
    rows = [(row, "") for row in (book.part("module", book.module) or {"lines": []})["lines"]]
    for sheet in book.mine("sheet"):
        name = book.term("yard.sheet", sheet["sheet"])
        rows += [(row, name) for row in sheet["lines"] if row["kind"] == "sheet.signed"]
    rows.sort(key=lambda pair: pair[0]["time"])
    return [_event(book, row, name) for row, name in rows]


def _event(book: Book, row: Part, sheet: str) -> Page:
    notes = [sheet] if sheet else _told(book, row)
    if "no" in row:
        notes.append(book.say("packet.no_effect", reason=book.term("reasons", row["no"])))
    if row.get("let_in"):
        notes.append(book.say("packet.let_in"))
    return {
        "what": book.kind(row["kind"]),
        "who": book.person(row["by"]),
        "when": book.time(row["time"]),
        "notes": notes,
    }


def _told(book: Book, row: Part) -> list[str]:
    body = row.get("body", {})
    match row["kind"]:
        case "module.amended":
            return [book.listed([book.say(f"holds.field.{name}") for name in body])]
        case "room.added":
            return [body["name"]]
        case "module.moved":
            return [book.say("packet.to_bay", bay=body["bay"])]
        case _:
            return [str(body[name]) for name in ("why", "reason") if name in body]


def _journal(book: Book) -> Page:
    chain = " ".join(book.head.chain[at : at + 8] for at in range(0, len(book.head.chain), 8))
    return {"epoch": book.head.epoch, "seq": book.head.seq, "chain": chain, "zone": book.yard["zone"]}
