"""Canonical text, quickly: the bytes of rules.canonical for what a journal holds, in a tenth of its time."""

from __future__ import annotations

from typing import Any

import orjson


def quick(value: Any) -> bytes:
    """Only for whole numbers of 64 bits and ASCII keys; TypeError for a lone surrogate. The audit compares its work."""
    return orjson.dumps(value, option=orjson.OPT_SORT_KEYS)
