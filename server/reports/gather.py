"""Fetches what a packet is made from; the only file of the reports that touches storage."""

from __future__ import annotations

from pathlib import Path

from flask import current_app

from server.clock import Clock, stamp
from server.db import reading
from server.journal import drying_parts, parts_named, parts_of, yard_facts
from server.photos import PhotoProblem, rendition
from server.reports.book import Book, Head

_BUILT = Path(__file__).parents[1] / "static"


def book_of(module: str, lang: str, clock: Clock) -> Book:
    """Everything about one module from one snapshot of the journal. LookupError when there is no such module."""
    with reading() as connection:
        facts = yard_facts(connection)
        mine = parts_of(connection, module)
        yard = [part for kind in ("person", "device", "plan") for part in parts_named(connection, kind)]
        yard += drying_parts(connection)
    if facts is None or not any(part["part"] == "module" for part in mine):
        raise LookupError(f"no module {module}")
    head = Head(facts["epoch"], facts["seq"], facts["chain"])
    return Book(module, (*mine, *yard), head, stamp(clock.now()), lang)


def photos_of(book: Book) -> dict[str, bytes]:
    """Paper renditions by SHA-256 of the photos that have arrived; one that cannot be read is left to its caption."""
    found = {}
    for photo in book.mine("photo"):
        if photo["arrived"]:
            try:
                found[photo["sha256"]] = rendition(photo["sha256"], "paper")
            except PhotoProblem as problem:
                current_app.logger.error("packet: photo %s: %s", photo["sha256"], problem)
    return found


def static_folder() -> Path:
    """Where the built client is, with its fonts."""
    return current_app.extensions["settings"].static or _BUILT
