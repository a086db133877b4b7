"""The sentences of server/words/*.json, the same that the phones use."""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path
from typing import Any

LANGUAGES = ("en", "es")
_FOLDER = Path(__file__).parents[1] / "words"


class UnknownWords(LookupError):
    """A key without a sentence: a mistake of ours, which must not reach paper as a key."""


@lru_cache(maxsize=1)
def _table() -> dict[str, dict[str, str]]:
    table: dict[str, dict[str, str]] = {}
    for file in sorted(_FOLDER.glob("*.json")):
        table.update(json.loads(file.read_text("utf-8")))
    return table


def knows(key: str) -> bool:
    """Whether there is a sentence of this key."""
    return key in _table()


def say(key: str, lang: str, **values: Any) -> str:
    """The sentence with its values in place. UnknownWords when the key, the language or a value is missing."""
    sentences = _table().get(key, {})
    if lang not in sentences:
        raise UnknownWords(f"no {lang} sentence for {key!r}")
    try:
        return sentences[lang].format(**values)
    except (KeyError, IndexError) as missing:
        raise UnknownWords(f"{key!r} in {lang} wants a value for {missing}") from missing


def say_n(key: str, n: int, lang: str, **values: Any) -> str:
    """The sentence for one, or for any other number."""
    return say(f"{key}_{'one' if n == 1 else 'other'}", lang, n=n, **values)
