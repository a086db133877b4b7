"""Numbers beside marks, placed so that none lies on another mark or number: on paper every number must be readable."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.reports.geometry import Box


@dataclass(frozen=True)
class Mark:
    """A mark at a point of the drawing, with the state that shapes it and the number beside it."""

    x: float
    y: float
    state: str
    text: str


def placed(marks: Sequence[Mark], size: float, line: float, bounds: Box, taken: Sequence[Box] = ()) -> list[Box]:
    """A box for each mark's number, in the order of the marks. `size`: side of a mark; `line`: height of a line."""
    spots = [Box(mark.x - size / 2, mark.y - size / 2, size, size) for mark in marks]
    used = list(taken)
    for index, mark in enumerate(marks):
        others = [*spots[:index], *spots[index + 1 :], *used]
        width = len(mark.text) * line * 0.58 + line * 0.1
        tried = list(_places(mark, width, line, size))
        costs = [_cost(box, others, bounds) for box in tried]
        used.append(tried[costs.index(min(costs))])
    return used[len(taken) :]


def _places(mark: Mark, wide: float, high: float, size: float) -> Iterator[Box]:
    """Nearest first: right, left, above, below, then the corners and the same further away."""
    for ring, reach in enumerate((size * 0.56, size * 0.9, size * 1.6, size * 2.4)):
        right, left, middle = mark.x + reach, mark.x - reach - wide, mark.y - high / 2
        above, below, centre = mark.y - reach - high, mark.y + reach, mark.x - wide / 2
        corners = [(right, above), (right, below), (left, above), (left, below)] if ring else []
        for x, y in [(right, middle), (left, middle), (centre, above), (centre, below), *corners]:
            yield Box(x, y, wide, high)


def _cost(box: Box, others: Sequence[Box], bounds: Box) -> float:
    outside = box.w * box.h - _overlap(box, bounds)
    return round(sum(_overlap(box, other) for other in others) + 4 * outside, 3)


def _overlap(a: Box, b: Box) -> float:
    wide = min(a.x + a.w, b.x + b.w) - max(a.x, b.x)
    high = min(a.y + a.h, b.y + b.h) - max(a.y, b.y)
    return wide * high if wide > 0 and high > 0 else 0.0
