"""Photos as page data: how large on paper, what is marked on them, and what is said under them. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.reports.drawing import over_photo
from server.rules import value

# Two a row on a Letter page with its margins; a portrait is no taller than this.
WIDE, HIGH = 90.0, 82.0
# Below an item, so that two items with their photos before and after share a page.
ITEM_WIDE, ITEM_HIGH = 72.0, 62.0


def photo_page(book: Book, photo: Part, numbers: dict[str, int]) -> dict[str, Any]:
    """`numbers`: item id -> number. Without bytes there is `missing`, a sentence that says whose phone has them."""
    shown = value(photo["heads"], "marked") or {"items": [], "marks": []}
    on_it = sorted({numbers[row[0]] for row in shown["items"] if row[0] in numbers})
    wide, high = _size(photo["px"])
    said = book.say(f"packet.shows_{photo['shows']}")
    if on_it:
        said = book.say("packet.shows_items", what=said, numbers=book.listed(on_it))
    return {
        "id": photo["id"],
        "sha256": photo["sha256"],
        "missing": _missing(book, photo),
        "wide": round(wide, 1),
        "high": round(high, 1),
        "over": over_photo(
            photo["px"],
            shown["marks"],
            [(row[1], row[2], str(numbers[row[0]])) for row in shown["items"] if row[0] in numbers],
        ),
        "what": said,
        "where": _where(book, photo),
        "when": book.time(photo["time"]),
        "who": book.person(photo["by"]),
        "shows": photo["shows"],
        "words": [row["text"] for row in shown["marks"] if row["kind"] == "text"],
    }


def with_item(page: dict[str, Any]) -> dict[str, Any]:
    """The photo as it stands below its item: smaller."""
    scale = min(ITEM_WIDE / page["wide"], ITEM_HIGH / page["high"], 1)
    return {**page, "wide": round(page["wide"] * scale, 1), "high": round(page["high"] * scale, 1)}


def items_on(photo: Part) -> list[str]:
    """Ids of the items that are marked on a photo."""
    shown = value(photo["heads"], "marked")
    return [row[0] for row in shown["items"]] if shown else []


def _size(px: list[int]) -> tuple[float, float]:
    wide, high = max(1, px[0]), max(1, px[1])
    scale = min(WIDE / wide, HIGH / high)
    return wide * scale, high * scale


def _where(book: Book, photo: Part) -> str:
    if "room" not in photo:
        return ""
    if "surface" not in photo:
        return book.room(photo["room"])
    return f"{book.room(photo['room'])}, {book.surface(photo['room'], photo['surface'])}"


def _missing(book: Book, photo: Part) -> str:
    if photo["arrived"]:
        return ""
    device = book.part("device", photo["device"])
    holder = book.person(device["person"] if device else photo["by"])
    if photo.get("lost") or (device and device["written_off"]):
        return book.say("packet.photo_lost", person=holder)
    return book.say("packet.photo_missing", person=holder)
