"""One byte string for one value: RFC 8785 for the subset that entries and parts use.

Numbers are whole, keys ASCII, texts free of lone surrogates, so sorted tight JSON is already canonical.
"""

from __future__ import annotations

import hashlib
import json
from typing import Any

ENCODER = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
FIRST_LINK = bytes(32)
PHONE_FIELDS = ("id", "device", "n", "prev", "epoch", "seen", "at", "by", "module", "about", "kind", "body", "rules")


def canonical(value: Any) -> bytes:
    """UTF-8 of the canonical text; UnicodeEncodeError for a lone surrogate."""
    return ENCODER.encode(value).encode("utf-8")


def sha256(data: bytes) -> str:
    """Hex SHA-256."""
    return hashlib.sha256(data).hexdigest()


def link(previous: bytes, entry: bytes) -> bytes:
    """The next 32 bytes of the chain from the last 32 and an entry's canonical bytes, server fields included."""
    return hashlib.sha256(previous + entry).digest()
