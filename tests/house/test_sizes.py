"""How large files and functions are, printed beside code that people learn from, and held to a budget."""

from __future__ import annotations

import ast
import io
import json
import subprocess
import tokenize
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles

import pytest

from server.bootstrap.places import ROOT, WEBCLIENT, environment, node

FOLDERS = {
    "server": ROOT / "server",
    "seed_demo": ROOT / "seed_demo",
    "webclient": WEBCLIENT / "src",
    "tests, Python": ROOT / "tests",
    "tests, TypeScript": ROOT / "tests",
}
LARGEST_FILE = 260
MIDDLE_FILE = 110
MODELS = """\
small teaching codebases                          29-87   up to 331       4-8    11-30   up to 192   1-6 %
libraries in use                                 91-364   up to 5548     6-15    23-64   up to 954   2-12 %
this house's budget                            about 80         250               25          40   2-6 %"""


@dataclass(frozen=True)
class Measured:
    path: Path
    lines: int
    functions: list[int]
    comments: int


def python(path: Path) -> Measured:
    """Whole-line comments only; docstrings are no comments."""
    text = path.read_text("utf-8")
    functions = [
        (one.end_lineno or one.lineno) - one.lineno + 1
        for one in ast.walk(ast.parse(text))
        if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef)
    ]
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    comments = sum(one.type == tokenize.COMMENT and one.line.strip().startswith("#") for one in tokens)
    return Measured(path, len(text.splitlines()), functions, comments)


def typescript(paths: Iterable[Path]) -> list[Measured]:
    """As the bundler's own parser sees them; comments are the lines that hold nothing else."""
    command = [str(node()), str(Path(__file__).with_name("functions.ts")), *map(str, paths)]
    told = subprocess.run(command, env=environment(), capture_output=True, text=True, check=True).stdout
    return [
        Measured(Path(name), len(Path(name).read_text("utf-8").splitlines()), functions, comments)
        for name, functions, comments in json.loads(told)
    ]


@pytest.fixture(scope="module")
def measured() -> dict[str, list[Measured]]:
    found = {}
    for name, folder in FOLDERS.items():
        if name in ("webclient", "tests, TypeScript"):
            found[name] = typescript(sorted([*folder.rglob("*.ts"), *folder.rglob("*.tsx")]))
        else:
            found[name] = [python(path) for path in sorted(folder.rglob("*.py"))]
    return found


def row(name: str, files: list[Measured]) -> str:
    lines = [one.lines for one in files]
    functions = sorted(length for one in files for length in one.functions)
    share = 100 * sum(one.comments for one in files) / sum(lines)
    return (
        f"{name:<38}{len(files):>6}{median(lines):>10.0f}{max(lines):>12}{median(functions):>10.0f}"
        f"{quantiles(functions, n=10)[8]:>9.0f}{functions[-1]:>12}{share:>8.1f} %"
    )


def test_files_stay_small(measured: dict[str, list[Measured]], capsys: pytest.CaptureFixture[str]) -> None:
    head = f"\n{'':<38} files     lines     largest  function      p90     largest  comments"
    with capsys.disabled():
        print(head, *(row(name, files) for name, files in measured.items()), MODELS, sep="\n")
    ours = [one for name, files in measured.items() if not name.startswith("tests") for one in files]
    assert [f"{one.path.relative_to(ROOT)}: {one.lines}" for one in ours if one.lines > LARGEST_FILE] == []
    assert median(one.lines for one in ours) <= MIDDLE_FILE


def test_nine_functions_of_ten_are_short(measured: dict[str, list[Measured]]) -> None:
    for name, files in measured.items():
        functions = [length for one in files for length in one.functions]
        assert quantiles(functions, n=10)[8] <= 40, name
