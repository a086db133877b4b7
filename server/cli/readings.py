"""`rakelight readings` and `rakelight forecast`: a logger's file and an hourly forecast, read as on screens."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import click
from flask import Flask

from server import journal, loggers
from server.cli.common import alone, data_option, json_option, opened
from server.cli.logger_file import Command, how_options, looked, options, sentence, sentences
from server.db import reading
from server.rules import value


def file_options(command: Command) -> Command:
    """The file and how it is to be read; what is not told is guessed from it."""
    file = click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
    return file(data_option(how_options(json_option(command))))


@click.command()
@file_options
@click.option("--module", "serial", help="The serial of the module it hung in.")
@click.option("--room", help="The room's key; without it the module as a whole.")
@click.option("--outside", is_flag=True, help="It hung outside, in the yard.")
@click.option("--name", help="What the logger is called.")
def readings(file: Path, data: Path, serial: str | None, room: str | None, outside: bool, **given: Any) -> None:
    """Brings a logger's CSV into DATA: temperature and humidity by time. Safe to repeat; the server must be stopped."""
    if outside == bool(serial) or (room and outside):
        raise click.UsageError("Say where it hung: --module SERIAL, maybe with --room KEY, or --outside.")
    with alone(data), opened(data) as app:
        found, plan = read(file, given, app, wants_rh=True)
        place = journal.Place(module_of(serial) if serial else None, room, "logger", given["name"])
        try:
            told = journal.bring_readings(place, found.readings(), app.extensions["clock"])
        except journal.NoPlace as error:
            raise click.ClickException({"no_room": f"{serial} has no room {room}."}[error.reason]) from error
        found.late(told.too_old, "line")
    answer = {"taken": len(told.taken), "known": len(told.known) + found.repeated, "entries": told.entries}
    finish(answer, found, plan, given["as_json"])


@click.command()
@file_options
def forecast(file: Path, data: Path, **given: Any) -> None:
    """Brings an hourly forecast's CSV into DATA: the low of each night to come. The server must be stopped."""
    with alone(data), opened(data) as app:
        found, plan = read(file, given, app, wants_rh=False)
        nights = loggers.nights_of(found, ZoneInfo(yard_zone()), now(app))
        if found.rows and not nights:
            raise click.ClickException(f"{file.name}: {sentence(loggers.NotRead('no_nights').told)}")
        new = journal.bring_nights(nights, app.extensions["clock"]) if nights else 0
    finish({"nights": nights, "told": new}, found, plan, given["as_json"])


def read(file: Path, given: dict[str, Any], app: Flask, *, wants_rh: bool) -> tuple[loggers.Found, loggers.Plan]:
    """The rows of the file, once nothing about it is open."""
    told = options(given["chosen"], given["zone"], given["unit"])
    try:
        one = looked(file.read_bytes(), told, now(app) if wants_rh else None, wants_rh=wants_rh)
    except (ValueError, OSError) as error:
        raise click.ClickException(f"{file.name}: {error}") from error
    return one.found, one.plan


def module_of(serial: str) -> str:
    with reading() as conn:
        modules = journal.parts_named(conn, "module")
    for module in modules:
        if value(module["heads"], "serial") == serial and not module["left"]:
            return str(module["id"])
    raise click.ClickException(f"No module {serial} stands in this yard.")


def yard_zone() -> str:
    with reading() as conn:
        return str(journal.parts_named(conn, "yard")[0]["zone"])


def now(app: Flask) -> int:
    return int(app.extensions["clock"].now().timestamp())


def finish(answer: dict[str, Any], found: loggers.Found, plan: loggers.Plan, as_json: bool) -> None:
    """Says what was taken, and each thing that was not; status 1 when there was nothing good in the file."""
    refused = [{**one, "text": sentence(one)} for one in found.refused]
    notes = [{**one, "text": sentence(one)} for one in found.notes]
    whole = {**answer, "refused": refused, "notes": notes, "plan": plan.as_told()}
    if as_json:
        click.echo(json.dumps(whole, ensure_ascii=False))
    else:
        click.echo(", ".join(f"{name} {len(one) if isinstance(one, list) else one}" for name, one in answer.items()))
        for words in sentences(found.refused):
            click.echo(words)
        for one in notes:
            click.echo(f"- {one['text']}")
    sys.exit(0 if found.rows else 1)
