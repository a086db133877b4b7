"""Two weeks in the yard as a story, one function a day: ten working days, eight modules that stay and one that leaves.

How each module stands at the end is in ``ENDS``, as far as a sentence can say it; the tests hold the story to it.
"""

from __future__ import annotations

from collections.abc import Callable

from seed_demo.coat_days import night_after
from seed_demo.first_week import day_1, day_2, day_3, day_4, day_5
from seed_demo.second_week import day_6, day_7, day_8, day_9, day_10
from seed_demo.story import Story

ENDS = {
    "5077-A": "left the yard in the first week",
    "5078-A": "released, in staging",
    "5078-B": "released, then questioned: a dent came late from a phone nobody knew had it",
    "5081-A": "pulled back: the move cracked the wall over the front door",
    "5081-B": "nothing stops it; its last paint went on too early, and an inspector has answered that",
    "5083-A": "to recheck, two sent back, the cleaning sheet changed since it was signed; a heavy fill found wet",
    "5083-B": "to fix; two inspectors say different things of one item; one entry set aside; dries in heated air",
    "5084-A": "photos and entries still on a phone; a coat wet from the damp night, one covered early and not answered",
    "5086-A": "came in on the last day, fresh tape in cold air; one room is not on its plan",
}

DAYS: tuple[Callable[[Story], None], ...] = (day_1, day_2, day_3, day_4, day_5, day_6, day_7, day_8, day_9, day_10)


def tell(story: Story) -> None:
    """The whole story, day by day."""
    for number, day in enumerate(DAYS, 1):
        story.say(f"Day {number} of {len(DAYS)}: {(day.__doc__ or '').splitlines()[0]}")
        day(story)
    story.say(f"And then: {night_after.__doc__}")
    night_after(story)
