"""The set-up before anything is installed: what it needs, what it says, when it has nothing to do."""

import ast
import os
import re
import sys
from pathlib import Path

import pytest

from server.bootstrap import debian, libraries, stamps
from server.bootstrap.places import LOCK, ROOT
from server.bootstrap.run import Stop, run

FOLDER = ROOT / "server" / "bootstrap"


def imports(file: Path) -> set[str]:
    """Names of what a file imports at its top, so before anything could have been installed."""
    found: set[str] = set()
    for node in ast.parse(file.read_text()).body:
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            found.add(node.module or "")
    return found


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.py")), ids=lambda file: file.name)
def test_it_stands_on_python_alone(file: Path) -> None:
    strange = {
        name
        for name in imports(file)
        if name.split(".")[0] not in sys.stdlib_module_names and not name.startswith("server.bootstrap")
    }
    assert not strange


def test_every_locked_package_has_hashes() -> None:
    pins = [line for line in LOCK.read_text().splitlines() if "==" in line]
    assert len(pins) > 40
    assert all(pin.endswith(" \\") for pin in pins), "the line goes on with its hashes"


def test_a_fingerprint_changes_with_names_and_bytes(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(stamps, "ROOT", tmp_path)
    (tmp_path / "a").write_text("1")
    first = stamps.fingerprint([tmp_path])
    assert stamps.fingerprint([tmp_path]) == first
    (tmp_path / "a").write_text("2")
    second = stamps.fingerprint([tmp_path])
    (tmp_path / "a").rename(tmp_path / "b")
    third = stamps.fingerprint([tmp_path])
    (tmp_path / "node_modules").mkdir()
    (tmp_path / "node_modules" / "c").write_text("not ours")
    assert len({first, second, third}) == 3
    assert stamps.fingerprint([tmp_path]) == third


def test_a_step_is_current_until_its_mark_changes(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(stamps, "FOLDER", tmp_path / "stamps")
    assert not stamps.is_current("web", "1")
    stamps.keep("web", "1")
    assert stamps.is_current("web", "1")
    assert not stamps.is_current("web", "2")


def test_without_root_the_exact_line_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    monkeypatch.setenv("PATH", "/nowhere")
    line = "sudo apt-get install -y --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 "
    with pytest.raises(Stop, match=re.escape(line)):
        debian.install(libraries.PACKAGES, "Making PDFs")


def test_a_failing_program_shows_its_last_lines() -> None:
    with pytest.raises(Stop, match=r"out of paint\n\nThis failed \(exit code 3\): /bin/sh"):
        run(["/bin/sh", "-c", "echo out of paint; exit 3"])


def test_a_machine_without_fonts_is_told_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(libraries, "FONT_FOLDERS", ["/nowhere"])
    assert libraries.missing() == ["a font"]
