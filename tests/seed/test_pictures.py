"""Photos drawn by code: the same bytes each time, and the blemish is really there in the light."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from seed_demo.blemishes import SHAPES
from seed_demo.camera import view_of
from seed_demo.findings import WRITE_UPS
from seed_demo.pictures import PX, Blemish, Shot, draw
from seed_demo.yard import MODULES, PLANS
from server.rules import tables


def pixels(data: bytes) -> np.ndarray:
    with Image.open(io.BytesIO(data)) as image:
        assert (image.format, image.size) == ("JPEG", PX)
        return np.asarray(image.convert("L"), np.int16)


def change(shot: Shot, x: float, y: float, reach: float) -> tuple[float, float]:
    """How much a blemish changes the picture, in grey levels: the strongest near its place, and anywhere else."""
    clean = Shot(shot.wall, shot.width, (), shot.light, shot.texture, shot.paint)
    difference = np.abs(pixels(draw(shot)) - pixels(draw(clean)))
    left, top = shot.px(max(0, x - reach), max(0, y - reach))
    right, foot = shot.px(x + reach, y + reach)
    near = difference[top:foot, left:right]
    far = difference.copy()
    far[top:foot, left:right] = 0
    return float(np.percentile(near, 99.9)), float(np.percentile(far, 99))


def test_same_shot_same_bytes() -> None:
    shot = Shot("a wall", 900, (Blemish("dent", 400, 300),))
    assert draw(shot) == draw(shot)
    assert draw(shot) != draw(Shot("another wall", 900, shot.blemishes))


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_blemish_shows_where_it_is_and_nowhere_else(shape: str) -> None:
    reach = min(SHAPES[shape][1], 200)
    shot = Shot(f"wall of {shape}", 900, (Blemish(shape, 450, 340),), texture="smooth")
    near, far = change(shot, 450, 340, reach * 1.1)
    assert near > 12, f"{shape} cannot be seen: {near:.0f} grey levels"
    if SHAPES[shape][1] <= 200:
        assert far < 12, f"{shape} changes the wall elsewhere: {far:.0f} grey levels"


def test_raking_light_finds_what_normal_viewing_does_not() -> None:
    for shape in ("dent", "ridging", "crowned_joint", "screw_pop"):
        reach = min(SHAPES[shape][1], 250)
        near = {
            light: change(Shot("one wall", 1000, (Blemish(shape, 500, 370),), light), 500, 370, reach)[0]
            for light in ("raking", "normal")
        }
        assert near["raking"] > 1.5 * near["normal"], shape


def test_poor_work_leaves_less_and_good_work_nothing() -> None:
    found = WRITE_UPS["5078-A living B"]
    view = view_of(next(one for one in MODULES if one.serial == "5078-A"), found)
    x, y = view.px[0]
    here = np.s_[y - 30 : y + 30, x - 30 : x + 30]
    done = pixels(draw(view.with_left({})))[here]
    left = [np.abs(pixels(draw(view.with_left({0: much})))[here] - done).mean() for much in (1.0, 0.35)]
    assert left[0] > left[1] > 2


def test_every_defect_has_a_shape_and_every_mark_is_in_its_photo() -> None:
    assert set(SHAPES) == set(tables(1)["defects"])
    for found in WRITE_UPS.values():
        module = next(one for one in MODULES if one.serial == found.serial)
        room = next(one for one in PLANS[module.plan] if one["id"] == found.room)
        wide = room["l"] if found.surface in ("A", "C", "ceiling") else room["w"]
        tall = room["w"] if found.surface == "ceiling" else room["h"]
        for (defect, along, up), (x, y) in zip(found.marks, view_of(module, found).px, strict=True):
            assert defect in SHAPES
            assert 0 < along < wide, found.name
            assert 0 < up < tall, found.name
            assert 0 < x < PX[0], found.name
            assert 0 < y < PX[1], found.name
