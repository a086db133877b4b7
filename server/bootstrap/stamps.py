"""Stamps: what a step was last done with. They lie in .venv, so that removing .venv starts everything afresh."""

import hashlib
from collections.abc import Iterable
from pathlib import Path

from server.bootstrap.places import ROOT, VENV

FOLDER = VENV / "stamps"
PASSED_OVER = {"node_modules", "__pycache__"}


def fingerprint(paths: Iterable[Path], *facts: str) -> str:
    """SHA-256 over the names and bytes of files (folders: of everything in them) and some facts."""
    digest = hashlib.sha256()
    for fact in facts:
        digest.update(fact.encode() + b"\0")
    for file in sorted(_files(paths)):
        data = file.read_bytes()
        digest.update(f"{file.relative_to(ROOT)}\0{len(data)}\0".encode())
        digest.update(data)
    return digest.hexdigest()


def is_current(step: str, mark: str) -> bool:
    stamp = FOLDER / step
    return stamp.is_file() and stamp.read_text() == mark


def keep(step: str, mark: str) -> None:
    FOLDER.mkdir(parents=True, exist_ok=True)
    (FOLDER / step).write_text(mark)


def _files(paths: Iterable[Path]) -> Iterable[Path]:
    for path in paths:
        if path.is_file():
            yield path
        elif path.is_dir() and path.name not in PASSED_OVER:
            yield from _files(path.iterdir())
