"""Sentences: every key in both languages, with the same values; a missing one is loud."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from server.reports import LANGUAGES, UnknownWords, say, say_n
from server.reports.said import day_of, length, listed, time_of

FOLDER = Path(__file__).parents[2] / "server" / "words"


@pytest.mark.parametrize("topic", ["packet", "photos"])
def test_both_languages_with_the_same_values(topic: str) -> None:
    table = json.loads((FOLDER / f"{topic}.json").read_text("utf-8"))
    for key, sentences in table.items():
        assert key.startswith(f"{topic}.")
        assert set(sentences) == set(LANGUAGES)
        wanted = {lang: set(re.findall(r"\{(\w+)\}", text)) for lang, text in sentences.items()}
        assert wanted["en"] == wanted["es"], key


def test_what_is_missing_is_loud() -> None:
    with pytest.raises(UnknownWords):
        say("packet.no_such_sentence", "en")
    with pytest.raises(UnknownWords):
        say("packet.page", "fr")
    with pytest.raises(UnknownWords):
        say("packet.wall", "en")


def test_values_are_put_in_as_they_are() -> None:
    assert say("packet.wall", "en", letter="{letter}") == "Wall {letter}"
    assert say_n("packet.minutes", 1, "en") == "1 minute"
    assert say_n("packet.minutes", 12, "es") == "12 minutos"


@pytest.mark.parametrize(
    ("stamp", "en", "es"),
    [
        ("2026-12-02T14:20:14Z", "Dec 2, 2026, 8:20 am", "2 dic 2026, 8:20 a. m."),
        ("2026-12-02T05:59:59Z", "Dec 1, 2026, 11:59 pm", "1 dic 2026, 11:59 p. m."),
        ("2026-12-02T06:00:00Z", "Dec 2, 2026, 12:00 am", "2 dic 2026, 12:00 a. m."),
        ("2026-07-02T17:05:00Z", "Jul 2, 2026, 12:05 pm", "2 jul 2026, 12:05 p. m."),
    ],
)
def test_times_of_the_yard(stamp: str, en: str, es: str) -> None:
    # No line breaks between the figure and its half of the day.
    assert time_of(stamp, "America/Chicago", "en") == re.sub(r" (?=[ap]m$)", "\u00a0", en)
    assert time_of(stamp, "America/Chicago", "es") == re.sub(r" (?=[ap]\.|m\.$)", "\u00a0", es)


def test_the_day_is_that_of_the_yard() -> None:
    assert day_of("2026-12-02T05:00:00Z", "America/Chicago", "en") == "Dec 1, 2026"


@pytest.mark.parametrize(
    ("mm", "en"), [(0, "0 in"), (25, "1 in"), (304, "1 ft"), (1372, "4 ft 6 in"), (1828, "6 ft"), (2743, "9 ft")]
)
def test_a_length_is_said_in_feet_and_whole_inches(mm: int, en: str) -> None:
    assert length(mm, "en") == en


def test_a_list_ends_with_and_in_its_language() -> None:
    assert listed([], "en") == ""
    assert listed([14], "en") == "14"
    assert listed([14, 22, 23], "es") == "14, 22 y 23"
