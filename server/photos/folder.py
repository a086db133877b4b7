"""The store in a folder: root/ab/abcdef…, two levels, so that no folder grows without end."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from server.photos.errors import Damaged, NotHere, StoreFailed, WrongHash
from server.photos.files import folder_of, read, write
from server.photos.names import checked, name_of

_LEVEL = re.compile(r"[0-9a-f]{2}\Z")


class FolderStore:
    """See Store for what it promises. Any number of threads and processes may use one folder."""

    def __init__(self, root: Path) -> None:
        self._root = root

    def put(self, sha256: str, data: bytes) -> bool:
        name = checked(sha256)
        if name_of(data) != name:
            raise WrongHash("the bytes do not have the SHA-256 they were sent under")
        try:
            with folder_of(self._root, name[:2], make=True) as folder:
                if self._whole(folder, name):
                    return False
                # Another thread may have just put it: then the same bytes take the place of the same bytes.
                write(folder, name, data)
        except OSError as error:
            raise StoreFailed(f"the photo store could not write: {error.strerror}") from error
        return True

    def open(self, sha256: str) -> bytes:
        name = checked(sha256)
        try:
            with folder_of(self._root, name[:2]) as folder:
                data = read(folder, name)
        except OSError as error:
            raise NotHere(f"no photo {name} in the store") from error
        if name_of(data) != name:
            raise Damaged(f"photo {name} in the store no longer has its SHA-256")
        return data

    def has(self, sha256: str) -> bool:
        name = checked(sha256)
        return (self._root / name[:2] / name).is_file()

    def names(self) -> Iterator[str]:
        if not self._root.is_dir():
            return
        for level in sorted(path for path in self._root.iterdir() if _LEVEL.match(path.name)):
            yield from sorted(path.name for path in level.iterdir() if not path.name.startswith("."))

    @staticmethod
    def _whole(folder: int, name: str) -> bool:
        try:
            return name_of(read(folder, name)) == name
        except FileNotFoundError:
            return False
