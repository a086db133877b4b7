"""What both weeks use: the lines of the sheets, and shipping's asking for a release."""

from __future__ import annotations

from seed_demo.story import Story

# By line: whether it is answered room by room.
CLEANING = {"dust": True, "floors": True, "glass": True, "fixtures": True, "debris": False}
WRAP = {"openings": True, "loose_items": True, "open_side": False, "roof_edge": False, "heat_and_water_off": False}


def releases(s: Story, serial: str) -> None:
    """Send what shipping wrote, then ask; the asking is answered with the whole entry."""
    hollis = s["hollis"]
    hollis.sync()
    s.passes(45)
    s.releases[serial] = hollis.asks_release(s.modules[serial])["entry"]["body"]["release"]
    hollis.sync()
