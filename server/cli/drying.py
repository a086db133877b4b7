"""`rakelight drying` and `rakelight dewpoint`: the law that phones and server reckon with, for one person at a desk."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from server import loggers
from server.cli.common import json_option
from server.cli.logger_file import how_options, options, readings_of, sentence
from server.cli.measures import Humidity, Temperature, instant, written
from server.clock import SystemClock
from server.rules import CURRENT, dew_point, dried, fahrenheit, ready, room_rh, stale, tables

TABLE = tables(CURRENT)["drying"]
FLAGS = {
    "below_limits": "Out of limits: below 50 °F nobody lays compound. That is not merely slow.",
    "above_limits": "Out of limits: above 95 °F the coat dries too fast.",
    "damp": "Not to be relied on: above 90 % a reading 3 points off multiplies the time by 1.4 to 2.3.",
    "bone_dry": "Not to be relied on: no air is at 0 %. Look at the sensor.",
    "gap": "Not to be relied on: more than 4 hours between readings.",
    "dry_out": "It would dry before it has set: weak. Slow the drying.",
}
STALE = "Not to be relied on: the last reading is old. It is carried forward from then on."
ESTIMATE = "An estimate for nearly still air: thickness, tape and moving air are not in it. The label comes first."
HEATING = (
    "The moisture of the outside air stays, its relative humidity does not: reckoned at constant vapour pressure.",
    "Unvented heaters: carbon monoxide and fire. Fresh air, clearances, a carbon monoxide alarm.",
    "An unvented heater also adds water, which is not in this: 1.63 lb for each lb of propane, 2.25 of natural gas.",
    "Air the room: moist air that stays in slows the drying.",
)


def keys(table: str) -> click.Choice[str]:
    return click.Choice([key.replace("_", "-") for key in TABLE[table]])


@click.command()
@click.option("--temp", type=Temperature(), help="Temperature of the air, 70F or 21C.")
@click.option("--rh", type=Humidity(), help="Its relative humidity in per cent.")
@click.option("--heat-to", type=Temperature(), help="The air is outside air, and the room is heated to this.")
@click.option("--material", type=keys("materials"), default="drying-type", show_default=True, help="What was laid.")
@click.option("--thickness", type=keys("thickness"), default="normal", show_default=True, help="How thick.")
@click.option("--set-minutes", type=click.IntRange(1, 1440), help="Setting-type: the minutes on the bag.")
@click.option("--label-minutes", type=click.IntRange(1, 10080), help="Paint: the label's least time to the next coat.")
@click.option("--readings", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="A logger's CSV.")
@click.option("--laid", help="When the coat was laid, with --readings: 2026-12-02T08:00-06:00.")
@how_options
@json_option
def drying(as_json: bool, **given: Any) -> None:
    """How long a coat takes to dry, likely and by the table, in this air or by a logger's readings."""
    coat = coat_of(given)
    if given["readings"]:
        answer = by_readings(coat, given)
    elif given["temp"] is None or given["rh"] is None:
        raise click.UsageError("Give the air: --temp 70F --rh 50, or --readings FILE.csv --laid TIME.")
    elif given["laid"] or given["chosen"] or given["zone"] or given["unit"]:
        raise click.UsageError("--laid, --zone, --unit and --set go with --readings FILE.csv.")
    else:
        held, notes = in_the_room([{"time": 0, "temp": given["temp"], "rh": given["rh"]}], given["heat_to"])
        answer = told(coat | {"laid": 0}, held, notes)
    click.echo(json.dumps(answer, ensure_ascii=False) if as_json else in_words(answer))


def coat_of(given: dict[str, Any]) -> dict[str, Any]:
    """The coat, with nothing told of it that its material does not have."""
    material = given["material"].replace("-", "_")
    clock = TABLE["materials"][material]["clock"]
    if given["set_minutes"] is not None and clock != "set":
        raise click.UsageError(f"--set-minutes is of setting-type compound: {given['material']} does not set.")
    if given["label_minutes"] is not None and clock != "label":
        raise click.UsageError(f"--label-minutes is of paint: {given['material']} dries by the table.")
    told = {name: given[name] for name in ("set_minutes", "label_minutes") if given[name] is not None}
    return {"material": material, "thickness": given["thickness"], **told}


def by_readings(coat: dict[str, Any], given: dict[str, Any]) -> dict[str, Any]:
    """The clock of a coat over a logger's file."""
    if given["temp"] is not None or given["rh"] is not None or not given["laid"]:
        raise click.UsageError("With --readings say --laid TIME, and neither --temp nor --rh.")
    now = int(SystemClock().now().timestamp())
    how = options(given["chosen"], given["zone"], given["unit"])
    try:
        laid = instant(given["laid"], loggers.zone_of(how["zone"]) if "zone" in how else None)
    except loggers.NotRead as error:
        raise click.BadParameter(sentence(error.told), param_hint="--zone") from error
    except ValueError as error:
        raise click.BadParameter(f"{error}.", param_hint="--laid") from error
    try:
        read, notes = readings_of(given["readings"].read_bytes(), how, now)
    except (ValueError, OSError) as error:
        raise click.BadParameter(f"{given['readings'].name}: {error}", param_hint="--readings") from error
    held, more = in_the_room(read, given["heat_to"])
    answer, last = told(coat | {"laid": laid}, held, notes + more), held[-1]["time"]
    found = ready(coat | {"laid": laid}, held, CURRENT)
    shares = dried(coat | {"laid": laid}, held, last, CURRENT)
    if stale(last, found["by_table"], max(now, laid)):
        answer["notes"].insert(0, STALE)
    return answer | {
        "ready_likely": written(found["likely"]), "ready_by_table": written(found["by_table"]),
        "last_reading": written(last), "dried_pct": {end: share / 10 for end, share in shares.items()},
    }  # fmt: skip


def in_the_room(read: list[dict[str, Any]], heat_to: float | None) -> tuple[list[dict[str, Any]], list[str]]:
    """The readings as the air of the room, and what to say about that."""
    if heat_to is None:
        return read, []
    if any(one["temp"] > heat_to for one in read):
        raise click.BadParameter("the air is warmer than that already.", param_hint="--heat-to")
    heated = [one | {"temp": heat_to, "rh": room_rh(one["temp"], one["rh"], heat_to, CURRENT)} for one in read]
    return heated, list(HEATING)


def told(coat: dict[str, Any], held: list[dict[str, Any]], notes: list[str]) -> dict[str, Any]:
    """Hours from the laying on, null where it does not dry, and why they may be wrong."""
    found = ready(coat, held, CURRENT)
    notes = [*(FLAGS[flag] for flag in found["flags"]), *notes, ESTIMATE]
    answer = {f"{end}_h": hours_between(coat["laid"], found[end]) for end in ("likely", "by_table")}
    answer["room_rh_pct"] = round(held[-1]["rh"], 1)
    if found["likely"] is None:
        notes.insert(0, "In this air it does not dry.")
    if found["set"] is not None:
        answer["set_h"] = round((found["set"] - coat["laid"]) / 3600, 2)
    return answer | {"notes": [*notes, *of_the_material(coat)]}


def of_the_material(coat: dict[str, Any]) -> list[str]:
    """What sets or goes by its label: what that means, and what was not told of it."""
    row = TABLE["materials"][coat["material"]]
    if row["clock"] == "set" and "set_minutes" in coat:
        return ["The next coat may follow once it has set; primer and paint wait until it is dry."]
    if row["clock"] == "set":
        return ["Nobody told the minutes on the bag, so that no set time can be given: add --set-minutes 45."]
    if row["clock"] == "label":
        kind = coat["material"].capitalize()
        notes = [f"{kind} has no published law: the label's time, stretched by joint compound's, never below it."]
        least = f"Nobody told the label's least time: {row['minutes']} minutes are taken. Add --label-minutes."
        return notes if "label_minutes" in coat else [*notes, least]
    return []


def hours_between(laid: int, instant: int | None) -> float | None:
    """Hours to a tenth; null where there is no end."""
    return None if instant is None else round((instant - laid) / 3600, 1)


def in_words(answer: dict[str, Any]) -> str:
    """The same for a person."""
    times = [f"{answer[key]:g} h" if answer[key] is not None else "never" for key in ("likely_h", "by_table_h")]
    lines = [f"Likely {times[0]}, by the table {times[1]}, room at {answer['room_rh_pct']:g} %."]
    lines += [f"{key.replace('_', ' ')}: {answer[key]}" for key in ("ready_likely", "ready_by_table") if key in answer]
    return "\n".join([*lines, *(f"- {note}" for note in answer["notes"])])


@click.command()
@click.option("--temp", type=Temperature(), required=True, help="Temperature of the air, 70F or 21C.")
@click.option("--rh", type=Humidity(), required=True, help="Its relative humidity in per cent.")
@json_option
def dewpoint(temp: float, rh: float, as_json: bool) -> None:
    """The temperature at which this air wets a surface."""
    found = dew_point(temp, rh, CURRENT)
    answer = {"dew_point_c": round(found / 10, 1), "dew_point_f": round(fahrenheit(found) / 10, 1)}
    words = f"{answer['dew_point_f']:g} °F ({answer['dew_point_c']:g} °C)"
    click.echo(json.dumps(answer) if as_json else words)
