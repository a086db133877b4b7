"""A table of kinds and steps, and a short loop. The fold is total: no entry makes it fail."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from server.rules import air, coats, items, modules, photos, sheets, yards
from server.rules.parts import Workspace
from server.rules.seen import Entry

STEPS: dict[str, Callable[[Workspace, Entry], str | None]] = {
    "yard.opened": yards.opened,
    "yard.amended": yards.amended,
    "person.named": yards.person_named,
    "plan.drawn": yards.plan_drawn,
    "room.added": modules.room_added,
    "module.added": modules.added,
    "module.amended": modules.amended,
    "module.moved": modules.moved,
    "module.left": modules.left,
    "item.logged": items.logged,
    "item.amended": items.amended,
    "item.placed": items.placed,
    "item.given": items.given,
    "item.ticked": items.ticked,
    "item.cleared": items.cleared,
    "item.closed": items.closed,
    "item.sent_back": items.sent_back,
    "item.voided": items.voided,
    "coat.laid": coats.laid,
    "coat.found_wet": coats.found_wet,
    "coat.found_dry": coats.found_dry,
    "coat.wet_sanded": coats.wet_sanded,
    "coat.answered": coats.answered,
    "coat.voided": coats.voided,
    "reading.taken": air.taken,
    "reading.struck": air.struck,
    "heat.told": air.heat_told,
    "forecast.told": air.forecast_told,
    "drying.learned": air.learned,
    "photo.added": photos.added,
    "photo.marked": photos.marked,
    "photo.arrived": photos.arrived,
    "sheet.answered": sheets.answered,
    "sheet.signed": sheets.signed,
    "release.given": modules.release_given,
    "release.pulled_back": modules.pulled_back,
    "release.answered": modules.release_answered,
    "phone.answered": modules.phone_answered,
    "device.enrolled": yards.device_enrolled,
    "device.behind": yards.device_behind,
    "device.written_off": yards.device_written_off,
    "entry.set_aside": yards.set_aside,
    "entry.let_in": yards.let_in,
    "entry.kept_out": yards.kept_out,
    "journal.restored": yards.restored,
}


def fold(work: Workspace, entries: Iterable[Entry]) -> list[str | None]:
    """Folds entries, in journal order, into the parts of `work`; for each the reason why it had no effect, or None."""
    return [step(work, entry) for entry in entries]


def step(work: Workspace, entry: Entry) -> str | None:
    """Folds one entry. A kind that this program does not know changes nothing."""
    known = STEPS.get(entry["kind"])
    return known(work, entry) if known else "unknown_kind"
