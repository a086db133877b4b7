"""A photo is judged by its content, and by its header before anything is decoded."""

from __future__ import annotations

import tracemalloc

import pytest
from PIL import Image

from server.photos import Animated, Damaged, NotAPhoto, TooLarge, TooManyPixels, UnknownFormat
from server.photos.look import look
from tests.photos.pictures import bomb, encoded, halves, png_of


@pytest.mark.parametrize(("form", "media"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp")])
def test_the_three_formats(form: str, media: str) -> None:
    data = encoded(halves(), form)
    facts = look(data)
    assert (facts.media, facts.px, facts.bytes) == (media, (640, 480), len(data))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<!doctype html><script>alert(1)</script>",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"%PDF-1.7\n",
        b"PK\x03\x04" + b"\0" * 40,
        encoded(halves((20, 20)), "GIF"),
        encoded(halves((20, 20)), "BMP"),
        encoded(halves((20, 20)), "TIFF"),
        b"GIF89a" + encoded(halves((20, 20))),
        b"SIMPLE  =                    T" + b" " * 2850,
    ],
    ids=["nothing", "html", "svg", "pdf", "zip", "gif", "bmp", "tiff", "gif-head", "fits"],
)
def test_other_formats_are_refused(data: bytes) -> None:
    with pytest.raises(UnknownFormat):
        look(data)


def test_a_pixel_bomb_is_refused_before_it_is_decoded() -> None:
    data = bomb()
    assert len(data) < 30_000
    tracemalloc.start()
    with pytest.raises(TooManyPixels):
        look(data)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 5_000_000


@pytest.mark.parametrize("size", [(7072, 7071), (65_000, 65_000), (50_000_001, 1)])
def test_more_than_fifty_megapixels_in_the_header(size: tuple[int, int]) -> None:
    with pytest.raises(TooManyPixels):
        look(png_of(*size))


def test_more_than_fifteen_megabytes() -> None:
    with pytest.raises(TooLarge):
        look(encoded(halves()) + b"\0" * 15_000_000)


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_a_moving_picture_is_refused(form: str) -> None:
    second = Image.new("RGB", (64, 48), "green")
    data = encoded(halves((64, 48)), form, save_all=True, append_images=[second], duration=100)
    with pytest.raises(Animated):
        look(data)


def test_the_second_picture_of_a_phone_is_no_motion() -> None:
    data = encoded(halves(), "MPO", save_all=True, append_images=[halves((320, 240))])
    assert look(data).media == "image/jpeg"


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("part", [0.1, 0.5, 0.9])
def test_a_photo_cut_short_is_refused(form: str, part: float) -> None:
    noisy = Image.effect_noise((640, 480), 80).convert("RGB")
    data = encoded(noisy, form)
    with pytest.raises(NotAPhoto):
        look(data[: int(len(data) * part)])


def test_a_header_without_pixels_is_damaged() -> None:
    with pytest.raises(Damaged):
        look(png_of(4000, 4000))
