"""Pictures made by code, good and bad."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

from PIL import Image

ORIENTATION = 0x0112
GPS = 0x8825


def encoded(image: Image.Image, form: str = "JPEG", **options: object) -> bytes:
    out = BytesIO()
    image.save(out, form, **options)
    return out.getvalue()


def halves(size: tuple[int, int] = (640, 480)) -> Image.Image:
    """Left half red, right half blue: shows which way is up."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    return image


def with_metadata(orientation: int = 1, size: tuple[int, int] = (640, 480)) -> bytes:
    """A JPEG with a place, a maker, an XMP packet and a comment in it."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010F] = "CANARYMAKER"
    exif.get_ifd(GPS).update({1: "N", 2: (44.0, 58.0, 30.0)})
    xmp = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'>CANARYXMP</x:xmpmeta>"
    return encoded(halves(size), exif=exif, xmp=xmp, comment=b"CANARYCOMMENT")


def png_of(width: int, height: int, rows: bytes = b"") -> bytes:
    """A PNG whose header says any size, whatever it holds: built by hand, so no memory is needed for the pixels."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    body = zlib.compress(rows or b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def bomb() -> bytes:
    """144 megapixels, all of them really there, in some 18 kB."""
    side = 12_000
    return png_of(side, side, bytes((1 + (side + 7) // 8) * side))
