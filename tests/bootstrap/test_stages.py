"""What `python3 tests` runs for which words, and how it counts."""

from pathlib import Path

import pytest

from tests.stages import Counts, Stage, count_pytest, count_vitest, plan, run, summary

JUNIT = '<testsuites><testsuite errors="1" failures="2" skipped="0" tests="10" /></testsuites>'


def names(*words: str) -> list[str]:
    return [stage.name for stage in plan(list(words))]


def command(*words: str) -> list[str]:
    return plan(list(words))[-1].command(Path("/nowhere"))


def test_without_words_everything_runs_cheapest_first() -> None:
    assert names() == [
        "Python style (ruff)",
        "Python format (ruff)",
        "Python types (mypy)",
        "TypeScript types: page (tsc)",
        "TypeScript types: worker (tsc)",
        "TypeScript types: tests (tsc)",
        "Web client tests (vitest)",
        "Python tests (pytest)",
    ]
    assert "not bench and not long" in command()


def test_fast_leaves_the_browser_out() -> None:
    assert "not bench and not long and not browser" in command("--fast")


def test_long_leaves_only_benchmarks_out() -> None:
    assert "not bench" in command("long")


def test_a_room_means_its_tests_in_both_languages() -> None:
    assert names("journal") == ["Web client tests (vitest)", "Python tests (pytest)"]
    assert "tests/journal" in command("journal")


def test_a_path_goes_to_the_runner_that_knows_it() -> None:
    assert command("tests/x/test_y.py::test_z", "-k", "word")[-3:] == ["tests/x/test_y.py::test_z", "-k", "word"]
    assert names("tests/journal/sync.test.ts") == ["Web client tests (vitest)"]


def test_counts_are_read_from_the_runners_reports(tmp_path: Path) -> None:
    (tmp_path / "pytest.xml").write_text(JUNIT)
    (tmp_path / "vitest.json").write_text('{"numPassedTests": 4, "numFailedTests": 1}')
    assert count_pytest(tmp_path) == Counts(passed=7, failed=3)
    assert count_vitest(tmp_path) == Counts(passed=4, failed=1)


@pytest.mark.parametrize("code, failed", [(0, 0), (1, 1), (2, 1), (5, 0)])
def test_a_program_that_fails_without_a_report_counts_as_one_failure(code: int, failed: int) -> None:
    stage = Stage("a check", lambda folder: ["/bin/sh", "-c", f"exit {code}"])
    assert run(stage, {}) == Counts(0, failed)


def test_the_last_line_is_the_count(capsys: pytest.CaptureFixture[str]) -> None:
    assert summary([("one", 1.0, Counts(3, 0)), ("two", 2.0, Counts(4, 1))], ["three"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "7 passed, 1 failed"
    assert any(line.startswith("three") and line.endswith("not run") for line in lines)
