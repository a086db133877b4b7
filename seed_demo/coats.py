"""Coats in the story's longer moves: what lies where, the card that comes with a module from the line, whose air it is.

Nothing here knows when a coat is dry. Coats go on at the times that the trade would choose; how that turned out is
reckoned by the program.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time, timedelta
from functools import partial
from typing import Any

from seed_demo.instruments import Sensor, brings_in, csv_file
from seed_demo.story import Story
from seed_demo.weather import Air, Room
from seed_demo.workers import Worker
from seed_demo.yard import Json

MATERIALS = {"texture": "texture", "prime": "primer", "paint_1": "latex", "paint_2": "latex", "touch_up": "latex"}
PAINTED = ("paint_1", "paint_2", "touch_up")
# How each module is kept once it stands in the yard.
KEPT = {
    "5078-A": Room(67, 1.5, 0.35),
    "5078-B": Room(67, 1.5, 0.35),
    "5081-A": Room(68, 1.5, 0.38),
    "5081-B": Room(68, 1.5, 0.38),
    "5083-A": Room(58, 1.0, 0.18),
    "5084-A": Room(52, 0.8, 0.36),
}
# Nobody had filled the heater of 5078-A: from day to day, 8 pm to 8 am.
HEATER_OUT = (4, 5)
Look = tuple[float | None, float]
# Hours after the laying at which a joint of the line was found wet, and dry; one after the other. Where it is heated
# the air is drier: one look, and it was dry.
LOOKS: Sequence[Look] = ((18.5, 21.5), (18.0, 21.0), (17.5, 21.5))
LOOKS_HEATED: Sequence[Look] = ((None, 16.0),)
DRY_REASON = {"cut": "Cut through the joint by the door: dry to the paper.", "powder": "Sands to dry powder."}

Line = tuple[str, int, str, Sequence[str] | None]


def air_in(s: Story, serial: str, when: datetime) -> Air:
    """What a logger in that module reads."""
    if when < s.when(s.module(serial).comes, "06:30"):
        return s.weather.line(when)
    if serial == "5078-A" and any(
        s.when(day, "20:00") <= when < s.when(day, "20:00") + timedelta(hours=12) for day in HEATER_OUT
    ):
        return s.weather.inside(when, Room(46, 1.0, 0.12))
    return s.weather.inside(when, KEPT[serial])


def lays(s: Story, worker: Worker, serial: str, coat: str, rooms: Sequence[str] | None = None, *,
         name: str | None = None, surface: str | None = None, laid: datetime | None = None, material: str | None = None,
         batch: str | None = None, **told: Any) -> str:  # fmt: skip
    """A coat on rooms (all of them by default) or on one wall; it knows what it covers. Its id."""
    where = list(rooms or s.rooms(serial))
    over = [coat_id for room in where for coat_id in _under(s, serial, room, surface)]
    made = worker.lays(
        s.modules[serial], coat, where, material or MATERIALS.get(coat, "drying_type"), laid=laid, surface=surface,
        over=list(dict.fromkeys(over)) or None, paint=paint_of(s, serial, coat, where[0], batch), **told,
    )  # fmt: skip
    for room in where:
        layers = s.layers.setdefault((serial, room), {})
        if surface is None:
            layers.clear()
        layers[surface] = made
    s.coats[name or f"{serial} {coat}"] = made
    return made


def _under(s: Story, serial: str, room: str, surface: str | None) -> list[str]:
    layers = s.layers.get((serial, room), {})
    if surface is None:
        return list(layers.values())
    below = layers.get(surface) or layers.get(None)
    return [below] if below else []


def paint_of(s: Story, serial: str, coat: str, room: str, batch: str | None) -> Json | None:
    """What is on the can: by the module's finish, a batch for each home."""
    if coat in ("prime", "prime_2"):
        return {"product": "PVA primer", "batch": batch or f"P-{s.module(serial).home}"}
    if coat not in PAINTED:
        return None
    finish = {**s.module(serial).finish["*"], **s.module(serial).finish.get(room, {})}
    return {
        "product": f"Interior latex, {finish['sheen']}", "colour": finish["paint"],
        "batch": batch or f"L-{s.module(serial).home}", "can": "Paint shed, shelf 2",
    }  # fmt: skip


def before(s: Story, serial: str, days: int, clock: str) -> datetime:
    """An instant so many days before the module came: the line works every day."""
    day = s.days[s.module(serial).comes - 1] - timedelta(days=days)
    return datetime.combine(day, time.fromisoformat(clock), s.zone)


def line_card(s: Story, serial: str, lines: Sequence[Line], early: dict[str, str] | None = None) -> None:
    """The crew leads write down what the card from the line says."""
    for coat, days, clock, rooms in lines:
        worker = s["bartolo" if coat not in MATERIALS or coat == "texture" else "june"]
        s.passes(40)
        _on_the_line(s, worker, serial, coat, rooms, laid=before(s, serial, days, clock), early=(early or {}).get(coat))
    s.sync("bartolo", "june")


def line_as_it_goes(s: Story, serial: str, lines: Sequence[Line], looks: Sequence[Look] = LOOKS) -> None:
    """The module is in the program while it stands on the line: coats and looks are written when they are made."""
    for coat, days, clock, rooms in lines:
        laid = before(s, serial, days, clock)
        s.later(laid, partial(_lays_now, s, serial, coat, rooms))
        if coat not in MATERIALS:
            wet, dry = looks[s.looks % len(looks)]
            s.looks += 1
            for number, room in enumerate(rooms or s.rooms(serial)):
                walked = timedelta(minutes=7 * number)
                if wet is not None:
                    s.later(laid + timedelta(hours=wet) + walked, partial(_looks_now, s, serial, coat, room, False))
                s.later(laid + timedelta(hours=dry) + walked, partial(_looks_now, s, serial, coat, room, True))


def _lays_now(s: Story, serial: str, coat: str, rooms: Sequence[str] | None) -> None:
    _on_the_line(s, s["bartolo"], serial, coat, rooms)
    s["bartolo"].sync()


def _looks_now(s: Story, serial: str, coat: str, room: str, dry: bool) -> None:
    bartolo, module, about = s["bartolo"], s.modules[serial], s.coats[f"{serial} {coat}"]
    if dry:
        bartolo.finds_dry(module, about, [room], ["cut"], DRY_REASON["cut"])
    else:
        bartolo.finds_wet(module, about, [room], "Dark along the tape.")
    bartolo.sync()


def _on_the_line(s: Story, worker: Worker, serial: str, coat: str, rooms: Sequence[str] | None, **told: Any) -> None:
    thin, minutes = "thin" if coat == "skim" else None, 240 if coat in PAINTED else None
    lays(s, worker, serial, coat, rooms, thickness=thin, label_minutes=minutes, **told)


def logger_file(s: Story, who: str, serial: str, begins: datetime, ends: datetime, *, room: str | None = None,
                name: str = "4") -> int:  # fmt: skip
    """A logger's file of that time is brought in."""
    s.passes(90)
    phone = s[who].phone
    phone.hand_to(s[who].id)
    data = csv_file(lambda when: air_in(s, serial, when), begins, ends, phone)
    return brings_in(phone, data, s.modules[serial], room, name)


def hangs_sensor(s: Story, name: str, begins: datetime, serial: str | None = None) -> None:
    """The manager makes a key for a sensor of a module, or of the yard outside."""
    place = {"module": s.modules[serial]} if serial else {}
    phone = s["teodora"].phone
    phone.hand_to(s["teodora"].id)
    key = phone.post("/api/sensors", {"name": name, **place})["key"]
    reads = s.weather.outside if serial is None else lambda when: air_in(s, serial, when)
    s.sensors.append(Sensor(name, key, reads, begins))


def sensors_post(s: Story) -> None:
    """Every sensor posts what it has read."""
    for sensor in s.sensors:
        sensor.posts(s.transport, s.now)


def reads(s: Story, who: str, serial: str) -> None:
    """Somebody in the module reads its air off the gauge."""
    s.passes(20)
    s[who].reads_air(s.modules[serial], [(s.now, air_in(s, serial, s.now))])


def low_tonight(s: Story, who: str, low: int) -> None:
    """Tonight's low from the weather report, tenths of a degree Celsius."""
    evening = datetime.combine(s.now.astimezone(s.zone).date(), time(18), s.zone)
    s[who].tells_low(yard_id(s), evening, evening + timedelta(hours=16), low)


def yard_id(s: Story) -> str:
    """As every phone has pulled it."""
    return next(about for kind, about in s["teodora"].phone.parts if kind == "yard")
