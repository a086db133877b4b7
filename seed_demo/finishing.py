"""Coats and air in the trade's verbs: what a worker's phone writes when one goes on, is looked at, or air is read."""

from __future__ import annotations

import uuid
from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import Any

from seed_demo.phones import Phone
from seed_demo.weather import Air
from seed_demo.wire import Json

Row = tuple[datetime, Air]


def given(**fields: Any) -> Json:
    """A body without the fields that nobody filled in: absent, never null."""
    return {key: value for key, value in fields.items() if value is not None}


def instant(when: datetime) -> str:
    """RFC 3339 UTC in whole seconds."""
    return when.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def child(owner: str, name: str) -> str:
    """The id of what a module or a yard has one of."""
    return str(uuid.uuid5(uuid.UUID(owner), name))


class Finishing(ABC):
    """The half of a worker that knows coats. Rooms are keys; an instant that is not given is now."""

    phone: Phone

    @abstractmethod
    def _writes(self, kind: str, module: str | None, about: str, body: Json) -> str:
        """One entry of the phone; what it is about."""

    # Coats

    def lays(self, module: str, coat: str, rooms: Sequence[str], material: str, *, laid: datetime | None = None,
             **told: Any) -> str:  # fmt: skip
        """A coat goes on; ``told`` as in its entry (surface, over, items, paint, early …). The coat's id."""
        body = given(coat=coat, rooms=list(rooms), material=material, laid_at=laid and instant(laid), **told)
        return self._writes("coat.laid", module, self.phone.new_id(), body)

    def finds_wet(self, module: str, coat: str, rooms: Sequence[str], text: str | None = None, *,
                  looked: datetime | None = None, meter: Json | None = None) -> str:  # fmt: skip
        """A look that says not dry."""
        body = given(rooms=list(rooms), text=text, meter=meter, looked_at=looked and instant(looked))
        return self._writes("coat.found_wet", module, coat, body)

    def finds_dry(self, module: str, coat: str, rooms: Sequence[str], tried: Sequence[str] = (),
                  reason: str | None = None, *, looked: datetime | None = None) -> str:  # fmt: skip
        """A look that says dry: what was tried, and the reason when that is before the table's time."""
        body = given(rooms=list(rooms), tried=list(tried) or None, reason=reason, looked_at=looked and instant(looked))
        return self._writes("coat.found_dry", module, coat, body)

    def sands_wet(self, module: str, coat: str, rooms: Sequence[str], done_by: Sequence[str] = ()) -> str:
        """Wet sanding: its clock starts again there."""
        return self._writes("coat.wet_sanded", module, coat, given(rooms=list(rooms), done_by=list(done_by) or None))

    def answers_early(self, module: str, coat: str, reason: str) -> str:
        """An inspector lets stand what was covered early."""
        return self._writes("coat.answered", module, coat, {"reason": reason})

    # Air

    def reads_air(self, module: str, rows: Iterable[Row], room: str | None = None) -> str:
        """Readings by hand of a module or of one of its rooms."""
        body = given(where="room" if room else "module", room=room, source="hand",
                     rows=[[instant(when), air.temp, air.rh, None] for when, air in rows])  # fmt: skip
        return self._writes("reading.taken", module, child(module, f"air {room or ''}"), body)

    def takes_back_air(self, module: str, *when: datetime) -> str:
        """Readings of a module were typed wrong."""
        body = {"where": "module", "at": [instant(one) for one in when]}
        return self._writes("reading.struck", module, child(module, "air "), body)

    def tells_heat(self, module: str, on: bool, since: datetime | None = None, to: int | None = None,
                   unvented: str | None = None) -> str:  # fmt: skip
        """Heat on or off; ``to`` in tenths of a degree Celsius."""
        body = given(on=on, since=since and instant(since), to=to, unvented=unvented)
        return self._writes("heat.told", module, child(module, "heat"), body)

    def tells_low(self, yard: str, begins: datetime, ends: datetime, low: int) -> str:
        """Tonight's low, typed from the weather report."""
        body = {"nights": [{"from": instant(begins), "to": instant(ends), "low": low}], "source": "typed"}
        return self._writes("forecast.told", None, child(yard, "forecast"), body)
