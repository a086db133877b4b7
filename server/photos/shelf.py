"""A store with its renditions and its table: what the rest of the server calls."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import sqlalchemy as sa
from flask import current_app

from server.db import reading, writing
from server.photos.errors import PhotoProblem
from server.photos.folder import FolderStore
from server.photos.look import look
from server.photos.names import checked
from server.photos.renditions import Renditions
from server.photos.tables import photo


@dataclass(frozen=True)
class Received:
    """`new` is False when these bytes were here already: success all the same."""

    sha256: str
    media: str
    bytes: int
    px: tuple[int, int]
    new: bool


def _root() -> Path:
    photos: Path = current_app.extensions["settings"].photos
    return photos


def _store() -> FolderStore:
    return FolderStore(_root())


def receive(sha256: str, data: bytes, media: str | None = None) -> Received:
    """Checks the bytes by content, keeps them under their SHA-256 and notes them. `media`, what the sender says, is
    not believed: a camera that calls a PNG a JPEG must not lose its photo. PhotoProblem and its kinds.

    The bytes are durable before the row is: a row always has its bytes, and bytes without a row are only sent again.
    """
    name = checked(sha256)
    facts = look(data)
    new = _store().put(name, data)
    with writing() as connection:
        known = connection.execute(sa.select(photo.c.sha256).where(photo.c.sha256 == name)).first()
        if known is None:
            connection.execute(sa.insert(photo).values(sha256=name, bytes=facts.bytes, media=facts.media))
    return Received(name, facts.media, facts.bytes, facts.px, new)


def has(sha256: str) -> bool:
    """Whether the photo has arrived. NotAName."""
    return _store().has(sha256)


def original(sha256: str) -> bytes:
    """The bytes as they were sent, for an audit or an export; never for a browser. NotAName, NotHere, Damaged."""
    return _store().open(sha256)


def rendition(sha256: str, size: str) -> bytes:
    """JPEG bytes of size thumb, paper or screen. NotAName, NoSuchSize, NotHere, Damaged."""
    return Renditions(_store(), _root() / "renditions").get(sha256, size)


def audit() -> dict[str, list[str]]:
    """Hashes every photo again: {"whole": …, "damaged": …, "missing": …}, each a list of names in order."""
    store = _store()
    with reading() as connection:
        expected = set(connection.execute(sa.select(photo.c.sha256)).scalars())
    found: dict[str, list[str]] = {"whole": [], "damaged": [], "missing": []}
    for name in store.names():
        expected.discard(name)
        try:
            store.open(name)
        except PhotoProblem:
            found["damaged"].append(name)
        else:
            found["whole"].append(name)
    found["missing"] = sorted(expected)
    return found
