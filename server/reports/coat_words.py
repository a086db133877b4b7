"""How a coat stands and what is known of it, in the sentences of the phone's own screen. Pure."""

from __future__ import annotations

from typing import Any

from server.reports.book import Book, Part
from server.reports.words import knows
from server.rules import UNRELIABLE, cell_of, fahrenheit, instant, seconds, whole

Top = dict[str, Any]
# The last second that an instant can name.
LAST = 253402300799


def at(book: Book, seconds: int | None) -> str:
    """An instant of a clock as a time of the yard; nothing where there is none, or none that a calendar has."""
    return book.time(instant(seconds)) if seconds is not None and seconds <= LAST else ""


def degrees(tenths: int) -> str:
    """`70 °F`, from whole tenths of a degree Celsius."""
    return f"{whole(fahrenheit(tenths) / 10)}\u00a0°F"


def degrees_both(tenths: int) -> str:
    """`70 °F (21 °C)`."""
    return f"{degrees(tenths)} ({whole(tenths / 10)}\u00a0°C)"


def inside(book: Book, key: str) -> str:
    """A coat's name as it stands inside a sentence."""
    name = book.coat(key)
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def state_words(book: Book, top: Top, room: str, coming: str | None) -> tuple[str, bool]:
    """`Texture not dry: primer from 10 am likely, 12:40 pm by the table`, and whether it wants somebody to look."""
    found = top["clock"]
    likely, by_table = at(book, found["likely"]), at(book, found["by_table"])
    told = {"coat": book.coat(top["coat"]["coat"]), "likely": likely, "by_table": by_table}
    wet = cell_of(top["coat"], room)["wet"]
    match found["state"]:
        case "not_dry":
            name, time = (book.person(wet["by"]), book.time(wet["time"])) if wet else ("", "")
            return book.say("coats.state.not_dry", coat=told["coat"], name=name, time=time), True
        case "dry":
            return book.say("coats.state.dry", coat=told["coat"], time=at(book, found["ready_at"])), False
        case "unsure":
            unread = "no_readings" in found["flags"]
            return book.say(f"coats.state.{'no_air' if unread else 'unsure'}", **told), True
        case "wet" if not (likely and by_table):
            return book.say("coats.state.never", **told), True
        case "wet" if coming:
            return book.say("coats.state.wet_next", **told, next=inside(book, coming)), False
        case state:
            return book.say(f"coats.state.{state}", **told), False


def next_words(book: Book, stand: dict[str, Any]) -> str:
    """What is next by the schedule, and whether it may go on now."""
    coming, tops, ready = stand["next"], stand["tops"], stand["ready"]
    if not stand["known"]:
        return book.say("coats.next.unknown")
    if coming is None:
        return book.say("coats.next.done")
    if not tops:
        return book.say("coats.next.first", next=inside(book, coming))
    if ready["ready"]:
        return book.say("coats.next.ready", next=book.coat(coming))
    return book.say("coats.next.wait", next=inside(book, coming))


def dried_words(book: Book, found: dict[str, Any]) -> str:
    """`58 to 70 % dry now`: by the table, and by the likely time."""
    least, most = (found["dried"][end] // 10 for end in ("by_table", "likely"))
    return book.say("coats.dried_one", n=most) if least == most else book.say("coats.dried", n=most, m=least)


def air_words(book: Book, found: dict[str, Any]) -> str:
    """Whose air its times rest on, and the latest that was read of it."""
    latest = found["latest"]
    if not found["whose"] or not latest:
        return ""
    whose, temp = book.say(f"coats.whose.{found['whose']}"), degrees_both(latest["temp"])
    return book.say("coats.air", whose=whose, time=at(book, latest["time"]), temp=temp, rh=latest["rh"])


def dried_in(book: Book, top: Top, room: str) -> str:
    """`Air of the module: 64 °F to 70 °F, 45 to 58 % RH`: what a coat that is dry by now dried in."""
    found, look = top["clock"], cell_of(top["coat"], room)["dry"]
    ends = [found["by_table"], seconds(look["time"]) if look else None]
    until = min((end for end in ends if end is not None), default=None)
    rows = [row for row in top["air"] if until is None or row["time"] < until] or top["air"][:1]
    if not rows:
        return ""
    whose = [book.say(f"coats.whose.{one}") for one in dict.fromkeys(row["whose"] for row in rows)]
    told = spans(book, [(row["temp"], row["rh"]) for row in rows])
    return book.say("packet.coat_air", whose=book.listed([whose[0], *(one.lower() for one in whose[1:])]), **told)


def spans(book: Book, air: list[tuple[int, int]]) -> dict[str, str]:
    """From the lowest to the highest of (temperature, humidity), as words; one value where they are the same."""

    def span(found: list[str]) -> str:
        low, high = found
        return low if low == high else book.say("packet.span", low=low, high=high)

    temps, damps = [temp for temp, _ in air], [rh for _, rh in air]
    return {
        "temp": span([degrees(min(temps)), degrees(max(temps))]),
        "rh": span([str(min(damps)), str(max(damps))]),
    }


def flag_words(book: Book, found: dict[str, Any]) -> tuple[list[str], list[str]]:
    """Why its times cannot be relied on, and what else its clock has to say; a look settles every doubt."""
    settled = found["state"] in ("dry", "ready")
    words = {flag: book.say(f"coats.flag.{flag}") for flag in found["flags"] if flag != "no_readings"}
    doubts = [said for flag, said in words.items() if flag in UNRELIABLE and not settled]
    return doubts, [said for flag, said in words.items() if flag not in UNRELIABLE]


def made_of(book: Book, coat: Part) -> str:
    """`Drying-type, heavy, 45 min setting`."""
    said = [book.say(f"coats.material.{coat['material']}") if knows(f"coats.material.{coat['material']}") else ""]
    if coat["thickness"] != "normal":
        said.append(book.say(f"coats.thickness.{coat['thickness']}").lower())
    if coat["set_minutes"] is not None:
        said.append(book.say("coats.set_by", minutes=coat["set_minutes"]))
    if coat["label_minutes"] is not None:
        said.append(book.say("packet.coat_label", minutes=coat["label_minutes"]))
    return ", ".join(word for word in said if word)


def paint_words(book: Book, paint: dict[str, str] | None) -> str:
    """`Paint: Eggshell 40, 12-B, batch L2231. Touch-up can: shed 2`."""
    if not paint:
        return ""
    batch = book.say("coats.batch_is", batch=paint["batch"]) if paint.get("batch") else ""
    what = ", ".join(word for word in (paint.get("product"), paint.get("colour"), batch) if word)
    can = book.say("coats.can_is", can=paint["can"]) if paint.get("can") else ""
    return ". ".join(word for word in (book.say("coats.paint_is", what=what) if what else "", can) if word)


def meter_words(book: Book, meter: dict[str, Any] | None) -> str:
    if not meter:
        return ""
    scale = book.say(f"coats.meter.{meter['scale']}").lower()
    return book.say("coats.meter_read", value=f"{meter['value'] / 10:g}", scale=scale)
