"""Two at once: two releases of one module, and two phones that write one field without knowing of each other."""

from __future__ import annotations

import json
import os
import threading

from server.rules import undecided, values
from tests.sync.handset import Handset
from tests.sync.schedules import Crew
from tests.sync.settled import check_release, check_story, quiesce
from tests.sync.world import World

TIMES = 200 if os.environ.get("RAKELIGHT_LONG") else 40


def ask_at(gate: threading.Barrier, pair: list[Handset], calls: list[bytes], asked: list[int], turn: int) -> None:
    gate.wait()
    asked[turn] = pair[turn].post("/api/release", calls[turn])[0]


def test_of_two_releases_at_once_exactly_one_wins(world: World) -> None:
    """Two phones of shipping ask in the same moment, again and again; whoever won pulls back."""
    crew = Crew(world)
    pair = [crew.d, Handset(world, "sunniva")]
    first = [0, 0]
    for _ in range(TIMES):
        for phone in pair:
            phone.sync()
        asked, gate = [0, 0], threading.Barrier(2)
        calls = [json.dumps(phone.release_call(crew.ready)).encode() for phone in pair]

        threads = [threading.Thread(target=ask_at, args=(gate, pair, calls, asked, turn)) for turn in range(2)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert sorted(asked) == [200, 409]
        winner = asked.index(200)
        first[winner] += 1
        pair[winner].sync()
        release = pair[winner].parts["module", crew.ready]["release"]
        check_release(world, [e for e in world.entries() if e["kind"] == "release.given"][-1])
        pair[winner].pull_back("sunniva", crew.ready, release["id"])
        pair[winner].sync()
    given = [entry for entry in world.entries() if entry["kind"] == "release.given"]
    assert len(given) == TIMES
    print(f"\n{TIMES} races, won by the one {first[0]} times and by the other {first[1]} times")
    quiesce(world)
    check_story(world)


def test_two_wishes_are_both_shown_and_hold_until_somebody_who_saw_both_decides(world: World) -> None:
    crew = Crew(world)
    made = crew.item(closed=True)
    crew.a.amend("ines", made, wish="more sheen")
    crew.c.amend("ola", made, wish="less sheen")
    blind = Handset(world, "ines")
    crew.a.sync()
    blind.sync()
    blind.amend("ines", made, wish="flat")
    crew.sync()
    crew.sync()
    heads = crew.d.parts["item", made["about"]]["heads"]
    assert undecided(heads) == ["wish"]
    assert sorted(values(heads, "wish")) == ["flat", "less sheen"], (
        "who had seen the first wish overruled that one alone"
    )
    status, refused = crew.d.ask_release("sunniva", crew.ready)
    assert status == 409
    assert any(hold["key"] == "item_undecided" and hold["field"] == "wish" for hold in refused["holds"])
    crew.c.amend("ola", made, wish="as agreed")
    crew.sync()
    crew.sync()
    crew.b.clear("teo", made)
    crew.sync()
    crew.c.close("ola", made)
    crew.sync()
    crew.a.walk("ines", crew.ready)
    crew.sync()
    crew.sync()
    assert undecided(crew.d.parts["item", made["about"]]["heads"]) == []
    status, told = crew.d.ask_release("sunniva", crew.ready)
    assert status == 200, told
    quiesce(world)
    check_story(world)
