"""A checker that finds nothing proves nothing: each planted bug must be caught, and its story must pass without it."""

from __future__ import annotations

import pytest

from tests.sync import plants, schedules
from tests.sync.handset import Refused
from tests.sync.oracle import Violation
from tests.sync.schedules import tell
from tests.sync.world import World

PLANTED = [
    (plants.reply_before_commit, schedules.acknowledged_at_once),
    (plants.everything_counts_as_seen, schedules.clear_of_what_was_amended),
    (plants.close_without_its_clear, schedules.close_whose_clear_was_set_aside),
    (plants.hands_forgotten, schedules.close_by_hands_that_came_first),
    (plants.late_hands_end_nothing, schedules.close_by_hands_that_came_late),
    (plants.number_used_twice, schedules.storage_that_went_back),
    (plants.let_in_is_old, schedules.clear_beside_an_objection_let_in),
    (plants.answer_covers_the_unseen, schedules.answer_before_the_finding),
    (plants.any_release_is_pulled_back, schedules.pull_back_of_an_older_release),
    (plants.seen_is_not_cut, schedules.clear_of_another_epoch),
    (plants.objection_ends_no_close, schedules.amend_of_what_was_closed),
    (plants.objection_ends_no_void, schedules.amend_of_what_was_voided),
    (plants.void_needs_no_eyes, schedules.void_of_what_was_amended),
    (plants.repeat_is_judged_anew, schedules.lost_reply),
    (plants.release_without_behind, schedules.release_from_an_old_screen),
    (plants.last_writer_wins, schedules.two_wishes),
    (plants.undecided_holds_nothing, schedules.two_wishes),
    (plants.gap_holds_nothing, schedules.release_over_an_unsent_tail),
    (plants.written_off_for_good, schedules.release_over_a_phone_that_came_back),
    (plants.set_aside_holds_nothing, schedules.release_over_what_was_set_aside),
    (plants.signature_needs_no_eyes, schedules.signature_over_a_no),
    (plants.set_aside_is_dropped, schedules.role_taken_away),
    (plants.pages_skip, schedules.first_sync),
]


@pytest.mark.parametrize(("plant", "schedule"), PLANTED, ids=[plant.__name__ for plant, _ in PLANTED])
def test_planted_bug_is_caught(
    world: World, monkeypatch: pytest.MonkeyPatch, plant: plants.Plant, schedule: schedules.Schedule
) -> None:
    tell(world, schedule)
    with monkeypatch.context() as patch:
        with pytest.raises((Violation, Refused)) as caught:
            tell(world, schedule, lambda: plant(patch, world))
    print(f"{plant.__name__}: {caught.value}")
