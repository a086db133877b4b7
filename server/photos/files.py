"""Writing a file so that after a power cut it is there whole or not at all, and opening one without following links."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def folder_of(root: Path, *below: str, make: bool = False) -> Iterator[int]:
    """A descriptor of root/below…, each step opened in the one before, no step a link. FileNotFoundError if absent."""
    flags = os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC
    if make:
        root.mkdir(parents=True, exist_ok=True)
    at = os.open(root, flags)
    try:
        for step in below:
            if make:
                _make(step, at)
            deeper = os.open(step, flags | os.O_NOFOLLOW, dir_fd=at)
            os.close(at)
            at = deeper
        yield at
    finally:
        os.close(at)


def _make(step: str, at: int) -> None:
    try:
        os.mkdir(step, 0o700, dir_fd=at)
    except FileExistsError:
        return
    os.fsync(at)


def read(folder: int, name: str) -> bytes:
    """The whole file; FileNotFoundError when it is not there, OSError when it is a link."""
    with open(os.open(name, os.O_RDONLY | os.O_NOFOLLOW | os.O_CLOEXEC, dir_fd=folder), "rb") as file:
        return file.read()


def write(folder: int, name: str, data: bytes) -> None:
    """Temporary file, fsync, rename, fsync of the folder. Takes the place of what has the name."""
    passing = f".{name[:16]}.{secrets.token_hex(8)}"
    new = os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_NOFOLLOW | os.O_CLOEXEC
    try:
        with open(os.open(passing, new, 0o600, dir_fd=folder), "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.rename(passing, name, src_dir_fd=folder, dst_dir_fd=folder)
    except OSError:
        _drop(folder, passing)
        raise
    os.fsync(folder)


def _drop(folder: int, name: str) -> None:
    try:
        os.unlink(name, dir_fd=folder)
    except FileNotFoundError:
        return
