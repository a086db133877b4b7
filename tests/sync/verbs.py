"""What people do on a phone, in the trade's words; each writes one entry or more."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from server.rules import PHONE_FIELDS, sheet_id, tables

if TYPE_CHECKING:
    from tests.sync.world import World

Entry = dict[str, Any]
SPOT = {"room": "bath", "surface": "A", "along": 1200, "up": 900}
LINES = {
    sheet: [line for line, row in rows["lines"].items() if not row["by_room"]]
    for sheet, rows in tables(1)["sheets"].items()
}


class Verbs:
    """Mixed into `Handset`."""

    world: World
    device: str
    epoch: str
    cursor: int
    chain: str
    parts: dict[tuple[str, str], Entry]
    given: list[Entry]

    def write(self, by: str, kind: str, about: str, body: dict[str, Any], module: str | None = None) -> Entry:
        raise NotImplementedError

    def screen(self) -> frozenset[str]:
        raise NotImplementedError

    def ask(self, path: str, call: Entry) -> tuple[int, Entry]:
        raise NotImplementedError

    def log(self, by: str, module: str, defect: str = "nick") -> Entry:
        body = {"defect": defect, "light": "normal", **SPOT}
        return self.write(by, "item.logged", self.world.clock.new_id(), body, module)

    def on(self, by: str, kind: str, item: Entry, body: Entry | None = None) -> Entry:
        """Something about an item, told by the entry that logged it."""
        return self.write(by, f"item.{kind}", item["about"], body or {}, item["module"])

    def amend(self, by: str, item: Entry, **body: str) -> Entry:
        return self.on(by, "amended", item, body)

    def tick(self, by: str, item: Entry, *done_by: str) -> Entry:
        return self.on(by, "ticked", item, {"steps": ["fill"], **self._done(done_by)})

    def clear(self, by: str, item: Entry, *done_by: str) -> Entry:
        return self.on(by, "cleared", item, self._done(done_by))

    def close(self, by: str, item: Entry) -> Entry:
        return self.on(by, "closed", item)

    def send_back(self, by: str, item: Entry) -> Entry:
        return self.on(by, "sent_back", item, {"reason": "still_visible"})

    def void(self, by: str, item: Entry) -> Entry:
        return self.on(by, "voided", item, {"reason": "no defect"})

    def _done(self, names: tuple[str, ...]) -> Entry:
        return {"done_by": [self.world.people[name] for name in names]} if names else {}

    def answer(self, by: str, module: str, sheet: str, line: str, value: str = "yes") -> Entry:
        """A *no* makes an item in the same step."""
        excepted: list[Entry] = []
        if value == "no":
            excepted = [{"room": "module", "value": "no", "item": self.log(by, module, "dirt")["about"]}]
        rest = "yes" if excepted else value
        body = {"sheet": sheet, "line": line, "rooms": ["module"], "rest": rest, "except": excepted}
        return self.write(by, "sheet.answered", sheet_id(module, sheet), body, module)

    def sign(self, by: str, module: str, sheet: str) -> Entry:
        return self.write(by, "sheet.signed", sheet_id(module, sheet), {"sheet": sheet}, module)

    def walk(self, by: str, module: str) -> None:
        """Both sheets, every line, signed."""
        for sheet, lines in LINES.items():
            for line in lines:
                self.answer(by, module, sheet, line)
            self.sign(by, module, sheet)

    def label(self, by: str, module: str, text: str) -> Entry:
        return self.write(by, "module.amended", module, {"label": text}, module)

    def release_call(self, module: str) -> Entry:
        """What is asked; what was on the screen is told under the asking's id."""
        ask_id = self.world.clock.new_id()
        self.world.asked[ask_id] = self.screen()
        at = {"device": self.device, "epoch": self.epoch, "seen": self.cursor, "chain": self.chain}
        return {"id": ask_id, "module": module, **at}

    def ask_release(self, by: str, module: str) -> tuple[int, Entry]:
        """Asks the server; the holder must be shipping."""
        call = self.release_call(module)
        self.hand_to(by)
        status, answer = self.ask("/api/release", call)
        if status == 200:
            self.world.told["releases"] += 1
            self.given.append({name: answer["entry"][name] for name in PHONE_FIELDS})
        return status, answer

    def hand_to(self, by: str) -> None:
        raise NotImplementedError

    def pull_back(self, by: str, module: str, release: str) -> Entry:
        return self.write(by, "release.pulled_back", module, {"release": release, "reason": "look again"}, module)

    def answer_release(self, by: str, module: str, release: str) -> Entry:
        body = {"release": release, "up_to": self.cursor, "reason": "stays as it is"}
        return self.write(by, "release.answered", module, body, module)

    def answer_phone(self, by: str, module: str, device: str) -> Entry:
        body = {"device": device, "up_to": self.cursor, "reason": "known"}
        return self.write(by, "phone.answered", module, body, module)

    def name(self, by: str, person: str, roles: list[str]) -> Entry:
        return self.write(by, "person.named", self.world.people[person], {"name": person, "roles": roles})
