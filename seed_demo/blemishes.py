"""Shapes of blemishes: what each one does to a wall's height, colour and texture.

``x`` and ``y`` are mm from the middle of the blemish (right and down positive); heights stand out of the wall when
positive. Nothing here knows about light: that a dent shows is up to ``pictures``.
"""

from __future__ import annotations

import numpy as np

from seed_demo.relief import BROWN, DARK, GYPSUM, Change, Field, Shape, bell, ragged, soft, turned, wander


def nick(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = turned(x, y, rng.uniform(40, 140))
    out = ragged(u / 1.9, v, rng, 0.5)
    pit = soft(out, 4.5, 2.0)
    return Change(-1.3 * pit + 0.45 * bell(out - 6.5, 2.0), pit, [(soft(out, 3.6, 1.5), GYPSUM)])


def scratch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = turned(x, y, rng.uniform(50, 130))
    v = v - wander(u, rng, 30, 1.5)
    body = soft(np.abs(u), rng.uniform(45, 70), 20)
    return Change(body * (-0.6 * bell(v, 1.3) + 0.3 * bell(np.abs(v) - 2.6, 1.1)), body * bell(v, 1.5))


def dent(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x, y * rng.uniform(0.8, 1.2), rng, 0.12)
    return Change(-2.4 * bell(out, rng.uniform(13, 18)) + 0.4 * bell(out - 24, 6))


def gouge(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = turned(x, y, rng.uniform(20, 160))
    out = ragged(u / 4, v, rng, 0.55)
    cut = soft(out, 7, 2.5)
    lip = 0.8 * bell(out - 9, 2)
    return Change(-3.2 * cut + lip, cut, [(soft(out, 8, 2), BROWN), (soft(out, 5, 2), GYPSUM)])


def torn_paper(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x * 0.6, y, rng, 0.75)
    torn = soft(out, 18, 1.2)
    return Change(-0.5 * torn + 0.9 * bell(out - 18, 1.8), torn, [(torn, BROWN)])


def hole(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x, y * 0.85, rng, 0.4)
    gone = soft(out, 20, 2)
    rim = soft(out, 27, 2) - gone
    return Change(-11 * gone - 0.7 * rim + 0.5 * bell(out - 29, 2), gone, [(rim, BROWN), (gone, DARK)])


def screw_pop(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = np.hypot(x, y)
    crack = bell(out - 7, 0.9) * soft(np.abs(np.arctan2(y, x) - rng.uniform(-1, 1)), 1.7, 0.5)
    return Change(1.3 * bell(out, 7.5) - 0.7 * crack, 0.7 * bell(out, 8), [(0.6 * crack, BROWN)])


def ridging(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - wander(y, rng, 90, 2)
    return Change(soft(np.abs(y), 330, 120) * 1.1 * bell(x, 8), 0.5 * bell(x, 14) * soft(np.abs(y), 330, 120))


def crowned_joint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    ends = soft(np.abs(y), 330, 160)
    shoulder = np.float32(rng.choice([-1, 1]) * 75)
    return Change(ends * (3.2 * bell(x, 85) + 0.45 * bell(x - shoulder, 6)))


def tape_blister(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x, y / rng.uniform(2.4, 3.2), rng, 0.3)
    return Change(1.7 * soft(out, 20, 15) + 0.3 * bell(out - 20, 3), 0.6 * soft(out, 20, 12))


def starved_joint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - wander(y, rng, 120, 3)
    ends = soft(np.abs(y), 320, 120)
    edges = 0.5 * (bell(x - 30, 4) + bell(x + 30, 4))
    return Change(ends * (-1.5 * bell(x, 26) + edges), 0.6 * ends * bell(x, 34))


def crack(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = turned(x, y, rng.choice([55, 70, 110, 125]))
    v = v - wander(u, rng, 14, 3.2) - wander(u, rng, 3, 0.4)
    body = soft(np.abs(u), rng.uniform(90, 130), 60)
    line = body * bell(v, 0.9)
    return Change(-1.2 * line + 0.35 * body * bell(v - 3, 2.2), line, [(0.75 * line, DARK)])


def flashing(x: Field, y: Field, rng: np.random.Generator) -> Change:
    x = x - wander(y, rng, 150, 5)
    band = soft(np.abs(x), 62, 18) * soft(np.abs(y), 340, 140)
    return Change(0.35 * band, 0.75 * band, [(0.75 * band, (1.13, 1.12, 1.08))])


def pock_marks(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height, bare = np.zeros_like(x), np.zeros_like(x)
    for across, down in rng.normal(0, 32, (26, 2)):
        pit = bell(np.hypot(x - across, y - down), rng.uniform(1.8, 3.4))
        height -= 1.1 * pit
        bare = np.maximum(bare, pit)
    return Change(height, bare)


def sanding_scratch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    u, v = turned(x, y, rng.uniform(70, 115))
    swirl = v + u * u / 900
    lines = np.interp(swirl, np.arange(-200, 200, 1.1), rng.normal(0, 1, 364)).astype(np.float32)
    patch = soft(np.hypot(u / 1.5, v), 45, 30)
    return Change(0.28 * lines * patch, 0.9 * patch)


def texture_mismatch(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = soft(ragged(x / 1.3, y, rng, 0.25), 75, 25)
    blobs = np.zeros_like(x)
    for across, down in rng.normal(0, 45, (18, 2)):
        spot = ragged(x - np.float32(across), y - np.float32(down), rng, 0.4)
        blobs = np.maximum(blobs, soft(spot, rng.uniform(5, 12), 3))
    return Change(patch * 0.9 * blobs, patch)


def missed_paint(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x / 1.8, y, rng, 0.55)
    patch = soft(out, 42, 26)
    return Change(np.zeros_like(x), 0.2 * patch, [(patch, (1.2, 1.22, 1.24))])


def run(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height = np.zeros_like(x)
    for across in rng.uniform(-38, 38, 4):
        length = rng.uniform(30, 75)
        line = x - np.float32(across) - wander(y, rng, 40, 0.8)
        stem = soft(np.abs(y - length / 2 + 30), length / 2, 14)
        drop = bell(np.hypot(line, (y - (length - 30)) / 1.4), 4.5)
        height = np.maximum(height, np.maximum(0.8 * stem * bell(line, 3.2), 1.7 * drop))
    return Change(height, np.clip(height, 0, 0.8))


def lap_mark(x: Field, y: Field, rng: np.random.Generator) -> Change:
    y = y - wander(x, rng, 60, 4)
    band = soft(np.abs(y), 30, 6) * soft(np.abs(x), 300, 140)
    return Change(0.12 * band, 0.3 * band, [(band, (0.86, 0.87, 0.88))])


def overspray(x: Field, y: Field, rng: np.random.Generator) -> Change:
    cover = np.zeros_like(x)
    for across, down in rng.normal(0, 38, (90, 2)):
        cover = np.maximum(cover, soft(np.hypot(x - across, y - down), rng.uniform(0.8, 2.6), 1.2))
    return Change(0.3 * cover, None, [(0.9 * cover, (0.6, 0.63, 0.66))])


def burnish(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = soft(ragged(x / 1.7, y, rng, 0.3), 40, 22)
    return Change(np.zeros_like(x), 0.85 * patch, [(patch, (1.2, 1.18, 1.13))])


def stain(x: Field, y: Field, rng: np.random.Generator) -> Change:
    out = ragged(x, y / 1.3, rng, 0.35)
    ring = bell(out - 42, 6)
    return Change(np.zeros_like(x), None, [(0.45 * soft(out, 42, 18) + 0.5 * ring, (0.74, 0.62, 0.42))])


def foreign_matter(x: Field, y: Field, rng: np.random.Generator) -> Change:
    height, specks = np.zeros_like(x), np.zeros_like(x)
    for across, down in rng.normal(0, 22, (13, 2)):
        lump = bell(ragged(x - np.float32(across), y - np.float32(down), rng, 0.4), rng.uniform(1.6, 3.4))
        height = np.maximum(height, 1.5 * lump)
        specks = np.maximum(specks, 0.35 * lump)
    return Change(height, None, [(specks, BROWN)])


def gap(x: Field, y: Field, rng: np.random.Generator) -> Change:
    y = y - wander(x, rng, 40, 0.7)
    line = soft(np.abs(y), 1.8, 1.2) * soft(np.abs(x), 120, 60)
    return Change(-4 * line, line, [(0.85 * line, DARK)])


def heavy_peel(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = soft(ragged(x / 1.4, y, rng, 0.25), 60, 30)
    bumps = np.zeros_like(x)
    for across, down in rng.normal(0, 38, (120, 2)):
        bumps = np.maximum(bumps, bell(np.hypot(x - across, y - down), rng.uniform(3, 5.5)))
    return Change(0.55 * patch * bumps, patch)


def smudge(x: Field, y: Field, rng: np.random.Generator) -> Change:
    patch = soft(ragged(x / 1.5, y, rng, 0.6), 34, 30)
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
