"""What the screens offer to somebody who holds a phone: drafts drawn from the parts as that phone shows them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from server.rules import needs_after_photo, open_cells, questions, value
from tests.sync.handset import Handset
from tests.sync.verbs import LINES, SPOT

Entry = dict[str, Any]
Draft = tuple[str, Callable[[], Any]]
ITEMS_A_MODULE = 6


def offers(phone: Handset, by: str) -> dict[str, list[Callable[[], Any]]]:
    """Kind of act -> the acts of that kind that are on offer."""
    work = phone.view()
    parts = sorted({**phone.parts, **work.changed}.values(), key=lambda part: (part["part"], part.get("number", 0)))
    me = next((part for part in parts if part["id"] == phone.world.people[by]), None)
    found: dict[str, list[Callable[[], Any]]] = {}
    for role in me["roles"] if me else []:
        for kind, act in BY_ROLE.get(role, _nothing)(phone, by, parts):
            found.setdefault(kind, []).append(act)
    return found


def _nothing(phone: Handset, by: str, parts: list[Entry]) -> Iterator[Draft]:
    yield from ()


def _modules(phone: Handset, parts: list[Entry]) -> list[Entry]:
    by_id = {part["id"]: part for part in parts if part["part"] == "module"}
    return [by_id[module] for module in phone.world.modules if module in by_id]


def _items(parts: list[Entry]) -> list[tuple[Entry, Entry]]:
    """Items with what a verb needs to name them."""
    return [(part, {"about": part["id"], "module": part["module"]}) for part in parts if part["part"] == "item"]


def _act(verb: Callable[..., Any], *given: Any, **named: Any) -> Callable[[], Any]:
    return lambda: verb(*given, **named)


def _inspector(phone: Handset, by: str, parts: list[Entry]) -> Iterator[Draft]:
    for module in _modules(phone, parts):
        if module["last_number"] < ITEMS_A_MODULE:
            yield "log", _act(phone.log, by, module["id"])
        yield "walk", _act(phone.walk, by, module["id"])
        yield from _on_sheets(phone, by, module, parts)
    for part, item in _items(parts):
        number = len(phone.world.written)
        if part["state"] == "cleared" and phone.world.people[by] not in part["hands"]:
            yield "close", _act(phone.close, by, item)
        if part["state"] in ("cleared", "closed"):
            yield "send_back", _act(phone.send_back, by, item)
        if part["state"] == "open":
            yield "void", _act(phone.void, by, item)
        yield "amend", _act(phone.amend, by, item, wish=f"wish {number}")
        yield "amend", _act(phone.amend, by, item, defect=("nick", "scratch", "dirt")[number % 3])
        yield "place", _act(phone.on, by, "placed", item, {**SPOT, "up": 10 * number})
        yield "give", _act(phone.on, by, "given", item, {"crew": "patch"})


def _on_sheets(
    phone: Handset, by: str, module: Entry, parts: list[Entry], keys: tuple[str, ...] = tuple(LINES)
) -> Iterator[Draft]:
    sheets = {part["sheet"]: part for part in parts if part["part"] == "sheet" and part["module"] == module["id"]}
    for key in keys:
        lines = LINES[key]
        for answer in ("yes", "no", "na"):
            yield "answer", _act(phone.answer, by, module["id"], key, lines[-1], answer)
        sheet = sheets.get(key)
        if sheet and not sheet["sign"] and not open_cells(key, sheet["cells"], [], 1):
            yield "sign", _act(phone.sign, by, module["id"], key)


def _crew_lead(phone: Handset, by: str, parts: list[Entry]) -> Iterator[Draft]:
    for part, item in _items(parts):
        if part["state"] in ("open", "cleared"):
            yield "tick", _act(phone.tick, by, item)
            yield "tick", _act(phone.tick, by, item, "ines")
        if part["state"] == "open":
            after = {"after": [phone.world.clock.new_id()]} if needs_after_photo(part, 1) else {}
            for helper in ([], ["ola"], ["ines"]):
                done_by = {"done_by": [phone.world.people[name] for name in helper]} if helper else {}
                yield "clear", _act(phone.on, by, "cleared", item, {**after, **done_by})


def _shipping(phone: Handset, by: str, parts: list[Entry]) -> Iterator[Draft]:
    for module in _modules(phone, parts):
        if module["last_number"] < ITEMS_A_MODULE:
            yield "log", _act(phone.log, by, module["id"])
        yield from _on_sheets(phone, by, module, parts, ("wrap_and_seal",))
        release = module["release"]
        if release:
            yield "pull_back", _act(phone.pull_back, by, module["id"], release["id"])
            if questions(module, _unsettled(module, parts)):
                yield "answer_release", _act(phone.answer_release, by, module["id"], release["id"])
        for device in parts:
            if device["part"] == "device" and device["behind"] and module["id"] in device["behind"]["modules"]:
                yield "answer_phone", _act(phone.answer_phone, by, module["id"], device["id"])


def _unsettled(module: Entry, parts: list[Entry]) -> list[Entry]:
    open_items = [part for part in parts if part["part"] == "item" and part["state"] in ("open", "cleared")]
    return [{"seq": part["since"]} for part in open_items if part["module"] == module["id"]]


def _manager(phone: Handset, by: str, parts: list[Entry]) -> Iterator[Draft]:
    for module in _modules(phone, parts):
        yield "label", _act(phone.label, by, module["id"], f"label {len(phone.world.written) % 5}")
    roles = {part["id"]: part["roles"] for part in parts if part["part"] == "person"}
    for name, other in (
        ("ola", ["crew_lead"]),
        ("ola", ["crew_lead", "inspector"]),
        ("teo", ["shipping"]),
        ("teo", ["crew_lead"]),
    ):
        if sorted(roles.get(phone.world.people[name], [])) != sorted(other):
            yield "roles", _act(phone.name, by, name, other)


BY_ROLE: dict[str, Callable[[Handset, str, list[Entry]], Iterator[Draft]]] = {
    "inspector": _inspector, "crew_lead": _crew_lead, "shipping": _shipping, "manager": _manager,
}  # fmt: skip


def settle_module(phone: Handset, by: str, module: str, parts: list[Entry]) -> None:
    """Closes whatever this phone shows as cleared and this person may close."""
    for part, item in _items(parts):
        mine = phone.world.people[by] in part["hands"]
        if part["module"] == module and part["state"] == "cleared" and not mine and value(part["heads"], "spot"):
            phone.close(by, item)
