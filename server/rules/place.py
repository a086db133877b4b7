"""One module's coats and air together, as everything derived from them reads them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from server.rules import heads as field
from server.rules.parts import Part
from server.rules.sheets import rooms_of

Place = dict[str, Any]
Made = TypeVar("Made")


def place_of(module_id: str, parts: Iterable[Part]) -> Place:
    """A module's place, from its own parts and those of the yard; KeyError when the module is not among them.

    {module, plan, rooms: keys, yard, coats: not void, in the order laid, taken_back: void by the hands that laid them,
    airs, outside, heat, forecast, learned, kept}.
    `kept`: what was derived from it once, see `once`; its parts must not change any more.
    """
    found: Place = {"coats": [], "taken_back": [], "airs": [], "outside": [], "kept": {}}
    found |= dict.fromkeys(("module", "plan", "yard", "heat", "forecast", "learned"))
    plans: dict[str, Part] = {}
    for part in parts:
        if part["part"] == "plan":
            plans[part["id"]] = part
        else:
            _keep(found, part, module_id)
    if found["module"] is None:
        raise KeyError(f"module {module_id}")
    found["plan"] = plans.get(field.value(found["module"]["heads"], "plan") or "")
    found["coats"].sort(key=in_order)
    found["rooms"] = _rooms(found)
    return found


def in_order(coat: Part) -> tuple[str, int, str]:
    """When it was laid; of one second when it was told."""
    return coat["laid"], coat["ref"][0], coat["id"]


def once(place: Place, key: tuple[str, ...], make: Callable[[], Made]) -> Made:
    """What `make` gives, reckoned at the first asking: a module's rooms share their air, and most of a coat's clock."""
    kept: dict[tuple[str, ...], Made] = place["kept"]
    if key not in kept:
        kept[key] = make()
    return kept[key]


def rooms_since(module: Part, plan: Part | None) -> int:
    """The seq of the entry that last gave the module a room: what a line without an answer is as new as."""
    planned = [field.latest_seq(module["heads"], "plan"), plan["seq"]] if plan else [0]
    return max(*planned, *(int(room["seq"]) for room in module["rooms"]), 0)


def _keep(found: Place, part: Part, module_id: str) -> None:
    kind, mine, yards = part["part"], part["module"] == module_id, part["module"] is None
    if kind == "module" and part["id"] == module_id:
        found["module"] = part
    elif kind == "coat" and mine and part["void"] is None:
        found["coats"].append(part)
    elif kind == "coat" and mine and part["void"]["by"] in (part["by"], *part["done_by"]):
        found["taken_back"].append(part)
    elif kind == "air" and (mine or yards):
        found["airs" if mine else "outside"].append(part)
    elif (kind == "heat" and mine) or kind in ("yard", "forecast", "learned"):
        found[kind] = part


def _rooms(place: Place) -> list[str]:
    """The module's rooms, and any that a coat names and nobody has added."""
    known = rooms_of(place["module"], place["plan"])
    return list(dict.fromkeys([*known, *(room for coat in place["coats"] for room in coat["rooms"])]))
