"""Which readings of the air a module's coats stand on: whose air, who or what read it, from when to when. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book
from server.reports.coat_words import degrees, spans
from server.reports.words import knows
from server.rules import instant

Row = list[Any]


def reading_rows(book: Book, place: dict[str, Any]) -> list[str]:
    """A sentence for each place and source that read it since the module's first coat; outside air last."""
    first = min((coat["laid"] for coat in place["coats"]), default="")
    found: dict[tuple[str, str], list[Row]] = {}
    for part in sorted([*place["airs"], *place["outside"]], key=lambda part: (_order(part), part["day"])):
        for row in part["rows"]:
            if instant(row[0]) >= first[:10]:
                found.setdefault((_whose(book, part), _source(book, row)), []).append(row)
    return [_sentence(book, whose, source, rows) for (whose, source), rows in found.items()]


def heat_words(book: Book, place: dict[str, Any]) -> str:
    """`Heat: On since Dec 1, 2026, 6:00 am, to 70 °F. R. Tull, Dec 1, 2026, 7:00 am.`"""
    heat = place["heat"]
    if heat is None:
        return ""
    on = (
        book.say("air.heat.on", time=book.time(heat["since"] or heat["time"]))
        if heat["on"]
        else book.say("air.heat.off")
    )
    to = book.say("air.heat.to", to=degrees(heat["to"])) if heat["on"] and heat["to"] is not None else ""
    by = book.say("air.heat.by", name=book.person(heat["by"]), time=book.time(heat["time"]))
    return f"{book.say('air.heat')}: {', '.join(word for word in (on.rstrip('.'), to) if word)}. {by.rstrip('.')}."


def _order(part: dict[str, Any]) -> tuple[int, str]:
    return {"module": 0, "room": 1}.get(part["where"], 2), part["room"] or ""


def _whose(book: Book, part: dict[str, Any]) -> str:
    if part["where"] == "room":
        return book.say("packet.air_room", room=book.room(part["room"]))
    return book.say(f"coats.whose.{'outside' if part['where'] == 'yard' else part['where']}")


def _source(book: Book, row: Row) -> str:
    """By hand and by whom, or which logger or sensor."""
    source, by, name = row[5], row[6], row[7]
    if source not in ("logger", "sensor"):
        return book.say("packet.air_hand", person=book.person(by))
    named = f"air.{source}"
    return book.say(named, name=name) if name and knows(named) else book.say(f"air.a_{source}")


def _sentence(book: Book, whose: str, source: str, rows: list[Row]) -> str:
    return book.say_n(
        "packet.air_read",
        len(rows),
        whose=whose,
        source=source,
        first=book.time(instant(min(row[0] for row in rows))),
        last=book.time(instant(max(row[0] for row in rows))),
        **spans(book, [(row[1], row[2]) for row in rows]),
    )
