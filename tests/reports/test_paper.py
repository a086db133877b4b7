"""The PDF: every number in its text, its images there, and nothing that a person wrote can fetch, read or break it."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from server.reports.packet import packet_page
from server.reports.paper import PaperFailed, PaperTooSlow, fonts_in, html_of, pdf_of
from tests.reports.story import CHAIN, Story, told

STATIC = Path(__file__).parents[2] / "server" / "static"


def made(story: Story, lang: str = "en") -> PdfReader:
    html = html_of("packet.html", packet_page(story.book(lang)))
    return PdfReader(BytesIO(pdf_of(html, story.photos, STATIC)))


def text_of(pdf: PdfReader) -> str:
    """The text as words with one space between: where a line was broken does not matter."""
    return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


def root_of(pdf: PdfReader) -> DictionaryObject:
    root = pdf.trailer["/Root"]
    assert isinstance(root, DictionaryObject)
    return root


@pytest.fixture(scope="module")
def story() -> Story:
    return told()


@pytest.fixture(scope="module")
def pdf(story: Story) -> PdfReader:
    return made(story)


def test_every_item_number_with_its_defect(pdf: PdfReader) -> None:
    text = text_of(pdf)
    heads = ["1 Nick", "5 Joint flashing", "6 Hole", "7 Run", "8 Crack", "9 Caulk gap", "11 Missed paint"]
    for head in [*heads, "2 Nick", "3 Nick", "4 Nick", "10 Lint"]:
        assert head in text


def test_every_photo_that_arrived_is_there(pdf: PdfReader, story: Story) -> None:
    images = {name for page in pdf.pages for name in page.images.keys()}
    assert len(images) == len(story.photos) == 6


def test_serial_and_page_on_each_page(pdf: PdfReader) -> None:
    for at, page in enumerate(pdf.pages, 1):
        text = page.extract_text()
        assert f"page {at} of {len(pdf.pages)}" in text
        assert "Module packet 2416-A, Willow 2416" in text


def test_epoch_number_and_chain_at_the_end(pdf: PdfReader, story: Story) -> None:
    text = text_of(pdf)
    assert CHAIN in text.replace(" ", "")
    assert "e7c1" in text
    assert str(story.seq) in text


def test_headings_are_tagged_and_in_the_outline(pdf: PdfReader) -> None:
    root = root_of(pdf)
    assert "/StructTreeRoot" in root
    assert str(root["/Lang"]) == "en"
    assert pdf.metadata is not None
    assert pdf.metadata.title == "2416-A, module packet"
    flat = str(pdf.outline)
    for head in ("Bath 2", "Release", "History of the module"):
        assert head in flat


def test_a_packet_may_be_in_spanish(story: Story) -> None:
    pdf = made(story, "es")
    text = text_of(pdf)
    assert f"página 2 de {len(pdf.pages)}" in text
    for words in ("Expediente del módulo", "Por arreglar", "Regresado", "todavía se nota con luz", "luz rasante"):
        assert words in text
    assert str(root_of(pdf)["/Lang"]) == "es"


@pytest.fixture
def canary() -> Iterator[tuple[int, list[bytes]]]:
    """A server on this machine that notes whoever comes."""
    hits: list[bytes] = []
    listener = socket.create_server(("127.0.0.1", 0))
    listener.settimeout(0.1)
    over = threading.Event()

    def listen() -> None:
        while not over.is_set():
            try:
                caller, _ = listener.accept()
            except TimeoutError:
                continue
            with caller:
                hits.append(caller.recv(200))

    thread = threading.Thread(target=listen)
    thread.start()
    yield listener.getsockname()[1], hits
    over.set()
    thread.join()
    listener.close()


def payloads(port: int) -> list[str]:
    at = f"http://127.0.0.1:{port}"
    return [
        f"<img src={at}/1>",
        f"\"><img src='{at}/2'>",
        "<img src=file:///etc/passwd>",
        "<img src='data:image/svg+xml,<svg/>'>",
        f"<link rel=stylesheet href={at}/3>",
        f"<link rel=attachment href={at}/4>",
        "<a rel=attachment href=file:///etc/passwd>x</a>",
        f"<style>@import '{at}/5';</style>",
        f"</style><style>body{{background:url({at}/6)}}",
        f"<svg><image href='{at}/7'/></svg>",
        f"</text><image xlink:href='{at}/8'/>",
        f"<object data={at}/9></object>",
        f"<embed src={at}/10>",
        f"<iframe src={at}/11></iframe>",
        f"<base href={at}/12>",
        f"<meta http-equiv=refresh content='0;{at}/13'>",
        f"url({at}/14)",
        f"{{{{ 7*7 }}}} {at}/15",
        "{% include '/etc/passwd' %}",
        f"<script src={at}/16></script>",
        f"<input type=image src={at}/17>",
        f"<div style='background:url({at}/18)'>",
        f"<use href='{at}/19#a'/>",
        f"<!--><img src={at}/20>-->",
        f"<![CDATA[<img src={at}/21>]]>",
        f"&lt;img src={at}/22&gt;",
        f"photo:{'0' * 64}",
        "{name} {0} %s ${x}",
        f"<img srcset='{at}/23 1x'>",
        f"\\27 ; content: url({at}/24)",
    ]


def test_hostile_words_are_words(canary: tuple[int, list[bytes]]) -> None:
    port, hits = canary
    hostile = payloads(port)
    assert len(hostile) == 30
    story = Story()
    story.open(name=hostile[0], serial=hostile[1], finish_of_all=hostile[7])
    for at, words in enumerate(hostile):
        item = story.item(at + 1, "nick", "bath_2", "B", along=100 + at * 80, up=200 + at * 60, wish=words)
        mark = {"kind": "text", "at": [30, 30], "text": words}
        story.photo(
            at + 1, "ochoa", "before", [[item, 9, 9]], comes=at % 3 == 0, marks=[mark], room="bath_2", surface="B"
        )
        story.say("tull", "item.sent_back", item, {"reason": "not_done", "text": words})
    pdf = made(story)
    text = "".join(text_of(pdf).split())
    for words in hostile:
        assert "".join(words.split()) in text
    assert hits == []
    assert pdf.attachments == {}
    assert "root:" not in text


def test_a_page_reaches_nothing_but_its_own_photos(canary: tuple[int, list[bytes]], tmp_path: Path) -> None:
    """Even if markup of somebody else's got in: the fetcher and the process refuse."""
    port, hits = canary
    secret = tmp_path / "secret.txt"
    secret.write_text("CANARY")
    html = (
        f"<link rel=stylesheet href='http://127.0.0.1:{port}/a.css'><link rel=attachment href='file://{secret}'>"
        f"<style>@import 'http://127.0.0.1:{port}/b.css';"
        f"p {{ background: url(http://127.0.0.1:{port}/c.png) }}</style>"
        f"<p>there<img src='http://127.0.0.1:{port}/d.png' alt='gone'><img src='file://{secret}' alt='gone'>"
        f"<img src='photo:../../../../{secret}' alt='gone'><svg><image href='http://127.0.0.1:{port}/e.png'/></svg></p>"
        f"<a rel=attachment href='http://127.0.0.1:{port}/f'>x</a><object data='file://{secret}'></object>"
    )
    pdf = PdfReader(BytesIO(pdf_of(html, {}, STATIC)))
    assert hits == []
    assert "there" in text_of(pdf)
    assert "CANARY" not in text_of(pdf)
    assert pdf.attachments == {}


def test_it_says_so_when_it_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("server.reports.paper.SECONDS", 0.01)
    with pytest.raises(PaperTooSlow):
        pdf_of("<p>slow</p>", {}, STATIC)
    monkeypatch.undo()
    monkeypatch.setattr("server.reports.paper.sys.executable", "/bin/false")
    with pytest.raises(PaperFailed):
        pdf_of("<p>broken</p>", {}, STATIC)


def test_paper_without_our_faces_is_still_paper(tmp_path: Path) -> None:
    assert fonts_in(tmp_path) == {}
    pdf = PdfReader(BytesIO(pdf_of("<h1>1 l I 0 O</h1>", {}, tmp_path)))
    assert "1 l I 0 O" in text_of(pdf)


def test_a_long_history_goes_on_over_the_page() -> None:
    """Nothing of it is cut off at the foot of a page, and what comes after it is there."""
    story = Story()
    story.open()
    item = story.item(1, "nick", "bath_2", "B", along=300, up=900)
    for at in range(60):
        story.say("medrano", "item.cleared", item, {"minutes": at + 1})
        story.say("tull", "item.sent_back", item, {"reason": "not_done", "text": f"not yet, look {at + 1} of 60"})
    story.item(2, "run", "bath_2", "B", along=900, up=900)
    pages = [" ".join(page.extract_text().split()) for page in made(story).pages]
    text = " ".join(pages)
    for at in range(60):
        assert f"not yet, look {at + 1} of 60" in text
    assert "2 Run" in text
    assert sum("not yet, look" in page for page in pages) >= 3


def test_a_room_with_many_items_lists_them_all() -> None:
    story = Story()
    story.open()
    for at in range(90):
        story.item(at + 1, "nick", "hall", "B", along=100 + at * 50, up=300 + at % 7 * 250)
    text = text_of(made(story))
    for at in range(90):
        assert f"{at + 1} Nick, B: To fix" in text


def test_the_packet_is_well_formed_for_the_fast_parser(story: Story) -> None:
    for lang in ("en", "es"):
        ElementTree.fromstring(html_of("packet.html", packet_page(story.book(lang))))


def test_a_control_character_hides_no_words() -> None:
    story = Story()
    story.open(name="North\x0byard")
    story.item(1, "nick", "bath_2", "B", along=300, up=900, wish="sand \x01 here & there")
    text = text_of(made(story))
    for words in ("1 Nick", "here & there", "Bath 2, Wall B"):
        assert words in text
