"""What every store must do. A test file for a store makes a `store` and a `spoil` fixture and takes these in."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256

import pytest

from server.photos import Damaged, NotAName, NotHere, Store, WrongHash

BYTES = b"not a photo: a store does not look"
NAME = sha256(BYTES).hexdigest()
BAD_NAMES = [
    "",
    "../" + NAME[3:],
    "%2e%2e" + NAME[6:],
    "/etc/passwd",
    NAME.upper(),
    NAME[:63],
    NAME + "0",
    NAME + "\n",
    NAME[:63] + "\0",
    NAME[:63] + "\u0663",
    NAME[:63] + "g",
    NAME[:62] + "/.",
]


class StoreContract:
    def test_gives_back_what_was_put(self, store: Store) -> None:
        assert store.put(NAME, BYTES) is True
        assert store.has(NAME)
        assert store.open(NAME) == BYTES
        assert list(store.names()) == [NAME]

    def test_a_second_put_is_success_and_changes_nothing(self, store: Store) -> None:
        store.put(NAME, BYTES)
        assert store.put(NAME, BYTES) is False
        assert store.open(NAME) == BYTES

    def test_refuses_bytes_that_have_another_name(self, store: Store) -> None:
        with pytest.raises(WrongHash):
            store.put(NAME, BYTES + b".")
        assert not store.has(NAME)

    def test_nothing_can_be_put_over_what_is_there(self, store: Store) -> None:
        store.put(NAME, BYTES)
        with pytest.raises(WrongHash):
            store.put(NAME, b"other")
        assert store.open(NAME) == BYTES

    def test_says_when_there_is_nothing(self, store: Store) -> None:
        assert not store.has(NAME)
        assert list(store.names()) == []
        with pytest.raises(NotHere):
            store.open(NAME)

    @pytest.mark.parametrize("name", BAD_NAMES)
    def test_refuses_every_other_name(self, store: Store, name: str) -> None:
        for act in (store.open, store.has, lambda bad: store.put(bad, BYTES)):
            with pytest.raises(NotAName):
                act(name)

    def test_bytes_spoilt_on_disk_are_told_and_put_right(self, store: Store, spoil: Callable[[str], None]) -> None:
        store.put(NAME, BYTES)
        spoil(NAME)
        with pytest.raises(Damaged):
            store.open(NAME)
        assert store.put(NAME, BYTES) is True
        assert store.open(NAME) == BYTES

    def test_many_at_once_are_one(self, store: Store) -> None:
        with ThreadPoolExecutor(8) as pool:
            list(pool.map(lambda _: store.put(NAME, BYTES), range(32)))
        assert store.open(NAME) == BYTES
        assert list(store.names()) == [NAME]
