"""The small yard with its coats: laid, looked at, sanded wet, covered early and answered, in air that is read."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

from server.rules import heat_id, stream_id
from tests.reports.story import MODULE, PERSON, ROOMS, Story, uuid

ALL = [*(room["id"] for room in ROOMS), "porch"]
BEGIN = datetime(2026, 12, 2, 13, 0, tzinfo=UTC)
PAINT = {"product": "Eggshell 40", "colour": "WW-12", "batch": "L2231", "can": "shed 2, shelf C"}


def coats(story: Story) -> Story:
    """Coats in every state, each told when it happened; `story.at` is then Friday, December 4, noon in the yard."""
    _at(story, -6)
    painted = ["prime", "paint_1"]
    lists = {"bath_2": ["tape", "first", *painted], "*": ["tape", "first", "texture", *painted]}
    story.say("vance", "module.amended", MODULE, {"coats": lists})
    story.say("vance", "heat.told", heat_id(MODULE), {"on": True, "to": 211, "since": _stamp(-8)})
    for hours in range(-6, 53, 3):
        _at(story, hours)
        temp, rh = (211, 45) if 6 <= (hours + 13) % 24 <= 18 else (178, 58)
        reading = {"where": "module", "source": "logger", "name": "L-3", "rows": [[_stamp(hours), temp, rh, None]]}
        story.say("medrano", "reading.taken", stream_id(MODULE), reading)
    _at(story, -5)
    _lay(story, 1, "tape", ALL, done_by=[PERSON["ruiz"]])
    _at(story, 8)
    story.say("tull", "coat.found_wet", uuid(5001), {"rooms": ["hall"], "text": "dark at the joint"})
    story.say("tull", "coat.found_dry", uuid(5001), {"rooms": ALL, "tried": ["cut"], "reason": "cut it, white through"})
    _at(story, 14)
    _lay(story, 2, "first", ALL, over=[uuid(5001)], material="setting_type", set_minutes=45)
    _at(story, 17)
    story.say("medrano", "coat.wet_sanded", uuid(5002), {"rooms": ["porch"], "done_by": [PERSON["ruiz"]]})
    _at(story, 38)
    _lay(story, 3, "texture", ["hall", "bedroom_1"], over=[uuid(5002)], early="truck at 7")
    _at(story, 39)
    story.say("tull", "coat.answered", uuid(5003), {"reason": "cut it at the door, dry below"})
    _lay(story, 4, "prime", ["bath_2"], over=[uuid(5002)], material="primer", paint=PAINT)
    _at(story, 42)
    _lay(
        story, 5, "paint_1", ["bath_2"], over=[uuid(5004)], material="latex", paint=PAINT, early="last hour of daylight"
    )
    _at(story, 46)
    _lay(
        story,
        6,
        "touch_up",
        ["bath_2"],
        surface="B",
        over=[uuid(5005)],
        material="latex",
        items=[uuid(1001), uuid(1002)],
    )
    _lay(story, 7, "skim", ["porch"], over=[uuid(5002)])
    story.say("ochoa", "coat.voided", uuid(5007), {"reason": "it was the porch of the next module"})
    _at(story, 47)
    reading = {"where": "room", "room": "bath_2", "source": "hand", "rows": [[_stamp(47), 200, 62, None]]}
    story.say("ochoa", "reading.taken", stream_id(MODULE, "bath_2"), reading)
    _at(story, 53)
    return story


def _stamp(hours: float) -> str:
    return (BEGIN + timedelta(hours=hours)).strftime("%Y-%m-%dT%H:%M:%SZ")


def _at(story: Story, hours: float) -> None:
    story.at = BEGIN + timedelta(hours=hours)


def _lay(story: Story, n: int, coat: str, rooms: list[str], **told: Any) -> None:
    materials = {"texture": "texture"}
    body = {"coat": coat, "rooms": rooms, "material": materials.get(coat, "drying_type"), **told}
    story.say("medrano", "coat.laid", uuid(5000 + n), body)
