"""The quick writer of canonical text gives the bytes of the rules' own."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.journal.text import quick
from server.rules import canonical
from tests.rules.expand import case_files, expand, story

WHOLE = st.integers(-(2**53), 2**53)
TEXT = st.text(st.characters(exclude_categories=["Cs"]))
KEYS = st.text(st.characters(max_codepoint=127))
JSON = st.recursive(
    st.none() | st.booleans() | WHOLE | TEXT, lambda inner: st.lists(inner) | st.dictionaries(KEYS, inner)
)


@given(JSON)
def test_any_value_of_a_journal(value: Any) -> None:
    assert quick(value) == canonical(value)


def test_every_control_character_and_every_plane() -> None:
    for text in [chr(code) for code in range(0x300)] + ["\u2028", "\ufeff", "\uffff", "\U0001f9f1", "é", "e\u0301"]:
        assert quick([text]) == canonical([text])


def test_the_entries_of_the_vectors() -> None:
    for cases in case_files().values():
        for case in cases:
            for entry in expand([*story(case["given"].get("after")), *case["given"].get("entries", [])]):
                assert quick(entry) == canonical(entry)


def test_a_lone_surrogate_is_refused_by_both() -> None:
    with pytest.raises(TypeError):
        quick("\ud800")
    with pytest.raises(UnicodeEncodeError):
        canonical("\ud800")
