"""Photos: bytes under their SHA-256, and the renditions that are shown. What was sent is kept and never shown."""

from server.photos.errors import (
    Animated,
    Damaged,
    NoSuchSize,
    NotAName,
    NotAPhoto,
    NotHere,
    PhotoProblem,
    StoreFailed,
    TooLarge,
    TooManyPixels,
    UnknownFormat,
    WrongHash,
)
from server.photos.folder import FolderStore
from server.photos.look import MOST_BYTES
from server.photos.renditions import SIZES
from server.photos.shelf import audit, has, original, receive, rendition
from server.photos.store import Store

__all__ = [
    "MOST_BYTES",
    "SIZES",
    "Animated",
    "Damaged",
    "FolderStore",
    "NoSuchSize",
    "NotAName",
    "NotAPhoto",
    "NotHere",
    "PhotoProblem",
    "Store",
    "StoreFailed",
    "TooLarge",
    "TooManyPixels",
    "UnknownFormat",
    "WrongHash",
    "audit",
    "has",
    "original",
    "receive",
    "rendition",
]
