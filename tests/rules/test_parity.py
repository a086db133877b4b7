"""Both languages fold the same random journals and must give the same bytes: parts, reasons, holds, questions, chain.

What a run finds becomes a hand-written vector. The counts are asserted too: a run in which nothing happened proves
nothing.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

from server.rules import (
    FIRST_LINK,
    STEPS,
    Workspace,
    canonical,
    fold,
    holds,
    link,
    needs_after_photo,
    next_step,
    questions,
    sha256,
)
from tests.rules.bundled import on_the_phone
from tests.rules.journals import Entry, journal

SCRIPT = Path(__file__).with_name("parity.ts")
JOURNALS = 500
NOW = "2026-12-02T20:00:00Z"
# What an entry without effect, a hold and a part may say; each must have happened this often at least.
LEAST = {
    "no_such_thing": 100,
    "exists_already": 50,
    "unseen_objection": 100,
    "not_cleared": 100,
    "hands_on_it": 50,
    "needs_after_photo": 50,
    "unanswered_lines": 50,
    "unseen_work": 20,
    "not_released": 20,
    "another_release": 20,
    "no_change": 50,
    "void_item": 50,
    "unknown_kind": 50,
    "items_open": 500,
    "items_cleared": 100,
    "fact_undecided": 20,
    "item_undecided": 100,
    "sheet_stale": 50,
    "sheet_unsigned": 500,
    "sheet_undecided": 50,
    "photos_missing": 100,
    "phone_behind": 50,
    "entry_set_aside": 50,
    "closed": 100,
    "void": 50,
    "ended close": 50,
    "ended clear": 50,
    "ended void": 20,
    "signed": 100,
    "released": 100,
    "pulled back": 20,
    "answered": 50,
    "questioned": 100,
    "let in": 200,
    "let in without effect": 20,
    "pending": 200,
    "written off": 20,
    "back again": 20,
    "aside objection": 20,
    "overtaken": 50,
    "void_coat": 20,
    "malformed": 20,
    "in_the_future": 50,
    "too_old": 20,
    "wet": 100,
    "dry": 100,
    "tried dry": 50,
    "sanded": 50,
    "covered": 200,
    "unsure": 20,
    "heard below": 50,
    "ended dry": 50,
    "ended answer": 10,
}


def test_both_languages_fold_alike(tmp_path: Path) -> None:
    """500 journals, hash by hash."""
    given, wanted, counts = [], [], Counter[str]()
    for seed in range(JOURNALS):
        entries = journal(seed)
        modules = sorted({entry["about"] for entry in entries if entry["kind"] == "module.added"})
        given.append({"seed": seed, "entries": entries, "modules": modules, "now": NOW})
        wanted.append(answer_to(seed, entries, modules, counts))
    found = on_the_phone(SCRIPT, given, tmp_path)
    print("\n".join(f"{count:7} {name}" for name, count in sorted(counts.items())))
    for one, other in zip(wanted, found, strict=True):
        assert one == other, f"journal {one['seed']}"
    missing = {name: counts[name] for name, least in LEAST.items() if counts[name] < least}
    assert missing == {}, "too little happened"
    assert {kind for kind in STEPS if counts[f"took effect: {kind}"] < 20} == set()


def answer_to(seed: int, entries: list[Entry], modules: list[str], counts: Counter[str]) -> dict[str, Any]:
    """The hashes of everything that folding gives."""
    work = Workspace(lambda kind, part_id: None)
    effects = fold(work, entries)
    parts = dict(sorted((f"{kind} {part_id}", part) for (kind, part_id), part in work.changed.items()))
    stops = [holds(module, parts.values(), NOW) for module in modules]
    asked = [questions(parts[f"module {module}"], found) for module, found in zip(modules, stops, strict=True)]
    items = [part for part in parts.values() if part["part"] == "item"]
    chain = FIRST_LINK
    for entry in entries:
        chain = link(chain, canonical(entry))
    count_entries(entries, effects, counts)
    count_parts(list(parts.values()), counts)
    counts.update(hold["key"] for found in stops for hold in found)
    counts["questioned"] += sum(map(bool, asked))
    return {
        "seed": seed,
        "effects": effects,
        "parts": {key: digest(part) for key, part in parts.items()},
        "modules": [[digest(found), digest(open_)] for found, open_ in zip(stops, asked, strict=True)],
        "items": digest([[item["id"], next_step(item, 1), needs_after_photo(item, 1)] for item in items]),
        "chain": digest(list(chain)),
    }


def count_entries(entries: list[Entry], effects: list[str | None], counts: Counter[str]) -> None:
    """What the entries did."""
    for entry, effect in zip(entries, effects, strict=True):
        counts[effect or f"took effect: {entry['kind']}"] += 1
        counts["let in"] += entry["let_in"]
        counts["let in without effect"] += bool(entry["let_in"] and effect)
        counts["pending"] += entry["seq"] >= 10**15


def count_parts(parts: list[dict[str, Any]], counts: Counter[str]) -> None:
    """What the parts tell."""
    for part in parts:
        counts.update(f"ended {name}" for line in part.get("lines", []) for name in line.get("ended", []))
        counts["aside objection"] += "*" in part.get("objections", {})
        for cell in part.get("cells", {}).values() if part["part"] == "coat" else []:
            counts["wet"] += bool(cell["wet"])
            counts["dry"] += bool(cell["dry"])
            counts["tried dry"] += bool(cell["dry"] and cell["dry"]["tried"] and cell["dry"]["reason"])
            counts["sanded"] += bool(cell["restart"])
            counts["aside objection"] += "*" in cell["objections"]
        counts["covered"] += bool(part.get("covered_by"))
        counts["unsure"] += part.get("unsure", 0)
        counts["heard below"] += any("under" in line for line in part.get("lines", []))
        counts["closed"] += part.get("state") == "closed"
        counts["void"] += part.get("state") == "void"
        counts["signed"] += bool(part.get("sign"))
        counts["written off"] += bool(part.get("written_off"))
        counts["back again"] += bool(part.get("written_off_to"))
        counts["released"] += bool(part.get("release"))
        counts["pulled back"] += len(part.get("releases", []))
        counts["answered"] += len(part.get("answers", []))


def digest(value: Any) -> str:
    """Hex SHA-256 of the canonical bytes."""
    return sha256(canonical(value))
