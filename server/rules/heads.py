"""Fields that two people may write without knowing of each other: every value nobody has overruled stays a head."""

from __future__ import annotations

from typing import Any

from server.rules.canonical import canonical
from server.rules.seen import Entry, has_seen, ref_of

Heads = dict[str, list[list[Any]]]


def put(heads: Heads, field: str, value: Any, entry: Entry) -> bool:
    """Writes a value: heads its author had seen go, others stay beside it. True when the shown value changed."""
    before = heads.get(field, [])
    kept = [head for head in before if not has_seen(entry, head[1])]
    heads[field] = [*kept, [value, ref_of(entry), entry["by"]]]
    return not before or any(canonical(head[0]) != canonical(value) for head in before)


def value(heads: Heads, field: str) -> Any:
    """The latest value of a field, None when nobody wrote it."""
    found = heads.get(field)
    return found[-1][0] if found else None


def values(heads: Heads, field: str) -> list[Any]:
    """The different values of a field, in journal order."""
    different: dict[bytes, Any] = {}
    for head in heads.get(field, []):
        different.setdefault(canonical(head[0]), head[0])
    return list(different.values())


def undecided(heads: Heads) -> list[str]:
    """The fields with two values that nobody has decided between, sorted."""
    return sorted(field for field in heads if len(heads[field]) > 1 and len(values(heads, field)) > 1)


def latest_seq(heads: Heads, field: str) -> int:
    """The seq of the latest head of a field."""
    return max(int(head[1][0]) for head in heads[field])
