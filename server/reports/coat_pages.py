"""A module's coats as page data: rooms that stand alike, each coat with its strip, its words, its doings. Pure."""

from __future__ import annotations

from typing import Any

from server.reports import said
from server.reports.book import Book, Part
from server.reports.coat_lines import coat_lines
from server.reports.coat_words import (
    air_words,
    at,
    degrees,
    dried_in,
    dried_words,
    flag_words,
    next_words,
    paint_words,
    state_words,
)
from server.reports.drawing import titled
from server.reports.readings import heat_words, reading_rows
from server.reports.standing import standings, strip_of
from server.reports.strip_drawing import Words, full_strip, low_strip
from server.rules import earlies, instant, place_of, seconds

Page = dict[str, Any]
# How wide a strip is, in millimetres of paper.
WIDE = 88


def coat_pages(book: Book) -> Page:
    """{groups, voided, readings, heat} of the module's coats; no groups where nobody has laid or asked for any."""
    place = place_of(book.module, book.parts)
    now = seconds(book.now)
    stands = [stand for stand in standings(place, now) if stand["tops"] or stand["known"]]
    laid = any(stand["tops"] for stand in stands)
    gone = [coat for coat in book.mine("coat") if coat["void"]]
    unanswered = {one["coat"]["id"]: one["under"] for one in earlies(place)}
    return {
        "groups": [_group(book, stand, now, unanswered) for stand in stands] if laid else [],
        "voided": [_voided(book, coat) for coat in sorted(gone, key=lambda coat: (coat["laid"], coat["id"]))],
        "readings": reading_rows(book, place) if laid else [],
        "heat": heat_words(book, place) if laid else "",
    }


def _group(book: Book, stand: dict[str, Any], now: int, unanswered: dict[str, list[str]]) -> Page:
    rooms = stand["rooms"]
    tops = [_coat(book, top, rooms, now, unanswered) | _on_top(book, top, stand, now) for top in stand["tops"]]
    older = [_coat(book, top, rooms, now, unanswered) | _below(book, top, rooms[0], now) for top in stand["older"]]
    return {
        "rooms": book.listed([book.room(room) for room in rooms]),
        "next": said.sentence(next_words(book, stand)),
        "bare": "" if tops else said.sentence(book.say("coats.state.bare")),
        "coats": [*tops, *older],
    }


def _coat(book: Book, top: dict[str, Any], rooms: list[str], now: int, unanswered: dict[str, list[str]]) -> Page:
    coat, name = top["coat"], book.coat(top["coat"]["coat"])
    if top["surface"]:
        name = f"{name}, {book.surface(rooms[0], top['surface'])}"
    return {
        "name": name,
        "paint": said.sentence(paint_words(book, coat["paint"])),
        "lines": coat_lines(book, coat, rooms),
        "early": _early(book, unanswered.get(coat["id"], [])),
        "wide": WIDE,
    }


def _early(book: Book, under: list[str]) -> str:
    """Covered early, and no inspector has answered it."""
    coats = [book.part("coat", one) for one in under]
    names = list(dict.fromkeys(book.coat(coat["coat"]) for coat in coats if coat))
    return (
        f"{book.say('coats.early_over', coat=', '.join(names))} {book.say('packet.coat_unanswered')}" if names else ""
    )


def _on_top(book: Book, top: dict[str, Any], stand: dict[str, Any], now: int) -> Page:
    """In full: how it stands, its strip with the climate under it, and what its times rest on."""
    room, found = stand["rooms"][0], top["clock"]
    coming = None if top["surface"] else stand["next"]
    state, late = state_words(book, top, room, coming)
    doubts, notes = flag_words(book, found)
    drying = found["state"] not in ("dry", "ready")
    dried = dried_words(book, found) if found["state"] in ("wet", "likely") else ""
    air = air_words(book, found) if drying else dried_in(book, top, room)
    strip, high = full_strip(strip_of(top, room, now, book.yard["zone"]), _words(book), WIDE)
    factor = found["factor"]
    learned = book.say("coats.factor", n=factor["looks"], percent=factor["percent"]) if factor else ""
    told = [said.sentence(dried), said.sentence(air), *notes, learned]
    drawing = " ".join([said.sentence(state), book.say("coats.said.laid", time=at(book, found["laid"])), *told])
    return {
        "state": said.sentence(state),
        "late": late,
        "doubts": f"{book.say('coats.not_sure')} {' '.join(doubts)}" if doubts else "",
        "told": " ".join(words for words in told if words),
        "strip": titled(strip, drawing.strip()),
        "high": round(high, 1),
    }


def _below(book: Book, top: dict[str, Any], room: str, now: int) -> Page:
    """Under another coat: a low strip."""
    strip, high = low_strip(strip_of(top, room, now, book.yard["zone"]), WIDE)
    laid = book.say("coats.said.laid", time=at(book, top["clock"]["laid"]))
    strip = titled(strip, f"{book.coat(top['coat']['coat'])}. {laid}")
    told = said.sentence(dried_in(book, top, room))
    return {"state": "", "late": False, "doubts": "", "told": told, "strip": strip, "high": high}


def _words(book: Book) -> Words:
    zone, lang = book.yard["zone"], book.lang
    return Words(
        mark=lambda key, time: book.say(f"coats.mark.{key}", time=said.short_time(instant(time), zone, lang)),
        hour=lambda time: said.hour_of(instant(time), zone, lang),
        temp=degrees,
        rh=lambda rh: book.say("coats.rh", rh=rh),
    )


def _voided(book: Book, coat: Part) -> str:
    void = coat["void"]
    where = book.listed([book.room(room) for room in coat["rooms"]])
    name, time = book.person(void["by"]), book.time(void["time"])
    return book.say(
        "coats.void_past", coat=f"{book.coat(coat['coat'])}, {where}", time=time, name=name, reason=void["reason"]
    )
