"""The packet through the server: what phones pushed, photos as they came, over HTTP, as a PDF."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO

import pytest
from flask import Flask
from pypdf import PdfReader

from server import reports
from tests.phone import Phone
from tests.photos.pictures import encoded, halves, with_metadata


def photo_of(phone: Phone, data: bytes, item: str, module: str, n: int) -> str:
    made = phone.clock.new_id()
    body = {
        "sha256": sha256(data).hexdigest(),
        "bytes": len(data),
        "px": [640, 480],
        "shows": "before",
        "room": "bath_2",
        "surface": "B",
        "items": [[item, 100 + n, 120]],
        "marks": [],
    }
    assert "seq" in phone.say("photo.added", made, body, module)
    return made


@pytest.fixture
def item(phones: dict[str, Phone], module: str) -> str:
    inspector = phones["inspector"]
    assert "seq" in inspector.say("room.added", module, {"room": "bath_2", "name": "Bath 2"}, module)
    made = inspector.clock.new_id()
    body = {
        "defect": "nick",
        "room": "bath_2",
        "surface": "B",
        "light": "raking",
        "words": {"across": "left", "height": "eye"},
    }
    assert "seq" in inspector.say("item.logged", made, body, module)
    return made


def test_the_packet_over_http(phones: dict[str, Phone], module: str, item: str) -> None:
    inspector = phones["inspector"]
    sent, kept = with_metadata(), encoded(halves((320, 240)))
    photo_of(inspector, sent, item, module, 0)
    photo_of(inspector, kept, item, module, 1)
    assert inspector.put(f"/api/photos/{sha256(sent).hexdigest()}", sent, "image/jpeg").status_code in (200, 201)
    answer = phones["manager"].get(f"/api/modules/{module}/packet.pdf?lang=es")
    assert answer.status_code == 200
    assert answer.content_type == "application/pdf"
    pdf = PdfReader(BytesIO(answer.data))
    text = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())
    assert "LM-0417-A" in text
    assert "1 Golpecito" in text
    assert "Esta foto no ha llegado" in text
    assert len({name for page in pdf.pages for name in page.images.keys()}) == 1
    assert b"CANARY" not in answer.data
    inspector.sync()
    assert inspector.chain in text.replace(" ", "")


def test_a_photo_spoilt_on_disk_does_not_keep_the_packet_back(
    app: Flask, phones: dict[str, Phone], module: str, item: str
) -> None:
    inspector, data = phones["inspector"], encoded(halves())
    photo_of(inspector, data, item, module, 0)
    name = sha256(data).hexdigest()
    inspector.put(f"/api/photos/{name}", data, "image/jpeg")
    (app.extensions["settings"].photos / name[:2] / name).write_bytes(b"spoilt")
    with app.app_context():
        paper = reports.packet(module, "en", app.extensions["clock"])
    text = " ".join(PdfReader(BytesIO(paper)).pages[-1].extract_text().split())
    assert "Chain" in text


def test_no_such_module_and_no_such_language(app: Flask, module: str) -> None:
    with app.app_context():
        with pytest.raises(LookupError):
            reports.packet("0193", "en", app.extensions["clock"])
        with pytest.raises(LookupError):
            reports.packet(module, "fr", app.extensions["clock"])
