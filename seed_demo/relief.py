"""The small words that shapes of blemishes are made of: fields, ramps, bells, torn outlines, wandering lines.

Lengths are millimetres; x and y are distances from the middle of a blemish, right and down positive.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

Field = NDArray[np.floating[Any]]
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


def soft(distance: Field, edge: float, width: float) -> Field:
    """1 inside ``edge``, 0 outside, over a ramp of ``width`` mm."""
    ramp: Field = np.clip((edge - distance) / width + 0.5, 0, 1)
    return (ramp * ramp * (3 - 2 * ramp)).astype(np.float32)


def bell(distance: Field, width: float) -> Field:
    hill: Field = np.exp(-((distance / width) ** 2))
    return hill.astype(np.float32)


def wander(along: Field, rng: np.random.Generator, step: float, reach: float) -> Field:
    """A line that wanders from side to side by about ``reach`` mm, with a turn every ``step`` mm."""
    low, high = float(along.min()), float(along.max())
    knots = np.arange(low - step, high + 2 * step, step)
    return np.interp(along, knots, rng.normal(0, reach, len(knots))).astype(np.float32)


def ragged(x: Field, y: Field, rng: np.random.Generator, rough: float) -> Field:
    """Distance from the middle with a torn outline, as a hand or a hammer leaves it."""
    angle = np.arctan2(y, x)
    out = np.hypot(x, y)
    for turns in (2, 3, 5, 9, 14):
        out = out * (1 + rough / turns * np.cos(turns * angle + rng.uniform(0, 6.3)))
    return out.astype(np.float32)


def turned(x: Field, y: Field, degrees: float) -> tuple[Field, Field]:
    c, s = np.float32(np.cos(np.radians(degrees))), np.float32(np.sin(np.radians(degrees)))
    return x * c + y * s, y * c - x * s
