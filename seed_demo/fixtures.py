"""What belongs to a wall and is no blemish: windows, doors, things on it, outlets and the base along the floor.

They tell how large the rest is, and that the camera stood where the entry says. Lengths are mm in the shot.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seed_demo.relief import Field

TRIM = (0.93, 0.93, 0.91)
INSIDE = {
    "window": ((0.10, 0.13, 0.18), -30.0),
    "door": ((0.88, 0.88, 0.86), -8.0),
    "open": ((0.20, 0.19, 0.18), -60.0),
    "thing": ((0.80, 0.79, 0.76), 16.0),
}
CASING, OUTLET = 58.0, (70, 115)


@dataclass(frozen=True)
class Fixture:
    """A rectangle of the wall: ``look`` is a key of INSIDE or "outlet"; x, y is its top left corner."""

    look: str
    x: float
    y: float
    w: float
    h: float


def base(at: float, step: float, height: Field, colour: Field) -> None:
    """The board along the floor, its top edge ``at`` mm below the top of the shot."""
    row = max(0, int(at / step))
    rows = (np.arange(row, height.shape[0]) - row) * step
    height[row:] = (11 * np.clip(rows / 9, 0, 1) ** 0.5)[:, None]
    colour[row:] = np.array(TRIM, np.float32)
    colour[max(0, row - 2) : row] *= 0.72


def put(fixture: Fixture, step: float, height: Field, colour: Field) -> None:
    """Set one fixture into the wall."""
    x, y = _from_middle(fixture, step, height.shape)
    if fixture.look == "outlet":
        _outlet(x, y, height, colour)
        return
    outside = np.maximum(np.abs(x) - fixture.w / 2, np.abs(y) - fixture.h / 2)
    inner, depth = INSIDE[fixture.look]
    if fixture.look != "thing":
        _cover(outside - CASING, 13.0, TRIM, height, colour)
    _cover(outside, depth, inner, height, colour)


def _from_middle(fixture: Fixture, step: float, size: tuple[int, ...]) -> tuple[Field, Field]:
    across = np.arange(size[1], dtype=np.float32) * step - (fixture.x + fixture.w / 2)
    down = np.arange(size[0], dtype=np.float32) * step - (fixture.y + fixture.h / 2)
    return across[None, :].astype(np.float32), down[:, None].astype(np.float32)


def _cover(outside: Field, depth: float, tint: tuple[float, float, float], height: Field, colour: Field) -> None:
    """Replace the wall where ``outside`` is below zero, with an edge two millimetres wide."""
    cover = np.clip(0.5 - outside / 4, 0, 1).astype(np.float32)
    height += (np.float32(depth) - height) * cover
    colour += cover[..., None] * (np.array(tint, np.float32) - colour)


def _outlet(x: Field, y: Field, height: Field, colour: Field) -> None:
    _cover(np.maximum(np.abs(x) - OUTLET[0] / 2, np.abs(y) - OUTLET[1] / 2), 5.0, (0.96, 0.96, 0.95), height, colour)
    for down in (-20, 20):
        socket = np.clip(0.5 - (np.hypot(x, y - down) - 16) / 2, 0, 1)
        colour *= (1 - 0.12 * socket[..., None]).astype(np.float32)
        for across in (-6, 6):
            slot = np.clip(0.5 - np.maximum(np.abs(x - across) - 1.2, np.abs(y - down) - 4.5), 0, 1)
            colour *= (1 - 0.85 * slot[..., None]).astype(np.float32)
