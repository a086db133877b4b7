"""Photos of walls, drawn: a height field with the blemish in it, shaded by a light that we place.

A raking light stands low at the left and warms the wall as a work light does; in normal viewing the light comes from
the room. The same ``Shot`` gives the same bytes every time; a shot of the same ``wall`` without its blemishes is the
photo taken after the work. Lengths are millimetres on the wall, pixels only where the word says so.
"""

from __future__ import annotations

import io
import zlib
from dataclasses import dataclass

import numpy as np
from PIL import Image

from seed_demo.blemishes import SHAPES
from seed_demo.fixtures import Fixture, base, put
from seed_demo.relief import Change, Field

PX = (1200, 900)
QUALITY = 76
GAMMA = (255 * np.linspace(0, 1, 4096, dtype=np.float32) ** (1 / 1.9)).astype(np.float32)
PAINTS = {
    "warm_white": (0.93, 0.915, 0.87),
    "oat": (0.86, 0.82, 0.74),
    "gray": (0.78, 0.79, 0.79),
    "primer": (0.9, 0.9, 0.9),
}


@dataclass(frozen=True)
class Blemish:
    """One blemish: a key of ``SHAPES`` and its middle, mm from the left and the top of the shot.

    ``left`` is how much of it is still there: 1 as found, less after poor work.
    """

    shape: str
    x: float
    y: float
    left: float = 1


@dataclass(frozen=True)
class Shot:
    """What the camera sees: ``wall`` is any text (it seeds the texture), ``width`` the mm that the shot is wide."""

    wall: str
    width: float
    blemishes: tuple[Blemish, ...] = ()
    light: str = "raking"
    texture: str = "orange_peel"
    paint: str = "warm_white"
    fixtures: tuple[Fixture, ...] = ()
    base_at: float | None = None

    def px(self, x: float, y: float) -> tuple[int, int]:
        """Whole pixels of a place in the shot."""
        return round(x * PX[0] / self.width), round(y * PX[0] / self.width)


def seed_of(*words: object) -> int:
    """A number for a random generator that does not change from run to run, as ``hash`` does."""
    return zlib.crc32("|".join(map(str, words)).encode())


def draw(shot: Shot) -> bytes:
    """The JPEG of a shot, 1200 by 900 pixels."""
    rng = np.random.default_rng(seed_of(shot.wall, shot.width))
    step = shot.width / PX[0]
    texture = _texture(shot, rng)
    height = _board(shot, rng)
    colour = np.ones((PX[1], PX[0], 3), np.float32) * np.array(PAINTS[shot.paint], np.float32)
    for blemish in shot.blemishes:
        _put(blemish, seed_of(shot.wall, blemish.shape, blemish.x, blemish.y), step, height, texture, colour)
    height += texture
    for fixture in shot.fixtures:
        put(fixture, step, height, colour)
    if shot.base_at is not None and shot.base_at < step * PX[1]:
        base(shot.base_at, step, height, colour)
    light = _raking(height, step) if shot.light == "raking" else _normal(height, step)
    return _developed(colour * light, seed_of(shot))


def _noise(rng: np.random.Generator, shot: Shot, grain: float) -> Field:
    """Smooth noise, about ±1, with bumps ``grain`` mm apart."""
    cells = max(4, round(shot.width / grain))
    grid = rng.normal(0, 1, (max(3, round(cells * 0.75)), cells)).astype(np.float32)
    image = Image.fromarray(grid).resize(PX, Image.Resampling.BICUBIC)
    return np.asarray(image, np.float32)


def _texture(shot: Shot, rng: np.random.Generator) -> Field:
    if shot.texture == "knockdown":
        blobs = _noise(rng, shot, 22) + 0.5 * _noise(rng, shot, 9)
        flat = np.clip((blobs - 0.2) / 0.7, 0, 1)
        return (0.26 * flat * flat * (3 - 2 * flat) + 0.01 * _noise(rng, shot, 3)).astype(np.float32)
    if shot.texture == "orange_peel":
        bumps = _noise(rng, shot, 4.6) + 0.5 * _noise(rng, shot, 8)
        return (0.075 * bumps + 0.012 * _noise(rng, shot, 2.2)).astype(np.float32)
    return (0.016 * _noise(rng, shot, 2.4) + 0.02 * _noise(rng, shot, 9)).astype(np.float32)


def _board(shot: Shot, rng: np.random.Generator) -> Field:
    """The board itself is never quite flat: broad waves that a low light turns into soft bands."""
    return (1.1 * _noise(rng, shot, 420) + 0.22 * _noise(rng, shot, 130)).astype(np.float32)


def _put(blemish: Blemish, seed: int, step: float, height: Field, texture: Field, colour: Field) -> None:
    shape, reach = SHAPES[blemish.shape]
    left, top = max(0, int((blemish.x - reach) / step)), max(0, int((blemish.y - reach) / step))
    right, foot = min(PX[0], int((blemish.x + reach) / step)), min(PX[1], int((blemish.y + reach) / step))
    if right <= left or foot <= top:
        return
    x, y = np.meshgrid(np.arange(left, right) * step - blemish.x, np.arange(top, foot) * step - blemish.y)
    change: Change = shape(x.astype(np.float32), y.astype(np.float32), np.random.default_rng(seed))
    here = np.s_[top:foot, left:right]
    height[here] += change.height * np.float32(blemish.left)
    if change.bare is not None:
        texture[here] *= 1 - change.bare * np.float32(blemish.left**0.5)
    for cover, tint in change.tints:
        colour[here] *= 1 + np.float32(blemish.left**1.5) * cover[..., None] * (np.array(tint, np.float32) - 1)


def _slopes(height: Field, step: float) -> tuple[Field, Field]:
    across, down = np.zeros_like(height), np.zeros_like(height)
    across[:, 1:-1] = (height[:, 2:] - height[:, :-2]) / (2 * step)
    down[1:-1] = (height[2:] - height[:-2]) / (2 * step)
    return across, down


def _raking(height: Field, step: float) -> Field:
    """Light from the left, 11° off the wall, fading across it; what stands up throws a shadow to the right."""
    low = np.float32(np.radians(11))
    across, down = _slopes(height, step)
    facing = across * np.cos(low) * 0.985 + down * 0.17 * np.cos(low) + np.sin(low)
    shade = np.clip(facing / np.sqrt(1 + across**2 + down**2), 0, None)
    climb = height + (np.arange(PX[0], dtype=np.float32) * np.float32(step * np.tan(low)))[None, :]
    hidden = np.clip((np.maximum.accumulate(climb, axis=1) - climb) / 0.25, 0, 1)
    x, y = np.linspace(0, 1, PX[0], dtype=np.float32)[None, :], np.linspace(-1, 1, PX[1], dtype=np.float32)[:, None]
    beam = 1.22 / (0.72 + 1.5 * x) * np.exp(-((y - 0.1) ** 2) * (0.55 - 0.25 * x))
    lamp: Field = (shade / np.sin(low) * (1 - 0.9 * hidden) * beam)[..., None]
    return lamp * np.array((0.66, 0.575, 0.44), np.float32) + np.array((0.085, 0.09, 0.105), np.float32)


def _normal(height: Field, step: float) -> Field:
    """Light of the room, from above and the front: relief is faint and colour tells."""
    across, down = _slopes(height, step)
    shade = (0.86 + 0.5 * down + 0.32 * across) / np.sqrt(1 + across**2 + down**2)
    x, y = np.linspace(-1, 1, PX[0], dtype=np.float32)[None, :], np.linspace(-1, 1, PX[1], dtype=np.float32)[:, None]
    room = 0.86 - 0.1 * x**2 - 0.1 * (y + 0.2) ** 2
    return (shade * room)[..., None] * np.array((0.98, 0.97, 0.95), np.float32)


def _developed(linear: Field, seed: int) -> bytes:
    """What a phone makes of the light: a soft shoulder, a gamma, a little grain."""
    toned = linear * np.float32(1.25) / (1 + np.float32(0.25) * linear)
    grain = np.random.default_rng(seed).standard_normal((PX[1], PX[0], 1), np.float32) * np.float32(1.5)
    pixels = np.clip(GAMMA[(np.clip(toned, 0, 1) * 4095).astype(np.uint16)] + grain, 0, 255)
    out = io.BytesIO()
    Image.fromarray(pixels.astype(np.uint8)).save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()
