"""Holds as sentences, grouped by who can lift them. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.rules import UNRELIABLE, values


def hold_groups(book: Book, holds: list[Part]) -> list[dict[str, Any]]:
    """[{who, holds: [{words, details}]}] in the gate's order, each crew by itself."""
    groups: dict[str, list[Any]] = {}
    for hold in holds:
        groups.setdefault(_who(book, hold), []).append(hold_words(book, hold))
    return [{"who": who, "holds": found} for who, found in groups.items()]


def hold_words(book: Book, hold: Part) -> dict[str, Any]:
    """The sentence of a hold, and what else is known about it."""
    words = _SENTENCES.get(hold["key"], _plain)(book, hold)
    return {"words": words, "details": [detail for detail in _details(book, hold) if detail]}


def _who(book: Book, hold: Part) -> str:
    if hold["lifts"] != "crew_lead":
        return book.say(f"holds.lifts.{hold['lifts']}")
    crew = hold.get("crew")
    return book.say("holds.lifts.crew_lead", crew=book.crew(crew)) if crew else book.say("holds.lifts.crew_lead_any")


def _plain(book: Book, hold: Part) -> str:
    return book.say(f"holds.{hold['key']}")


def _items_open(book: Book, hold: Part) -> str:
    return book.say_n("holds.items_open", len(hold["numbers"]), room=book.room(hold["room"]))


def _items_cleared(book: Book, hold: Part) -> str:
    return book.say("holds.items_cleared", room=book.room(hold["room"]), numbers=book.listed(hold["numbers"]))


def _fact_undecided(book: Book, hold: Part) -> str:
    found = [book.fact(hold["field"], one) for one in values(book.heads, hold["field"])]
    return book.say("holds.fact_undecided", field=_field(book, hold), values=book.listed(found))


def _plan_undecided(book: Book, hold: Part) -> str:
    plan = book.part("plan", hold["plan"])
    return book.say("holds.plan_undecided", plan=plan["name"] if plan else book.say("packet.none"))


def _item_undecided(book: Book, hold: Part) -> str:
    numbers = book.listed(hold["numbers"])
    return book.say("holds.item_undecided", room=book.room(hold["room"]), field=_field(book, hold), numbers=numbers)


def _sheet(book: Book, hold: Part) -> str:
    return book.say(f"holds.{hold['key']}", sheet=book.term("yard.sheet", hold["sheet"]))


def _photos_missing(book: Book, hold: Part) -> str:
    return book.say_n("holds.photos_missing", hold["count"], name=book.person(hold["by"]))


def _phone_behind(book: Book, hold: Part) -> str:
    return book.say("holds.phone_behind", name=book.person(hold["by"]))


def _set_aside(book: Book, hold: Part) -> str:
    return book.say("holds.entry_set_aside", kind=book.kind(hold["kind"]), name=book.person(hold["by"]))


def _coat(book: Book, hold: Part) -> str:
    rooms = book.listed([book.room(room) for room in hold["rooms"]])
    if "surface" in hold:
        rooms = book.say("holds.on_wall", rooms=rooms, surface=book.surface(hold["rooms"][0], hold["surface"]))
    return book.say(f"holds.{hold['key']}", coat=book.coat(hold["coat"]), rooms=rooms)


def _field(book: Book, hold: Part) -> str:
    return book.say(f"holds.field.{hold['field']}")


_SENTENCES = {
    "items_open": _items_open,
    "items_cleared": _items_cleared,
    "fact_undecided": _fact_undecided,
    "plan_undecided": _plan_undecided,
    "item_undecided": _item_undecided,
    "sheet_unsigned": _sheet,
    "sheet_stale": _sheet,
    "sheet_undecided": _sheet,
    "photos_missing": _photos_missing,
    "phone_behind": _phone_behind,
    "entry_set_aside": _set_aside,
    "coat_missing": _coat,
    "coat_wet": _coat,
    "coat_look": _coat,
    "coat_early": _coat,
}


def _details(book: Book, hold: Part) -> list[str]:
    match hold["key"]:
        case "items_open":
            back = hold["sent_back"]
            said = book.say_n("holds.items_open.sent_back", len(back), numbers=book.listed(back)) if back else ""
            return [book.listed(hold["numbers"]), said] if len(back) < len(hold["numbers"]) else [said]
        case "sheet_unsigned" if hold["unanswered"]:
            return [book.say_n("holds.sheet_unsigned.line", hold["unanswered"])]
        case "sheet_stale":
            return [stale_words(book, hold["sheet"], hold["stale"])]
        case "phone_behind":
            return [book.say("holds.phone_behind.line", time=book.time(hold["since"]))]
        case "entry_set_aside":
            return [book.term("reasons", hold["reason"])]
        case "coat_wet" | "coat_look" | "coat_early":
            return _coat_details(book, hold)
        case _:
            return []


def _coat_details(book: Book, hold: Part) -> list[str]:
    if hold["key"] == "coat_look":
        return [book.say("holds.coat_look.not_dry") if hold["why"] == "not_dry" else _doubts(book, hold)]
    if hold["key"] == "coat_early":
        why = "reason" if hold["reason"] else "no_reason"
        return [book.say(f"holds.coat_early.{why}", name=book.person(hold["by"]), reason=hold["reason"] or "")]
    ends = {end: hold[end] and book.time(hold[end]) for end in ("likely", "by_table")}
    if not all(ends.values()):
        return [book.say("holds.coat_wet.never")]
    return [book.say("holds.coat_wet.line", **ends), _doubts(book, hold)]


def _doubts(book: Book, hold: Part) -> str:
    """Why its times cannot be relied on; empty where nothing speaks against them."""
    flags = [book.term("coats.flag", flag) for flag in hold["flags"] if flag in UNRELIABLE]
    return " ".join([book.say("coats.not_sure"), *flags]) if flags else ""


def stale_words(book: Book, sheet: str, stale: Part) -> str:
    """What spoilt a signed sheet."""
    if "number" in stale:
        return book.say("holds.sheet_stale.item", number=stale["number"], room=book.room(stale["room"]))
    return book.say("holds.sheet_stale.line", line=book.say(f"sheets.{sheet}.{stale['line']}"))
