"""How a file is to be read: guessed first, then confirmed by a person who sees the first rows so understood."""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass, fields, replace
from typing import Any

from server.loggers.text import DELIMITERS, MOST_COLUMNS
from server.loggers.times import FORMS, zone_of
from server.loggers.trouble import NotRead

_PLACE = re.compile(r"[0-9]{1,3}")


@dataclass(frozen=True)
class Plan:
    """`head`: the line of the names, 0 without one. Columns count from 0. `zone`: of times without an offset."""

    delimiter: str
    decimal: str
    head: int
    times: tuple[int, ...]
    form: str
    temp: int
    unit: str
    rh: int | None = None
    surface: int | None = None
    zone: str | None = None

    def as_told(self) -> dict[str, Any]:
        """For an answer; the same names and values are taken back by `changed`."""
        return {**asdict(self), "times": list(self.times)}


NAMES = tuple(field.name for field in fields(Plan))


def changes(told: dict[str, str]) -> dict[str, Any]:
    """What a person chose, as words of a query, turned into the fields of a plan; NotRead names the first bad one."""
    return {name: _READ[name](name, value) for name, value in told.items() if name in _READ}


def changed(plan: Plan, chosen: dict[str, Any]) -> Plan:
    return replace(plan, **chosen)


def whole_plan(chosen: dict[str, Any], wants_rh: bool) -> Plan:
    """A plan of nothing but what was confirmed."""
    needed = {"delimiter", "decimal", "head", "times", "form", "temp", "unit"} | ({"rh"} if wants_rh else set())
    missing = sorted(name for name in needed if chosen.get(name) is None)
    if missing:
        raise NotRead("plan_missing", name=", ".join(missing))
    return Plan(**chosen)


def _place(name: str, value: str) -> int:
    if not _PLACE.fullmatch(value) or int(value) >= MOST_COLUMNS:
        raise NotRead("plan_bad", name=name)
    return int(value)


def _maybe(name: str, value: str) -> int | None:
    return None if value in ("", "none") else _place(name, value)


def _places(name: str, value: str) -> tuple[int, ...]:
    found = tuple(_place(name, one) for one in value.split(","))
    if len(found) > 2:
        raise NotRead("plan_bad", name=name)
    return found


def _line(name: str, value: str) -> int:
    if not re.fullmatch(r"[0-9]{1,5}", value):
        raise NotRead("plan_bad", name=name)
    return int(value)


def _zone(_name: str, value: str) -> str:
    zone_of(value)
    return value


def _one_of(*good: str) -> Any:
    def read(name: str, value: str) -> str:
        if value not in good:
            raise NotRead("plan_bad", name=name)
        return value

    return read


_READ: dict[str, Any] = {
    "delimiter": _one_of(*DELIMITERS),
    "decimal": _one_of(".", ","),
    "head": _line,
    "times": _places,
    "form": _one_of(*FORMS),
    "temp": _place,
    "unit": _one_of("F", "C"),
    "rh": _maybe,
    "surface": _maybe,
    "zone": _zone,
}
