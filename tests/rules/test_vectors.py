"""Every hand-written case of tests/vectors, on the server's side; vectors.test.ts runs the same on the phone's."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from server.rules import Workspace, canonical, fold, has_seen, holds, link, may, next_step, questions, sha256
from server.rules.seen import note, seen_all
from tests.rules.answers import run_before_paint, run_learned, run_ready_list, run_what_helps
from tests.rules.climates import run_climate, run_drying, run_ids, run_instants
from tests.rules.expand import NOW, VECTORS, case_files, differences, expand, expand_part, full_id, part_key, story
from tests.rules.places import run_clocks, run_schedule

Case = dict[str, Any]
CASES = [(name, case) for name, cases in case_files().items() for case in cases]
NOT_CASES = {"common", "schema"}


def run(name: str, given: Case) -> Case:
    """What the rules answer to a case of that file."""
    return RUNNERS.get(name, run_fold)(given)


def run_canonical(given: Case) -> Case:
    try:
        text = canonical(given["value"])
    except (UnicodeEncodeError, TypeError, ValueError):
        return {"refused": True}
    return {"text": text.decode("utf-8"), "sha256": sha256(text)}


def run_link(given: Case) -> Case:
    entry = canonical(given["entry"])
    return {"sha256": sha256(entry), "next": link(bytes.fromhex(given["previous"]), entry).hex()}


def run_seen(given: Case) -> Case:
    found: Case = {}
    later: Case = {"let_in": 0, **given["later"]} if "later" in given else {}
    if "earlier" in given:
        found["seen"] = has_seen(later, given["earlier"])
    objections: Case = given.get("objections", {})
    if "noted" in given:
        for entry in expand(given["noted"]):
            note(objections, entry)
        found["objections"] = objections
    if later and ("noted" in given or "objections" in given):
        found["seen_all"] = seen_all(later, objections)
    return found


def run_who(given: Case) -> Case:
    return {"may": may(given["person"], given["kind"], given.get("body", {}), given.get("existing"), 1)}


def run_fold(given: Case) -> Case:
    told = story(given.get("after"))
    work = Workspace(lambda kind, part_id: None)
    effects = fold(work, expand([*told, *given.get("entries", [])]))
    assert effects[: len(told)] == [None] * len(told), "every entry of a story takes effect"
    folded = {f"{kind} {part_id}": part for (kind, part_id), part in work.changed.items()}
    parts = [expand_part(part) for part in given["parts"]] if "parts" in given else list(folded.values())
    module = full_id(given.get("module", "m"))
    assert module is not None
    found = holds(module, parts, given.get("now", NOW))
    mine = next((part for part in parts if part["part"] == "module" and part["id"] == module), None)
    return {
        "effects": effects[len(told) :],
        "parts": folded,
        "holds": found,
        "questions": questions(mine, found) if mine else [],
        "next": {part["id"]: next_step(part, 1) for part in parts if part["part"] == "item"},
    }


RUNNERS = {
    "canonical": run_canonical,
    "climate": run_climate,
    "drying": run_drying,
    "ids": run_ids,
    "instants": run_instants,
    "link": run_link,
    "seen": run_seen,
    "who": run_who,
    "clocks": run_clocks,
    "schedule": run_schedule,
    "before_paint": run_before_paint,
    "learned": run_learned,
    "ready_list": run_ready_list,
    "what_helps": run_what_helps,
}


@pytest.mark.parametrize(("name", "case"), CASES, ids=[f"{name}: {case['name']}" for name, case in CASES])
def test_case(name: str, case: Case) -> None:
    """What comes out is what the trade wants."""
    expect = dict(case["expect"])
    found = json.loads(json.dumps(run(name, json.loads(json.dumps(case["given"])))))
    absent = [key for key in expect.pop("absent", []) if " ".join(part_key(key)) in found["parts"]]
    if "parts" in expect:
        expect["parts"] = {" ".join(part_key(key)): part for key, part in expect["parts"].items()}
    assert expect or "absent" in case["expect"], "a case expects something"
    assert differences(expect, found) == [], case["because"]
    assert absent == [], case["because"]


def test_no_case_file_is_left_out() -> None:
    """A file that is no list of cases would be run by neither side."""
    assert {path.stem for path in VECTORS.glob("*.json")} - set(case_files()) <= NOT_CASES
    assert {path.suffix for path in VECTORS.iterdir()} <= {".json", ".md"}
    assert {name for name, cases in case_files().items() if not cases} == set()


@pytest.mark.parametrize("name", sorted(case_files()))
def test_form(name: str) -> None:
    """Each file has the form that README.md tells, and no two cases of one name."""
    schema = json.loads((VECTORS / "schema.json").read_text("utf-8"))
    cases = case_files()[name]
    jsonschema.Draft202012Validator(schema).validate(cases)
    assert len({case["name"] for case in cases}) == len(cases)
