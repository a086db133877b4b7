"""A punch item as page data: what it is, where, and everything that was done about it, by whom and when. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.rules import undecided, value, values

Line = dict[str, Any]
# A history of more rows than this stands below its item and may go on over the page; a row has about so many letters.
ROWS, ROW = 32, 45


def state_of(item: Part) -> str:
    """The state that shapes the mark: sent back is an open item that came back."""
    return "sent_back" if item["state"] == "open" and item["sent_back"] else str(item["state"])


def item_page(book: Book, item: Part) -> dict[str, Any]:
    """Page data of one item; photos are added by who lays out the wall."""
    spot = value(item["heads"], "spot")
    defects = [book.term("defects", key) for key in values(item["heads"], "defect")]
    state = state_of(item)
    lines = [_line(book, item, row) for row in item["lines"]]
    return {
        "id": item["id"],
        "number": item["number"],
        "state": state,
        "state_word": book.say(f"packet.state_{state}"),
        "defect": book.say("packet.or").join(defects),
        "undecided": [book.say(f"holds.field.{name}") for name in undecided(item["heads"])],
        "place": book.say("packet.or").join(book.spot(one) for one in values(item["heads"], "spot")),
        "wish": book.say("packet.or").join(values(item["heads"], "wish")),
        "room": spot["room"],
        "surface": spot["surface"],
        "spots": [one for one in values(item["heads"], "spot") if "along" in one and "up" in one],
        "lines": lines,
        "long": sum(_rows(line) for line in lines) > ROWS,
        "photos": [],
    }


def linked_photos(item: Part) -> list[str]:
    """Ids of the photos that the item's own history names, in its order: after a clear, with a send-back."""
    found: list[str] = []
    for row in item["lines"]:
        body = row.get("body", {})
        found += [photo for photo in [*body.get("after", []), *body.get("photos", [])] if photo not in found]
    return found


def _line(book: Book, item: Part, row: Line) -> Line:
    verb = row["kind"].partition(".")[2]
    tell = _TELLS.get(verb)
    notes = [tell(book, item, row.get("body", {}))] if tell else []
    if "no" in row:
        notes.append(book.say("packet.no_effect", reason=book.term("reasons", row["no"])))
    notes += [book.say(f"packet.ended_{what}") for what in row.get("ended", [])]
    if row.get("let_in"):
        notes.append(book.say("packet.let_in"))
    return {
        "label": book.say(f"packet.line_{verb}"),
        "who": book.person(row["by"]),
        "when": book.time(row["time"]),
        "notes": [note for note in notes if note],
        "dead": "no" in row,
    }


def _rows(line: Line) -> int:
    """About how many rows of paper a line takes."""
    return 1 + sum(1 + len(note) // ROW for note in line["notes"])


def _logged(book: Book, item: Part, _body: Part) -> str:
    return book.say(f"packet.light_{item['light']}")


def _amended(book: Book, _item: Part, body: Part) -> str:
    said = []
    if "defect" in body:
        said.append(book.say("packet.now_defect", defect=book.term("defects", body["defect"])))
    if "wish" in body:
        said.append(book.say("packet.now_wish", wish=body["wish"]))
    return " ".join(said)


def _placed(book: Book, _item: Part, body: Part) -> str:
    return f"{book.room(body['room'])}, {book.surface(body['room'], body['surface'])}, {book.spot(body)}"


def _given(book: Book, _item: Part, body: Part) -> str:
    said = []
    if "crew" in body:
        said.append(book.crew(body["crew"]))
    if "charge" in body:
        said.append(book.say("packet.charged", charge=book.charge(body["charge"])))
    return ", ".join(said)


def _ticked(book: Book, _item: Part, body: Part) -> str:
    steps = book.listed([book.term("steps", step).lower() for step in body.get("steps", [])])
    return ", ".join(part for part in (steps, _done_by(book, body)) if part)


def _cleared(book: Book, _item: Part, body: Part) -> str:
    said = [_done_by(book, body)]
    if body.get("minutes"):
        said.append(book.say_n("packet.minutes", body["minutes"]))
    return ", ".join(part for part in said if part)


def _done_by(book: Book, body: Part) -> str:
    people = [book.person(person) for person in body.get("done_by", [])]
    return book.say("packet.done_by", people=book.listed(people)) if people else ""


def _sent_back(book: Book, _item: Part, body: Part) -> str:
    reason = book.term("reasons", body["reason"]) if "reason" in body else ""
    return ". ".join(part for part in (reason, body.get("text", "")) if part)


def _voided(_book: Book, _item: Part, body: Part) -> str:
    return str(body.get("reason", ""))


_TELLS = {
    "logged": _logged,
    "amended": _amended,
    "placed": _placed,
    "given": _given,
    "ticked": _ticked,
    "cleared": _cleared,
    "sent_back": _sent_back,
    "voided": _voided,
}
