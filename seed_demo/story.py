"""The teller: the story's clock, who has which phone, what each thing is called, and the trade's longer moves.

A day is told with these and with the verbs of ``workers``. Everything reaches the server through phones; only the
clock is set from here, by a function that whoever started the app hands in.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from seed_demo import yard
from seed_demo.camera import View, view_of
from seed_demo.findings import WRITE_UPS, WriteUp
from seed_demo.instruments import Sensor
from seed_demo.phones import Phone
from seed_demo.pictures import PX, draw
from seed_demo.weather import Weather
from seed_demo.wire import Json, Transport
from seed_demo.workers import Worker

DAYS = 10


def working_days(last: date) -> list[date]:
    """The ten working days that end on ``last``, or on the Friday before when that is no working day."""
    days: list[date] = []
    while len(days) < DAYS:
        if last.weekday() < 5:
            days.append(last)
        last -= timedelta(days=1)
    return days[::-1]


@dataclass
class Story:
    """One telling. ``set_clock`` sets the app's clock, ``say`` reports progress in words."""

    transport: Transport
    set_clock: Callable[[datetime], None]
    last: date
    say: Callable[[str], None] = lambda _words: None
    zone: ZoneInfo = field(default_factory=lambda: ZoneInfo(yard.ZONE))
    now: datetime = datetime(2000, 1, 1, tzinfo=UTC)
    workers: dict[str, Worker] = field(default_factory=dict)
    people: dict[str, str] = field(default_factory=dict)
    plans: dict[str, str] = field(default_factory=dict)
    modules: dict[str, str] = field(default_factory=dict)
    items: dict[str, list[str]] = field(default_factory=dict)
    photos: dict[str, str] = field(default_factory=dict)
    releases: dict[str, str] = field(default_factory=dict)
    kept: dict[str, str] = field(default_factory=dict)
    coats: dict[str, str] = field(default_factory=dict)
    # (serial, room) -> wall, or None for the room -> the coat on top.
    layers: dict[tuple[str, str], dict[str | None, str]] = field(default_factory=dict)
    sensors: list[Sensor] = field(default_factory=list)
    looks: int = 0
    agenda: list[tuple[datetime, Callable[[], None]]] = field(default_factory=list)
    # The instant at which the telling ends; the morning after the last day when nobody says.
    until: datetime | None = None

    def __post_init__(self) -> None:
        self.days = working_days(self.last)
        self.weather = Weather(self.days, self.zone)

    # Time

    def at(self, day: int, clock: str) -> None:
        """It is now that time, in the yard, on working day ``day`` (from 1)."""
        self._set(self.when(day, clock))

    def at_end(self) -> None:
        """It is the morning after, or what whoever tells the story calls the end."""
        morning = datetime.combine(self.days[-1] + timedelta(days=1), time(6, 30), self.zone)
        self._set(self.until or morning)

    def when(self, day: int, clock: str) -> datetime:
        """That time of working day ``day`` (from 1) in the yard."""
        return datetime.combine(self.days[day - 1], time.fromisoformat(clock), self.zone)

    def passes(self, seconds: float) -> None:
        """Some time goes by."""
        self._set(self.now + timedelta(seconds=seconds))

    def later(self, instant: datetime, done: Callable[[], None]) -> None:
        """Something that is done when that instant has come, whatever else the story tells then."""
        self.agenda.append((instant, done))
        self.agenda.sort(key=lambda one: one[0])

    def _set(self, instant: datetime) -> None:
        while self.agenda and self.agenda[0][0] <= instant:
            due, done = self.agenda.pop(0)
            self._now(due)
            done()
        self._now(instant)

    def _now(self, instant: datetime) -> None:
        self.now = max(self.now, instant.astimezone(UTC))
        self.set_clock(self.now)

    def pickup(self, module: yard.Module) -> str:
        """The instant of a module's pickup: 7 am, so many days after the last day, no driver comes on a weekend."""
        day = self.days[-1] + timedelta(days=module.pickup)
        while day.weekday() > 4:
            day += timedelta(days=1)
        return datetime.combine(day, time(7), self.zone).astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")

    # People and phones

    def phone(self, name: str) -> Phone:
        """A new phone, whose clock is right until somebody makes it wrong."""
        return Phone(self.transport, lambda: self.now, self.zone, name)

    def signs_in(self, key: str, person: yard.Person, phone: Phone | None = None) -> Worker:
        """Give a person a phone; the story calls the pair by ``key``."""
        worker = Worker(phone or self.phone(key), person.name, person.passcode)
        self.workers[key] = worker
        self.people[person.name] = worker.id
        worker.sync()
        return worker

    def __getitem__(self, key: str) -> Worker:
        return self.workers[key]

    def sync(self, *keys: str) -> None:
        """These phones meet a signal, one after the other."""
        for key in keys:
            self.passes(20)
            self.workers[key].phone.signal = True
            self.workers[key].sync()

    def no_signal(self, *keys: str) -> None:
        """These phones are carried to where there is none."""
        for key in keys:
            self.workers[key].phone.signal = False

    # Longer moves

    def module(self, serial: str) -> yard.Module:
        """The data of a module."""
        return next(one for one in yard.MODULES if one.serial == serial)

    def rooms(self, serial: str) -> list[str]:
        """Keys of its rooms, by the plan."""
        return [room["id"] for room in yard.PLANS[self.module(serial).plan]]

    def writes_up(self, worker: Worker, *names: str) -> None:
        """One wall after the other: every mark an item, then the photo that serves them."""
        for name in names:
            found = WRITE_UPS[name]
            module = self.modules[found.serial]
            self.passes(95)
            self.items[name] = []
            for defect, along, up in found.marks:
                self.passes(7)
                spot = (found.room, found.surface, along, up)
                self.items[name].append(worker.logs(module, defect, spot, light=found.light, crew=found.crew))
            if found.photo:
                self.photos[name] = self._takes(worker, found, "before", {i: 1.0 for i in range(len(found.marks))})

    def clears(
        self,
        worker: Worker,
        *names: str,
        only: Sequence[int] | None = None,
        after: bool = False,
        left: Mapping[int, float] | None = None,
        by: Sequence[str] = (),
        minutes: int | None = None,
    ) -> None:
        """Clear a wall, or ``only`` some of its items; ``left`` says what a look will still find of each."""
        for name in names:
            found, which = WRITE_UPS[name], self._which(name, only)
            module = self.modules[found.serial]
            self.passes(300)
            photos: list[str] = []
            if after:
                stays = {i: 1.0 for i in range(len(found.marks)) if i not in which} | dict(left or {})
                photos = [self._takes(worker, found, "after", stays, which)]
            worker.clears(module, *[self.items[name][i] for i in which], after=photos, minutes=minutes,
                          done_by=[self.people[one] for one in by])  # fmt: skip

    def closes(self, worker: Worker, *names: str, only: Sequence[int] | None = None) -> None:
        """Close a wall, or ``only`` some of its items."""
        for name in names:
            self.passes(70)
            worker.closes(self.modules[WRITE_UPS[name].serial], *[self.items[name][i] for i in self._which(name, only)])

    def sends_back(self, worker: Worker, name: str, index: int, reason: str, text: str | None = None) -> None:
        """Send one item back, with a photo of what is left of it."""
        found = WRITE_UPS[name]
        self.passes(60)
        photo = self._takes(worker, found, "wall", {index: 0.5}, [index], light="raking", says=text)
        worker.sends_back(self.modules[found.serial], self.items[name][index], reason, text, [photo])

    def sheet(self, worker: Worker, serial: str, sheet: str, lines: Mapping[str, bool], sign: bool = True) -> None:
        """Answer every line of a sheet with yes (True: by room, False: for the whole module), then sign it."""
        for line, by_room in lines.items():
            self.passes(50)
            worker.answers(self.modules[serial], sheet, line, self.rooms(serial) if by_room else ["module"])
        if sign:
            self.passes(40)
            worker.signs(self.modules[serial], sheet)

    def _which(self, name: str, only: Sequence[int] | None) -> list[int]:
        return list(range(len(WRITE_UPS[name].marks))) if only is None else list(only)

    def _takes(self, worker: Worker, found: WriteUp, shows: str, left: Mapping[int, float],
               of: Sequence[int] | None = None, light: str | None = None, says: str | None = None) -> str:  # fmt: skip
        """Take a photo of a write-up's wall, with a ring and words on it when it is of what is left; the photo's id."""
        view: View = view_of(self.module(found.serial), found)
        self.passes(12)
        ids = self.items[found.name]
        marks = _ringed(view.px[next(iter(left))], says) if shows == "wall" else []
        return worker.photographs(
            self.modules[found.serial],
            draw(view.with_left(left, light)),
            PX,
            shows,
            room=found.room,
            surface=found.surface,
            items=[(ids[i], *view.px[i]) for i in self._which(found.name, of)],
            marks=marks,
        )


def _ringed(at: tuple[int, int], says: str | None) -> list[Json]:
    """Marks as data: a ring round the place and, below it, what the inspector has to say."""
    marks: list[Json] = [{"kind": "ring", "at": list(at), "r": 70}]
    if says:
        marks.append({"kind": "text", "at": [max(20, at[0] - 200), min(PX[1] - 40, at[1] + 110)], "text": says})
    return marks
