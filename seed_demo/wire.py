"""How a phone reaches a server: two transports of one shape, and the bytes that both sides hash.

Nothing of the server is imported: what is here is what any program needs that speaks to Rakelight.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import urllib.error
import urllib.request
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol

Json = dict[str, Any]


@dataclass(frozen=True)
class Reply:
    """Status and, when the answer was JSON, its body; otherwise an empty one."""

    status: int
    body: Json


class Transport(Protocol):
    """Anything that can send a request and bring the answer back."""

    def send(self, method: str, path: str, data: bytes, headers: Mapping[str, str]) -> Reply:
        """Raise ``OSError`` when nothing came back."""
        ...


class FlaskTransport:
    """Straight into an app of this process, without cookies: what a test client from ``app.test_client()`` offers."""

    def __init__(self, app: Any) -> None:
        self._client = app.test_client(use_cookies=False)

    def send(self, method: str, path: str, data: bytes, headers: Mapping[str, str]) -> Reply:
        """Run the request inside the app."""
        answer = self._client.open(path, method=method, data=data, headers=dict(headers))
        body = answer.get_json(silent=True)
        return Reply(answer.status_code, body if isinstance(body, dict) else {})


class UrlTransport:
    """Over the network to ``base``, for example ``http://127.0.0.1:8000``."""

    def __init__(self, base: str, timeout: float = 30) -> None:
        self._base, self._timeout = base.rstrip("/"), timeout

    def send(self, method: str, path: str, data: bytes, headers: Mapping[str, str]) -> Reply:
        """Send the request; an HTTP error is an answer like any other."""
        request = urllib.request.Request(self._base + path, data or None, dict(headers), method=method)
        try:
            with urllib.request.urlopen(request, timeout=self._timeout) as answer:
                return Reply(answer.status, _parsed(answer.read()))
        except urllib.error.HTTPError as error:
            with error:
                return Reply(error.code, _parsed(error.read()))


def call(transport: Transport, method: str, path: str, body: Json | None = None, token: str | None = None) -> Reply:
    """Send JSON, compressed when it is long enough to be worth it."""
    data = b"" if body is None else json.dumps(body, ensure_ascii=False, separators=(",", ":")).encode()
    headers = {"Content-Type": "application/json"} if body is not None else {}
    if token:
        headers["Authorization"] = f"Bearer {token}"
    if len(data) > 1400:
        data, headers["Content-Encoding"] = gzip.compress(data, 5), "gzip"
    return transport.send(method, path, data, headers)


def canonical(value: object) -> bytes:
    """RFC 8785 for the JSON that entries are made of: ASCII keys, whole numbers, text without lone surrogates."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False).encode()


def digest(value: object) -> str:
    """SHA-256 of the canonical bytes, as hex."""
    return hashlib.sha256(canonical(value)).hexdigest()


def _parsed(data: bytes) -> Json:
    try:
        body = json.loads(data)
    except ValueError:
        return {}
    return body if isinstance(body, dict) else {}
