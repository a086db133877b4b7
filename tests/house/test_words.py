"""Nothing is half there: what a table or the code can name has its step, its sentences, its vector, its description."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from typing import Any

import click
import pytest
from flask import Flask

from server.bootstrap.places import ROOT
from server.cli import main
from server.rules import CURRENT, STEPS, tables

TABLES = tables(CURRENT)
KINDS = sorted(TABLES["kinds"])
TOPICS = sorted((ROOT / "server" / "words").glob("*.json"))
WORDS: dict[str, dict[str, str]] = {
    key: sentences for topic in TOPICS for key, sentences in json.loads(topic.read_text("utf-8")).items()
}


CODE = "\n".join(
    path.read_text("utf-8")
    for folder in (ROOT / "server", ROOT / "webclient" / "src")
    for path in sorted(folder.rglob("*.*"))
    if path.suffix in (".py", ".html", ".ts", ".tsx", ".json")
    and not {"words", "static"} & set(path.relative_to(folder).parts)
)


def steps_on_the_phone() -> set[str]:
    text = (ROOT / "webclient" / "src" / "rules" / "fold.ts").read_text("utf-8")
    return set(re.findall(r'^ {2}"([a-z]+\.[a-z_]+)": \w+\.\w+,$', text, re.MULTILINE))


def compact_entries(value: Any) -> Iterator[dict[str, Any]]:
    """Every object in the vectors that has a kind, wherever it stands."""
    if isinstance(value, dict):
        if isinstance(value.get("kind"), str):
            yield value
        value = list(value.values())
    if isinstance(value, list):
        for one in value:
            yield from compact_entries(one)


def kinds_in_vectors() -> set[str]:
    files = sorted((ROOT / "tests" / "vectors").glob("*.json"))
    return {one["kind"] for file in files for one in compact_entries(json.loads(file.read_text("utf-8")))}


def hold_keys() -> set[str]:
    """What the gate calls its holds, on the server."""
    trees = [ast.parse((ROOT / "server" / "rules" / file).read_text("utf-8")) for file in ("gate.py", "coat_holds.py")]
    rows = [one for tree in trees for one in ast.walk(tree) if isinstance(one, ast.Dict)]
    pairs = [pair for row in rows for pair in zip(row.keys, row.values, strict=True)]
    named = [value for key, value in pairs if isinstance(key, ast.Constant) and key.value == "key"]
    texts = [str(one.value) for value in named for one in ast.walk(value) if isinstance(one, ast.Constant)]
    return {text for text in texts if re.fullmatch(r"[a-z]+(_[a-z]+)+", text)}


def hold_keys_on_the_phone() -> set[str]:
    files = [ROOT / "webclient" / "src" / "rules" / file for file in ("gate.ts", "coat_holds.ts")]
    return {key for file in files for key in re.findall(r'\bkey: "([a-z_]+)"', file.read_text("utf-8"))}


HOLE = r"\$?\{(?:[^{}]|\{[^{}]*\})*\}"


def keys_in_code() -> list[re.Pattern[str]]:
    """The keys that code names, whole or with holes in them, such as `steps.${step}`."""
    topics = "|".join(topic.stem for topic in TOPICS)
    told = set(re.findall(rf"""["'`]((?:{topics})\.(?:[\w.]|{HOLE})+)["'`]""", CODE))
    return [re.compile("(.+)".join(map(re.escape, re.split(HOLE, key)))) for key in sorted(told)]


def words_for_holes() -> set[str]:
    """What may stand in a hole: words in quotes, names of fields, and the two halves of a quoted key."""
    quoted = set(re.findall(r"""["'`](\w[\w .]*)["'`]""", CODE))
    halves = {half for one in quoted for half in one.split(".")}
    return {one.replace(" ", "_") for one in quoted | halves} | set(re.findall(r"\b(\w+):", CODE))


def said(key: str) -> bool:
    """Whether there is a sentence, or one for one and one for many."""
    return key in WORDS or {f"{key}_one", f"{key}_other"} <= WORDS.keys()


def test_kinds_have_a_step_on_both_sides() -> None:
    assert set(STEPS) == set(KINDS)
    assert steps_on_the_phone() == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_kinds_have_a_sentence_and_a_vector(kind: str) -> None:
    assert said(f"kinds.{kind}")
    assert kind in kinds_in_vectors()


def test_defects_steps_reasons_roles_and_sheets_have_sentences() -> None:
    defects = TABLES["defects"]
    wanted = [f"defects.{name}" for name in defects]
    wanted += [f"steps.{step}" for row in defects.values() for step in row["steps"]]
    wanted += [f"reasons.{name}" for names in TABLES["reasons"].values() for name in names]
    wanted += [f"yard.role.{name}" for name in TABLES["roles"]]
    for sheet, row in TABLES["sheets"].items():
        wanted += [f"yard.sheet.{sheet}", *(f"sheets.{sheet}.{line}" for line in row["lines"])]
    assert [key for key in wanted if not said(key)] == []


def test_holds_have_sentences_and_the_same_names_on_both_sides() -> None:
    assert len(hold_keys()) >= 14
    assert hold_keys_on_the_phone() == hold_keys()
    assert [key for key in sorted(hold_keys()) if not said(f"holds.{key}")] == []


@pytest.mark.parametrize("topic", TOPICS, ids=[topic.stem for topic in TOPICS])
def test_words_are_in_both_languages_with_the_same_holes(topic: Any) -> None:
    for key, sentences in json.loads(topic.read_text("utf-8")).items():
        assert key.startswith(f"{topic.stem}."), key
        assert list(sentences) == ["en", "es"], key
        assert all(text.strip() for text in sentences.values()), key
        holes = [set(re.findall(r"\{\w+\}", text)) for text in sentences.values()]
        assert holes[0] == holes[1], key


def test_every_sentence_is_said_somewhere() -> None:
    keys, words = keys_in_code(), words_for_holes()

    def named(key: str) -> bool:
        return any((match := one.fullmatch(key)) and words.issuperset(match.groups()) for one in keys)

    # A count is named without its end.
    unsaid = [key for key in WORDS if not named(key) and not named(re.sub("_(one|other)$", "", key))]
    assert unsaid == []


def test_every_route_is_in_the_description(app: Flask) -> None:
    paths = app.test_client().get("/api/openapi.json").get_json()["paths"]
    routes = {re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule) for rule in app.url_map.iter_rules()}
    assert {route for route in routes if route.startswith("/api/")} == set(paths)
    assert all(one["summary"] for operations in paths.values() for one in operations.values())


@pytest.mark.parametrize("name", sorted(main.commands))
def test_every_command_has_help(name: str) -> None:
    command = main.commands[name]
    assert len(command.help or "") > 20
    assert all(option.help for option in command.params if isinstance(option, click.Option))
