"""The laws of the rooms, read from the import statements: arrows one way, front doors, pure rules, no rings.

Imports in server/ are absolute (ruff sees to it), so a few lines of `ast` tell the whole truth.
"""

from __future__ import annotations

import ast
import functools
import importlib
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GROUND = {"db", "clock"}
# What each room may reach. The three in the middle do not know each other: only `reports` and `api` put them together.
ARROWS: dict[str, set[str]] = {
    "rules": set(),
    "clock": set(),
    "db": set(),
    "settings": set(),
    "bootstrap": set(),
    "migrations": {"db"},
    "loggers": set(),
    "journal": GROUND | {"rules"},
    "photos": GROUND | {"rules"},
    "people": GROUND | {"rules"},
    "reports": GROUND | {"rules", "journal", "photos", "people"},
    "api": GROUND | {"rules", "journal", "photos", "people", "reports", "loggers", "settings"},
    "app": GROUND | {"api", "journal", "migrations", "settings"},
    "cli": GROUND | {"rules", "journal", "photos", "people", "reports", "loggers", "app", "settings"},
}
ROOMS = ("rules", "loggers", "journal", "photos", "people", "reports", "api")
# No clock, no randomness, no `math`, nothing that reads the outside but the tables' own files.
PURE = {"__future__", "typing", "bisect", "collections", "functools", "hashlib", "json", "operator", "pathlib", "uuid"}


def imported(path: Path) -> Iterator[str]:
    """The modules that a file imports; `from server import journal` is server.journal.

    A name at a door may also be a file behind it: it is the file only for the room's own files, or when the door does
    not open it.
    """
    own = module_of(path).split(".")[:2]
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            module = node.module or ""
            for name in node.names:
                longer = f"{module}.{name.name}"
                at_door = module.split(".") != own and name.name in opened(module)
                yield longer if is_module(longer) and not at_door else module


@functools.cache
def opened(room: str) -> frozenset[str]:
    return frozenset(importlib.import_module(room).__all__) if room.removeprefix("server.") in ROOMS else frozenset()


def is_module(name: str) -> bool:
    path = ROOT.joinpath(*name.split("."))
    return name.startswith("server.") and (path.with_suffix(".py").is_file() or (path / "__init__.py").is_file())


def module_of(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def server_files() -> list[Path]:
    return sorted((ROOT / "server").rglob("*.py"))


def outside() -> list[Path]:
    return sorted((ROOT / "seed_demo").rglob("*.py"))


def test_arrows_go_one_way() -> None:
    wrong = []
    for path in server_files():
        room = module_of(path).split(".")[1] if path.parent != ROOT / "server" or path.stem != "__init__" else ""
        for name in imported(path):
            reached = name.split(".")[1] if name.startswith("server.") else room
            if reached != room and reached not in ARROWS[room]:
                wrong.append(f"{module_of(path)} -> {name}")
    assert wrong == []


@pytest.mark.parametrize("path", [*server_files(), *outside()], ids=module_of)
def test_rooms_are_entered_by_the_front_door(path: Path) -> None:
    own = module_of(path).split(".")[:2]
    for name in imported(path):
        words = name.split(".")
        if words[0] == "server" and len(words) > 2 and words[1] in ROOMS:
            assert words[:2] == own, f"import server.{words[1]}, not {name}"


@pytest.mark.parametrize("path", sorted((ROOT / "server" / "rules").rglob("*.py")), ids=module_of)
def test_rules_import_little(path: Path) -> None:
    assert {name.split(".")[0] for name in imported(path) if not name.startswith("server.rules")} <= PURE


def test_rules_load_no_framework() -> None:
    look = "import sys, server.rules; print(sorted({name.split('.')[0] for name in sys.modules}))"
    told = subprocess.run([sys.executable, "-c", look], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    assert not {"flask", "sqlalchemy", "marshmallow", "werkzeug", "random"} & set(ast.literal_eval(told))


def test_no_import_ring() -> None:
    """Importing a room runs its front door, so a ring is looked for among files, a package standing for its door."""
    names = {module_of(path): path for path in server_files()}
    arrows = {name: {one for one in imported(path) if one in names and one != name} for name, path in names.items()}
    while True:
        leaves = {name for name, reached in arrows.items() if not reached}
        if not leaves:
            break
        arrows = {name: reached - leaves for name, reached in arrows.items() if name not in leaves}
    assert arrows == {}


@pytest.mark.parametrize("room", ROOMS)
def test_the_front_door_lists_what_it_opens(room: str) -> None:
    door = importlib.import_module(f"server.{room}")
    assert door.__doc__
    names = list(door.__all__)
    assert names == sorted(names, key=lambda name: (not name.isupper(), not name[0].isupper(), name))
    assert len(set(names)) == len(names)
    assert all(hasattr(door, name) for name in names)


@pytest.mark.parametrize("room", ROOMS)
def test_the_front_door_opens_what_somebody_asks_for(room: str) -> None:
    inside = ROOT / "server" / room
    asking = (path for folder in ("server", "seed_demo", "tests") for path in (ROOT / folder).rglob("*.py"))
    words = {
        word for path in asking if inside not in path.parents for word in re.findall(r"\w+", path.read_text("utf-8"))
    }
    assert sorted(set(importlib.import_module(f"server.{room}").__all__) - words) == []
