"""The rules: pure functions that the phone has too, file for file. Nothing of ours is imported, no framework."""

from server.rules.air import SLOTS, air_id, forecast_id, heat_id, learned_id, stream_id
from server.rules.before_paint import before_paint
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
from server.rules.clocks import UNRELIABLE, clock, stale
from server.rules.coat_looks import cell_of
from server.rules.covers import earlies, readiness, tops
from server.rules.drying import dried, ready
from server.rules.fold import STEPS, fold, step
from server.rules.gate import holds, questions
from server.rules.heads import undecided, value, values
from server.rules.instants import DAY, day, instant, seconds
from server.rules.items import needs_after_photo, next_step
from server.rules.learned_factor import learn, observations
from server.rules.parts import Workspace, sheet_id
from server.rules.place import place_of
from server.rules.ready_list import ready_list
from server.rules.schedule import coats_of, family, next_coat
from server.rules.seen import has_seen
from server.rules.sheets import open_cells, rooms_of
from server.rules.vocabulary import CURRENT, FORM, kind_of, tables
from server.rules.what_helps import what_helps
from server.rules.who import may
from server.rules.whose_air import air_for

__all__ = [
    "CURRENT",
    "DAY",
    "FIRST_LINK",
    "FORM",
    "PHONE_FIELDS",
    "SLOTS",
    "STEPS",
    "UNRELIABLE",
    "Workspace",
    "air_for",
    "air_id",
    "before_paint",
    "canonical",
    "cell_of",
    "celsius",
    "celsius_difference",
    "clock",
    "coats_of",
    "day",
    "dew_point",
    "dried",
    "earlies",
    "fahrenheit",
    "fahrenheit_difference",
    "family",
    "fold",
    "forecast_id",
    "has_seen",
    "heat_id",
    "holds",
    "instant",
    "kind_of",
    "learn",
    "learned_id",
    "link",
    "may",
    "needs_after_photo",
    "next_coat",
    "next_step",
    "observations",
    "open_cells",
    "place_of",
    "questions",
    "readiness",
    "ready",
    "ready_list",
    "room_rh",
    "rooms_of",
    "saturation",
    "seconds",
    "sha256",
    "sheet_id",
    "stale",
    "step",
    "stream_id",
    "tables",
    "tops",
    "undecided",
    "value",
    "values",
    "what_helps",
    "whole",
]
