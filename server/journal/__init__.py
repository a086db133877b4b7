"""The journal: entries in one order, chained, folded into parts. The only place that writes entries."""

from server.journal.anew import fold_anew, of_this_form
from server.journal.arrivals import photo_arrived, photo_wanted, photos_awaited
from server.journal.aside import CannotLetIn, keep_out, let_in
from server.journal.audit import audit
from server.journal.devices import admit, enrol, expel, people_on, write_off
from server.journal.judge import Offered
from server.journal.learned import judge_again
from server.journal.measured import NoPlace, Place, Reading, bring_nights, bring_readings, place_exists
from server.journal.opening import YardExists, open_yard, restored
from server.journal.read import (
    drying_parts,
    entries,
    gate_parts,
    part,
    parts_named,
    parts_of,
    set_aside_bytes,
    yard_facts,
)
from server.journal.release import ask_release
from server.journal.sync import UnknownDevice, sync
from server.journal.writer import OtherForm

__all__ = [
    "CannotLetIn",
    "NoPlace",
    "Offered",
    "OtherForm",
    "Place",
    "Reading",
    "UnknownDevice",
    "YardExists",
    "admit",
    "ask_release",
    "audit",
    "bring_nights",
    "bring_readings",
    "drying_parts",
    "enrol",
    "entries",
    "expel",
    "fold_anew",
    "gate_parts",
    "judge_again",
    "keep_out",
    "let_in",
    "of_this_form",
    "open_yard",
    "part",
    "parts_named",
    "parts_of",
    "people_on",
    "photo_arrived",
    "photo_wanted",
    "photos_awaited",
    "place_exists",
    "restored",
    "set_aside_bytes",
    "sync",
    "write_off",
    "yard_facts",
]
