"""What requests must look like. The envelope of a sync is strict; each entry in it is judged alone, by schemas built
from the kinds of the rules version that it names, so that one bad entry never holds up the ones behind it."""

from __future__ import annotations

import functools
import json
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields

from server.api import types
from server.journal import Offered
from server.rules import canonical, kind_of, known_version, sheet_id

SERVER_GIVES = frozenset({"seq", "received_at", "time", "let_in", "seen_to", "chain"})
ENTRY_BYTES, ENTRIES = 64 * 1024, 500


def checked(check: types.Check, shape: dict[str, Any], *, required: bool = True, null: bool = False) -> fields.Raw:
    """A field that is taken as it came, when the check holds."""

    def validate(value: Any) -> None:
        if not check(value):
            raise ValidationError("Not a value this field takes.")

    return fields.Raw(required=required, allow_none=null, validate=validate, metadata=shape)


def told(spec: str) -> fields.Raw:
    """A field from a type of kinds.json; a question mark at its end: may be absent."""
    check, shape = types.TYPES[spec.removesuffix("?")]
    return checked(check, shape, required=not spec.endswith("?"))


class Strict(Schema):
    class Meta:
        unknown = RAISE


def text(check: types.Check = types.text, *, required: bool = True, null: bool = False) -> fields.Raw:
    return checked(check, {"type": "string"}, required=required, null=null)


def number(check: types.Check = types.count) -> fields.Raw:
    return checked(check, {"type": "integer", "minimum": 0})


class Entry(Strict):
    """The phone's fields of one entry; `body` by its kind."""

    id = text(types.uuid7)
    device = text(types.device)
    n = number(types.whole(1, types.SAFE))
    prev = text(types.uuid, null=True)
    epoch = text(types.device)
    seen = number()
    at = text(types.at)
    by = text(lambda value: value == "server" or types.uuid(value))
    module = text(types.uuid, null=True)
    about = text(types.uuid)
    kind = text(types.pattern(r"^[a-z]+\.[a-z_]+\Z"))
    body = checked(lambda value: isinstance(value, dict), {"type": "object"})
    rules = number(types.whole(1, 10_000))
    proof = text(required=False)


class SyncAsk(Strict):
    """One push and pull."""

    device = text(types.device)
    epoch = text()
    cursor = number()
    chain = text(null=True)
    last_n = number()
    open = checked(types.many(types.uuid), {"type": "array", "items": {"type": "string", "format": "uuid"}})
    sent_at = text(types.at)
    entries = checked(
        lambda value: isinstance(value, list), {"type": "array", "items": {"$ref": "#/components/schemas/Entry"}}
    )


class SignIn(Strict):
    name = text(types.name)
    passcode = text(lambda value: isinstance(value, str) and 0 < len(value) <= 1000)
    device = text(types.device, required=False)
    token = checked(types.flag, {"type": "boolean"}, required=False)


class Passcode(Strict):
    passcode = text(lambda value: isinstance(value, str) and 0 < len(value) <= 1000)


class Reason(Strict):
    reason = text(types.name)


class ReleaseAsk(Strict):
    """The asking for a release: its id is made on the phone, and the same id gets the same answer."""

    id = text(types.uuid7)
    module = text(types.uuid)
    device = text(types.device)
    epoch = text()
    seen = number()
    chain = text(null=True)


@functools.cache
def entry_schema() -> Schema:
    return Entry()


@functools.cache
def body_schema(version: int, kind: str) -> Schema | None:
    """The schema of that kind's body; None when the version has no such kind."""
    row = kind_of({"rules": version, "kind": kind})
    if row is None:
        return None
    return Strict.from_dict({name: told(spec) for name, spec in row["body"].items()}, name=f"Body_{kind}")()


def judged(value: Any) -> Offered:
    """One offered entry, `malformed` or nothing; kinds this program does not know are the journal's to judge."""
    if not isinstance(value, dict):
        return Offered(None, as_bytes(value), "malformed")
    if not SERVER_GIVES.isdisjoint(value):
        # Taken entries are offered again after a restore as the phone keeps them.
        value = {key: one for key, one in value.items() if key not in SERVER_GIVES}
    raw = as_bytes(value)
    good = len(raw) <= ENTRY_BYTES and well_formed(value)
    return Offered(value, raw, None if good else "malformed")


def well_formed(entry: dict[str, Any]) -> bool:
    """Whether the fields are good, and the body too where its kind is known."""
    try:
        entry_schema().load(entry)
        schema = body_schema(entry["rules"], entry["kind"]) if known_version(entry["rules"]) else None
        if schema is None:
            return types.plain(entry["body"])
        schema.load(entry["body"])
    except ValidationError:
        return False
    return fits(entry)


def fits(entry: dict[str, Any]) -> bool:
    """What one field says about another."""
    body = entry["body"]
    if (entry["prev"] is None) != (entry["n"] == 1):
        return False
    if entry["kind"].startswith("item.") and ("along" in body) != ("up" in body):
        return False
    return not ("along" in body and "words" in body) and about_fits(entry)


def about_fits(entry: dict[str, Any]) -> bool:
    """Whether `module` and `about` can belong to a thing of that kind's part."""
    row = kind_of(entry)
    part = row["part"] if row else None
    if part in ("yard", "person", "plan"):
        return entry["module"] is None
    if part == "module":
        return entry["module"] is not None and entry["about"] == entry["module"]
    if part == "sheet":
        return entry["module"] is not None and entry["about"] == sheet_id(entry["module"], entry["body"]["sheet"])
    return part not in ("item", "photo") or entry["module"] is not None


def as_bytes(value: Any) -> bytes:
    """The canonical bytes, or, for what has none, the plainest JSON that keeps it whole."""
    try:
        return canonical(value)
    except (TypeError, ValueError):
        return json.dumps(value, sort_keys=True, separators=(",", ":")).encode("ascii")
