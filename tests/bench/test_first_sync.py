"""What a phone that knows nothing must fetch: a full yard, and no more for what has left it."""

from __future__ import annotations

import gzip
import random
from pathlib import Path

import pytest

from tests.bench.loads import BATCH, DEFECTS, ROOMS, WISHES, Yard, opened, verdict
from tests.phone import Phone

pytestmark = pytest.mark.bench

MODULES, ITEMS, PHOTOS = 60, 25, 10
SEED = 20261206
Story = list[tuple[str, str]]


def send(phone: Phone) -> None:
    """Pushes in batches, then pulls."""
    queue, phone.queue = phone.queue, []
    for start in range(0, len(queue) or 1, BATCH):
        phone.queue = queue[start : start + BATCH]
        assert all("seq" in one for one in phone.sync()["verdicts"])


def write_up(yard: Yard, modules: list[str], chance: random.Random) -> Story:
    """Items on every module, with photos that show some of them: (module, item) in order."""
    phone, story = yard.phones["inspector"], []
    for module in modules:
        items = [phone.clock.new_id() for _ in range(ITEMS)]
        for item in items:
            spot = {"surface": chance.choice("ABCD"), "along": chance.randrange(4000), "up": chance.randrange(2400)}
            wish = {"wish": chance.choice(WISHES)} if chance.random() < 0.3 else {}
            given = {"room": chance.choice(ROOMS), "light": "raking", "crew": "patch", **wish}
            phone.write("item.logged", item, {"defect": chance.choice(DEFECTS[:3]), **spot, **given}, module)
            story.append((module, item))
        for _ in range(PHOTOS):
            shown = [[item, chance.randrange(2048), chance.randrange(1536)] for item in chance.sample(items, 3)]
            body = {"sha256": f"{chance.randrange(1 << 256):064x}", "bytes": chance.randrange(200_000, 600_000)}
            place = {"shows": "before", "room": chance.choice(ROOMS), "surface": chance.choice("ABCD")}
            rest = {"px": [2048, 1536], "items": shown, "marks": []}
            phone.write("photo.added", phone.clock.new_id(), {**body, **place, **rest}, module)
    send(phone)
    return story


def work(yard: Yard, story: Story, chance: random.Random) -> None:
    """Three of five are cleared, two of these three closed, one in ten sent back first."""
    crew, inspector = yard.phones["crew_lead"], yard.phones["inspector"]
    cleared = [one for one in story if chance.random() < 0.6]
    send(crew)
    for module, item in cleared:
        crew.write("item.ticked", item, {"steps": ["fill", "sand"]}, module)
        crew.write("item.cleared", item, {"minutes": chance.randrange(5, 40)}, module)
    send(crew)
    send(inspector)
    for module, item in cleared:
        if chance.random() < 0.1:
            inspector.write("item.sent_back", item, {"reason": "shows_under_light"}, module)
        elif chance.random() < 0.67:
            inspector.write("item.closed", item, {}, module)
    send(inspector)


def first_sync(phone: Phone) -> tuple[int, int]:
    """(bytes as they cross the wire, parts) of a sync from nothing."""
    cursor, chain, sent, parts = 0, "", 0, 0
    while True:
        call = phone.envelope(cursor=cursor, chain=chain, entries=[])
        headers = {**phone.bearer(), "Accept-Encoding": "gzip"}
        response = phone.client.post("/api/sync", json=call, headers=headers)
        answer = phone.app.json.loads(gzip.decompress(response.data))
        sent, parts = sent + len(response.data), parts + len(answer["parts"])
        cursor, chain = answer["cursor"], answer["chain"]
        if not answer["more"]:
            return sent, parts


def test_a_first_sync_of_a_full_yard(tmp_path: Path) -> None:
    chance = random.Random(SEED)
    with opened(tmp_path / "yard", 2 * MODULES) as yard:
        here, going = yard.modules[:MODULES], yard.modules[MODULES:]
        manager = yard.phones["manager"]
        for module in going:
            manager.write("module.left", module, {"why": "picked up"}, module)
        send(manager)
        work(yard, write_up(yard, here, chance), chance)
        before, parts = first_sync(yard.phone)
        after, before_parts = before, parts
        back = [f"{module[:-4]}{number:04x}" for number, module in enumerate(going)]
        for number, module in enumerate(back):
            facts = {"serial": f"LM-9{number:03}-B", "home": f"LM-9{number:03}"}
            manager.write("module.added", module, facts, module)
        send(manager)
        send(yard.phones["inspector"])
        work(yard, write_up(yard, back, chance), chance)
        for module in back:
            manager.write("module.left", module, {"why": "picked up"}, module)
        send(manager)
        after, parts = first_sync(yard.phone)
    print(
        f"\nFirst sync of {MODULES} modules, {MODULES * ITEMS} items, {MODULES * PHOTOS} photos: {before_parts} parts"
    )
    print(verdict("first sync, gzip", before / 1000, 400, " kB"))
    print(verdict("the same after as many modules more have left", after / before, 1.01, "×"))
    assert before <= 400_000
    assert parts == before_parts
    assert after <= 1.01 * before
