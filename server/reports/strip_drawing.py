"""A coat on paper, from dark (wet) to light (dry): times at its marks, and the air under it. Pure.

Units of the drawing are tenths of a millimetre of paper.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from typing import Any

from server.reports.strip import Tag, lane, place_every, place_tags, strip

INK, PENCIL, FOLD, GLOW = "#12201c", "#45524d", "#c9cfc6", "#ffc14d"
WET, DAMP, DRY = (0x5D, 0x51, 0x45), (0xA9, 0x9C, 0x89), (0xE9, 0xE4, 0xD6)
FONT = "Rakelight, 'DejaVu Sans', sans-serif"
TOP, HIGH, LOW, ROW, LANE, SIZE = 36, 46, 26, 33, 60, 28
# How wide a letter is in the middle, in tenths of a millimetre.
LETTER = 14.6
BANDS = 80


@dataclass(frozen=True)
class Words:
    """What stands at the marks: of a mark or `now` (key, instant), of a full hour, a temperature, a humidity."""

    mark: Callable[[str, int], str]
    hour: Callable[[int], str]
    temp: Callable[[int], str]
    rh: Callable[[int], str]


def full_strip(of: dict[str, Any], words: Words, wide: float) -> tuple[str, float]:
    """A strip with its words and its climate, `wide` millimetres of paper: SVG, and the height it came to."""
    shape, width = strip(of), wide * 10
    foot = TOP + HIGH
    tags = _tags(shape, of["now"], words, width)
    rows = max([0, *(tag.row + 1 for tag in tags)])
    high = foot + 8 + rows * ROW
    body = [_ribbon(shape, width, TOP, HIGH)]
    body += [_mark(row["key"], row["x"] * width / 1000, tags) for row in shape["marks"] if row["key"] != "laid"]
    if shape["now"] is not None:
        middle = min(width - 16, max(16, shape["now"] * width / 1000))
        body.append(
            f'<circle cx="{middle:.0f}" cy="{TOP + HIGH / 2}" r="14" fill="{GLOW}" stroke="{INK}" stroke-width="5"/>'
        )
    body += [_told(tag, words.mark(tag.key, _at(shape, of, tag.key)), width) for tag in tags]
    if shape["air"]:
        body += _climate(shape, words, width, high + 6)
        high += 6 + 2 * LANE + ROW
    return _svg(width, high, "".join(body)), high / 10


def low_strip(of: dict[str, Any], wide: float) -> tuple[str, float]:
    """An older coat: a low strip without words."""
    return _svg(wide * 10, LOW, _ribbon(strip(of), wide * 10, 0, LOW)), LOW / 10


def _at(shape: dict[str, Any], of: dict[str, Any], key: str) -> int:
    return int(of["now"] if key == "now" else next(row["at"] for row in shape["marks"] if row["key"] == key))


def _tags(shape: dict[str, Any], now: int, words: Words, width: float) -> list[Tag]:
    """The times at the marks; where two would touch, one goes a row down."""

    def tag(key: str, at: int, x: int, by: str, rows: tuple[int, ...]) -> Tag:
        return Tag(key, x, min(1000, int(len(words.mark(key, at)) * LETTER * 1000 / width) + 1), by, rows)

    # Of a label's least time both are one: it is said once.
    at = {row["key"]: row["at"] for row in shape["marks"]}
    under = [
        tag(row["key"], row["at"], row["x"], "start" if row["x"] < 350 else "end", (0, 1, 2, 3, 4))
        for row in sorted(shape["marks"], key=lambda row: int(row["x"]))
        if row["key"] not in ("laid", "likely" if at.get("likely") == at.get("by_table") else "")
    ]
    above = [tag("laid", shape["from"], 0, "start", (-1,))]
    if shape["now"] is not None:
        above.append(tag("now", now, shape["now"], "middle", (-1,)))
    return place_every([*under, *above])


def _told(tag: Tag, words: str, width: float) -> str:
    quiet = tag.key in ("laid", "now")
    y = 27 if tag.row < 0 else TOP + HIGH + 8 + tag.row * ROW + 24
    at = tag.left + {"start": 0, "end": tag.width}.get(tag.by, tag.width / 2)
    return _text(at * width / 1000, y, words, PENCIL if quiet else INK, tag.by, 400 if quiet else 650)


def _ribbon(shape: dict[str, Any], width: float, top: float, high: float) -> str:
    """Bands too narrow to be told apart, each going on under the next, so that no viewer shows a seam between them.

    No gradient: WeasyPrint makes a tile of it, and at some heights of the page a viewer shows none.
    """
    colours = [_colour(_shade(shape["shades"], band)) for band in range(BANDS)]
    starts = [band for band in range(BANDS) if band == 0 or colours[band] != colours[band - 1]]
    bands = "".join(
        f'<rect x="{2 + band * (width - 4) / BANDS:.1f}" y="{top + 2}" width="{(width - 4) * (1 - band / BANDS):.1f}"'
        f' height="{high - 4}" fill="{colours[band]}"/>'
        for band in starts
    )
    edge = f'<rect x="2" y="{top + 2}" width="{width - 4:.0f}" height="{high - 4}" stroke="{INK}" stroke-width="4"'
    return f'{bands}{edge} fill="none"/>'


def _shade(shades: list[int], band: int) -> int:
    """The shade in the middle of a band."""
    along = (2 * band + 1) * (len(shades) - 1)
    place, part = divmod(along, 2 * BANDS)
    return shades[place] + (shades[place + 1] - shades[place]) * part // (2 * BANDS)


def _colour(shade: int) -> str:
    """The mixture of two neighbours of wet, damp and dry."""
    low, high, part = (WET, DAMP, shade) if shade < 500 else (DAMP, DRY, shade - 500)
    return "#" + "".join(f"{a + (b - a) * part // 500:02x}" for a, b in zip(low, high, strict=True))


def _mark(key: str, x: float, tags: list[Tag]) -> str:
    """A line through the strip and down to its words: dashed for *likely*, whole *by the table*; a look is a notch."""
    row = next((tag.row for tag in tags if tag.key == key and tag.led), 0)
    look, at = key in ("wet", "dry", "set"), max(3, x)
    top, foot = (TOP + HIGH - 20 if look else TOP - 6), TOP + HIGH
    dash = ' stroke-dasharray="7 5"' if key == "likely" else ""
    wide = 7 if key == "by_table" else 4
    return (
        f'<path d="M{at:.0f} {top + 6}V{foot - 4}" stroke="#e9e4d6" stroke-width="{wide + 7}"/>'
        f'<path d="M{at:.0f} {top}V{foot + 6 + row * ROW}" stroke="{INK}" stroke-width="{wide}"{dash}/>'
    )


def _climate(shape: dict[str, Any], words: Words, width: float, top: float) -> list[str]:
    """Two step lines: temperature and relative humidity; each value stands where it begins, where it has room."""
    ticks = "".join(f"M{row['x'] * width / 1000:.0f} {top:.0f}v{2 * LANE + 5}" for row in shape["hours"])
    hours = [
        Tag(str(at), row["x"], int(len(words.hour(row["at"])) * LETTER * 1000 / width) + 1, "middle", (0,))
        for at, row in enumerate(shape["hours"])
    ]
    drawn = [f'<path d="{ticks}" stroke="{FOLD}" stroke-width="3"/>'] if ticks else []
    drawn += _lane(shape["air"], "temp", 60, words.temp, width, top)
    drawn += _lane(shape["air"], "rh", 25, words.rh, width, top + LANE)
    for tag in place_tags(hours):
        middle = (tag.left + tag.width / 2) * width / 1000
        hour = words.hour(shape["hours"][int(tag.key)]["at"])
        drawn.append(_text(middle, top + 2 * LANE + 29, hour, PENCIL, "middle"))
    return drawn


def _lane(
    steps: list[dict[str, int]], name: str, least: int, words: Callable[[int], str], width: float, top: float
) -> list[str]:
    values = [step[name] for step in steps]
    heights = [top + LANE - 6 - height * 17 / 1000 for height in lane(values, least)]
    line = "".join(
        f"{'L' if at else 'M'}{step['x'] * width / 1000:.0f} {y:.0f}H{step['to'] * width / 1000:.0f}"
        for at, (step, y) in enumerate(zip(steps, heights, strict=True))
    )
    drawn = [f'<path d="{line}" stroke="{PENCIL}" stroke-width="3.5" fill="none"/>']
    if steps[-1]["to"] < 1000:
        # Nobody has read it there yet: the latest reading goes on as dots.
        ahead = f"M{steps[-1]['to'] * width / 1000:.0f} {heights[-1]:.0f}H{width:.0f}"
        drawn.append(f'<path d="{ahead}" stroke="{PENCIL}" stroke-width="3.5" stroke-dasharray="3 8" fill="none"/>')
    figures = [words(value) for value in values]
    changes = [at for at, figure in enumerate(figures) if at == 0 or figure != figures[at - 1]]
    tags = [
        Tag(str(at), steps[at]["x"], int(len(figures[at]) * LETTER * 1000 / width) + 1, "start", (0,)) for at in changes
    ]
    return drawn + [_text(tag.left * width / 1000, top + 26, figures[int(tag.key)], INK) for tag in place_tags(tags)]


def _text(x: float, y: float, text: str, colour: str, by: str = "start", weight: int = 400) -> str:
    more = f' text-anchor="{by}"' if by != "start" else ""
    more += f' font-weight="{weight}"' if weight != 400 else ""
    return f'<text x="{x:.0f}" y="{y:.0f}" font-size="{SIZE}" fill="{colour}"{more}>{escape(text)}</text>'


def _svg(wide: float, high: float, body: str) -> str:
    font = f' font-family="{FONT}"' if "<text" in body else ""
    return (
        f'<svg class="strip" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.0f} {high:.0f}"{font}>{body}</svg>'
    )
