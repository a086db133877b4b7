"""The types that kinds.json names: for each a check of one JSON value, and its JSON Schema for the description.

A check returns True for a good value. Whole numbers only, no lone surrogates, no control characters: canonical JSON
must be the same bytes wherever it is made.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from datetime import datetime
from typing import Any
from zoneinfo import available_timezones

from server.rules import tables

Check = Callable[[Any], bool]
UUID = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z"
UUID7 = r"^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}\Z"
KEY = r"^[a-z][a-z0-9_-]{0,39}\Z"
MINTED = r"^[a-z2-7]{8,10}\Z"
DEVICE = r"^[0-9A-Za-z_-]{1,64}\Z"
SHA256 = r"^[0-9a-f]{64}\Z"
INSTANT = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z\Z"
AT = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?(Z|[+-][0-9]{2}:[0-9]{2})\Z"
LONGEST, MOST, SAFE = 2000, 500, 2**53 - 1
BAD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")
WALLS = ("A", "B", "C", "D", "E", "F")
SURFACES = (*WALLS, "ceiling", "floor", "trim")


def text(value: Any) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST and not BAD.search(value)


def name(value: Any) -> bool:
    return text(value) and 0 < len(value.strip()) and len(value) <= 200


def passcode(value: Any) -> bool:
    """Anything that can be hashed; how good it is, people judge."""
    return isinstance(value, str) and 0 < len(value) <= 1000 and not re.search("[\ud800-\udfff]", value)


def pattern(regex: str) -> Check:
    match = re.compile(regex).match
    return lambda value: isinstance(value, str) and match(value) is not None


def one_of(*values: str) -> Check:
    return lambda value: isinstance(value, str) and value in values


def whole(least: int, most: int) -> Check:
    return lambda value: type(value) is int and least <= value <= most


def flag(value: Any) -> bool:
    return isinstance(value, bool)


def many(check: Check, most: int = MOST) -> Check:
    return lambda value: isinstance(value, list) and len(value) <= most and all(check(one) for one in value)


def row(*checks: Check) -> Check:
    """A list with one place for each check."""
    return lambda value: (
        isinstance(value, list)
        and len(value) == len(checks)
        and all(check(one) for check, one in zip(checks, value, strict=True))
    )


def record(**checks: Check) -> Check:
    """An object with these keys and no others; a key whose name ends in _ here may be absent."""
    needed = {key: check for key, check in checks.items() if not key.endswith("_")}
    spare = {key[:-1]: check for key, check in checks.items() if key.endswith("_")}
    known = needed | spare
    return lambda value: (
        isinstance(value, dict)
        and needed.keys() <= value.keys() <= known.keys()
        and all(known[key](one) for key, one in value.items())
    )


def keyed(key: Check, check: Check, most: int = 60) -> Check:
    return lambda value: (
        isinstance(value, dict) and len(value) <= most and all(key(k) and check(v) for k, v in value.items())
    )


def unique(check: Check) -> Check:
    return lambda value: many(check)(value) and len(set(value)) == len(value)


def instant(value: Any) -> bool:
    """UTC in whole seconds, and a day that exists."""
    return pattern(INSTANT)(value) and _exists(value)


def at(value: Any) -> bool:
    """The device's own time: any offset, any fraction."""
    return _at(value) and _exists(value)


def _exists(value: str) -> bool:
    try:
        moment = datetime.fromisoformat(value)
    except ValueError:
        return False
    return 1970 <= moment.year <= 9000


@functools.cache
def zones() -> frozenset[str]:
    return frozenset(available_timezones())


def zone(value: Any) -> bool:
    return isinstance(value, str) and value in zones()


def table_key(table: str) -> Check:
    return lambda value: isinstance(value, str) and value in tables(1)[table]


_at = pattern(AT)
key, uuid, uuid7, device, sha256 = pattern(KEY), pattern(UUID), pattern(UUID7), pattern(DEVICE), pattern(SHA256)
minted = pattern(MINTED)
mm, px, count = whole(0, 100_000), whole(0, 100_000), whole(0, SAFE)
at_px = row(px, px)
box = {"along": mm, "up": mm, "w": mm, "h": mm}
opening = record(kind=one_of("door", "window", "open"), **box)
wall = record(sight_=text, openings=many(opening, 40), things=many(record(name=name, **box), 40))
room = record(id=key, name=name, l=mm, w=mm, h=mm, walls=keyed(one_of("A", "B", "C", "D"), wall))
finish = record(level_=whole(0, 5), texture_=text, paint_=text, sheen_=text)
spot_words = record(across=one_of("left", "middle", "right"), height=one_of("low", "eye", "high"))
arrow = record(kind=one_of("arrow"), **{"from": at_px, "to": at_px})
ring = record(kind=one_of("ring"), at=at_px, r=px)
label = record(kind=one_of("text"), at=at_px, text=text)
exception = record(room=key, value=one_of("yes", "no", "na"), reason_=text, item_=uuid)


def mark(value: Any) -> bool:
    return arrow(value) or ring(value) or label(value)


def room_or_rest(value: Any) -> bool:
    """A room's key, or the star for every room that is not named."""
    return value == "*" or key(value)


def plain(value: Any, depth: int = 8) -> bool:
    """For bodies of kinds that this program does not know yet: they must still have canonical JSON."""
    if isinstance(value, dict):
        return depth > 0 and all(text(k) and k.isascii() and plain(v, depth - 1) for k, v in value.items())
    if isinstance(value, list):
        return depth > 0 and all(plain(one, depth - 1) for one in value)
    return value is None or flag(value) or text(value) or whole(-SAFE, SAFE)(value)


def anything(value: Any) -> bool:
    """For lists that only the server's own device writes."""
    return isinstance(value, list)


STRING, WHOLE, LIST, OBJECT = {"type": "string"}, {"type": "integer"}, {"type": "array"}, {"type": "object"}
TYPES: dict[str, tuple[Check, dict[str, Any]]] = {
    "answer": (one_of("yes", "no", "na"), {**STRING, "enum": ["yes", "no", "na"]}),
    "bytes": (whole(1, 64_000_000), WHOLE),
    "count": (count, WHOLE),
    "crews": (many(record(id=key, name=name), 60), {**LIST, "items": OBJECT}),
    "defect": (table_key("defects"), STRING),
    "exceptions": (many(exception), {**LIST, "items": OBJECT}),
    "finish": (keyed(room_or_rest, finish), OBJECT),
    "flag": (flag, {"type": "boolean"}),
    "id": (uuid, {**STRING, "format": "uuid"}),
    "ids": (many(uuid), {**LIST, "items": {**STRING, "format": "uuid"}}),
    "instant": (instant, {**STRING, "format": "date-time"}),
    "items_at": (many(row(uuid, px, px)), {**LIST, "items": LIST}),
    "key": (key, STRING),
    "keys": (many(key), {**LIST, "items": STRING}),
    "light": (one_of("normal", "raking"), {**STRING, "enum": ["normal", "raking"]}),
    "lines": (anything, LIST),
    "marks": (many(mark), {**LIST, "items": OBJECT}),
    "minutes": (whole(0, 100_000), WHOLE),
    "mm": (mm, {**WHOLE, "description": "millimetres"}),
    "people": (many(uuid, 60), {**LIST, "items": {**STRING, "format": "uuid"}}),
    "programme": (one_of("modular", "hud"), {**STRING, "enum": ["modular", "hud"]}),
    "px": (row(whole(1, 100_000), whole(1, 100_000)), {**LIST, "items": WHOLE}),
    "roles": (unique(table_key("roles")), {**LIST, "items": STRING}),
    "rooms": (many(room, 60), {**LIST, "items": OBJECT}),
    "sha256": (sha256, {**STRING, "description": "64 hex digits"}),
    "sheet": (table_key("sheets"), STRING),
    "shows": (one_of("before", "after", "wall", "sheet", "other"), STRING),
    "spot_words": (spot_words, OBJECT),
    "surface": (one_of(*SURFACES), {**STRING, "enum": list(SURFACES)}),
    "text": (text, STRING),
    "texts": (many(text), {**LIST, "items": STRING}),
    "zone": (zone, {**STRING, "description": "IANA time zone"}),
}
