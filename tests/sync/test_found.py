"""Stories that once ended badly, each with what must happen instead."""

from __future__ import annotations

from tests.sync.schedules import Crew, tell
from tests.sync.world import World


def test_nothing_is_let_in_before_what_it_is_about(world: World) -> None:
    """It would have had no effect for good, and the hands in it would have been forgotten."""

    def story(crew: Crew) -> None:
        crew.a.join("teo")
        crew.role("ines", "manager")
        made = crew.a.log("ines", crew.ready)
        crew.a.clear("teo", made)
        crew.a.sync()
        logged, cleared = crew.world.waiting()
        assert not crew.world.let_in(cleared["sha256"])
        assert crew.world.let_in(logged["sha256"])
        assert crew.world.waiting() == [], "the clear comes with the item"
        assert crew.world.parts("item")[made["about"]]["state"] == "cleared"

    tell(world, story)


def test_an_old_call_that_comes_again_ends_no_tail(world: World) -> None:
    def story(crew: Crew) -> None:
        made = crew.item(closed=True)
        crew.a.walk("ines", crew.ready)
        crew.sync()
        crew.a.sync()
        old = crew.a.calls[-1]
        for key in ("patch", "paint"):
            crew.a.on("ines", "given", made, {"crew": key})
        crew.a.sync(most=1)
        crew.a.post(*old)
        crew.d.sync()
        assert crew.release() is None
        crew.sync()
        crew.d.sync()
        assert crew.release(), "once everything has come, the tail is over"

    tell(world, story)


def test_a_copy_of_a_phone_has_not_seen_what_the_other_copy_wrote(world: World) -> None:
    """Both used one number; the count of the phone says nothing about who saw what."""

    def story(crew: Crew) -> None:
        made = crew.item()
        crew.a.join("teo")
        copied = crew.a.store()
        crew.a.amend("ines", made, wish="sheen")
        crew.a.sync()
        crew.a.go_back(copied)
        crew.a.log("ines", crew.ready)
        crew.a.clear("teo", made)
        crew.a.sync()
        waiting = crew.world.waiting()
        assert [row["reason"] for row in waiting] == ["used_number", "broken_sequence"]
        assert all(crew.world.let_in(row["sha256"]) for row in waiting)
        assert crew.world.parts("item")[made["about"]]["state"] == "open"

    tell(world, story)


def test_what_was_let_in_before_its_phone_heard_a_verdict_goes_once(world: World) -> None:
    """It stands beside the phone's count, which says nothing about it: the phone offered it again for ever."""

    def story(crew: Crew) -> None:
        crew.a.sync()
        copied = crew.a.store()
        crew.a.log("ines", crew.ready)
        crew.a.sync()
        crew.a.go_back(copied)
        crew.a.log("ines", crew.ready)
        made = crew.a.log("ines", crew.ready)
        crew.a.sync(lose=True)
        waiting = crew.world.waiting()
        assert [row["reason"] for row in waiting] == ["used_number", "broken_sequence"]
        assert all(crew.world.let_in(row["sha256"]) for row in waiting)
        assert crew.a.sync()
        assert crew.a.outbox == []
        assert crew.world.parts("item")[made["about"]]["state"] == "open"

    tell(world, story)


def test_what_was_set_aside_once_is_not_taken_by_a_restored_server(world: World) -> None:
    """What its phone wrote later had not seen it: taken in its place it would stand before that as though it had."""

    def story(crew: Crew) -> None:
        made = crew.item()
        crew.world.back_up()
        crew.role("ines", "manager")
        crew.a.amend("ines", made, wish="sheen")
        crew.a.sync()
        crew.a.clear("ola", made)
        crew.a.sync()
        crew.world.restore()
        crew.a.sync()
        waiting = crew.world.waiting()
        assert [row["reason"] for row in waiting] == ["set_aside_before"]
        assert crew.world.parts("item")[made["about"]]["state"] == "cleared"
        assert crew.world.let_in(waiting[0]["sha256"])
        assert crew.world.parts("item")[made["about"]]["state"] == "open"

    tell(world, story)


def test_what_an_ended_enrolment_wrote_is_offered_to_a_restored_server(world: World) -> None:
    """No count tells whether it is still there: it is set aside, and waits for the manager."""

    def story(crew: Crew) -> None:
        crew.world.back_up()
        made = crew.a.log("ines", crew.ready)
        crew.a.sync()
        crew.world.restore()
        crew.a.enrol()
        assert [row["reason"] for row in crew.world.waiting()] == ["wrong_device"]
        assert crew.world.let_in(crew.world.waiting()[0]["sha256"])
        assert crew.world.parts("item")[made["about"]]["state"] == "open"

    tell(world, story)
