"""What was wrong with a row or a file, in words; screens have the same sentences by the same key."""

from __future__ import annotations

from typing import Any

from server.api.problems import NotAccepted
from server.loggers import NotRead, Trouble
from server.reports import say


def in_words(trouble: Trouble) -> dict[str, Any]:
    """The trouble with an English sentence: {key, …values, text}."""
    return {**trouble, "text": sentence(trouble)}


def sentence(trouble: Trouble) -> str:
    return say(f"loggers.{trouble['key']}", "en", **{name: one for name, one in trouble.items() if name != "key"})


def unread(error: NotRead) -> NotAccepted:
    """A file of which nothing can be read, as a problem."""
    return NotAccepted(sentence(error.told), trouble=in_words(error.told))
