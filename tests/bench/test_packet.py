"""The packet of a module with many items and photos, against WeasyPrint doing the same words and photos plainly."""

from __future__ import annotations

import random
import re
import resource
from html import escape
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from server.reports.packet import packet_page
from server.reports.paper import html_of, pdf_of
from tests.bench.loads import verdict
from tests.reports.coated import coats
from tests.reports.story import PERSON, Story

pytestmark = pytest.mark.bench

ITEMS = 100
SEED = 20261207
STATIC = Path(__file__).parents[2] / "server" / "static"
SURFACES = [(room, surface) for room in ("bath_2", "hall", "bedroom_1") for surface in ("A", "B", "C", "D", "ceiling")]


def crowded(chance: random.Random) -> Story:
    """So many items, each with a photo before and one after, ticked and cleared, half of them closed; and its coats."""
    story = Story()
    story.open()
    items = []
    for n in range(ITEMS):
        room, surface = chance.choice(SURFACES)
        along, up = chance.randrange(100, 1000), chance.randrange(100, 2300)
        defect = chance.choice(["nick", "run", "crack", "lint"])
        items.append((story.item(n + 1, defect, room, surface, along=along, up=up), room))
    for n, (item, room) in enumerate(items):
        ring = {"kind": "ring", "at": [600, 700], "r": 160}
        for who, shows in (("ochoa", "before"), ("medrano", "after")):
            at = 2 * n + (shows == "after")
            px = [1600 + 8 * at, 1200]  # so that no two are the same picture
            story.photo(at + 1, who, shows, [[item, 600, 700]], room=room, px=px, marks=[ring])
        story.say("medrano", "item.ticked", item, {"steps": ["fill", "dry", "sand"]})
        story.say("medrano", "item.cleared", item, {"minutes": 12, "done_by": [PERSON["ruiz"]]})
        if n % 2:
            story.say("tull", "item.closed", item, {})
    return coats(story)


def plainly(html: str) -> str:
    """The same words, a paragraph for each block, and the same photos at their size: no drawing, column or list."""
    body = re.sub(r"<svg.*?</svg>", "", html.partition("<body>")[2], flags=re.S)
    rows = re.split(r"(<img[^>]*>)|</?(?:p|li|h\d|div|figcaption|article|section|ol|ul|dl|dd|dt)\b[^>]*>", body)
    texts = [row if row.startswith("<img") else escape(re.sub(r"<[^>]*>", " ", row)) for row in rows if row]
    return "<html><body>" + "".join(f"<p>{text}</p>" for text in texts if text.strip()) + "</body></html>"


def made(html: str, photos: dict[str, bytes]) -> tuple[float, PdfReader]:
    """Seconds of processor that the child took, its start included, and its PDF."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    pdf = pdf_of(html, photos, STATIC)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime, PdfReader(BytesIO(pdf))


def test_a_hundred_items_with_their_photos() -> None:
    story = crowded(random.Random(SEED))
    html = html_of("packet.html", packet_page(story.book()))
    plain = plainly(html)
    seconds, pdf = made(html, story.photos)
    floor, bare = made(plain, story.photos)
    images = {name for page in pdf.pages for name in page.images.keys()}
    print(
        f"\nPacket of {ITEMS} items and {len(story.photos)} photos: {len(pdf.pages)} pages, plainly {len(bare.pages)}"
    )
    print(f"  {seconds:.2f} s of processor here, the same words and photos in plain paragraphs {floor:.2f} s")
    print(verdict("packet against plain paragraphs and photos", seconds / floor, 5, "×"))
    assert len(story.photos) == len(images) == 2 * ITEMS
    assert seconds <= 5 * floor
