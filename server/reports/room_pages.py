"""A room as page data: the room unfolded, then each wall with its drawing, its photos and its items. Pure."""

from __future__ import annotations

from collections import Counter
from typing import Any

from server.reports import said
from server.reports.book import Book, Part
from server.reports.drawing import lone_mark, titled, unfolded, wall
from server.reports.geometry import SURFACES
from server.reports.item_pages import item_page, linked_photos
from server.reports.labels import Mark
from server.reports.photo_pages import WIDE, items_on, photo_page, with_item
from server.rules import rooms_of, value

STATES = ("open", "sent_back", "cleared", "closed", "void")
Page = dict[str, Any]


def room_pages(book: Book) -> tuple[list[Page], list[Page]]:
    """Every room of the module, and the photos that belong to none."""
    items = sorted(book.mine("item"), key=lambda item: int(item["number"]))
    numbers = {item["id"]: int(item["number"]) for item in items}
    pages = [item_page(book, item) for item in items]
    shared, loose = _give_photos(book, items, pages, numbers)
    keys = rooms_of(book.part("module", book.module), book.plan)
    keys += [page["room"] for page in pages if page["room"] not in keys]
    rooms = []
    for key in dict.fromkeys(keys):
        here = [page for page in pages if page["room"] == key]
        photos = {place[1]: found for place, found in shared.items() if place[0] == key}
        rooms.append(_room(book, key, here, photos))
    return rooms, loose


def _give_photos(
    book: Book, items: list[Part], pages: list[Page], numbers: dict[str, int]
) -> tuple[dict[tuple[str, str], list[Page]], list[Page]]:
    """Each photo once: with its item when it shows one, with its wall when it shows several or only the wall."""
    owner = {photo: item["id"] for item in items for photo in linked_photos(item)}
    by_id = {page["id"]: page for page in pages}
    shared: dict[tuple[str, str], list[Page]] = {}
    loose: list[Page] = []
    for photo in sorted(book.mine("photo"), key=lambda one: (one["time"], one["id"])):
        page = photo_page(book, photo, numbers)
        on_it = [item for item in items_on(photo) if item in by_id]
        alone = on_it[0] if len(on_it) == 1 else None if on_it else owner.get(photo["id"])
        if alone in by_id:
            by_id[alone]["photos"].append(with_item(page))
        elif on_it or "room" in photo:
            first = by_id[on_it[0]] if on_it else photo
            shared.setdefault((first["room"], first.get("surface", "")), []).append(page)
        else:
            loose.append(page)
    for page in pages:
        page["photos"].sort(key=lambda photo: photo["shows"] == "after")
    return shared, loose


def _room(book: Book, key: str, items: list[Page], photos: dict[str, list[Page]]) -> Page:
    planned = book.planned(key)
    walls = []
    for surface in (*SURFACES, ""):
        here = [item for item in items if item["surface"] == surface]
        if here or surface in photos:
            walls.append(_wall(book, key, surface, here, photos.get(surface, [])))
    return {
        "key": key,
        "name": book.room(key),
        "size": _size(book, planned) if planned else book.say("packet.not_measured_room"),
        "finish": finish_of(book, key),
        **(_unfolded(book, planned, items) if planned and items else {"drawing": ""}),
        "total": len(items),
        "counts": _counts(book, items),
        "index": [{"number": item["number"], "words": _short(book, item)} for item in items],
        "walls": walls,
        "nothing": "" if walls else book.say("packet.nothing_here"),
    }


def _short(book: Book, item: Page) -> str:
    surface = item["surface"] if len(item["surface"]) == 1 else book.say(f"packet.{item['surface']}")
    return book.say("packet.index", defect=item["defect"], surface=surface, state=item["state_word"])


def _wall(book: Book, room: str, surface: str, items: list[Page], photos: list[Page]) -> Page:
    face = book.face(room, surface)
    marks = [mark for item in items for mark in _marks(item, surface)]
    unmeasured = [item["number"] for item in items if not item["spots"]]
    drawn = wall(face, marks, WIDE, 62) if face and marks else None
    name = book.surface(room, surface) if surface else book.say("packet.room_as_a_whole")
    return {
        "name": name,
        "drawing": titled(drawn[0], book.say("packet.drawing_of", what=name)) if drawn else "",
        "wide": round(drawn[1], 1) if drawn else 0,
        "high": round(drawn[2], 1) if drawn else 0,
        "size": book.say("packet.wall_size", **_sides(book, face.length, face.height)) if drawn and face else "",
        "unmeasured": book.say("packet.unmeasured", numbers=book.listed(unmeasured)) if drawn and unmeasured else "",
        "photos": sorted(photos, key=lambda photo: photo["shows"] == "after"),
        "items_here": items,
    }


def _marks(item: Page, surface: str) -> list[Mark]:
    return [
        Mark(spot["along"], spot["up"], item["state"], str(item["number"]))
        for spot in item["spots"]
        if spot["surface"] == surface
    ]


def _unfolded(book: Book, planned: Part, items: list[Page]) -> Page:
    found = {surface: [mark for item in items for mark in _marks(item, surface)] for surface in SURFACES}
    names = {surface: surface for surface in "ABCD"}
    names |= {surface: book.say(f"packet.{surface}") for surface in ("ceiling", "floor")}
    drawing, wide, high = unfolded(planned, book.mirrored, found, names, (WIDE, 92))
    drawing = titled(drawing, book.say("packet.drawing_of", what=planned["name"]))
    return {"drawing": drawing, "wide": round(wide, 1), "high": round(high, 1)}


def _size(book: Book, planned: Part) -> str:
    sides = {name: f"{said.length(planned[name], book.lang)}" for name in ("l", "w", "h")}
    si = " × ".join(f"{planned[name] / 1000:.2f}" for name in ("l", "w", "h"))
    return book.say("packet.room_size", si=si, **sides)


def _sides(book: Book, long: int, high: int) -> dict[str, str]:
    return {
        "length": said.length(long, book.lang),
        "height": said.length(high, book.lang),
        "si": f"{long / 1000:.2f} × {said.metres(high)}",
    }


def finish_of(book: Book, room: str) -> str:
    """The finish of a room as one line: its own, or that of all rooms."""
    finish = value(book.heads, "finish") or {}
    row = finish.get(room, finish.get("*"))
    if not row:
        return ""
    level = [book.say("packet.level", level=row["level"])] if "level" in row else []
    words = ", ".join(level + [str(row[name]) for name in ("texture", "paint", "sheen") if row.get(name)])
    return words[:1].upper() + words[1:]


def _counts(book: Book, items: list[Page]) -> list[Page]:
    found = Counter(item["state"] for item in items)
    return [
        {"mark": lone_mark(state), "text": book.say_n(f"packet.count_{state}", found[state])}
        for state in STATES
        if found[state]
    ]
