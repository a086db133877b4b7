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
    return _may_name(person, roles, body, existing) if kind == "person.named" else None


def _may_name(
    person: dict[str, Any] | None, roles: set[str], body: dict[str, Any], existing: dict[str, Any] | None
) -> str | None:
    """Who has no role has no account: a crew lead names such people, and amends only them."""
    wanted, had = body.get("roles", []), existing["roles"] if existing else []
    if not roles & {"manager", "administrator"}:
        return "not_your_role" if wanted or had else None
    if "administrator" not in roles:
        return "not_your_role" if "administrator" in [*wanted, *had] else None
    # Only another administrator takes the role away: so one always stays, whoever writes offline.
    own = existing is not None and person is not None and existing.get("id") == person.get("id")
    return "own_administrator" if own and "administrator" in had and "administrator" not in wanted else None
