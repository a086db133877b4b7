"""The store in a folder keeps the promise of a store, and stays inside its folder."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from server.photos import FolderStore, NotHere, StoreFailed
from tests.photos.store_contract import BYTES, NAME, StoreContract


@pytest.fixture
def store(tmp_path: Path) -> FolderStore:
    return FolderStore(tmp_path / "photos")


@pytest.fixture
def spoil(tmp_path: Path) -> Callable[[str], None]:
    def cut(name: str) -> None:
        path = tmp_path / "photos" / name[:2] / name
        path.write_bytes(path.read_bytes()[:-1])

    return cut


class TestFolder(StoreContract):
    pass


def test_two_levels_and_nothing_left_over(store: FolderStore, tmp_path: Path) -> None:
    store.put(NAME, BYTES)
    files = [path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()]
    assert files == [f"photos/{NAME[:2]}/{NAME}"]


def test_a_link_in_place_of_a_photo_is_not_followed(store: FolderStore, tmp_path: Path) -> None:
    store.put(NAME, BYTES)
    secret = tmp_path / "secret"
    secret.write_bytes(BYTES)
    place = tmp_path / "photos" / NAME[:2] / NAME
    place.unlink()
    place.symlink_to(secret)
    with pytest.raises(NotHere):
        store.open(NAME)


def test_a_link_in_place_of_a_level_is_not_followed(store: FolderStore, tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / NAME[:2]).symlink_to(outside)
    with pytest.raises(StoreFailed):
        store.put(NAME, BYTES)
    assert list(outside.iterdir()) == []


@pytest.mark.parametrize("fails", ["fsync", "rename"])
def test_a_failing_disk_leaves_nothing_under_the_name(
    store: FolderStore, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: str
) -> None:
    (tmp_path / "photos" / NAME[:2]).mkdir(parents=True)

    def full(*_args: object, **_options: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, fails, full)
    with pytest.raises(StoreFailed):
        store.put(NAME, BYTES)
    monkeypatch.undo()
    assert not store.has(NAME)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []
    assert store.put(NAME, BYTES) is True


def test_the_bytes_reach_the_disk_before_their_name_does(store: FolderStore, monkeypatch: pytest.MonkeyPatch) -> None:
    done: list[str] = []
    fsync, rename = os.fsync, os.rename

    def watched_fsync(fd: int) -> None:
        done.append("fsync folder" if os.path.isdir(f"/proc/self/fd/{fd}") else "fsync file")
        fsync(fd)

    def watched_rename(*args: Any, **options: Any) -> None:
        done.append("rename")
        rename(*args, **options)

    monkeypatch.setattr(os, "fsync", watched_fsync)
    monkeypatch.setattr(os, "rename", watched_rename)
    store.put(NAME, BYTES)
    assert done[-3:] == ["fsync file", "rename", "fsync folder"]
