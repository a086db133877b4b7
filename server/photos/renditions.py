"""The pictures that are shown: made from what was sent, upright, without metadata, once for each size."""

from __future__ import annotations

import threading
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageOps

from server.photos.errors import NoSuchSize
from server.photos.files import folder_of, read, write
from server.photos.look import opened
from server.photos.names import checked
from server.photos.store import Store

# Long side in pixels: a row in a list, half a page at about 200 dots an inch, a phone's screen.
SIZES = {"thumb": 240, "paper": 700, "screen": 1400}
QUALITY = 82
# Part of the path in the cache: a change in how they are made is a new number, and old files are simply not read.
MADE = "1"
# Fifty megapixels are 150 MB decoded. Two at once is what a small machine bears.
_decoding = threading.BoundedSemaphore(2)


def make(data: bytes, long_side: int) -> bytes:
    """A JPEG of at most `long_side` pixels, upright, holding pixels and nothing else. NotAPhoto and its kinds."""
    with _decoding, opened(data) as image:
        image.draft("RGB", (long_side * 2, long_side * 2))
        upright = ImageOps.exif_transpose(image)
        flat = _flat(upright)
        flat.thumbnail((long_side, long_side), Image.Resampling.LANCZOS)
        # A new picture: comments and profiles travel along in `info` otherwise.
        bare = Image.new("RGB", flat.size)
        bare.paste(flat)
        out = BytesIO()
        bare.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=True)
    return out.getvalue()


def _flat(image: Image.Image) -> Image.Image:
    """RGB; what is transparent becomes white."""
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        over = image.convert("RGBA")
        white = Image.new("RGBA", over.size, "white")
        return Image.alpha_composite(white, over).convert("RGB")
    return image.convert("RGB")


class Renditions:
    """Makes each rendition once and keeps it on disk. The folder may be thrown away at any time."""

    def __init__(self, store: Store, folder: Path) -> None:
        self._store = store
        self._folder = folder

    def get(self, sha256: str, size: str) -> bytes:
        """JPEG bytes. NotAName, NoSuchSize, NotHere, Damaged."""
        name = checked(sha256)
        if size not in SIZES:
            raise NoSuchSize(f"renditions are {', '.join(SIZES)}")
        below = (MADE, size, name[:2])
        try:
            with folder_of(self._folder, *below) as folder:
                return read(folder, f"{name}.jpg")
        except FileNotFoundError:
            made = make(self._store.open(name), SIZES[size])
        with folder_of(self._folder, *below, make=True) as folder:
            write(folder, f"{name}.jpg", made)
        return made
