"""Coats in the packet: rooms that stand alike once, every coat with its strip, its words and what was done to it."""

from __future__ import annotations

import json
from io import BytesIO
from pathlib import Path
from typing import Any, TypeVar
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from server.reports import LANGUAGES
from server.reports.coat_lines import coat_lines
from server.reports.hold_pages import hold_words
from server.reports.packet import packet_page
from server.reports.paper import html_of, pdf_of
from tests.reports.coated import coats
from tests.reports.story import PERSON, Story, told

Found = TypeVar("Found")
STATIC = Path(__file__).parents[2] / "server" / "static"


@pytest.fixture(scope="module")
def story() -> Story:
    return coats(told())


@pytest.fixture(scope="module")
def page(story: Story) -> dict[str, Any]:
    return plain(packet_page(story.book())["coats"])


@pytest.fixture(scope="module")
def pdf(story: Story) -> PdfReader:
    return PdfReader(BytesIO(pdf_of(html_of("packet.html", packet_page(story.book())), {}, STATIC)))


def plain(found: Found) -> Found:
    """The same with every space an ordinary one: where a line may not break is not looked at here."""
    told: Found = json.loads(json.dumps(found, ensure_ascii=False).replace("\u00a0", " "))
    return told


def group(page: dict[str, Any], rooms: str) -> dict[str, Any]:
    return next(group for group in page["groups"] if group["rooms"] == rooms)


def coat(page: dict[str, Any], rooms: str, name: str) -> dict[str, Any]:
    return next(coat for coat in group(page, rooms)["coats"] if coat["name"] == name)


def lines(found: dict[str, Any]) -> list[str]:
    return [" | ".join([line["label"], line["who"], line["when"], *line["notes"]]) for line in found["lines"]]


def test_rooms_that_stand_alike_stand_once(page: dict[str, Any]) -> None:
    assert [group["rooms"] for group in page["groups"]] == ["Bath 2", "Hall and Bedroom 1", "Porch"]
    assert [coat["name"] for coat in group(page, "Hall and Bedroom 1")["coats"]] == ["Texture", "First coat", "Tape"]
    assert group(page, "Hall and Bedroom 1")["next"] == "Next: primer."
    assert group(page, "Porch")["next"] == "Texture can go on."


def test_a_wet_coat_says_its_times_what_is_dry_and_whose_air(page: dict[str, Any]) -> None:
    texture = coat(page, "Hall and Bedroom 1", "Texture")
    assert texture["state"].startswith("Texture not dry: primer from Dec 4, 2026, ")
    assert texture["told"].endswith("Air of the module, last read Dec 4, 2026, 10:00 am: 70 °F (21 °C), 45 % RH.")
    assert " % dry now." in texture["told"]
    for words in (
        "likely</text>",
        "by the table</text>",
        "now Dec 4, 12 pm</text>",
        "70 °F</text>",
        "45 % RH</text>",
    ):
        assert words in texture["strip"]
    assert texture["state"] in texture["strip"]


def test_who_laid_what_and_what_was_found(page: dict[str, Any]) -> None:
    assert lines(coat(page, "Hall and Bedroom 1", "Tape")) == [
        "Coat on | P. Ruiz | Dec 2, 2026, 2:00 am | Drying-type | written by L. Medrano",
        "Not dry | R. Tull | Dec 2, 2026, 3:00 pm | dark at the joint",
        "Dry | R. Tull | Dec 2, 2026, 3:47 pm | Cut through the joint. cut it, white through",
    ]
    assert len(lines(coat(page, "Bath 2", "Tape"))) == 2
    assert lines(coat(page, "Porch", "First coat")) == [
        "Coat on | L. Medrano | Dec 2, 2026, 9:00 pm | Setting-type, 45 min setting",
        "Wet sanded | P. Ruiz | Dec 3, 2026, 12:00 am",
    ]


def test_covered_early_stands_with_its_reason_and_its_answer_or_that_there_is_none(page: dict[str, Any]) -> None:
    texture, paint = coat(page, "Hall and Bedroom 1", "Texture"), coat(page, "Bath 2", "First paint")
    assert lines(texture)[0].endswith("covered before it was ready: truck at 7")
    assert lines(texture)[1].startswith("May stay | R. Tull | ")
    assert texture["early"] == ""
    assert paint["early"] == "Primer under it was not dry. No inspector has answered that."


def test_paint_has_its_identity_and_rework_its_wall_and_items(page: dict[str, Any]) -> None:
    paint = coat(page, "Bath 2", "First paint")
    assert paint["paint"] == "Paint: Eggshell 40, WW-12, batch L2231. Touch-up can: shed 2, shelf C."
    assert "rework of 1 and 2" in lines(coat(page, "Bath 2", "Touch-up, Wall B, mirror wall"))[0]


def test_what_was_taken_back_stands_by_itself(page: dict[str, Any]) -> None:
    assert page["voided"] == [
        "Void: Skim coat, Porch, Dec 4, 2026, 6:34 am. J. Ochoa: it was the porch of the next module"
    ]


def test_the_readings_say_whose_air_and_who_read_it(page: dict[str, Any]) -> None:
    module, bath = page["readings"]
    assert module.startswith(
        "Air of the module: 20 readings, logger L-3, Dec 2, 2026, 1:00 am to Dec 4, 2026, 10:00 am; "
    )
    assert module.endswith("64 °F to 70 °F, 45 to 58 % RH.")
    assert bath == "Air of Bath 2: 1 reading, by hand, J. Ochoa, Dec 4, 2026, 6:00 am; 68 °F, 62 % RH."
    assert page["heat"].startswith("Heat: On since Dec 1, 2026, 11:00 pm, to 70 °F. D. Vance")


def test_every_strip_is_drawn_from_dark_to_light(page: dict[str, Any]) -> None:
    for found in [coat for group in page["groups"] for coat in group["coats"]]:
        bands = [
            row.get("fill", "") for row in ElementTree.fromstring(found["strip"]).iter() if row.tag.endswith("rect")
        ]
        grey = [sum(int(fill[at : at + 2], 16) for at in (1, 3, 5)) for fill in bands if fill.startswith("#")]
        assert grey == sorted(grey), found["name"]
        assert grey[-1] - grey[0] >= 300, found["name"]


def test_a_module_without_coats_says_nothing_of_them() -> None:
    assert packet_page(told().book())["coats"]["groups"] == []


@pytest.mark.parametrize("lang", LANGUAGES)
def test_nothing_is_said_by_its_key(story: Story, lang: str) -> None:
    text = str(packet_page(story.book(lang))["coats"])
    for key in ("packet.", "coats.", "air.", "kinds.", "reasons."):
        assert key not in text


def test_what_people_wrote_is_text(story: Story) -> None:
    bad = "<image href='http://x/'/>"
    names = {"order": [], "names": {"texture": bad}}
    parts = [{**part, "coats": names} if part["part"] == "yard" else part for part in story.work.changed.values()]
    found = coat(packet_page(story.book(parts=parts))["coats"], "Hall and Bedroom 1", bad)
    assert "image" not in {row.tag.rpartition("}")[2] for row in ElementTree.fromstring(found["strip"]).iter()}


def test_strips_are_figures_with_words_for_those_who_hear_them(pdf: PdfReader) -> None:
    root = pdf.trailer["/Root"]
    assert isinstance(root, DictionaryObject)
    alts = list(figures(root["/StructTreeRoot"]))
    assert any(words.startswith("Texture not dry: primer from ") and "45 % RH" in words for words in map(plain, alts))
    assert "Drawing: Wall B, mirror wall" in alts
    text = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())
    for words in ("Coats and drying", "Hall and Bedroom 1", "batch L2231", "May stay", "Air that was read"):
        assert words in text


def figures(node: Any) -> Any:
    """The alternative texts of the structure tree."""
    node = node.get_object()
    if isinstance(node, list):
        for one in node:
            yield from figures(one)
    elif isinstance(node, DictionaryObject):
        if "/Alt" in node:
            yield str(node["/Alt"])
        if "/K" in node:
            yield from figures(node["/K"])


def test_a_hold_of_time_says_why_that_time_cannot_be_relied_on(story: Story) -> None:
    ends = {"likely": "2026-12-05T00:49:00Z", "by_table": "2026-12-05T03:53:00Z"}
    hold = {"key": "coat_wet", "coat": "tape", "rooms": ["hall"], **ends, "flags": ["heated", "stale"]}
    times, doubts = plain(hold_words(story.book(), hold)["details"])
    assert times.endswith(" by the table")
    assert doubts == "Cannot be relied on: The last reading is old: read the air again."
    assert len(hold_words(story.book(), {**hold, "flags": ["heated"]})["details"]) == 1


def test_what_somebody_wrote_with_its_full_stop_joins_what_follows(story: Story) -> None:
    body = {"rooms": ["hall"], "text": "Soft at the dent.", "meter": {"scale": "gypsum", "value": 16}}
    row = {"kind": "coat.found_wet", "by": PERSON["tull"], "time": "2026-12-04T10:00:00Z", "body": body}
    (line,) = coat_lines(story.book(), {"lines": [row], "done_by": []}, ["hall"])
    assert line["notes"] == ["Soft at the dent", "meter 1.6 % on the gypsum scale"]
