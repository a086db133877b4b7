"""The stages of `python3 tests`, in order, and how their results are counted."""

import json
import os
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from server.bootstrap.places import ROOT, WEBCLIENT, environment, tool

TESTS = ROOT / "tests"
NO_TESTS_FOUND = 5  # pytest's exit code; a room without tests yet is no failure


@dataclass(frozen=True)
class Counts:
    passed: int = 0
    failed: int = 0


@dataclass(frozen=True)
class Stage:
    """One program to run. `count` reads the counts out of the report that it left in the given folder."""

    name: str
    command: Callable[[Path], list[str]]
    count: Callable[[Path], Counts] = field(default=lambda folder: Counts())
    cwd: Path = ROOT


def run_all(argv: list[str]) -> int:
    """Runs the stages for these arguments up to the first failure; prints a summary; 0 when all passed."""
    stages = plan(argv)
    done: list[tuple[str, float, Counts]] = []
    for stage in stages:
        start = time.monotonic()
        print(f"\n== {stage.name}", flush=True)
        counts = run(stage, {"RAKELIGHT_LONG": "1"} if "long" in argv else {})
        done.append((stage.name, time.monotonic() - start, counts))
        if counts.failed:
            break
    left_out = [stage.name for stage in stages[len(done) :]]
    return summary(done, left_out)


def run(stage: Stage, settings: dict[str, str]) -> Counts:
    with tempfile.TemporaryDirectory() as folder:
        env = {**environment(), **settings}
        code = subprocess.run(stage.command(Path(folder)), cwd=stage.cwd, env=env).returncode
        counts = stage.count(Path(folder))
    if code and code != NO_TESTS_FOUND and not counts.failed:
        return Counts(counts.passed, 1)
    return counts


def summary(done: list[tuple[str, float, Counts]], left_out: list[str]) -> int:
    print("\n== Summary")
    for name, seconds, counts in done:
        word = "FAILED" if counts.failed else "ok"
        print(f"{name:<38} {word:<7} {seconds:6.1f} s")
    for name in left_out:
        print(f"{name:<38} not run")
    failed = sum(counts.failed for _, _, counts in done)
    print(f"\n{sum(counts.passed for _, _, counts in done)} passed, {failed} failed", flush=True)
    return 1 if failed else 0


def plan(argv: list[str]) -> list[Stage]:
    """Which stages these arguments ask for."""
    rest = [word for word in argv if word not in ("--fast", "bench", "long")]
    if "bench" in argv:
        # -s: a benchmark's table is its result.
        where = rest or [str(TESTS / "bench")] * (TESTS / "bench").is_dir()
        return [python_tests("Benchmarks", ["-m", "bench", "-s", *where])]
    marks = ["not bench"]
    if "long" not in argv:
        marks.append("not long")
    if "--fast" in argv:
        marks.append("not browser")
    chosen = ["-m", " and ".join(marks), "--ignore=tests/bench"]
    if rest:
        return one_thing(rest, chosen)
    if "long" in argv:
        return [python_tests("Python tests, long setting", chosen)]
    return [*static_checks(), web_tests([]), python_tests("Python tests", chosen)]


def one_thing(words: list[str], chosen: list[str]) -> list[Stage]:
    """A room by its name, a TypeScript file, or whatever pytest understands (then no mark leaves anything out)."""
    room = TESTS / words[0]
    if room.is_dir() and "/" not in words[0]:
        folder = f"tests/{words[0]}"
        return [web_tests([folder]), python_tests("Python tests", [*chosen, folder, *words[1:]])]
    if words[0].endswith((".test.ts", ".test.tsx")):
        return [web_tests(words)]
    return [python_tests("Python tests", words)]


def static_checks() -> list[Stage]:
    def node_tool(name: str, *words: str) -> Callable[[Path], list[str]]:
        return lambda folder: [*tool(name), *words]

    return [
        Stage("Python style (ruff)", lambda folder: [sys.executable, "-m", "ruff", "check", "."]),
        Stage("Python format (ruff)", lambda folder: [sys.executable, "-m", "ruff", "format", "--check", "."]),
        Stage("Python types (mypy)", lambda folder: [sys.executable, "-m", "mypy"]),
        *(
            Stage(f"TypeScript types: {world} (tsc)", node_tool("tsc", "-p", f"tsconfig.{world}.json"), cwd=WEBCLIENT)
            for world in ("page", "worker", "tests")
        ),
    ]


def web_tests(files: list[str]) -> Stage:
    paths = [os.path.abspath(ROOT / name) for name in files]

    def command(folder: Path) -> list[str]:
        reports = ["--reporter=default", "--reporter=json", f"--outputFile.json={folder / 'vitest.json'}"]
        return [*tool("vitest"), "run", *reports, *paths]

    return Stage("Web client tests (vitest)", command, count_vitest, WEBCLIENT)


def python_tests(name: str, words: list[str]) -> Stage:
    def command(folder: Path) -> list[str]:
        return [sys.executable, "-m", "pytest", f"--junitxml={folder / 'pytest.xml'}", *words]

    return Stage(f"{name} (pytest)", command, count_pytest)


def count_vitest(folder: Path) -> Counts:
    report = folder / "vitest.json"
    if not report.is_file():
        return Counts()
    told = json.loads(report.read_text())
    return Counts(told["numPassedTests"], told["numFailedTests"])


def count_pytest(folder: Path) -> Counts:
    report = folder / "pytest.xml"
    if not report.is_file():
        return Counts()
    passed = failed = 0
    for suite in ET.parse(report).getroot().iter("testsuite"):
        broken = int(suite.get("failures", 0)) + int(suite.get("errors", 0))
        failed += broken
        passed += int(suite.get("tests", 0)) - broken - int(suite.get("skipped", 0))
    return Counts(passed, failed)
