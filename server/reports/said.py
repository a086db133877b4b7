"""Times, lengths and lists as people say them. Pure: an instant and a zone in, text out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from server.reports.words import say

INCH = 25.4


def day_of(stamp: str, zone: str, lang: str) -> str:
    """`Dec 2, 2026` or `2 dic 2026`, on the yard's calendar."""
    at = _local(stamp, zone)
    month = say("packet.months", lang).split()[at.month - 1]
    return say("packet.day", lang, day=at.day, month=month, year=at.year)


def time_of(stamp: str, zone: str, lang: str) -> str:
    """`Dec 2, 2026, 8:20 am`: on paper always with the day and the year."""
    at = _local(stamp, zone)
    clock = f"{(at.hour - 1) % 12 + 1}:{at.minute:02d}{_half(at, lang)}"
    return say("packet.day_time", lang, day=day_of(stamp, zone, lang), time=clock)


def short_time(stamp: str, zone: str, lang: str) -> str:
    """`Dec 2, 8:20 am`, `Dec 2, 8 am`: at a mark of a drawing, which has a year beside it."""
    at = _local(stamp, zone)
    day = say("packet.short_day", lang, day=at.day, month=say("packet.months", lang).split()[at.month - 1])
    return say("packet.day_time", lang, day=day, time=_clock(at, lang))


def hour_of(stamp: str, zone: str, lang: str) -> str:
    """`8 am`, along an axis; midnight is the day that begins."""
    at = _local(stamp, zone)
    if at.hour or at.minute:
        return _clock(at, lang)
    return say("packet.short_day", lang, day=at.day, month=say("packet.months", lang).split()[at.month - 1])


def _clock(at: datetime, lang: str) -> str:
    minutes = f":{at.minute:02d}" if at.minute else ""
    return f"{(at.hour - 1) % 12 + 1}{minutes}{_half(at, lang)}"


def _half(at: datetime, lang: str) -> str:
    """*am*, on the line of its figure; *a. m.* in one piece."""
    return "\u00a0" + say("packet.am" if at.hour < 12 else "packet.pm", lang).replace(" ", "\u00a0")


def length(mm: int, lang: str) -> str:
    """`4 ft 6 in`: whole inches, as on the phone."""
    feet, inches = divmod(int(abs(mm) / INCH + 0.5), 12)
    words = []
    if feet:
        words.append(f"{feet} {say('packet.foot' if feet == 1 else 'packet.feet', lang)}")
    if inches or not feet:
        words.append(f"{inches} {say('packet.inch', lang)}")
    return ("-" if mm < 0 and words != ["0"] else "") + " ".join(words)


def metres(mm: int) -> str:
    """`1.37 m`: the SI value beside."""
    return f"{mm / 1000:.2f} m"


def sentence(words: str) -> str:
    """With one full stop, also after `p. m.`; nothing stays nothing."""
    return words if not words or words.endswith(".") else f"{words}."


def listed(words: Sequence[object], lang: str) -> str:
    """`14, 22 and 23`."""
    texts = [str(word) for word in words]
    if len(texts) < 2:
        return "".join(texts)
    return say("packet.and", lang, first=", ".join(texts[:-1]), last=texts[-1])


def _local(stamp: str, zone: str) -> datetime:
    return datetime.fromisoformat(stamp.replace("Z", "+00:00")).astimezone(ZoneInfo(zone))
