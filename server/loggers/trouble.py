"""What can be wrong with a reading or a file: a key with its values; the sentences are in words/loggers.json."""

from __future__ import annotations

import json
from typing import Any

Trouble = dict[str, Any]


class NotRead(Exception):
    """Something that cannot be read; `told` is {key, …values}."""

    def __init__(self, key: str, **values: Any) -> None:
        super().__init__(key)
        self.told: Trouble = {"key": key, **values}


def shown(text: str) -> str:
    """A cell as it can stand in a sentence: short, and nothing but what prints."""
    plain = "".join(one if one.isprintable() else "·" for one in text.strip())
    return plain if len(plain) <= 40 else f"{plain[:39]}…"


def shown_value(value: Any) -> str:
    """A value of a JSON body as its sender wrote it; of a list or an object, however deep, that it is one."""
    if isinstance(value, list | dict):
        return "[…]" if isinstance(value, list) else "{…}"
    return shown(value if isinstance(value, str) else json.dumps(value))
