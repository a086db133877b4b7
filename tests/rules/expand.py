"""Compact vectors written out (see tests/vectors/README.md), and the one way in which an answer is compared."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from server.rules import seconds
from server.rules.drying import rate

VECTORS = Path(__file__).parents[1] / "vectors"
COMMON: dict[str, Any] = json.loads((VECTORS / "common.json").read_text("utf-8"))
NOW = "2026-12-02T20:00:00Z"


def case_files() -> dict[str, list[dict[str, Any]]]:
    """The cases by file name."""
    read = {path.stem: json.loads(path.read_text("utf-8")) for path in sorted(VECTORS.glob("*.json"))}
    return {name: cases for name, cases in read.items() if isinstance(cases, list)}


def full_id(short: str | None) -> str | None:
    """An id for its short name; others as they are."""
    return COMMON["ids"].get(short, short) if short is not None else None


def part_key(text: str) -> tuple[str, str]:
    """("item", "i1") for "item i1"."""
    kind, _, short = text.partition(" ")
    return kind, str(full_id(short))


def story(name: str | None) -> list[dict[str, Any]]:
    """The compact entries of a story, those it goes on from first."""
    if name is None:
        return []
    told = COMMON["stories"][name]
    return [*story(told.get("after")), *told["entries"]]


def expand(compact: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Full entries for compact ones."""
    entries: list[dict[str, Any]] = []
    last: dict[str, dict[str, Any]] = {}
    for place, raw in enumerate(compact, start=1):
        device = raw.get("device", "server" if _starts(raw["kind"], "server_kinds") else "d1")
        before = last.get(device)
        seq = raw.get("seq", entries[-1]["seq"] + 1 if entries else 1)
        seen_to = raw.get("seen_to", seq - 1)
        time = raw.get("time", f"2026-12-02T14:{place:02}:00Z")
        module = full_id(raw["module"] if "module" in raw else None if _starts(raw["kind"], "no_module") else "m")
        entry = {
            "id": f"00000000-0000-7000-9000-{place:012}",
            "device": device,
            "n": before["n"] + 1 if before else 1,
            "prev": before["id"] if before else None,
            "epoch": "e",
            "seen": seen_to,
            "at": time,
            "by": "p" + device[1:] if device != "server" else "server",
            "body": {},
            "rules": 1,
            "seq": seq,
            "received_at": time,
            "time": time,
            "let_in": 0,
            "seen_to": seen_to,
            **raw,
            "module": module,
            "about": full_id(raw["about"]) if "about" in raw else _about(raw, module),
        }
        entries.append(entry)
        last[device] = entry
    return entries


def expand_part(raw: dict[str, Any]) -> dict[str, Any]:
    """A whole part for one with fields left out."""
    part = {**COMMON["parts"][raw["part"]], **raw}
    if part["part"] == "air":
        part["rows"] = [_row(*row) for row in part["rows"]]
    return {**part, "id": full_id(part["id"]), "module": full_id(part["module"])}


def differences(wanted: Any, found: Any, where: str = "") -> list[str]:
    """Where `found` is not as `wanted` asks; an empty list when it is."""
    if isinstance(wanted, dict) and set(wanted) == {"="}:
        return [] if wanted["="] == found else [f"{where}: wanted exactly {wanted['=']!r}, found {found!r}"]
    if isinstance(wanted, dict) and isinstance(found, dict):
        missing = [f"{where}.{key}: missing" for key in wanted if key not in found]
        there = [key for key in wanted if key in found]
        return missing + [row for key in there for row in differences(wanted[key], found[key], f"{where}.{key}")]
    if isinstance(wanted, list) and isinstance(found, list) and len(wanted) == len(found):
        pairs = enumerate(zip(wanted, found, strict=True))
        return [row for at, pair in pairs for row in differences(*pair, f"{where}[{at}]")]
    return [] if wanted == found else [f"{where}: wanted {wanted!r}, found {found!r}"]


def _row(at: str, temp: int, rh: int, surface: int | None = None) -> list[Any]:
    """A row as the fold keeps it, for [instant, temperature, RH] and maybe the surface's temperature."""
    return [seconds(at), temp, rh, rate(temp, rh, 1), surface, "hand", "p1", None]


def _starts(kind: str, key: str) -> bool:
    return any(kind.startswith(start) for start in COMMON[key])


def _about(raw: dict[str, Any], module: str | None) -> str | None:
    thing = raw["kind"].split(".")[0]
    body = raw.get("body", {})
    if thing == "sheet":
        return full_id(body["sheet"] + ("_b" if module == COMMON["ids"]["mb"] else ""))
    if thing == "entry":
        return str(body["entry"])
    about: str | None = COMMON["about"].get(thing, module)
    return about
