"""The promise of a store, in words that a test can hold an implementation to (tests/photos/store_contract.py)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol


class Store(Protocol):
    """Bytes under their own SHA-256. Nothing is ever changed or taken out.

    Every method raises NotAName for a name that is not 64 lower-case hexadecimal digits, before it touches anything.
    """

    def put(self, sha256: str, data: bytes) -> bool:
        """Keeps the bytes, durably when it returns. True when they are new, False when they were there already.

        WrongHash when they do not have this name; StoreFailed when they could not be kept. Never a half-written photo
        under its name, whatever moment the power goes. Damaged bytes found under the name are replaced by right ones.
        """

    def open(self, sha256: str) -> bytes:
        """The bytes as they were put; NotHere when there are none, Damaged when they no longer have their name."""

    def has(self, sha256: str) -> bool:
        """Whether the bytes are there (not whether they are still whole)."""

    def names(self) -> Iterator[str]:
        """Every name in the store, in order."""
