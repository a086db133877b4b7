"""`python3 seed_demo`: opens the invented yard the first time, tells its story, and serves it."""

from __future__ import annotations

import argparse
import shutil
import signal
import sys
import time
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from types import FrameType
from zoneinfo import ZoneInfo

from click import ClickException
from flask import Flask

from seed_demo import yard
from seed_demo.days import ENDS, tell
from seed_demo.story import Story, working_days
from seed_demo.wire import FlaskTransport
from server import journal, people
from server.app import create_app
from server.cli import alone, plain_server, settings
from server.clock import StoryClock
from server.db import db, writing
from server.settings import Settings

ROOT = Path(__file__).resolve().parents[1]
HOST = "127.0.0.1"
HALF, DATABASE = "half-told", "rakelight.sqlite"
SAID = {
    "inspector": "inspector",
    "crew_lead": "crew lead",
    "shipping": "shipping",
    "manager": "manager",
    "administrator": "administrator and manager",
}


def main(argv: Sequence[str] | None = None) -> int:
    """Parse the command line, seed when the folder has no yard, serve until interrupted."""
    asked = _arguments(argv)
    folder = Path(asked.data).expanduser().resolve()
    try:
        with alone(folder):
            if not has_yard(folder):
                seed(folder, yesterday(), _say, datetime.now(UTC))
            return 0 if asked.seed_only else _serve(folder, asked.port)
    except ClickException as error:
        _say(error.message)
        return 1


def seed(
    folder: Path, last: date, say: Callable[[str], None] = lambda _words: None, until: datetime | None = None
) -> Story:
    """Tell the story into a new yard in ``folder``; it appears there whole or not at all.

    Sensors go on reading until ``until``, so that the yard is as one finds it then; the morning after by default.
    """
    began = time.monotonic()
    say(f"Telling two weeks of {yard.NAME}. This takes about a minute, the first time only.")
    half = folder / HALF
    if half.exists():
        shutil.rmtree(half)
    clock = StoryClock(datetime(2000, 1, 1, tzinfo=UTC))
    app = create_app(Settings(data=half), clock)
    story = Story(FlaskTransport(app), clock.set, last, say, until=until)
    story.at(1, "06:00")
    open_yard(app)
    tell(story)
    _let_go(app)
    for part in sorted(half.iterdir(), key=lambda one: one.name == DATABASE):
        part.rename(folder / part.name)
    half.rmdir()
    say(f"Told in {time.monotonic() - began:.0f} s.")
    return story


def open_yard(app: Flask) -> None:
    """What no phone can do, because nobody can sign in yet: the yard and its first administrator."""
    clock, admin = app.extensions["clock"], yard.ADMINISTRATOR
    with app.app_context(), writing() as connection:
        opened = journal.open_yard(
            connection, clock, name=yard.NAME, zone=yard.ZONE, bays=yard.BAYS, crews=yard.CREWS, admin_name=admin.name
        )
        people.set_passcode(connection, opened["person"], admin.name, admin.passcode)


def has_yard(folder: Path) -> bool:
    """Whether the folder holds a yard. SystemExit when it holds something else, which is left alone."""
    if (folder / DATABASE).exists():
        return True
    ours = {HALF, "rakelight.lock"}
    others = sorted(one.name for one in folder.iterdir() if one.name not in ours) if folder.exists() else []
    if others:
        raise SystemExit(f"{folder} holds other things ({others[0]}). Name an empty folder: --data FOLDER")
    return False


def yesterday() -> date:
    """The last working day that is over in the yard: the story ends there, so that nothing lies in the future."""
    today = datetime.now(ZoneInfo(yard.ZONE)).date()
    return working_days(today - timedelta(days=1))[-1]


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python3 seed_demo", description=__doc__)
    parser.add_argument("--port", type=int, default=8080, help="the port to serve on (8080)")
    parser.add_argument("--data", default=str(ROOT / ".demo"), metavar="FOLDER", help="where the yard is kept (.demo)")
    parser.add_argument("--seed-only", action="store_true", help="tell the story and stop, without serving")
    return parser.parse_args(argv)


def _serve(folder: Path, port: int) -> int:
    app = create_app(settings(folder), tell=_say)
    try:
        server = plain_server(app, HOST, port)
    except OSError as error:
        _say(f"Port {port} is not free ({error.strerror}). Choose another: python3 seed_demo --port {port + 1}")
        return 1
    signal.signal(signal.SIGTERM, _stop)
    _say(welcome(f"http://{HOST}:{port}"))
    server.run()  # ends at Ctrl-C and at SIGTERM
    server.close()
    _say("Stopped. The yard is kept; the next start takes seconds.")
    return 0


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise SystemExit(0)


def welcome(address: str) -> str:
    """Address, roles, names and passcodes, and how the story left each module, in columns that can be read out."""
    rows = [(_role(one), one.name, one.passcode) for one in (*yard.PEOPLE, yard.ADMINISTRATOR)]
    wide = [max(len(row[column]) for row in rows) for column in (0, 1)]
    people = [f"  {role:<{wide[0]}}  {name:<{wide[1]}}  {passcode}" for role, name, passcode in rows]
    modules = [f"  {serial}  {how}" for serial, how in ENDS.items()]
    return "\n".join([
        "", f"Ready: {yard.NAME} is open at {address}",
        "", "Sign in as (role, name, passcode):", *people,
        "", "As the story left the modules:", *modules,
        "", "These passcodes are here for anyone to read: keep this yard on this machine. Stop with Ctrl-C.",
    ])  # fmt: skip


def _role(person: yard.Person) -> str:
    crew = next((crew["name"] for crew in yard.CREWS if crew["id"] == person.crew), None)
    return " and ".join(SAID[role] for role in person.roles) + (f", {crew}" if crew else "")


def _let_go(app: Flask) -> None:
    """Close the database, so that its folder can be moved."""
    with app.app_context():
        db.engine.dispose()


def _say(words: str) -> None:
    print(words, file=sys.stdout, flush=True)
