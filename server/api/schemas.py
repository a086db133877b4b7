"""What requests must look like. Strict: a field that nobody asked for is refused."""

from __future__ import annotations

from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields

from server import loggers
from server.api import coat_types, types

ENTRIES = 500
TYPES = types.TYPES | coat_types.TYPES


class Told(fields.Raw):
    """A field that is taken as it came, when its check holds."""

    def __init__(self, check: types.Check, shape: dict[str, Any], *, required: bool = True, null: bool = False) -> None:
        super().__init__(required=required, allow_none=null, validate=self.judge, metadata=shape)
        self.check = check

    def judge(self, value: Any) -> None:
        most = self.metadata.get("maxItems")
        if isinstance(value, list) and most is not None and len(value) > most:
            raise ValidationError(f"At most {most} at once: send them in several calls.")
        if not self.check(value):
            raise ValidationError("Not a value this field takes.")


def checked(check: types.Check, shape: dict[str, Any], *, required: bool = True, null: bool = False) -> Told:
    return Told(check, shape, required=required, null=null)


def told(spec: str) -> Told:
    """A field from a type of kinds.json; a question mark at its end: may be absent."""
    check, shape = TYPES[spec.removesuffix("?")]
    return checked(check, shape, required=not spec.endswith("?"))


class Strict(Schema):
    class Meta:
        unknown = RAISE


def text(check: types.Check = types.text, *, required: bool = True, null: bool = False) -> Told:
    return checked(check, {"type": "string"}, required=required, null=null)


def number(check: types.Check = types.count, *, required: bool = True) -> Told:
    return checked(check, {"type": "integer", "minimum": 0}, required=required)


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
    """One push and pull. `form`: of the parts that the phone goes on from; without the server's own it gets none."""

    device = text(types.device)
    epoch = text()
    cursor = number()
    chain = text(null=True)
    last_n = number()
    open = checked(types.many(types.uuid), {"type": "array", "items": {"type": "string", "format": "uuid"}})
    sent_at = text(types.at)
    aside = checked(
        types.many(types.uuid), {"type": "array", "items": {"type": "string", "format": "uuid"}}, required=False
    )
    form = number(required=False)
    entries = checked(
        lambda value: isinstance(value, list), {"type": "array", "items": {"$ref": "#/components/schemas/Entry"}}
    )


class SignIn(Strict):
    name = text(types.name)
    passcode = text(types.passcode)
    device = text(types.minted, required=False)
    device_key = text(types.sha256, required=False)
    token = checked(types.flag, {"type": "boolean"}, required=False)


class Passcode(Strict):
    passcode = text(types.passcode)


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


class SensorAsk(Strict):
    """Where a sensor hangs: a module and maybe its room, or neither for the yard outside."""

    name = text(types.name)
    module = text(types.uuid, required=False)
    room = text(types.key, required=False)


class ReadingsAsk(Strict):
    """Rows of {at?, temp_c | temp_f, rh, surface_c? | surface_f?}, each judged alone."""

    rows = checked(
        lambda value: isinstance(value, list) and 0 < len(value) <= loggers.MOST_ROWS,
        {
            "type": "array",
            "minItems": 1,
            "maxItems": loggers.MOST_ROWS,
            "items": {
                "type": "object",
                "required": ["rh"],
                "properties": {
                    "at": {"type": "string", "format": "date-time", "description": "with an offset; without: now"},
                    "temp_c": {"type": "number"},
                    "temp_f": {"type": "number"},
                    "rh": {"type": "number", "minimum": 0, "maximum": 100},
                    "surface_c": {"type": "number"},
                    "surface_f": {"type": "number"},
                },
            },
        },
    )


class PlaceAsk(Strict):
    """Where a logger hung."""

    where = text(types.one_of("room", "module", "yard"))
    module = text(types.uuid, required=False)
    room = text(types.key, required=False)
    name = text(types.text, required=False)


def body_schema(kind: str, body: dict[str, str]) -> type[Schema]:
    """The schema of a kind's body, from its row in kinds.json."""
    return Strict.from_dict({name: told(spec) for name, spec in body.items()}, name=f"Body_{kind}")
