"""What the commands share: the data folder, the application on it, and the guard of one server process."""

from __future__ import annotations

import fcntl
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from pathlib import Path

import click
from flask import Flask
from sqlalchemy.exc import OperationalError

from server.app import create_app, up_to_date
from server.settings import Settings

data_option = click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("rakelight-data"),
    show_default=True,
    help="The folder that holds the database and the photos.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")


def aside(words: str) -> None:
    """Words for the person at the terminal, beside the answer that a program may read."""
    click.echo(words, err=True)


@contextmanager
def alone(data: Path) -> Iterator[None]:
    """Holds the data folder's lock: SQLite below 3.51.3 can break a WAL file that several processes write.

    The system lets go of the lock when the process ends, however it ends.
    """
    data.mkdir(parents=True, exist_ok=True, mode=0o700)
    with open(data / "rakelight.lock", "a+", encoding="ascii") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            lock.seek(0)
            other = lock.read().strip() or "unknown"
            raise click.ClickException(
                f"Another Rakelight process ({other}) works on {data}. One at a time: stop it first "
                f"(SQLite {sqlite3.sqlite_version})."
            ) from error
        lock.truncate(0)
        lock.write(str(os.getpid()))
        lock.flush()
        yield


def app_on(settings: Settings) -> Flask:
    """The application on a data folder that may have to be brought up to this version first, as the terminal hears."""
    try:
        return create_app(settings, tell=aside)
    except OperationalError as error:
        if "full" not in str(error.orig):
            raise
        words = "The disk is full. The folder is as it was: make room there, then start again"
        raise click.ClickException(f"{words} ({settings.data}).") from error


@contextmanager
def opened(data: Path, *, reads: bool = False) -> Iterator[Flask]:
    """The application on an existing data folder, its context pushed; refuses a folder without a database.

    `reads`: may run beside the server, but brings no folder up to this version under one: that server is of another,
    and would write no more, or write parts among those of this one.
    """
    settings = Settings(data=data)
    if not settings.database.is_file():
        raise click.ClickException(f"There is no database in {data}. `rakelight open` makes one.")
    with alone(data) if reads and not up_to_date(settings) else nullcontext():
        app = app_on(settings)
        with app.app_context():
            yield app
