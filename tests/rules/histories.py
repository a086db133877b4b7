"""Random histories of one module's coats, told by entries: for parity, and for what must be true of every clock."""

from __future__ import annotations

from random import Random
from typing import Any

from server.rules import (
    DAY,
    Workspace,
    fold,
    forecast_id,
    heat_id,
    instant,
    learned_id,
    place_of,
    stream_id,
    tables,
)  # fmt: skip
from tests.rules.expand import expand

Entry = dict[str, Any]
MODULE, YARD = "00000000-0000-7000-8000-00000000000a", "00000000-0000-7000-8000-0000000000ff"
ROOMS = ("bath", "hall", "kitchen")
START, HOUR, END = 1_795_000_000, 3600, 1_795_000_000 + 5 * 86400
STREAMS: tuple[tuple[str, str | None], ...] = (("module", None), ("yard", None), ("room", "bath"), ("room", "hall"))


def history(seed: int) -> tuple[list[Entry], list[Entry]]:
    """Compact entries of a module and of its air; each reading is an entry of its own, in order."""
    chance = Random(seed)
    return [*_opening(chance), *_coats(chance)], _readings(chance)


def parts_after(base: list[Entry], readings: list[Entry]) -> list[dict[str, Any]]:
    """Every part once these entries are folded, by kind and id."""
    work = Workspace(lambda kind, part_id: None)
    fold(work, expand([*base, *readings]))
    return [part for _, part in sorted(work.changed.items())]


def place_after(base: list[Entry], readings: list[Entry]) -> dict[str, Any]:
    return place_of(MODULE, parts_after(base, readings))


def reading(chance: Random, where: str, room: str | None, rows: list[list[Any]]) -> Entry:
    """An entry of one stream, said at the end of all."""
    whose = {"module": None, "about": stream_id(YARD)} if where == "yard" else {"about": stream_id(MODULE, room)}
    body = {"where": where, "source": "logger", "rows": rows} | ({"room": room} if room else {})
    return _said("reading.taken", END, body, device="d7", **whose)


def _said(kind: str, time: int, body: Entry, **more: Any) -> Entry:
    device = {"device": "d2"} if "device" not in more and not kind.startswith("drying") else {}
    return {"kind": kind, "time": instant(time), "body": body, **device, **more}


def _opening(chance: Random) -> list[Entry]:
    finish = {
        "level": chance.choice([1, 4, 5]),
        "texture": chance.choice(["", "heavy"]),
        "paint": chance.choice(["", "w"]),
    }
    facts: Entry = {"serial": "1", "home": "1"} | ({"finish": {"*": finish}} if chance.random() < 0.8 else {})
    coats = {"coats": {"learned": chance.random() < 0.7}} if chance.random() < 0.5 else {}
    told = [_said("yard.opened", START, {"name": "y", "zone": "UTC", "bays": [], "crews": [], **coats}, about=YARD)]
    told.append(_said("module.added", START, facts))
    told += [_said("room.added", START, {"room": room, "name": room}) for room in ROOMS[: chance.randrange(4)]]
    if chance.random() < 0.5:
        since = {"since": instant(START + chance.randrange(0, 3 * DAY))} if chance.random() < 0.7 else {}
        to = {"to": chance.choice([150, 211, 240])} if chance.random() < 0.8 else {}
        body = {"on": chance.random() < 0.8, **since, **to}
        told.append(_said("heat.told", START + 3 * DAY, body, about=heat_id(MODULE)))
    if chance.random() < 0.4:
        factors = {"drying_type": {"percent": chance.randrange(60, 200), "looks": chance.choice([5, 20, 60])}}
        told.append(_said("drying.learned", START, {"factors": factors}, about=learned_id(YARD)))
    night = {"from": instant(END), "to": instant(END + 8 * HOUR), "low": 5}
    told.append(
        _said("forecast.told", START, {"source": "typed", "nights": [night]}, module=None, about=forecast_id(YARD))
    )
    return told


def _coats(chance: Random) -> list[Entry]:
    told: list[Entry] = []
    time, keys = START + chance.randrange(DAY), list(tables(1)["schedule"]["coats"])
    for number in range(chance.randrange(1, 6)):
        about, time = f"c{number}", min(END - HOUR, time + chance.randrange(HOUR // 2, 40 * HOUR))
        told += _laid(chance, about, chance.choice(keys), time, number)
        if chance.random() < 0.4:
            told.append(_look(chance, about, min(END, time + chance.randrange(HOUR, 40 * HOUR))))
    return sorted(told, key=lambda one: str(one["time"]))


def _laid(chance: Random, about: str, key: str, time: int, number: int) -> list[Entry]:
    row = tables(1)["schedule"]["coats"][key]
    rooms = chance.sample(ROOMS, chance.randrange(1, 4))
    wall = {"surface": chance.choice(["A", "B"])} if key in ("fill", "touch_up") and len(rooms) == 1 else {}
    nicks = chance.sample(["i1", "i2", "i3"], chance.choice([1, 2]))
    items = {"items": nicks} if wall and chance.random() < 0.7 else {}
    setting = row["family"] == "joint" and chance.random() < 0.4
    material = {"material": "setting_type", "set_minutes": 45} if setting else {"material": row["material"]}
    thick = {"thickness": chance.choice(["thin", "normal", "heavy"])} if chance.random() < 0.3 else {}
    over = {"over": [f"c{number - 1}"]} if number and chance.random() < 0.7 else {}
    early = {"early": "rain"} if chance.random() < 0.3 else {}
    # Now and then a phone whose clock is hours off.
    off = {"at": instant(time - 2 * HOUR)} if chance.random() < 0.05 else {}
    body = {"coat": key, "rooms": rooms, **wall, **items, **material, **thick, **over, **early}
    told = [_said("coat.laid", time, body, about=about, **off)]
    if chance.random() < 0.2:
        told.append(_said("coat.answered", time + HOUR // 2, {"reason": "cut it"}, about=about, device="d1"))
    if chance.random() < 0.05:
        told.append(_said("coat.voided", time + HOUR // 2, {"reason": "not here"}, about=about))
    return told


def _look(chance: Random, about: str, time: int) -> Entry:
    kind = chance.choice(["coat.found_wet", "coat.found_dry", "coat.found_dry", "coat.wet_sanded"])
    tried = {"tried": ["cut"], "reason": "white"} if kind == "coat.found_dry" and chance.random() < 0.5 else {}
    return _said(kind, time, {"rooms": chance.sample(ROOMS, 2), **tried}, about=about)


def _readings(chance: Random) -> list[Entry]:
    """Of one stream, or of several that overlap; read seldom or often, with hours left out."""
    told = []
    for where, room in chance.sample(STREAMS, chance.choice([0, 1, 1, 1, 2, 3])):
        step, near = chance.choice([HOUR, 3 * HOUR, 9 * HOUR]), chance.randrange(40, 300)
        damp = chance.choice([30, 50, 70, 92])
        begin = START + chance.randrange(-DAY // 2, DAY)
        for time in range(begin, min(END, begin + chance.randrange(1, 5) * DAY), step):
            if chance.random() < 0.9:
                rh = min(100, damp + chance.randint(-9, 9))
                row = [instant(time + chance.randrange(600)), near + chance.randint(-40, 40), rh, None]
                told.append(reading(chance, where, room, [row]))
    return told
