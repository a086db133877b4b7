"""What a phone must load before it can draw its first screen."""

from __future__ import annotations

import re

import brotli
import pytest

from server.bootstrap.places import STATIC

LARGEST = 100_000


def first_paint() -> dict[str, int]:
    """The script and style files that the page names, fonts apart, by their size in brotli."""
    page = (STATIC / "index.html").read_text("utf-8")
    names = re.findall(r'(?:src|href)="/?(assets/[^"]+\.(?:js|css))"', page)
    return {name: len(brotli.compress((STATIC / name).read_bytes(), quality=11)) for name in dict.fromkeys(names)}


def test_the_first_screen_is_light(capsys: pytest.CaptureFixture[str]) -> None:
    files = first_paint()
    total = sum(files.values())
    with capsys.disabled():
        print(f"\nFor the first paint: {total / 1000:.1f} kB brotli of {LARGEST / 1000:.0f} kB, in {len(files)} files")
    assert {name.rsplit(".", 1)[1] for name in files} == {"js", "css"}
    assert total <= LARGEST
