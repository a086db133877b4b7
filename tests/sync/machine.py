"""Several phones on the real application, in any order that hypothesis thinks of; the oracle looks at the end.

Hypothesis alone tells shy stories, so a busy hour may be drawn as well: a dozen doings out of one number.
"""

from __future__ import annotations

from random import Random

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, rule

from tests.sync.day import HOUR, Day
from tests.sync.settled import check_story, count, quiesce
from tests.sync.world import World

CHANCE = st.integers(0, 2**32 - 1)
ODD = [doing for doing in HOUR if doing not in ("write", "sync")]


class Yard(RuleBasedStateMachine):
    """One story. `world` is set by the test: the same server, begun anew for each story."""

    world: World

    def __init__(self) -> None:
        super().__init__()
        self.day = Day(self.world)

    @rule(chance=CHANCE)
    def somebody_works(self, chance: int) -> None:
        self.day.write(Random(chance))

    @rule(chance=CHANCE)
    def a_phone_syncs(self, chance: int) -> None:
        self.day.sync(Random(chance))

    @rule(doing=st.sampled_from(ODD), chance=CHANCE)
    def something_odd(self, doing: str, chance: int) -> None:
        getattr(self.day, doing)(Random(chance))

    @rule(chance=CHANCE, length=st.integers(4, 16))
    def a_busy_hour(self, chance: int, length: int) -> None:
        self.day.hour(Random(chance), length)

    @rule(chance=CHANCE)
    def a_long_shift(self, chance: int) -> None:
        self.day.hour(Random(chance), 25)

    def teardown(self) -> None:
        quiesce(self.world)
        check_story(self.world)
        count(self.world)
