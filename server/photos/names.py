"""The only place that decides what may become part of a path."""

from __future__ import annotations

import re
from hashlib import sha256

from server.photos.errors import NotAName

# [0-9a-f] and \Z, not \d and $: \d takes digits of every script, and $ lets a line end through.
_NAME = re.compile(r"[0-9a-f]{64}\Z")


def checked(name: str) -> str:
    """The name itself when it is 64 lower-case hexadecimal digits; NotAName otherwise."""
    if not isinstance(name, str) or not _NAME.match(name):
        raise NotAName("a photo is named by 64 lower-case hexadecimal digits")
    return name


def name_of(data: bytes) -> str:
    """The name that these bytes have: their SHA-256 in hexadecimal."""
    return sha256(data).hexdigest()
