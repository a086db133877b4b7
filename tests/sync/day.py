"""One day in the yard: what people do and what goes wrong, each a method that takes its chance from outside."""

from __future__ import annotations

from datetime import timedelta
from random import Random
from typing import Any

from tests.sync.handset import Handset
from tests.sync.offers import offers, settle_module
from tests.sync.settled import check_release
from tests.sync.world import World

HANDS = [["ines", "ola"], ["teo", "ola"], ["ines"], ["sunniva", "teo"], ["maren"]]
# How likely a kind of act is where it is on offer.
WEIGHTS = {"close": 8, "clear": 6, "log": 2, "amend": 4, "give": 2, "void": 2, "answer_release": 4, "answer_phone": 3}
# What an hour is made of: doings and how likely they are.
HOUR = {
    "write": 40, "sync": 12, "all_sync": 4, "reply_is_lost": 3, "signal_goes": 3, "pull_stops": 2,
    "old_call_comes_again": 2, "joins": 1, "enrols_anew": 1, "storage_is_kept": 2, "storage_goes_back": 2,
    "manager_lets_in": 5, "manager_keeps_out": 1, "clock_goes_wrong": 1, "time_passes": 3, "backed_up": 1,
    "restored": 1,    "release_is_asked": 3, "release_is_asked_unsynced": 2, "phone_is_written_off": 1,
}  # fmt: skip


class Day:
    def __init__(self, world: World) -> None:
        world.begin_with(HANDS)
        self.world = world
        self.phones: list[Handset] = world.phones
        self.stored: dict[str, dict[str, Any]] = {}

    def hour(self, chance: Random, length: int) -> None:
        for doing in chance.choices(list(HOUR), list(HOUR.values()), k=length):
            getattr(self, doing)(chance)

    def _phone(self, chance: Random) -> Handset:
        return chance.choices(self.phones, [4, 4, 4, 2, 2])[0]

    def write(self, chance: Random) -> None:
        """Somebody does, a few times, what the screens offer; nothing is sent."""
        held = self._phone(chance)
        by = chance.choice(held.people)
        for _ in range(chance.randint(1, 3)):
            found = offers(held, by)
            if found:
                kind = chance.choices(list(found), [WEIGHTS.get(name, 1) for name in found])[0]
                chance.choice(found[kind])()

    def sync(self, chance: Random) -> None:
        self._phone(chance).sync()

    def all_sync(self, chance: Random) -> None:
        for phone in self.phones:
            phone.sync()

    def reply_is_lost(self, chance: Random) -> None:
        self._phone(chance).sync(lose=True)

    def signal_goes(self, chance: Random) -> None:
        """The signal lasts for so many entries."""
        self._phone(chance).sync(most=chance.randint(1, 3))

    def pull_stops(self, chance: Random) -> None:
        """The signal lasts for one page."""
        self._phone(chance).sync(pages=1)

    def old_call_comes_again(self, chance: Random) -> None:
        held = self._phone(chance)
        if held.calls:
            held.post(*chance.choice(held.calls))
            self.world.catch_up()
            self.world.told["repeats"] += 1

    def joins(self, chance: Random) -> None:
        self._phone(chance).join(chance.choice(["ines", "ola", "teo", "sunniva"]))

    def enrols_anew(self, chance: Random) -> None:
        held = self._phone(chance)
        if not held.outbox:
            held.enrol()
            self.world.told["enrolments"] += 1

    def storage_is_kept(self, chance: Random) -> None:
        held = self._phone(chance)
        self.stored[held.device] = held.store()

    def storage_goes_back(self, chance: Random) -> None:
        """A phone is set up again from a copy of its storage: it uses numbers twice without knowing."""
        for held in self.phones:
            stored = self.stored.get(held.device)
            if stored is not None and stored["n"] < held.n:
                held.go_back(self.stored.pop(held.device))
                self.world.told["storage_lost"] += 1
                return

    def manager_lets_in(self, chance: Random) -> None:
        waiting = self.world.waiting()
        if waiting:
            self.world.let_in(chance.choice(waiting)["sha256"])

    def manager_keeps_out(self, chance: Random) -> None:
        waiting = self.world.waiting()
        if waiting:
            self.world.keep_out(chance.choice(waiting)["sha256"])

    def clock_goes_wrong(self, chance: Random) -> None:
        self._phone(chance).off = timedelta(days=chance.randint(-9, 9), minutes=chance.randint(0, 99))

    def time_passes(self, chance: Random) -> None:
        self.world.clock.forward(minutes=chance.randint(1, 3000))

    def backed_up(self, chance: Random) -> None:
        self.world.back_up()

    def restored(self, chance: Random) -> None:
        if self.world.backup_at is not None:
            self.world.restore()

    def phone_is_written_off(self, chance: Random) -> None:
        """The manager gives up a phone; it comes back all the same."""
        device = self._phone(chance).device
        if device in self.world.parts("device"):
            self.world.write_off(device)

    def release_is_asked(self, chance: Random) -> None:
        """Shipping asks after everybody has done what the module still needs, as far as their phones show it."""
        about = chance.choice(self.world.modules)
        crew, inspector, shipping = self.phones[1], self.phones[2], self.phones[3]
        crew.sync()
        for act in offers(crew, "teo").get("clear", []):
            act()
        crew.sync()
        inspector.sync()
        settle_module(inspector, "ines", about, list(inspector.parts.values()))
        inspector.walk("ines", about)
        inspector.sync()
        shipping.sync()
        self._ask(shipping, about)

    def release_is_asked_unsynced(self, chance: Random) -> None:
        self._ask(self.phones[3], chance.choice(self.world.modules))

    def _ask(self, held: Handset, module: str) -> None:
        if not held.staged:
            status, answer = held.ask_release("sunniva", module)
            if status == 200:
                check_release(self.world, answer["entry"])
