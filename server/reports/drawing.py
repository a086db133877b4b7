"""Walls, unfolded rooms and marks as SVG text. Pure; every text that people wrote is escaped here.

A packet holds hundreds of these, and WeasyPrint pays for every element and attribute: what the strokes of a mark or the
texts of a drawing have in common stands once, round them.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

from server.reports.geometry import SURFACES, Box, Face, face_of, on_sheet, place_of, sheet_size
from server.reports.labels import Mark, placed
from server.rules import CURRENT, tables

INK, PENCIL, CHALK, CRAYON, WALL = "#12201c", "#45524d", "#0a3d8f", "#951d0a", "#eef0ea"
COLOUR = {"crayon": CRAYON, "chalk": CHALK, "pencil": PENCIL}
FONT = "Rakelight, 'DejaVu Sans', sans-serif"
ROUND = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
FOOT = 304.8


def mark(state: str, x: float, y: float, size: float) -> str:
    """The pencil mark of a state, `size` wide, its middle at x, y."""
    shape = _shapes()["marks"][state]
    scale = size / _shapes()["box"]
    strokes = "".join(_stroke(row) for row in shape["lines"])
    place = f"translate({x - size / 2:.1f} {y - size / 2:.1f}) scale({scale:.5f})"
    return f'<g transform="{place}" stroke="{COLOUR[shape["colour"]]}" {ROUND}>{strokes}</g>'


def _shapes() -> dict[str, Any]:
    shapes: dict[str, Any] = tables(CURRENT)["marks"]
    return shapes


def _stroke(row: dict[str, Any]) -> str:
    dash = f' stroke-dasharray="{" ".join(str(part) for part in row["dash"])}"' if "dash" in row else ""
    return f'<path d="{row["d"]}" stroke-width="{row["width"]}"{dash}/>'


def lone_mark(state: str) -> str:
    """A mark by itself, for a list."""
    return _svg(240, 240, mark(state, 120, 120, 240), "mark")


def titled(svg: str, words: str) -> str:
    """A drawing with what it shows in words: WeasyPrint hands that on to screen readers."""
    head, tag, rest = svg.partition(">")
    return f"{head}{tag}<title>{escape(words)}</title>{rest}" if svg else ""


def wall(face: Face, found: Sequence[Mark], wide: float, high: float) -> tuple[str, float, float]:
    """A surface upright and to scale within wide × high millimetres of paper: SVG, and the size it came to.

    `found`: marks at along, up. Units of the drawing are tenths of a millimetre of paper.
    """
    foot = 52
    scale = min(wide * 10 / face.length, (high * 10 - foot) / face.height)
    long, tall = face.length * scale, face.height * scale
    upright = -1 if face.surface == "floor" else 1
    boxes = [(_stood(box, scale, tall, upright), name) for box, name in face.boxes]
    points = [
        Mark(spot.x * scale, tall - spot.y * scale if upright > 0 else spot.y * scale, spot.state, spot.text)
        for spot in found
    ]
    body = [
        f'<rect x="4" y="4" width="{long - 8:.1f}" height="{tall - 8:.1f}" fill="#fff" stroke="{INK}"'
        ' stroke-width="8"/>',
        *(_thing(box, name) for box, name in boxes),
        *_feet(face.length, scale, tall),
        *_marked(points, 46, 38, Box(10, 10, long - 20, tall - 20)),
    ]
    return _svg(long, tall + foot, "".join(body), "face"), long / 10, (tall + foot) / 10


def _stood(box: Box, scale: float, tall: float, upright: int) -> Box:
    top = tall - (box.y + box.h) * scale if upright > 0 else box.y * scale
    return Box(box.x * scale, top, box.w * scale, box.h * scale)


def _thing(box: Box, name: str) -> str:
    drawn = (
        f'<rect x="{box.x:.1f}" y="{box.y:.1f}" width="{box.w:.1f}" height="{box.h:.1f}"'
        f' fill="{WALL}" stroke="{PENCIL}" stroke-width="3"/>'
    )
    if name and len(name) * 16 < box.w:
        drawn += _text(box.x + box.w / 2, box.y + box.h / 2 + 10, name, 28, PENCIL, "middle")
    return drawn


def _feet(length: int, scale: float, tall: float) -> list[str]:
    """Feet along the foot of the wall, so that a hand with a tape finds the spot."""
    every = 1 if scale * FOOT >= 45 else 2 if scale * FOOT >= 22 else 5
    last = length * scale - 12
    marks = [(foot, foot * FOOT * scale) for foot in range(every, int(length / FOOT) + 1, every)]
    ticks = "".join(f"M{x:.0f} {tall - 20:.0f}V{tall:.0f}" for _, x in marks if x < last)
    words = "".join(f'<text x="{x:.0f}" y="{tall + 38:.0f}">{foot}</text>' for foot, x in marks if x < last)
    if not ticks:
        return []
    return [
        f'<path d="{ticks}" stroke="{INK}" stroke-width="4"/>',
        f'<g font-size="28" fill="{PENCIL}" text-anchor="middle">{words}</g>',
    ]


def _marked(points: Sequence[Mark], size: float, line: float, bounds: Box, taken: Sequence[Box] = ()) -> list[str]:
    drawn = []
    for point, label in zip(points, placed(points, size, line, bounds, taken), strict=True):
        drawn.append(mark(point.state, point.x, point.y, size))
        colour = COLOUR[_shapes()["marks"][point.state]["colour"]]
        drawn.append(_halo(label.x + line * 0.05, label.y + line * 0.84, point.text, line, colour))
    return drawn


def unfolded(
    room: dict[str, Any], mirrored: bool, found: dict[str, list[Mark]], names: dict[str, str], most: tuple[float, float]
) -> tuple[str, float, float]:
    """A whole room laid out flat within `most` millimetres of paper: SVG, and the size it came to.

    `found`: marks by surface at along, up; `names`: the words on the surfaces. Units are tenths of a millimetre.
    """
    edge = 6
    wide, high = sheet_size(room)
    scale = min((most[0] * 10 - 2 * edge) / wide, (most[1] * 10 - 2 * edge) / high)
    body, points, taken = [], [], []
    for surface in ("floor", *(one for one in SURFACES if one != "floor")):
        face = face_of(room, surface, mirrored)
        if face is None:
            continue
        place = place_of(room, surface)
        body += _laid(face, place, scale)
        title = names.get(surface, surface)
        label = Box(place.x * scale + 10, place.y * scale + 8, len(title) * 17, 32)
        if label.w < place.w * scale - 16:
            taken.append(label)
            body.append(_text(label.x, label.y + 26, title, 28, INK if surface != "floor" else PENCIL, "start", 700))
        for spot in found.get(surface, []):
            x, y = on_sheet(place, surface, spot.x, spot.y)
            points.append(Mark(x * scale, y * scale, spot.state, spot.text))
    bounds = Box(0, 0, wide * scale, high * scale)
    body += _marked(points, 36, 30, bounds, taken)
    width, height = wide * scale, high * scale
    return _svg(width, height, "".join(body), "unfolded", edge), (width + 2 * edge) / 10, (height + 2 * edge) / 10


def _laid(face: Face, place: Box, scale: float) -> list[str]:
    floor = face.surface == "floor"
    fill, dash = (WALL, ' stroke-dasharray="18 12"') if floor else ("#fff", "")
    rows = [
        f'<rect x="{place.x * scale:.1f}" y="{place.y * scale:.1f}" width="{place.w * scale:.1f}"'
        f' height="{place.h * scale:.1f}" fill="{fill}" stroke="{INK}" stroke-width="6"{dash}/>'
    ]
    for box, _name in face.boxes:
        x1, y1 = on_sheet(place, face.surface, box.x, box.y)
        x2, y2 = on_sheet(place, face.surface, box.x + box.w, box.y + box.h)
        rows.append(
            f'<rect x="{min(x1, x2) * scale:.1f}" y="{min(y1, y2) * scale:.1f}" width="{abs(x1 - x2) * scale:.1f}"'
            f' height="{abs(y1 - y2) * scale:.1f}" fill="{WALL}" stroke="{PENCIL}" stroke-width="3"/>'
        )
    return rows


def over_photo(px: Sequence[int], drawn: Sequence[dict[str, Any]], numbers: Sequence[tuple[float, float, str]]) -> str:
    """What was marked on a photo, as a layer over it; pixels of the photo. `numbers`: x, y and the item's number.

    Nothing where nothing was marked.
    """
    if not drawn and not numbers:
        return ""
    unit = max(px) / 100
    rows = [_drawn_on(row, unit) for row in drawn]
    for x, y, text in numbers:
        ring = f'<circle cx="{x:.0f}" cy="{y:.0f}" r="{unit * 2.2:.0f}"'
        rows.append(_outlined(ring, unit * 1.2, unit * 0.6))
        side, anchor = (-3, "end") if x > px[0] * 0.88 else (3, "start")
        rows.append(_halo(x + unit * side, y + unit * 1.7, text, unit * 5, CRAYON, anchor))
    return _svg(px[0], px[1], "".join(rows), "over")


def _drawn_on(row: dict[str, Any], unit: float) -> str:
    if row["kind"] == "text":
        return _halo(row["at"][0], row["at"][1], row["text"], unit * 4.5, CRAYON)
    if row["kind"] == "ring":
        shape = f'<circle cx="{row["at"][0]}" cy="{row["at"][1]}" r="{row["r"]}"'
    else:
        shape = f'<path d="{_arrow(row["from"], row["to"], unit)}"'
    return _outlined(shape, unit * 1.7, unit * 0.9)


def _outlined(shape: str, under: float, over: float) -> str:
    """A crayon stroke on a white one, so that it shows on any photo."""
    return (
        f'{shape} {ROUND} stroke="#fff" stroke-width="{under:.1f}"/>'
        f'{shape} {ROUND} stroke="{CRAYON}" stroke-width="{over:.1f}"/>'
    )


def _arrow(tail: Sequence[float], head: Sequence[float], unit: float) -> str:
    dx, dy = head[0] - tail[0], head[1] - tail[1]
    long = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / long * unit * 3.5, dy / long * unit * 3.5
    left = (head[0] - ux - uy * 0.7, head[1] - uy + ux * 0.7)
    right = (head[0] - ux + uy * 0.7, head[1] - uy - ux * 0.7)
    return (
        f"M{tail[0]} {tail[1]}L{head[0]} {head[1]}M{left[0]:.1f} {left[1]:.1f}L{head[0]} {head[1]}"
        f"L{right[0]:.1f} {right[1]:.1f}"
    )


def _text(x: float, y: float, text: str, size: float, colour: str, anchor: str = "start", weight: int = 400) -> str:
    more = f' text-anchor="{anchor}"' if anchor != "start" else ""
    more += f' font-weight="{weight}"' if weight != 400 else ""
    return f'<text x="{x:.0f}" y="{y:.0f}" font-size="{size:.0f}" fill="{colour}"{more}>{escape(text)}</text>'


def _halo(x: float, y: float, text: str, size: float, colour: str, anchor: str = "start") -> str:
    """Text on a white slip of its own, so that it reads on whatever lies under it, in grey too."""
    wide = len(text) * size * 0.58
    left = x - wide if anchor == "end" else x
    return (
        f'<rect x="{left - size * 0.1:.0f}" y="{y - size * 0.84:.0f}" width="{wide + size * 0.2:.0f}"'
        f' height="{size * 1.06:.0f}" fill="#fff" fill-opacity="0.9"/>'
        f"{_text(x, y, text, size, colour, anchor, 700)}"
    )


def _svg(wide: float, high: float, body: str, kind: str, edge: float = 0) -> str:
    box = f"{-edge} {-edge} {wide + 2 * edge:.1f} {high + 2 * edge:.1f}"
    font = f' font-family="{FONT}"' if "<text" in body else ""
    return f'<svg class="{kind}" xmlns="http://www.w3.org/2000/svg" viewBox="{box}"{font}>{body}</svg>'
