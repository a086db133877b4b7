"""Judging the entries of a push, each alone, so that one bad entry never holds up the ones behind it."""

from __future__ import annotations

import functools
import json
from typing import Any

import orjson
from marshmallow import Schema

from server.api import types
from server.api.problems import NotUnderstood
from server.api.schemas import Entry, Told, body_schema
from server.journal import Offered
from server.rules import heat_id, kind_of, sheet_id, stream_id

SERVER_GIVES = frozenset({"seq", "received_at", "time", "let_in", "seen_to", "chain"})
LARGEST = 64 * 1024


def judged(value: Any) -> Offered:
    """One offered entry, `malformed` or nothing; kinds this program does not know are the journal's to judge."""
    if not isinstance(value, dict):
        return Offered(None, as_bytes(value), "malformed")
    if not SERVER_GIVES.isdisjoint(value):
        # Taken entries are offered again after a restore as the phone keeps them.
        value = {key: one for key, one in value.items() if key not in SERVER_GIVES}
    raw = as_bytes(value)
    good = len(raw) <= LARGEST and well_formed(value)
    return Offered(value, raw, None if good else "malformed")


def well_formed(entry: dict[str, Any]) -> bool:
    """Whether the fields are good, and the body too where its kind is known."""
    if not accepts_entry()(entry) or (entry["prev"] is None) != (entry["n"] == 1):
        return False
    known = kind_row(entry["rules"], entry["kind"])
    if known is None:
        return types.plain(entry["body"])
    part, accepts_body = known
    if not accepts_body(entry["body"]):
        return False
    return spot_fits(entry["kind"], entry["body"]) and place_fits(entry) and about_fits(entry, part)


def spot_fits(kind: str, body: dict[str, Any]) -> bool:
    """A spot is measured both ways, or in words, or not at all."""
    if kind.startswith("item.") and ("along" in body) != ("up" in body):
        return False
    return not ("along" in body and "words" in body)


def place_fits(entry: dict[str, Any]) -> bool:
    """A coat on one wall is in one room; a reading says which room, module or yard, and nothing besides."""
    body = entry["body"]
    if entry["kind"] == "coat.laid":
        return "surface" not in body or len(body["rooms"]) == 1
    if not entry["kind"].startswith("reading."):
        return True
    where: str = body["where"]
    return (where == "room") == ("room" in body) and (where == "yard") == (entry["module"] is None)


def about_fits(entry: dict[str, Any], part: str) -> bool:
    """Whether `module` and `about` can belong to such a part."""
    if part in ("yard", "person", "plan", "forecast", "learned"):
        return entry["module"] is None
    if part == "air":
        return entry["module"] is None or entry["about"] == stream_id(entry["module"], entry["body"].get("room"))
    if part == "heat":
        return entry["module"] is not None and entry["about"] == heat_id(entry["module"])
    if part == "module":
        return entry["module"] is not None and entry["about"] == entry["module"]
    if part == "sheet":
        return entry["module"] is not None and entry["about"] == sheet_id(entry["module"], entry["body"]["sheet"])
    return part not in ("item", "photo", "coat") or entry["module"] is not None


def accepts(schema: Schema) -> types.Check:
    """Whether a schema of Told fields would load an object, without the errors.

    For an entry only yes or no counts, and five hundred of them come at once: the schema's own loop, which is made to
    explain, takes ten times as long over the same fields and checks.
    """
    fields = {name: one for name, one in schema.fields.items() if isinstance(one, Told)}
    rows = [(name, one.check, one.required, one.allow_none) for name, one in fields.items()]
    known, missing = schema.fields.keys(), object()

    def accept(value: Any) -> bool:
        if not value.keys() <= known:
            return False
        for name, check, required, null in rows:
            one = value.get(name, missing)
            if one is missing:
                if required:
                    return False
            elif not (check(one) if one is not None else null):
                return False
        return True

    return accept


@functools.cache
def accepts_entry() -> types.Check:
    return accepts(Entry())


# Bounded: a hostile phone could name kinds without end.
@functools.lru_cache(maxsize=256)
def kind_row(version: int, kind: str) -> tuple[str, types.Check] | None:
    """The part that a kind is about, and whether its schema accepts a body; None for what is not known yet."""
    row = kind_of({"rules": version, "kind": kind})
    return None if row is None else (row["part"], accepts(body_schema(kind, row["body"])()))


def as_bytes(value: Any) -> bytes:
    """The canonical bytes, or, for what has none, the plainest JSON that keeps it whole.

    For whole numbers and ASCII keys orjson gives the bytes of rules.canonical, in a tenth of the time.
    """
    try:
        return orjson.dumps(value, option=orjson.OPT_SORT_KEYS)
    except TypeError:
        return _plainest(value)


def _plainest(value: Any) -> bytes:
    try:
        return json.dumps(value, sort_keys=True, separators=(",", ":")).encode("ascii")
    except RecursionError as error:
        raise NotUnderstood("An entry is nested too deeply to be kept.") from error
