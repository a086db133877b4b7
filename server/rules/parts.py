"""What a fold works on: parts by (kind, id), and which of them it touched."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any
from uuid import UUID, uuid5

from server.rules.seen import Entry

Part = dict[str, Any]
Get = Callable[[str, str], Part | None]


class Workspace:
    """Parts under work.

    `get` hands over a part that nobody else holds (or None); steps change it in place after `edit` or `make`, and
    `changed` tells which to keep. So a fold is pure seen from outside without copying a part for every entry.
    """

    def __init__(self, get: Get) -> None:
        self._get = get
        self._parts: dict[tuple[str, str], Part | None] = {}
        self.changed: dict[tuple[str, str], Part] = {}

    def part(self, kind: str, part_id: str) -> Part | None:
        """A part to read."""
        key = (kind, part_id)
        if key not in self._parts:
            self._parts[key] = self._get(kind, part_id)
        return self._parts[key]

    def edit(self, kind: str, part_id: str, entry: Entry) -> Part | None:
        """A part to change, marked as touched by this entry; None when there is none."""
        part = self.part(kind, part_id)
        if part is not None:
            part["seq"] = entry["seq"]
            self.changed[(kind, part_id)] = part
        return part

    def make(self, kind: str, part_id: str, entry: Entry, fields: Part) -> Part:
        """A new part."""
        part = {"part": kind, "id": part_id, "module": entry["module"], "seq": entry["seq"], **fields}
        self._parts[(kind, part_id)] = part
        self.changed[(kind, part_id)] = part
        return part


@functools.lru_cache(maxsize=8192)
def child_id(namespace: str, name: str) -> str:
    """UUIDv5, so that two phones mean the same thing by the same name."""
    return str(uuid5(UUID(namespace), name))


def sheet_id(module: str, sheet: str) -> str:
    """The id of a module's sheet by its key."""
    return child_id(module, sheet)


def line(part: Part, entry: Entry, why_not: str | None = None, **extra: Any) -> None:
    """Adds an entry to a part's history, with the reason when it had no effect."""
    row: Part = {"kind": entry["kind"], "by": entry["by"], "time": entry["time"]}
    if why_not:
        row["no"] = why_not
    if entry["let_in"]:
        row["let_in"] = 1
    row.update(extra)
    part["lines"].append(row)
