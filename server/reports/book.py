"""What a packet is made from, and how its people, places and times are said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from server.reports import said
from server.reports.geometry import Face, face_of
from server.reports.words import knows, say, say_n
from server.rules import value

Part = dict[str, Any]


@dataclass(frozen=True)
class Head:
    """Where the journal stood: epoch, number of the last entry and its chain value in hexadecimal."""

    epoch: str
    seq: int
    chain: str


@dataclass(frozen=True)
class Book:
    """`parts` are the module's own, the yard's people, devices and plans; `now` is RFC 3339 UTC, `lang` en or es."""

    module: str
    parts: tuple[Part, ...]
    head: Head
    now: str
    lang: str

    def part(self, kind: str, part_id: str | None) -> Part | None:
        return next((part for part in self.parts if part["part"] == kind and part["id"] == part_id), None)

    def mine(self, kind: str) -> list[Part]:
        return [part for part in self.parts if part["part"] == kind and part["module"] == self.module]

    @property
    def yard(self) -> Part:
        return next(part for part in self.parts if part["part"] == "yard")

    @property
    def heads(self) -> Part:
        module = self.part("module", self.module)
        if module is None:
            raise LookupError(f"no module {self.module}")
        heads: Part = module["heads"]
        return heads

    @property
    def plan(self) -> Part | None:
        return self.part("plan", value(self.heads, "plan"))

    @property
    def mirrored(self) -> bool:
        return bool(value(self.heads, "mirrored"))

    def say(self, key: str, **values: Any) -> str:
        return say(key, self.lang, **values)

    def say_n(self, key: str, n: int, **values: Any) -> str:
        return say_n(key, n, self.lang, **values)

    def term(self, topic: str, key: str) -> str:
        """The word for a key of the tables: a defect, a step, a reason."""
        return self.say(f"{topic}.{key}")

    def listed(self, words: list[Any]) -> str:
        return said.listed(words, self.lang)

    def time(self, stamp: str) -> str:
        return said.time_of(stamp, self.yard["zone"], self.lang)

    def person(self, person_id: str | None) -> str:
        person = self.part("person", person_id)
        return person["name"] if person else self.say("packet.someone")

    def crew(self, key: str) -> str:
        return next((crew["name"] for crew in self.yard["crews"] if crew["id"] == key), key)

    def coat(self, key: str) -> str:
        """A coat in the plant's own words, else in ours."""
        names = self.yard.get("coats", {}).get("names", {})
        word = f"coats.name.{key}"
        return str(names.get(key) or (self.say(word) if knows(word) else key))

    def charge(self, key: str) -> str:
        word = f"packet.charge_{key}"
        return self.say(word) if knows(word) else self.crew(key)

    def kind(self, kind: str) -> str:
        """What happened, in the words of the yard; kinds of a later version have one sentence for all of them."""
        key = f"kinds.{kind}"
        return self.say(key if knows(key) else "kinds.unknown")

    def fact(self, name: str, found: Any) -> str:
        """The value of one of the module's facts."""
        if name == "pickup":
            return self.time(found)
        if name == "programme":
            return self.say(f"packet.programme_{found}")
        if name == "mirrored":
            return self.say(f"packet.answer_{'yes' if found else 'no'}")
        if name in ("finish", "coats"):
            return self.say("packet.rooms_given", n=len(found))
        if name == "plan":
            plan = self.part("plan", found)
            words = plan["name"] if plan else self.say("packet.none")
            return self.say("packet.mirrored", plan=words) if self.mirrored else words
        return str(found)

    def room(self, key: str) -> str:
        planned = self.planned(key)
        if planned:
            return str(planned["name"])
        module = self.part("module", self.module) or {"rooms": []}
        return next((room["name"] for room in module["rooms"] if room["room"] == key), key)

    def planned(self, key: str) -> Part | None:
        rooms = self.plan["rooms"] if self.plan else []
        return next((room for room in rooms if room["id"] == key), None)

    def face(self, room: str, surface: str) -> Face | None:
        planned = self.planned(room)
        return face_of(planned, surface, self.mirrored) if planned else None

    def surface(self, room: str, surface: str) -> str:
        """`Wall B, mirror wall`, `Ceiling`."""
        if len(surface) > 1:
            return self.say(f"packet.{surface}")
        face = self.face(room, surface)
        if face and face.sight:
            return self.say("packet.wall_sight", letter=surface, sight=face.sight)
        return self.say("packet.wall", letter=surface)

    def spot(self, spot: Part) -> str:
        """The place on its surface: measured, or in the words that were chosen."""
        if "along" in spot and "up" in spot:
            flat = "_flat" if spot["surface"] in ("ceiling", "floor") else ""
            return self.say(
                f"packet.spot{flat}",
                along=said.length(spot["along"], self.lang),
                up=said.length(spot["up"], self.lang),
                si=f"{said.metres(spot['along'])}, {said.metres(spot['up'])}",
            )
        words = spot.get("words", {})
        found = [self.say(f"packet.{words[name]}") for name in ("across", "height") if name in words]
        return ", ".join(found) or self.say("packet.no_spot")
