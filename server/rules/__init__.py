"""The rules: pure functions that the phone has too, file for file. Nothing of ours is imported, no framework."""

from server.rules.canonical import FIRST_LINK, PHONE_FIELDS, canonical, link, sha256
from server.rules.climate import (
    celsius,
    celsius_difference,
    dew_point,
    fahrenheit,
    fahrenheit_difference,
    room_rh,
    saturation,
    whole,
)
from server.rules.drying import dried, drying_minutes, ready
from server.rules.fold import STEPS, fold, step
from server.rules.gate import holds, questions
from server.rules.heads import undecided, value, values
from server.rules.items import needs_after_photo, next_step
from server.rules.parts import Workspace, sheet_id
from server.rules.seen import has_seen, ref_of
from server.rules.sheets import open_cells, rooms_of
from server.rules.vocabulary import CURRENT, kind_of, known_version, tables
from server.rules.who import may

__all__ = [
    "CURRENT",
    "FIRST_LINK",
    "PHONE_FIELDS",
    "STEPS",
    "Workspace",
    "canonical",
    "celsius",
    "celsius_difference",
    "dew_point",
    "dried",
    "drying_minutes",
    "fahrenheit",
    "fahrenheit_difference",
    "fold",
    "has_seen",
    "holds",
    "kind_of",
    "known_version",
    "link",
    "may",
    "needs_after_photo",
    "next_step",
    "open_cells",
    "questions",
    "ready",
    "ref_of",
    "room_rh",
    "rooms_of",
    "saturation",
    "sha256",
    "sheet_id",
    "step",
    "tables",
    "undecided",
    "value",
    "values",
    "whole",
]
