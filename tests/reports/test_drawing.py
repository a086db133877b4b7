"""Drawings: the same places as on the phone, every number readable, nothing that people wrote as markup."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from server.reports.drawing import lone_mark, over_photo, unfolded, wall
from server.reports.geometry import Box, Face, face_of, on_sheet, place_of, sheet_size
from server.reports.labels import Mark, placed
from tests.reports.story import ROOMS

BATH = ROOMS[0]


def test_every_state_has_a_mark_of_its_own() -> None:
    states = ["open", "sent_back", "cleared", "closed", "void"]
    lines = {tuple(one.get("d") for one in ElementTree.fromstring(lone_mark(state)).iter()) for state in states}
    assert len(lines) == len(states)


@pytest.mark.parametrize(
    ("surface", "point"),
    [
        # each 100 along and 200 up: what is left and low as one faces it
        ("A", (2438 + 100, 2743 + 2438 - 200)),
        ("B", (2438 + 2134 + 200, 2743 + 2438 + 100)),
        ("C", (2438 + 2134 - 100, 2 * 2743 + 2438 + 200)),
        ("D", (2438 - 200, 2 * 2743 + 2438 - 100)),
        ("ceiling", (2438 + 100, 2743 - 200)),
        ("floor", (2438 + 100, 2743 + 2438 + 200)),
    ],
)
def test_a_spot_on_the_unfolded_room(surface: str, point: tuple[int, int]) -> None:
    assert on_sheet(place_of(BATH, surface), surface, 100, 200) == point


def test_every_surface_lies_on_the_sheet_and_on_no_other() -> None:
    wide, high = sheet_size(BATH)
    boxes = [place_of(BATH, surface) for surface in ("A", "B", "C", "D", "ceiling", "floor")]
    assert all(box.x >= 0 and box.y >= 0 and box.x + box.w <= wide and box.y + box.h <= high for box in boxes)
    for at, a in enumerate(boxes):
        for b in boxes[at + 1 :]:
            assert a.x + a.w <= b.x or b.x + b.w <= a.x or a.y + a.h <= b.y or b.y + b.h <= a.y


def test_a_mirrored_plan_swaps_b_and_d_and_turns_walls_round() -> None:
    face = face_of(BATH, "D", mirrored=True)
    assert face is not None
    assert face.sight == "mirror wall"
    assert face.boxes == ((Box(2743 - 500 - 1200, 1000, 1200, 900), "mirror"),)


def test_numbers_do_not_lie_on_each_other() -> None:
    crowd = [Mark(300 + (at % 4) * 60, 300 + at // 4 * 60, "open", str(at)) for at in range(12)]
    labels = placed(crowd, 40, 30, Box(0, 0, 900, 900))
    for at, a in enumerate(labels):
        for b in labels[at + 1 :]:
            wide = min(a.x + a.w, b.x + b.w) - max(a.x, b.x)
            high = min(a.y + a.h, b.y + b.h) - max(a.y, b.y)
            assert min(wide, high) <= 0.01


@pytest.mark.parametrize("text", ["<image href='http://x/'/>", '"/><script>', "a & b", "]]>"])
def test_what_people_wrote_is_text(text: str) -> None:
    face = Face("A", text, 3000, 2400, ((Box(100, 100, 2700, 1000), text),))
    room = {
        **BATH,
        "walls": {
            **BATH["walls"],
            "A": {"openings": [], "things": [{"name": text, "along": 0, "up": 0, "w": 900, "h": 90}]},
        },
    }
    marks = [{"kind": "text", "at": [10, 10], "text": text}]
    for svg in (
        wall(face, [], 90, 60)[0],
        unfolded(room, False, {}, {"A": text}, (90, 90))[0],
        over_photo([800, 600], marks, [(5, 5, text)]),
    ):
        root = ElementTree.fromstring(svg)
        kinds = {element.tag.rpartition("}")[2] for element in root.iter()}
        assert kinds <= {"svg", "g", "path", "rect", "circle", "text"}


def test_a_wall_keeps_its_measure() -> None:
    face = Face("A", "", 3000, 2400)
    _, wide, high = wall(face, [], 91, 62)
    assert wide <= 91
    assert high <= 62.01
    assert abs(wide / (high - 5.2) - 3000 / 2400) < 0.01
