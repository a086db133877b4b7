"""Stories of several phones, drawn by hypothesis and judged by the oracle; and that they are not empty."""

from __future__ import annotations

import os
from collections import Counter
from random import Random

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.sync.day import Day
from tests.sync.machine import Yard
from tests.sync.settled import check_story, count, quiesce
from tests.sync.world import World

LONG = bool(os.environ.get("RAKELIGHT_LONG"))
# A story costs about half a second, so none is told again to make a failing one shorter.
STORIES, DAYS = (1000, 1000) if LONG else (6, 20)
# What twenty days have at least, and a hundred drawn stories. How much happened is told in either setting.
LEAST = {
    "ended_closes": 20, "closes_without_effect": 8, "clears_without_effect": 8, "standing_closes": 8, "voided": 10,
    "releases": 5, "questioned_releases": 2, "let_ins": 5, "restores": 2, "undecided_fields": 2, "set_asides": 30,
    "lost_replies": 20, "repeats": 8, "enrolments": 2, "storage_lost": 2, "tails": 20,
}  # fmt: skip


def enough(told: Counter[str], times: float, capsys: pytest.CaptureFixture[str]) -> None:
    """Says what was in the stories, in a run that passes too; there must be so many times the least of everything."""
    with capsys.disabled():
        print("\n" + ", ".join(f"{name} {number}" for name, number in sorted(told.items())))
    short = {name: told[name] for name, least in LEAST.items() if told[name] < int(least * times)}
    assert not short, f"too little happened: {short}"


def test_stories_keep_every_promise(world: World, capsys: pytest.CaptureFixture[str]) -> None:
    """What hypothesis thinks of."""
    world.told = Counter()
    run_state_machine_as_test(
        type("ToldYard", (Yard,), {"world": world}),
        settings=settings(
            max_examples=STORIES,
            stateful_step_count=8,
            deadline=None,
            derandomize=True,
            database=None,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
            print_blob=False,
        ),
    )
    enough(world.told, STORIES / 100 if LONG else 0, capsys)


def test_full_days_keep_every_promise_and_are_not_empty(world: World, capsys: pytest.CaptureFixture[str]) -> None:
    """Sixty doings a day, the same days each time, and a count of what was in them."""
    world.told = Counter()
    for seed in range(DAYS):
        try:
            day = Day(world)
            day.hour(Random(seed), 60)
            quiesce(world)
            check_story(world)
        except Exception as error:
            error.add_note(f"on day {seed}")
            raise
        count(world)
    enough(world.told, DAYS / 20, capsys)
