"""Shapes of blemishes: what each one does to a wall's height, colour and texture.

Lengths are millimetres. ``x`` and ``y`` are arrays of distances from the middle of the blemish
(right and down positive); a shape answers with a ``Change`` of the same form. Heights stand out of the
wall when positive. Nothing here knows about light: that a dent shows is up to ``pictures``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Field = NDArray[np.float32]
Tint = tuple[float, float, float]
BROWN: Tint = (0.66, 0.53, 0.40)
GYPSUM: Tint = (1.06, 1.05, 1.03)
DARK: Tint = (0.12, 0.11, 0.10)


@dataclass
class Change:
    """Height in mm, how much of the texture is gone (0..1), and layers of colour (cover 0..1, tint)."""

    height: Field
    bare: Field | None = None
    tints: list[tuple[Field, Tint]] = field(default_factory=list)


Shape = Callable[[Field, Field, np.random.Generator], Change]


def _soft(distance: Field, edge: float, width: float) -> Field:
    """1 inside ``edge``, 0 outside, over a ramp of ``width`` mm."""
    ramp = np.clip((edge - distance) / width + 0.5, 0, 1)
    return (ramp * ramp * (3 - 2 * ramp)).astype(np.float32)


def _bell(distance: Field, width: float) -> Field:
    return np.exp(-((distance / width) ** 2)).astype(np.float32)


def _wander(along: Field, rng: np.random.Generator, step: float, reach: float) -> Field:
    """A line that wanders from side to side by about ``reach`` mm, with a turn every ``step`` mm."""
    low, high = float(along.min()), float(along.max())
    knots = np.arange(low - step, high + 2 * step, step)
    return np.interp(along, knots, rng.normal(0, reach, len(knots))).astype(np.float32)


def _ragged(x: Field, y: Field, rng: np.random.Generator, rough: float) -> Field:
    """Distance from the middle with a torn outline, as a hand or a hammer leaves it."""
    angle = np.arctan2(y, x)
    out = np.hypot(x, y)
    for turns in (2, 3, 5, 9, 14):
        out = out * (1 + rough / turns * np.cos(turns * angle + rng.uniform(0, 6.3)))
    return out.astype(np.float32)


def _turned(x: Field, y: Field, degrees: float) -> tuple[Field, Field]:
    c, s = np.float32(np.cos(np.radians(degrees))), np.float32(np.sin(np.radians(degrees)))
    return x * c + y * s, y * c - x * s


def nick(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = _turned(x, y, rng.uniform(40, 140))
    out = _ragged(u / 1.9, v, rng, 0.5)
    pit = _soft(out, 4.5, 2.0)
    return Change(-1.3 * pit + 0.45 * _bell(out - 6.5, 2.0), pit, [(_soft(out, 3.6, 1.5), GYPSUM)])


def scratch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = _turned(x, y, rng.uniform(50, 130))
    v = v - _wander(u, rng, 30, 1.5)
    body = _soft(np.abs(u), rng.uniform(45, 70), 20)
    return Change(body * (-0.6 * _bell(v, 1.3) + 0.3 * _bell(np.abs(v) - 2.6, 1.1)), body * _bell(v, 1.5))


def dent(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x, y * rng.uniform(0.8, 1.2), rng, 0.12)
    return Change(-2.4 * _bell(out, rng.uniform(13, 18)) + 0.4 * _bell(out - 24, 6))


def gouge(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = _turned(x, y, rng.uniform(20, 160))
    out = _ragged(u / 4, v, rng, 0.55)
    cut = _soft(out, 7, 2.5)
    lip = 0.8 * _bell(out - 9, 2)
    return Change(-3.2 * cut + lip, cut, [(_soft(out, 8, 2), BROWN), (_soft(out, 5, 2), GYPSUM)])


def torn_paper(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x * 0.6, y, rng, 0.75)
    torn = _soft(out, 18, 1.2)
    return Change(-0.5 * torn + 0.9 * _bell(out - 18, 1.8), torn, [(torn, BROWN)])


def hole(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x, y * 0.85, rng, 0.4)
    gone = _soft(out, 20, 2)
    rim = _soft(out, 27, 2) - gone
    return Change(-11 * gone - 0.7 * rim + 0.5 * _bell(out - 29, 2), gone, [(rim, BROWN), (gone, DARK)])


def screw_pop(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = np.hypot(x, y)
    crack = _bell(out - 7, 0.9) * _soft(np.abs(np.arctan2(y, x) - rng.uniform(-1, 1)), 1.7, 0.5)
    return Change(1.3 * _bell(out, 7.5) - 0.7 * crack, 0.7 * _bell(out, 8), [(0.6 * crack, BROWN)])


def ridging(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - _wander(y, rng, 90, 2)
    return Change(_soft(np.abs(y), 330, 120) * 1.1 * _bell(x, 8), 0.5 * _bell(x, 14) * _soft(np.abs(y), 330, 120))


def crowned_joint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    ends = _soft(np.abs(y), 330, 160)
    shoulder = np.float32(rng.choice([-1, 1]) * 75)
    return Change(ends * (3.2 * _bell(x, 85) + 0.45 * _bell(x - shoulder, 6)))


def tape_blister(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x, y / rng.uniform(2.4, 3.2), rng, 0.3)
    return Change(1.7 * _soft(out, 20, 15) + 0.3 * _bell(out - 20, 3), 0.6 * _soft(out, 20, 12))


def starved_joint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - _wander(y, rng, 120, 3)
    ends = _soft(np.abs(y), 320, 120)
    edges = 0.5 * (_bell(x - 30, 4) + _bell(x + 30, 4))
    return Change(ends * (-1.5 * _bell(x, 26) + edges), 0.6 * ends * _bell(x, 34))


def crack(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = _turned(x, y, rng.choice([55, 70, 110, 125]))
    v = v - _wander(u, rng, 14, 3.2) - _wander(u, rng, 3, 0.4)
    body = _soft(np.abs(u), rng.uniform(90, 130), 60)
    line = body * _bell(v, 0.9)
    return Change(-1.2 * line + 0.35 * body * _bell(v - 3, 2.2), line, [(0.75 * line, DARK)])


def flashing(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - _wander(y, rng, 150, 5)
    band = _soft(np.abs(x), 62, 18) * _soft(np.abs(y), 340, 140)
    return Change(0.35 * band, 0.75 * band, [(0.75 * band, (1.13, 1.12, 1.08))])


def pock_marks(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height, bare = np.zeros_like(x), np.zeros_like(x)
    for across, down in rng.normal(0, 32, (26, 2)):
        pit = _bell(np.hypot(x - across, y - down), rng.uniform(1.8, 3.4))
        height -= 1.1 * pit
        bare = np.maximum(bare, pit)
    return Change(height, bare)


def sanding_scratch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = _turned(x, y, rng.uniform(70, 115))
    swirl = v + u * u / 900
    lines = np.interp(swirl, np.arange(-200, 200, 1.1), rng.normal(0, 1, 364)).astype(np.float32)
    patch = _soft(np.hypot(u / 1.5, v), 45, 30)
    return Change(0.28 * lines * patch, 0.9 * patch)


def texture_mismatch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = _soft(_ragged(x / 1.3, y, rng, 0.25), 75, 25)
    blobs = np.zeros_like(x)
    for across, down in rng.normal(0, 45, (18, 2)):
        spot = _ragged(x - np.float32(across), y - np.float32(down), rng, 0.4)
        blobs = np.maximum(blobs, _soft(spot, rng.uniform(5, 12), 3))
    return Change(patch * 0.9 * blobs, patch)


def missed_paint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x / 1.8, y, rng, 0.55)
    patch = _soft(out, 42, 26)
    return Change(np.zeros_like(x), 0.2 * patch, [(patch, (1.2, 1.22, 1.24))])


def run(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height = np.zeros_like(x)
    for across in rng.uniform(-38, 38, 4):
        length = rng.uniform(30, 75)
        line = x - np.float32(across) - _wander(y, rng, 40, 0.8)
        stem = _soft(np.abs(y - length / 2 + 30), length / 2, 14)
        drop = _bell(np.hypot(line, (y - (length - 30)) / 1.4), 4.5)
        height = np.maximum(height, np.maximum(0.8 * stem * _bell(line, 3.2), 1.7 * drop))
    return Change(height, np.clip(height, 0, 0.8))


def lap_mark(x: Field, y: Field, rng: np.random.Generator) -> Change:
    y = y - _wander(x, rng, 60, 4)
    band = _soft(np.abs(y), 30, 6) * _soft(np.abs(x), 300, 140)
    return Change(0.12 * band, 0.3 * band, [(band, (0.86, 0.87, 0.88))])


def overspray(x: Field, y: Field, rng: np.random.Generator) -> Change:
    cover = np.zeros_like(x)
    for across, down in rng.normal(0, 38, (90, 2)):
        cover = np.maximum(cover, _soft(np.hypot(x - across, y - down), rng.uniform(0.8, 2.6), 1.2))
    return Change(0.3 * cover, None, [(0.9 * cover, (0.6, 0.63, 0.66))])


def burnish(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = _soft(_ragged(x / 1.7, y, rng, 0.3), 40, 22)
    return Change(np.zeros_like(x), 0.85 * patch, [(patch, (1.2, 1.18, 1.13))])


def stain(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = _ragged(x, y / 1.3, rng, 0.35)
    ring = _bell(out - 42, 6)
    return Change(np.zeros_like(x), None, [(0.45 * _soft(out, 42, 18) + 0.5 * ring, (0.74, 0.62, 0.42))])


def foreign_matter(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height, specks = np.zeros_like(x), np.zeros_like(x)
    for across, down in rng.normal(0, 22, (13, 2)):
        lump = _bell(_ragged(x - np.float32(across), y - np.float32(down), rng, 0.4), rng.uniform(1.6, 3.4))
        height = np.maximum(height, 1.5 * lump)
        specks = np.maximum(specks, 0.35 * lump)
    return Change(height, None, [(specks, BROWN)])


def gap(x: Field, y: Field, rng: np.random.Generator) -> Change:
    y = y - _wander(x, rng, 40, 0.7)
    line = _soft(np.abs(y), 1.8, 1.2) * _soft(np.abs(x), 120, 60)
    return Change(-4 * line, line, [(0.85 * line, DARK)])


def heavy_peel(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = _soft(_ragged(x / 1.4, y, rng, 0.25), 60, 30)
    bumps = np.zeros_like(x)
    for across, down in rng.normal(0, 38, (120, 2)):
        bumps = np.maximum(bumps, _bell(np.hypot(x - across, y - down), rng.uniform(3, 5.5)))
    return Change(0.55 * patch * bumps, patch)


def smudge(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = _soft(_ragged(x / 1.5, y, rng, 0.6), 34, 30)
    return Change(np.zeros_like(x), None, [(0.55 * patch, (0.55, 0.5, 0.45))])


# By the key of the defect; the number is half the side of the square that the shape reaches, mm.
SHAPES: dict[str, tuple[Shape, float]] = {
    "burnish": (burnish, 130),
    "caulk_gap": (gap, 190),
    "crack": (crack, 190),
    "crowned_joint": (crowned_joint, 460),
    "dent": (dent, 60),
    "dirt": (smudge, 110),
    "gouge": (gouge, 70),
    "hole": (hole, 60),
    "joint_flashing": (flashing, 460),
    "lap_mark": (lap_mark, 420),
    "lint": (foreign_matter, 90),
    "missed_paint": (missed_paint, 150),
    "nick": (nick, 30),
    "open_seam": (gap, 190),
    "overspray": (overspray, 150),
    "paint_peel_texture": (heavy_peel, 170),
    "pock_marks": (pock_marks, 130),
    "ridging": (ridging, 460),
    "run": (run, 110),
    "sanding_scratch": (sanding_scratch, 110),
    "scratch": (scratch, 100),
    "screw_pop": (screw_pop, 40),
    "stain_bleed": (stain, 110),
    "starved_joint": (starved_joint, 460),
    "tape_blister": (tape_blister, 130),
    "texture_mismatch": (texture_mismatch, 190),
    "torn_paper": (torn_paper, 80),
}
