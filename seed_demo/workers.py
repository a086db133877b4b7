"""People with a phone in the hand, in the trade's verbs: ``inspector.logs(...)``, ``lead.clears(...)``.

Each verb writes what the screen of that name would write and answers with the id of what it is about. Nothing is sent
until ``sync``. Rooms and walls are the plan's (``"bath"``, ``"B"``), lengths whole millimetres.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence

from seed_demo.finishing import Finishing, given
from seed_demo.phones import Phone
from seed_demo.wire import Json

Spot = tuple[str, str, int, int]


def sheet_id(module: str, sheet: str) -> str:
    """Two phones that open the same sheet of a module mean the same one."""
    return str(uuid.uuid5(uuid.UUID(module), sheet))


class Worker(Finishing):
    """One person on one phone. Several workers may share a phone: whoever writes holds it."""

    def __init__(self, phone: Phone, name: str, passcode: str) -> None:
        self.phone = phone
        person = phone.sign_in(name, passcode)
        self.id: str = person["id"]
        self.name = name

    def _writes(self, kind: str, module: str | None, about: str, body: Json) -> str:
        self.phone.hand_to(self.id)
        self.phone.write(kind, module, about, body)
        return about

    def sync(self, *, lose_reply: bool = False, most: int | None = None) -> bool:
        """Send and pull with this person's sign-in."""
        self.phone.hand_to(self.id)
        return self.phone.sync(lose_reply=lose_reply, most=most)

    # Items

    def logs(self, module: str, defect: str, spot: Spot, *, item: str | None = None, light: str = "raking",
             wish: str | None = None, crew: str | None = None, charge: str | None = None) -> str:  # fmt: skip
        """Write up one blemish at (room, surface, along, up); the new item's id."""
        room, surface, along, up = spot
        body = given(defect=defect, room=room, surface=surface, along=along, up=up, light=light,
                      wish=wish, crew=crew, charge=charge)  # fmt: skip
        return self._writes("item.logged", module, item or self.phone.new_id(), body)

    def logs_in_words(self, module: str, defect: str, room: str, surface: str, across: str, height: str,
                      light: str = "normal", crew: str | None = None) -> str:  # fmt: skip
        """Write up where nobody has measured: left, middle or right, and low, eye or high."""
        body = given(defect=defect, room=room, surface=surface, words={"across": across, "height": height},
                      light=light, crew=crew)  # fmt: skip
        return self._writes("item.logged", module, self.phone.new_id(), body)

    def amends(self, module: str, item: str, *, defect: str | None = None, wish: str | None = None) -> str:
        """Change what is wrong or what is wanted."""
        return self._writes("item.amended", module, item, given(defect=defect, wish=wish))

    def places(self, module: str, item: str, spot: Spot) -> str:
        """Move an item's mark."""
        room, surface, along, up = spot
        return self._writes("item.placed", module, item, {"room": room, "surface": surface, "along": along, "up": up})

    def gives(self, module: str, item: str, *, crew: str | None = None, charge: str | None = None) -> str:
        """Give an item to a crew, or say who pays."""
        return self._writes("item.given", module, item, given(crew=crew, charge=charge))

    def ticks(self, module: str, item: str, steps: Sequence[str], done_by: Sequence[str] = ()) -> str:
        """Tick steps of the rework."""
        return self._writes("item.ticked", module, item, given(steps=list(steps), done_by=list(done_by) or None))

    def clears(self, module: str, *items: str, done_by: Sequence[str] = (), after: Sequence[str] = (),
               minutes: int | None = None) -> None:  # fmt: skip
        """Clear items: the work is done and waits for a look."""
        for item in items:
            body = given(done_by=list(done_by) or None, after=list(after) or None, minutes=minutes)
            self._writes("item.cleared", module, item, body)

    def closes(self, module: str, *items: str) -> None:
        """Close items after looking."""
        for item in items:
            self._writes("item.closed", module, item, {})

    def sends_back(self, module: str, item: str, reason: str, text: str | None = None,
                   photos: Sequence[str] = ()) -> str:  # fmt: skip
        """Send an item back with a reason's key."""
        return self._writes(
            "item.sent_back", module, item, given(reason=reason, text=text, photos=list(photos) or None)
        )

    def voids(self, module: str, item: str, reason: str) -> str:
        """Void an item."""
        return self._writes("item.voided", module, item, {"reason": reason})

    # Photos

    def photographs(self, module: str, data: bytes, px: tuple[int, int], shows: str, *, room: str | None = None,
                    surface: str | None = None, items: Iterable[tuple[str, int, int]] = (),
                    marks: Sequence[Json] = ()) -> str:  # fmt: skip
        """Take a photo: its entry now, its bytes after the entry has gone; the photo's id."""
        sha256 = self.phone.keep_photo(data)
        body = given(sha256=sha256, bytes=len(data), px=list(px), shows=shows, room=room, surface=surface,
                      items=[list(item) for item in items], marks=list(marks))  # fmt: skip
        return self._writes("photo.added", module, self.phone.new_id(), body)

    # Sheets and release

    def answers(self, module: str, sheet: str, line: str, rooms: Sequence[str], rest: str = "yes", *,
                reason: str | None = None, but: Sequence[Json] = ()) -> str:  # fmt: skip
        """Answer one line of a sheet: ``rest`` for all rooms, except those in ``but``."""
        body = given(sheet=sheet, line=line, rooms=list(rooms), rest=rest, reason=reason)
        body["except"] = list(but)
        return self._writes("sheet.answered", module, sheet_id(module, sheet), body)

    def signs(self, module: str, sheet: str) -> str:
        """Sign a sheet."""
        return self._writes("sheet.signed", module, sheet_id(module, sheet), {"sheet": sheet})

    def asks_release(self, module: str, ask: str | None = None) -> Json:
        """Ask the server to release; its answer. Raises ``PhoneError`` with the holds when it refuses."""
        phone = self.phone
        phone.hand_to(self.id)
        body = {"id": ask or phone.new_id(), "module": module, "device": phone.device, "epoch": phone.epoch,
                "seen": phone.seen, "chain": phone.chain}  # fmt: skip
        return phone.post("/api/release", body)

    def pulls_back(self, module: str, release: str, reason: str) -> str:
        """Take a released module back."""
        return self._writes("release.pulled_back", module, module, {"release": release, "reason": reason})

    # The yard

    def names(self, name: str, roles: Sequence[str], crew: str | None = None, person: str | None = None) -> str:
        """Name a person; the person's id."""
        body = given(name=name, crew=crew, roles=list(roles))
        return self._writes("person.named", None, person or self.phone.new_id(), body)

    def draws_plan(self, plan: str, name: str, rooms: Sequence[Json]) -> str:
        """Draw a plan."""
        return self._writes("plan.drawn", None, plan, {"name": name, "rooms": list(rooms)})

    def adds_module(self, module: str, facts: Json) -> str:
        """Add a module with its facts."""
        return self._writes("module.added", module, module, facts)

    def moves(self, module: str, bay: str) -> str:
        """Move a module to another bay."""
        return self._writes("module.moved", module, module, {"bay": bay})

    def adds_room(self, module: str, room: str, name: str) -> str:
        """Add a room that nobody has measured."""
        return self._writes("room.added", module, module, {"room": room, "name": name})

    def amends_yard(self, yard: str, facts: Json) -> str:
        """Change what the yard has set for everybody."""
        return self._writes("yard.amended", None, yard, facts)

    def lets_leave(self, module: str, why: str) -> str:
        """Say that a module has left the yard."""
        return self._writes("module.left", module, module, {"why": why})
