"""Yards of modules with coats, readings, looks, heat and nights, as parts: for parity, properties and the benchmark."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Any

from server.rules import instant, tables
from server.rules.drying import rate

Part = dict[str, Any]
ROOMS = ("kitchen", "living", "hall", "bath", "bed1", "bed2", "utility", "closet")
COATS = ("tape", "first", "second", "texture", "prime", "paint_1", "paint_2")
NOW = 1_796_000_000
HOUR, DAY = 3600, 86400


@dataclass(frozen=True)
class Weather:
    """How often a module is read, how long, and how damp it is."""

    step: int = 1800
    hours: int = 80
    damp: int = 55


def part(kind: str, about: str, whose: str | None, **fields: Any) -> Part:
    return {"part": kind, "id": about, "module": whose, "seq": 1, **fields}


def head(value: Any) -> list[Any]:
    return [[value, [1, "d1", 1, 0], "p1"]]


def module(chance: Random, number: int) -> Part:
    finish = {"level": chance.choice([3, 4, 4, 5]), "texture": chance.choice(["smooth", "knockdown"]), "paint": "white"}
    facts = {"serial": f"LM-{number:04}-A", "home": f"LM-{number:04}", "finish": {"*": finish}, "plan": "plan"}
    facts["pickup"] = instant(NOW + chance.randrange(1, 9) * DAY)
    made = part("module", f"module-{number}", f"module-{number}", last_number=0, left=None, release=None, releases=[])
    made |= {
        "heads": {name: head(fact) for name, fact in facts.items()},
        "answers": [],
        "phone_answers": {},
        "lines": [],
    }
    return made | {"rooms": [{"room": room, "name": room, "seq": 1} for room in ROOMS]}


def air(chance: Random, about: str | None, room: str | None, weather: Weather) -> list[Part]:
    """One part a day, rows as the fold keeps them; None is the yard."""
    days: dict[str, list[list[Any]]] = {}
    where = "yard" if about is None else "module" if room is None else "room"
    near, until = chance.randrange(70, 270), NOW - chance.randrange(0, 3 * HOUR)
    for time in range(until - weather.hours * HOUR, until, weather.step):
        temp = near + chance.randint(-15, 15)
        rh = max(0, min(100, weather.damp + chance.randint(-10, 10)))
        surface = temp - chance.randint(0, 30) if chance.random() < 0.3 else None
        row = [time, temp, rh, rate(temp, rh, 1), surface, "logger", "p1", None]
        days.setdefault(instant(time)[:10], []).append(row)
    whose = {"stream": f"{about} {room}", "where": where, "room": room}
    return [part("air", f"{about} {room} {day}", about, day=day, rows=rows, **whose) for day, rows in days.items()]


def coat(chance: Random, about: str, key: str, rooms: list[str], laid: int) -> Part:
    row = tables(1)["schedule"]["coats"][key]
    material = chance.choice(["drying_type", "setting_type"]) if row["family"] == "joint" else row["material"]
    made = part("coat", f"{about} {key} {laid}", about, coat=key, rooms=rooms, surface=None, material=material)
    made |= {
        "thickness": row.get("thickness", "normal"),
        "paint": None,
        "laid": instant(laid),
        "by": "p2",
        "done_by": [],
    }
    made |= {"set_minutes": chance.choice([20, 45, 90]) if material == "setting_type" else None, "label_minutes": None}
    made |= {
        "time": instant(laid),
        "unsure": 1 if chance.random() < 0.03 else 0,
        "early": "rain" if chance.random() < 0.1 else None,
        "over": [],
        "items": [],
    }
    made |= {"ref": [1, "d1", 1, 0], "covered_by": [], "objections": {}, "since": 1, "lines": []}
    told = {"by": "p1", "time": instant(NOW), "reason": "looked at it", "seen": chance.choice([0, 1])}
    made |= {"answer": {"ref": [2, "d3", 1, 0], **told} if chance.random() < 0.2 else None, "void": None}
    cells: Part = {room: {"objections": {}, "wet": None, "dry": None, "restart": None} for room in rooms}
    return made | {"cells": cells}


def look(chance: Random, part: Part, laid: int) -> None:
    """Somebody looked at some of its rooms: not dry, or dry by a cut, or worked wet."""
    rooms = chance.sample(part["rooms"], chance.randrange(1, len(part["rooms"]) + 1))
    time = instant(min(NOW, laid + chance.randrange(1, 70) * HOUR))
    kind = chance.choice(["coat.found_wet", "coat.found_dry", "coat.found_dry", "coat.wet_sanded"])
    tried = {"tried": ["cut"], "reason": "white to the paper"} if chance.random() < 0.6 else {}
    body: Part = {"rooms": rooms} | (tried if kind == "coat.found_dry" else {})
    for room in rooms:
        cell, ref = part["cells"][room], {"ref": [2, "d1", 2, 0], "by": "p2", "time": time}
        if kind == "coat.found_wet":
            cell["wet"], cell["dry"] = {"by": "p2", "time": time}, None
        elif kind == "coat.found_dry":
            cell["dry"], cell["wet"] = ref | {"tried": [], "reason": None} | tried, None
        else:
            cell["restart"], cell["wet"], cell["dry"] = time, None, None
    part["lines"].append({"kind": kind, "by": "p2", "time": time, "body": body})


def module_parts(chance: Random, number: int, weather: Weather | None = None) -> list[Part]:
    """A module somewhere in its schedule, its air, perhaps its heat and some rework on one wall."""
    step, hours = chance.choice([1800, HOUR, HOUR, 5 * HOUR]), chance.choice([30, 80])
    weather = weather or Weather(step, hours, chance.randrange(20, 97))
    made = module(chance, number)
    about, parts, laid = made["id"], [made], NOW - chance.randrange(20, 90) * HOUR
    for key in COATS[: chance.randrange(0, len(COATS) + 1)]:
        rooms = [room for room in ROOMS if chance.random() < 0.9] or ["hall"]
        parts.append(coat(chance, about, key, rooms, laid))
        if chance.random() < 0.5:
            look(chance, parts[-1], laid)
        laid = min(NOW, laid + chance.randrange(6, 30) * HOUR)
    if chance.random() < 0.4:
        for number in range(chance.randrange(1, 4)):
            kind, time = chance.choice(["fill", "fill", "texture"]), NOW - chance.randrange(1, 30) * HOUR
            wall = coat(chance, about, kind, ["bath"], time) | {"id": f"{about} wall {number}"}
            items = chance.sample(["i1", "i2", "i3"], chance.randrange(0, 3))
            thick = chance.choice(["normal", "normal", "thin", "heavy"])
            parts.append(wall | {"surface": chance.choice("AB"), "items": items, "thickness": thick})
    for room in (None, *chance.sample(ROOMS, chance.randrange(0, 3))):
        if chance.random() < 0.9:
            parts += air(chance, about, room, weather)
    return parts + [heat(chance, about)] * (chance.random() < 0.5)


def heat(chance: Random, about: str) -> Part:
    since, fuel = instant(NOW - chance.randrange(1, 60) * HOUR), chance.choice(["propane", "natural_gas", None])
    told = {"on": chance.random() < 0.8, "since": since, "to": chance.choice([211, None]), "unvented": fuel}
    earlier = sorted(NOW - chance.randrange(2, 90) * HOUR for _ in range(chance.randrange(0, 4)))
    words = [_word(chance, time) for time in earlier] + [{name: told[name] for name in ("on", "since", "to")}]
    words[-1] |= {"time": instant(NOW - HOUR)}
    return part("heat", f"{about} heat", about, by="p2", time=instant(NOW - HOUR), words=words, **told)


def _word(chance: Random, time: int) -> Part:
    """What was said of the heat before, maybe for an hour that was over."""
    since = instant(time - chance.randrange(0, 30) * HOUR) if chance.random() < 0.5 else None
    return {"on": chance.random() < 0.7, "since": since, "to": chance.choice([150, 211, None]), "time": instant(time)}


def yard_parts(chance: Random) -> list[Part]:
    """The yard's own: crews, the air outside, the nights to come, what it has learned, the plan."""
    coats = {"crews": {"joint": "north", "paint": "south"}}
    yard = part("yard", "yard", None, name="Yard", zone="America/Chicago", bays=[], crews=[], coats=coats, epochs=[])
    nights = [night(chance, NOW + days * DAY) for days in range(-1, 3)] if chance.random() < 0.8 else []
    factors = {"drying_type": {"percent": chance.randrange(60, 180), "looks": chance.choice([10, 40])}}
    was = {"drying_type": [[instant(NOW - hours * HOUR), chance.choice([70, 100, 140]), 30] for hours in (80, 40, 20)]}
    sizes = {room: {"l": 3600, "w": 2400 + 300 * at, "h": 2440} for at, room in enumerate(ROOMS[:5])}
    rooms = [{"id": room, "name": room, "walls": {}, **size} for room, size in sizes.items()]
    outside = air(chance, None, None, Weather(HOUR, 60, chance.randrange(40, 95))) if chance.random() < 0.7 else []
    return [
        yard,
        part("plan", "plan", None, name="Plan", rooms=rooms, **{"from": None}),
        part("forecast", "forecast", None, nights=nights),
        part("learned", "learned", None, factors=factors, was=was, time=instant(NOW - 20 * HOUR)),
        *outside,
    ]


def night(chance: Random, day: int) -> Part:
    span = {"from": instant(day + 8 * HOUR), "to": instant(day + 18 * HOUR)}
    return {**span, "low": chance.randrange(-40, 120), "by": "p2", "time": instant(NOW), "source": "typed"}
