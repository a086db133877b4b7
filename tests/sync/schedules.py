"""Directed stories, one for each planted bug: what has to happen, in which order, for the bug to show."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.sync.handset import Handset
from tests.sync.settled import check_acknowledged, check_release, check_story, quiesce
from tests.sync.world import World


class Crew:
    """The morning's phones: two of inspectors, one of the crew, shipping's and the manager's."""

    def __init__(self, world: World) -> None:
        world.begin()
        self.world = world
        self.ready = world.modules[1]
        self.a, self.b, self.c = Handset(world, "ines", "ola"), Handset(world, "teo"), Handset(world, "ola")
        self.d, self.m = Handset(world, "sunniva"), Handset(world, "maren")

    def sync(self) -> None:
        for phone in self.world.phones:
            phone.sync()

    def item(self, *, cleared: bool = False, closed: bool = False) -> Any:
        """An item that everybody has on the screen."""
        made = self.a.log("ines", self.ready)
        self.sync()
        if cleared or closed:
            self.b.clear("teo", made)
            self.sync()
        if closed:
            self.c.close("ola", made)
            self.sync()
        return made

    def release(self, phone: Handset | None = None) -> str | None:
        status, answer = (phone or self.d).ask_release("sunniva", self.ready)
        if status != 200:
            return None
        check_release(self.world, answer["entry"])
        return str(answer["entry"]["body"]["release"])

    def role(self, person: str, *roles: str) -> None:
        self.m.name("maren", person, list(roles))
        self.m.sync()


def acknowledged_at_once(crew: Crew) -> None:
    crew.a.log("ines", crew.ready)
    crew.a.sync()
    check_acknowledged(crew.world)


def clear_of_what_was_amended(crew: Crew) -> None:
    made = crew.item()
    crew.a.amend("ines", made, wish="sheen")
    crew.a.sync()
    crew.b.clear("teo", made)


def close_whose_clear_was_set_aside(crew: Crew) -> None:
    made = crew.item()
    crew.a.join("teo")
    crew.role("teo", "shipping")
    crew.a.clear("teo", made)
    crew.a.close("ines", made)
    crew.a.sync()
    crew.role("teo", "crew_lead")


def close_by_hands_that_came_first(crew: Crew) -> None:
    made = crew.item(cleared=True)
    crew.a.close("ines", made)
    crew.b.tick("teo", made, "ines")
    crew.b.sync()


def close_by_hands_that_came_late(crew: Crew) -> None:
    made = crew.item(cleared=True)
    crew.b.tick("teo", made, "ola")
    crew.c.close("ola", made)
    crew.c.sync()


def storage_that_went_back(crew: Crew) -> None:
    stored = crew.a.store()
    crew.a.log("ines", crew.ready)
    crew.a.sync()
    crew.a.go_back(stored)
    crew.a.log("ines", crew.ready)
    crew.a.sync()


def clear_beside_an_objection_let_in(crew: Crew) -> None:
    made = crew.item()
    crew.a.join("teo")
    crew.role("ines", "shipping")
    crew.a.amend("ines", made, wish="sheen")
    crew.a.sync()
    crew.a.clear("teo", made)
    crew.world.let_in(crew.world.waiting()[0]["sha256"])


def answer_before_the_finding(crew: Crew) -> None:
    release = crew.release()
    crew.d.sync()
    crew.a.log("ines", crew.ready)
    crew.a.sync()
    crew.d.answer_release("sunniva", crew.ready, str(release))


def pull_back_of_an_older_release(crew: Crew) -> None:
    other = Handset(crew.world, "sunniva")
    first = str(crew.release())
    crew.sync()
    other.pull_back("sunniva", crew.ready, first)
    crew.d.pull_back("sunniva", crew.ready, first)
    crew.d.sync()
    assert crew.release()


def clear_of_another_epoch(crew: Crew) -> None:
    made = crew.item()
    crew.world.back_up()
    for _ in range(4):
        crew.m.label("maren", crew.ready, "lost later")
    crew.sync()
    crew.sync()
    crew.b.clear("teo", made)
    crew.world.restore()
    crew.c.amend("ola", made, wish="sheen")
    crew.c.sync()


def amend_of_what_was_closed(crew: Crew) -> None:
    made = crew.item(cleared=True)
    crew.a.amend("ines", made, wish="sheen")
    crew.c.close("ola", made)
    crew.c.sync()


def amend_of_what_was_voided(crew: Crew) -> None:
    made = crew.item()
    crew.a.amend("ines", made, wish="sheen")
    crew.c.void("ola", made)
    crew.c.sync()


def void_of_what_was_amended(crew: Crew) -> None:
    made = crew.item()
    crew.a.amend("ines", made, wish="sheen")
    crew.a.sync()
    crew.c.void("ola", made)


def lost_reply(crew: Crew) -> None:
    crew.a.log("ines", crew.ready)
    crew.a.sync(lose=True)
    crew.a.sync()


def release_from_an_old_screen(crew: Crew) -> None:
    """Shipping's second phone has slept since the morning; meanwhile a whole item came and went."""
    old = Handset(crew.world, "sunniva")
    crew.world.phones.remove(old)
    crew.item(closed=True)
    crew.a.walk("ines", crew.ready)
    crew.a.sync()
    assert crew.release(old) is None


def two_wishes(crew: Crew) -> None:
    made = crew.item()
    crew.a.amend("ines", made, wish="more sheen")
    crew.c.amend("ola", made, wish="less sheen")


def release_over_an_unsent_tail(crew: Crew) -> None:
    made = crew.item(closed=True)
    crew.a.walk("ines", crew.ready)
    crew.sync()
    for crew_key in ("patch", "paint"):
        crew.a.on("ines", "given", made, {"crew": crew_key})
    crew.a.sync(most=1)
    crew.d.sync()
    assert crew.release() is None


def release_over_a_phone_that_came_back(crew: Crew) -> None:
    made = crew.item(closed=True)
    crew.a.walk("ines", crew.ready)
    crew.sync()
    for crew_key in ("patch", "paint", "patch"):
        crew.a.on("ines", "given", made, {"crew": crew_key})
    crew.a.sync(most=1)
    crew.world.write_off(crew.a.device)
    crew.a.sync(most=1)
    crew.d.sync()
    assert crew.release() is None


def release_over_what_was_set_aside(crew: Crew) -> None:
    made = crew.item(closed=True)
    crew.a.walk("ines", crew.ready)
    crew.sync()
    crew.role("ines", "shipping")
    crew.a.send_back("ines", made)
    crew.sync()
    crew.sync()
    assert crew.release() is None


def signature_over_a_no(crew: Crew) -> None:
    crew.a.answer("ines", crew.ready, "wrap_and_seal", "roof_edge", "no")
    crew.a.sync()
    crew.c.sign("ola", crew.ready, "wrap_and_seal")


def role_taken_away(crew: Crew) -> None:
    crew.role("ines", "manager")
    crew.a.log("ines", crew.ready)
    crew.a.sync()


def first_sync(crew: Crew) -> None:
    for _ in range(5):
        crew.a.log("ines", crew.ready)
    crew.a.sync()


Schedule = Callable[[Crew], None]


def tell(world: World, schedule: Schedule, before: Callable[[], None] = lambda: None) -> None:
    """Tells one directed story to its end, and lets the oracle look; `before`: once the phones are there."""
    crew = Crew(world)
    before()
    schedule(crew)
    quiesce(world)
    check_story(world)
