"""Who may say what. Judged where an entry is born and again, on the server's records, where it is taken."""

from __future__ import annotations

from typing import Any

from server.rules.vocabulary import tables


def may(
    person: dict[str, Any] | None, kind: str, body: dict[str, Any], existing: dict[str, Any] | None, version: int
) -> str | None:
    """None when a person (its part) may write this entry; else the reason key.

    `existing` is the part that the entry is about, where there is one.
    """
    row = tables(version)["kinds"].get(kind)
    if row is None:
        return "unknown_kind"
    roles = set(person["roles"]) if person else set()
    allowed = set(row["who"])
    if kind in ("sheet.answered", "sheet.signed"):
        sheet = tables(version)["sheets"].get(body.get("sheet"))
        if sheet is None:
            return "malformed"
        allowed &= set(sheet["sign" if kind == "sheet.signed" else "answer"])
    if kind == "coat.laid" and "early" in body:
        allowed &= set(tables(version)["schedule"]["cover_early"])
    if not roles & allowed:
        return "not_your_role"
    if kind == "person.named" and not roles & {"manager", "administrator"}:
        had = existing["roles"] if existing else []
        return "not_your_role" if body.get("roles") or had else None
    if kind == "person.named" and "administrator" not in roles:
        had = existing["roles"] if existing else []
        return "not_your_role" if "administrator" in [*body.get("roles", []), *had] else None
    return None
