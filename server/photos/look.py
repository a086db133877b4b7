"""What a photo is, judged by its content alone: its name and what the sender says of its type count for nothing."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, UnidentifiedImageError

from server.photos.errors import Animated, Damaged, TooLarge, TooManyPixels, UnknownFormat

MOST_BYTES = 15_000_000
MOST_PIXELS = 50_000_000
# Explicit, because Pillow would otherwise try every decoder it knows. MPO is what some phones call a JPEG with a
# second picture behind it; Pillow names it only after opening it as JPEG.
FORMATS = ("JPEG", "PNG", "WEBP")
MEDIA = {"JPEG": "image/jpeg", "MPO": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}

# Pillow only warns between one and two times its limit. The limit is ours and the warning an error, for the process.
Image.MAX_IMAGE_PIXELS = MOST_PIXELS
warnings.filterwarnings("error", category=Image.DecompressionBombWarning)


@dataclass(frozen=True)
class Facts:
    """`px` is width and height as stored, before turning upright."""

    media: str
    px: tuple[int, int]
    bytes: int


@contextmanager
def opened(data: bytes) -> Iterator[Image.Image]:
    """The picture with its header read and nothing decoded yet; what goes wrong while decoding becomes Damaged.

    UnknownFormat, TooLarge, TooManyPixels, Animated before any decoding.
    """
    if len(data) > MOST_BYTES:
        raise TooLarge(f"{len(data)} bytes; {MOST_BYTES} is the most")
    try:
        with Image.open(BytesIO(data), formats=FORMATS) as image:
            _within_limits(image)
            yield image
    except UnidentifiedImageError as error:
        raise UnknownFormat("neither JPEG, PNG nor WebP") from error
    except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
        raise TooManyPixels(f"more than {MOST_PIXELS} pixels") from error
    except (OSError, SyntaxError, ValueError, IndexError, TypeError, EOFError, MemoryError) as error:
        raise Damaged("the photo cannot be decoded to its end") from error


def _within_limits(image: Image.Image) -> None:
    width, height = image.size
    if width * height > MOST_PIXELS:
        raise TooManyPixels(f"{width} × {height} pixels; {MOST_PIXELS} is the most")
    # A second picture in a JPEG container is a preview or a depth map, not motion: the first is the photo.
    if image.format != "MPO" and getattr(image, "n_frames", 1) > 1:
        raise Animated("more than one frame")


def look(data: bytes) -> Facts:
    """Reads the header, then decodes to the end (a JPEG at an eighth: quick, and a cut one still shows)."""
    with opened(data) as image:
        px = image.size
        media = MEDIA[image.format or ""]
        if media == "image/jpeg":
            image.draft("RGB", (max(1, px[0] // 8), max(1, px[1] // 8)))
        image.load()
    return Facts(media, px, len(data))
