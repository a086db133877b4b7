"""Renditions: pixels and nothing else, upright, made once."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from server.photos import SIZES, FolderStore, NoSuchSize, NotAName, NotHere
from server.photos.names import name_of
from server.photos.renditions import Renditions, make
from tests.photos.pictures import encoded, halves, with_metadata


def pixels(data: bytes) -> Image.Image:
    image = Image.open(BytesIO(data), formats=["JPEG"])
    image.load()
    return image


def reddish(colour: tuple[int, ...]) -> bool:
    return colour[0] > 180 and colour[2] < 80


@pytest.mark.parametrize("size", SIZES)
def test_each_size_by_its_long_side(size: str) -> None:
    upright = encoded(halves((1500, 3000)))
    assert max(pixels(make(upright, SIZES[size])).size) == SIZES[size]


def test_a_small_photo_is_not_blown_up() -> None:
    assert pixels(make(encoded(halves((100, 60))), 700)).size == (100, 60)


def test_metadata_is_gone() -> None:
    sent = with_metadata()
    assert b"CANARYMAKER" in sent
    assert b"CANARYXMP" in sent
    assert b"CANARYCOMMENT" in sent
    made = make(sent, 700)
    for trace in (b"CANARY", b"Exif", b"xmp", b"ICC_PROFILE", b"GPS"):
        assert trace not in made
    # segment by segment: no APP1 to APP15, no comment
    at, markers = 2, []
    while made[at + 1] != 0xDA:
        markers.append(made[at + 1])
        at += 2 + int.from_bytes(made[at + 2 : at + 4], "big")
    assert not [marker for marker in markers if 0xE1 <= marker <= 0xEF or marker == 0xFE]


def colour_at(image: Image.Image, across: float, down: float) -> tuple[int, ...]:
    colour = image.getpixel((int(image.width * across), int(image.height * down)))
    assert isinstance(colour, tuple)
    return tuple(int(part) for part in colour)


# Where the red left half is seen after turning upright: (across, down) in parts of the picture.
RED = {
    1: (0.2, 0.5),
    2: (0.8, 0.5),
    3: (0.8, 0.5),
    4: (0.2, 0.5),
    5: (0.5, 0.2),
    6: (0.5, 0.2),
    7: (0.5, 0.8),
    8: (0.5, 0.8),
}


@pytest.mark.parametrize("orientation", RED)
def test_turned_upright(orientation: int) -> None:
    image = pixels(make(with_metadata(orientation), 700))
    assert (image.width > image.height) == (orientation < 5)
    across, down = RED[orientation]
    assert reddish(colour_at(image, across, down))
    assert not reddish(colour_at(image, 1 - across, 1 - down))


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P", "L", "I;16", "1"])
def test_every_mode_becomes_a_plain_jpeg(mode: str) -> None:
    image = pixels(make(encoded(Image.new(mode, (40, 30)), "PNG"), 240))
    assert (image.mode, image.format) == ("RGB", "JPEG")


def test_what_is_transparent_is_white() -> None:
    clear = Image.new("RGBA", (40, 30), (0, 0, 0, 0))
    assert pixels(make(encoded(clear, "PNG"), 240)).getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize("tail", [b"<script>alert(1)</script>", b"PK\x03\x04payload", b"%PDF-1.4 payload"])
def test_a_photo_that_is_something_else_too_loses_the_something(tail: bytes) -> None:
    sent = encoded(halves()) + tail
    made = make(sent, 700)
    assert tail not in made
    assert pixels(made).size == (640, 480)


@pytest.fixture
def kept(tmp_path: Path) -> tuple[FolderStore, Renditions, str]:
    store = FolderStore(tmp_path / "photos")
    data = encoded(halves())
    store.put(name_of(data), data)
    return store, Renditions(store, tmp_path / "made"), name_of(data)


def test_made_once(kept: tuple[FolderStore, Renditions, str], monkeypatch: pytest.MonkeyPatch) -> None:
    _, renditions, name = kept
    first = renditions.get(name, "paper")

    def never(*_args: object) -> bytes:
        raise AssertionError("made a second time")

    monkeypatch.setattr("server.photos.renditions.make", never)
    assert renditions.get(name, "paper") == first


def test_the_photo_itself_stays_as_it_was_sent(kept: tuple[FolderStore, Renditions, str]) -> None:
    store, renditions, name = kept
    before = store.open(name)
    renditions.get(name, "thumb")
    assert store.open(name) == before


@pytest.mark.parametrize("size", ["", "original", "../thumb", "THUMB"])
def test_no_other_size(kept: tuple[FolderStore, Renditions, str], size: str) -> None:
    with pytest.raises(NoSuchSize):
        kept[1].get(kept[2], size)


def test_no_other_name(kept: tuple[FolderStore, Renditions, str]) -> None:
    with pytest.raises(NotAName):
        kept[1].get("../" + kept[2][3:], "thumb")
    with pytest.raises(NotHere):
        kept[1].get("0" * 64, "thumb")
