"""Request bodies: compressed or not, never larger than allowed, checked by a schema; and compressing answers."""

from __future__ import annotations

import gzip
import json
import zlib
from collections.abc import Callable
from typing import Any

import brotli
import orjson
from flask import Response, request
from marshmallow import Schema, ValidationError

from server.api.problems import NotAccepted, NotUnderstood, TooLarge, WrongType

INFLATED = 8 * 1024 * 1024
WORTH_PACKING = 600
PACKERS: dict[str, Callable[[bytes], bytes]] = {
    "br": lambda data: brotli.compress(data, quality=4),
    "gzip": lambda data: gzip.compress(data, compresslevel=5, mtime=0),
}


def raw_body() -> bytes:
    """The body's bytes, inflated. 413 when that would be more than INFLATED, 415 for an unknown coding."""
    data = request.get_data(cache=False)
    coding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if coding in ("identity", ""):
        return data
    if coding != "gzip":
        raise WrongType("Content-Encoding may be gzip.", headers={"Accept-Encoding": "gzip"})
    return inflated(data)


def inflated(data: bytes) -> bytes:
    """One gzip member; stops as soon as the output passes the limit, however small the input."""
    stream = zlib.decompressobj(wbits=31)
    try:
        out = stream.decompress(data, INFLATED + 1)
    except zlib.error as error:
        raise NotUnderstood("The body is not gzip.") from error
    if len(out) > INFLATED:
        raise TooLarge(f"Inflated, a body may have {INFLATED} bytes.")
    if not stream.eof or stream.unused_data:
        raise NotUnderstood("The gzip body is cut off or goes on after its end.")
    return out


def read_json() -> Any:
    """The body as a JSON value; 400 when it is not JSON."""
    data = raw_body()
    try:
        return orjson.loads(data)
    except orjson.JSONDecodeError:
        return _read_slowly(data)


def _read_slowly(data: bytes) -> Any:
    """The standard library takes lone surrogates: those must cost one entry its place, not a whole push."""
    try:
        return json.loads(data.decode("utf-8"), parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        raise NotUnderstood("The body is not JSON.") from error


def _no_constant(name: str) -> Any:
    raise ValueError(f"{name} is not JSON")


def asked(schema: Schema) -> dict[str, Any]:
    """The JSON body, loaded by the schema; 422 with what is wrong by field."""
    value = read_json()
    if not isinstance(value, dict):
        raise NotUnderstood("The body must be a JSON object.")
    try:
        loaded: dict[str, Any] = schema.load(value)
    except ValidationError as error:
        raise NotAccepted("Some fields are not good.", fields=error.messages) from error
    return loaded


def said(value: Any, status: int = 200) -> Response:
    """A JSON answer; bytes are JSON already."""
    data = value if isinstance(value, bytes) else orjson.dumps(value)
    return Response(data, status=status, content_type="application/json")


def pack(response: Response) -> Response:
    """After each request: brotli or gzip for JSON answers, when asked for and worth it."""
    if response.mimetype not in ("application/json", "application/problem+json"):
        return response
    response.vary.add("Accept-Encoding")
    coding = next((one for one in PACKERS if request.accept_encodings.quality(one) > 0), None)
    data = response.get_data()
    if coding and len(data) >= WORTH_PACKING:
        response.set_data(PACKERS[coding](data))
        response.headers["Content-Encoding"] = coding
    return response
