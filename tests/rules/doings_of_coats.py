"""What is done with coats, and what is said of air, heat and nights, in a random journal."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from server.rules import forecast_id, heat_id, instant, learned_id, stream_id
from tests.rules.doings import ROOMS, TEXTS, Body, Told, _some

if TYPE_CHECKING:
    from tests.rules.journals import Yard

COATS = {
    "tape": "drying_type",
    "first": "setting_type",
    "skim": "drying_type",
    "texture": "texture",
    "prime": "primer",
    "paint_1": "latex",
    "touch_up": "alkyd",
    "constructor": "drying_type",
}
# One day and the one 64 days before it share a place; the last is still to come.
DAYS = ["2026-12-02"] * 5 + ["2026-12-01", "2026-12-01", "2026-09-29", "2026-09-29", "2026-09-28", "2027-02-04"]


def _instant(yard: Yard) -> str:
    hour, minute = yard.chance.randrange(5, 15), yard.chance.randrange(60)
    return f"{yard.chance.choice(DAYS)}T{hour:02}:{minute:02}:00Z"


def _coat(yard: Yard) -> tuple[str | None, str]:
    """A module and one of its coats, mostly one that arrived; now and then one that nobody laid."""
    if not yard.coats or yard.chance.random() < 0.02:
        return yard.modules[0], yard.uuid()
    arrived = [about for kind, about in yard.work.changed if kind == "coat"]
    coats = [part for part in yard.work.changed.values() if part["part"] == "coat"]
    answered = {part["id"] for part in coats if part["answer"]}
    below = [part["id"] for part in coats if answered & set(part["covered_by"])]
    if below and yard.chance.random() < 0.5:
        arrived = below
    about = yard.chance.choice(arrived if arrived and yard.chance.random() < 0.9 else list(yard.coats))
    return yard.coats.get(about, yard.modules[0]), about


def lay(yard: Yard) -> list[Told]:
    """A coat on some rooms or one wall, over what its author knows of, rarely under an id that is there."""
    if len(yard.coats) > 5:
        return on_coat(yard)
    about = yard.chance.choice([*yard.coats, *(yard.uuid() for _ in range(6))])
    module = yard.coats.setdefault(about, yard.chance.choice([*yard.modules * 15, yard.uuid()]))
    coat = yard.chance.choice(list(COATS))
    rooms = yard.chance.sample(ROOMS[:3] + ROOMS[-1:], yard.chance.choice([1, 2, 2, 3]))
    paint = {"product": yard.chance.choice(TEXTS), "batch": "0414"}
    more = _some(
        yard,
        thickness=["thin", "heavy"],
        set_minutes=[20, 90],
        label_minutes=[60],
        paint=[paint, {}],
        laid_at=[_instant(yard)],
        done_by=[yard.people[:2], []],
        items=[list(yard.items)[:2]],
    )
    there = [one for one, stands in yard.coats.items() if stands == module or yard.chance.random() < 0.2]
    over = yard.chance.sample(there, min(len(there), yard.chance.randrange(4)))
    if over:
        more |= {"over": [*over, yard.chance.choice(over)]} | _some(yard, early=["rain", "漢"])
    if yard.chance.random() < 0.15:
        more["surface"] = yard.chance.choice(["B", "ceiling"])
    return [Told("coat.laid", module, about, {"coat": coat, "rooms": rooms, "material": COATS[coat], **more})]


def on_coat(yard: Yard) -> list[Told]:
    """Anything that can be said about a coat."""
    module, about = _coat(yard)
    rooms = {"rooms": yard.chance.sample(ROOMS[:3] + ROOMS[-1:], yard.chance.choice([1, 2, 3]))}
    looked: dict[str, list[Any]] = {
        "meter": [{"scale": "gypsum", "value": 4}],
        "looked_at": [_instant(yard), _instant(yard), yard.time()],
    }
    bodies: dict[str, Body] = {
        "coat.found_wet": {**rooms, **_some(yard, text=TEXTS, **looked)},
        "coat.found_dry": {**rooms, **_some(yard, tried=[["cut"], ["cut", "powder"], []], reason=TEXTS, **looked)},
        "coat.wet_sanded": {**rooms, **_some(yard, done_by=[yard.people[1:3]], sanded_at=[_instant(yard)])},
        "coat.answered": {"reason": yard.chance.choice(TEXTS)},
        "coat.voided": {"reason": yard.chance.choice(TEXTS)},
    }
    kind = yard.chance.choices(list(bodies), [8, 12, 3, 9, 2])[0]
    return [Told(kind, module, about, bodies[kind])]


def _place(yard: Yard) -> tuple[str | None, str, Body]:
    """(module, stream, where) of a room, a module or the yard, each often enough to meet again."""
    where = yard.chance.choice(["room", "room", "module", "yard"])
    if where == "yard":
        return None, stream_id(yard.yard), {"where": where}
    module = yard.chance.choice([*yard.modules * 15, yard.uuid()])
    room = {"room": yard.chance.choice(["bath", "constructor"])} if where == "room" else {}
    return module, stream_id(module, room.get("room")), {"where": where, **room}


def _row(yard: Yard) -> list[Any]:
    temp, rh = yard.chance.choice([-600, -7, 0, 78, 211, 600]), yard.chance.choice([0, 1, 50, 71, 91, 100])
    return [yard.chance.choice([None, *[_instant(yard)] * 4]), temp, rh, yard.chance.choice([None, None, -20, 150])]


def read(yard: Yard) -> list[Told]:
    """Readings in any order, some twice, or some of them taken back."""
    module, stream, where = _place(yard)
    if yard.chance.random() < 0.25:
        rows = [row for part in yard.work.changed.values() if part.get("stream") == stream for row in part["rows"]]
        given = [instant(row[0]) for row in rows] or [_instant(yard)]
        return [Told("reading.struck", module, stream, {**where, "at": yard.chance.sample(given, min(2, len(given)))})]
    rows = [_row(yard) for _ in range(yard.chance.choice([1, 1, 2, 6]))]
    source = {"source": yard.chance.choice(["hand", "logger"]), **_some(yard, name=TEXTS)}
    return [Told("reading.taken", module, stream, {**where, **source, "rows": [*rows, yard.chance.choice(rows)]})]


def weather(yard: Yard) -> list[Told]:
    """Heat in a module, or the nights to come."""
    module = yard.chance.choice([*yard.modules * 15, yard.uuid()])
    more = _some(yard, since=[_instant(yard)], to=[211], unvented=["propane"])
    nights = [
        {"from": f"2026-12-{night:02}T23:00:00Z", "to": f"2026-12-{night + 1:02}T12:00:00Z", "low": night - 9}
        for night in yard.chance.sample(range(1, 30), yard.chance.choice([1, 2, 14]))
    ]
    return [
        yard.chance.choice(
            [
                Told("heat.told", module, heat_id(module), {"on": yard.chance.choice([True, False]), **more}),
                Told("forecast.told", None, forecast_id(yard.yard), {"nights": nights, "source": "hourly"}),
            ]
        )
    ]


def learn(yard: Yard) -> Told:
    """What the looks taught."""
    factors = {"drying_type": {"percent": yard.chance.randrange(50, 250), "looks": yard.chance.randrange(60)}}
    return Told("drying.learned", None, learned_id(yard.yard), {"factors": factors})


DOINGS_OF_COATS: list[tuple[Callable[[Yard], list[Told]], int]] = [(lay, 9), (on_coat, 18), (read, 9), (weather, 3)]
