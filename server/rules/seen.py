"""Who knew what. A reference to an entry is [seq, device, n, aside]; aside is 1 once it was set aside.

On a phone a pending entry has seq 10^15 + n: later than anything in the journal.
"""

from __future__ import annotations

from typing import Any

Ref = list[Any]
Entry = dict[str, Any]
LET_IN = "*"


def ref_of(entry: Entry) -> Ref:
    """The reference by which parts remember an entry."""
    return [entry["seq"], entry["device"], entry["n"], entry["let_in"]]


def has_seen(later: Entry, earlier: Ref) -> bool:
    """Whether the author of `later` had seen `earlier`, which stands before it in the journal.

    The count of a phone says so only when neither was ever set aside: a copy of a phone uses numbers a second time
    without having seen what the first use of them said.
    """
    seq, device, n, aside = earlier
    if seq <= later["seen_to"]:
        return True
    return bool(device == later["device"] and n < later["n"] and not aside and not later["let_in"])


def note(objections: dict[str, Any], entry: Entry) -> None:
    """Remembers an objection.

    Only the latest of each device is kept: a device's entries stand in order of n, so who has seen its latest has
    seen them all. Those once set aside count by seq alone, under "*".
    """
    if entry["let_in"]:
        objections[LET_IN] = entry["seq"]
    else:
        objections[entry["device"]] = [entry["seq"], entry["n"]]


def hear(objections: dict[str, Any], others: dict[str, Any]) -> None:
    """Remembers objections to another thing as well: the latest of each device of both."""
    for device, latest in others.items():
        if device not in objections or objections[device] < latest:
            objections[device] = latest if device == LET_IN else list(latest)


def seen_all(later: Entry, objections: dict[str, Any]) -> bool:
    """Whether the author of `later` had seen every objection noted so far."""
    for device, latest in objections.items():
        if device == LET_IN:
            if latest > later["seen_to"]:
                return False
        elif not has_seen(later, [latest[0], device, latest[1], 0]):
            return False
    return True
