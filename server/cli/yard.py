"""`rakelight open` and `rakelight restored`: the two moments in which a yard's journal begins or begins again."""

from __future__ import annotations

import json
import re
from pathlib import Path
from zoneinfo import available_timezones

import click

from server import journal, people, photos
from server.app import create_app
from server.cli.common import alone, data_option, json_option, opened
from server.db import reading, writing
from server.settings import Settings


def _zone(_context: click.Context, _option: click.Parameter, told: str) -> str:
    if told not in available_timezones():
        raise click.BadParameter(f"{told} is no IANA time zone; for example America/Chicago.")
    return told


def _crews(_context: click.Context, _option: click.Parameter, told: tuple[str, ...]) -> list[dict[str, str]]:
    pairs = [one.partition("=") for one in told]
    crews = [{"id": key.strip(), "name": (name or key).strip()} for key, _, name in pairs]
    for crew in crews:
        if not re.fullmatch(r"[a-z][a-z0-9_-]{0,39}", crew["id"]):
            raise click.BadParameter(f"A crew's key is small letters and digits, as in paint=Paint crew: {crew['id']}")
    return crews


@click.command("open")
@data_option
@click.option("--name", required=True, help="The yard's name.")
@click.option("--zone", default="America/Chicago", show_default=True, callback=_zone, help="Its IANA time zone.")
@click.option("--bay", "bays", multiple=True, help="A bay's name; once for each bay.")
@click.option("--crew", "crews", multiple=True, callback=_crews, help="A crew as KEY=NAME; once for each crew.")
@click.option("--admin", required=True, help="The first administrator's name.")
@click.option("--passcode", help="Their passcode. Without it one is made and shown, this once.")
@json_option
def open_yard(
    data: Path,
    name: str,
    zone: str,
    bays: tuple[str, ...],
    crews: list[dict[str, str]],
    admin: str,
    passcode: str | None,
    as_json: bool,
) -> None:
    """Opens a yard in DATA and its first administrator, who then names everybody else."""
    with alone(data):
        app = create_app(Settings(data=data))
        chosen = passcode or app.extensions["clock"].token()[:16]
        problem = people.problem_with(chosen, admin)
        if problem:
            raise click.ClickException(problem)
        with app.app_context(), writing() as conn:
            try:
                made = journal.open_yard(
                    conn,
                    app.extensions["clock"],
                    name=name,
                    zone=zone,
                    bays=list(bays),
                    crews=crews,
                    admin_name=admin,
                )
            except journal.YardExists as error:
                raise click.ClickException(f"{data} holds a yard already.") from error
            people.set_passcode(conn, made["person"], admin, chosen)
    if as_json:
        click.echo(json.dumps({**made, "admin": admin, **({} if passcode else {"passcode": chosen})}))
        return
    click.echo(f"The yard {name} is open. {admin} may sign in.")
    if not passcode:
        click.echo(f"Passcode, shown this once: {chosen}")


@click.command()
@data_option
@click.option("--manager", required=True, help="The name, as used to sign in, of the manager who confirms it.")
@click.confirmation_option(prompt="This data is an older backup, and phones have seen more than it holds?")
@json_option
def restored(data: Path, manager: str, as_json: bool) -> None:
    """Confirms that DATA is an older backup: begins a new epoch, and phones offer again what is missing."""
    with alone(data), opened(data) as app:
        with reading() as conn:
            row = people.account_of(conn, manager)
            part = journal.part(conn, "person", row.person) if row is not None else None
        if row is None or part is None or "manager" not in part["roles"]:
            raise click.ClickException(f"{manager} is not a manager of this yard.")
        entry = journal.restored(row.person, app.extensions["clock"])
        with reading() as conn:
            awaited = journal.photos_awaited(conn)
        for sha256 in awaited:
            # The photos' folder may be younger than the database, and the phones have let go of what had come.
            if photos.has(sha256):
                journal.photo_arrived(sha256, app.extensions["clock"])
    told = {"epoch": entry["epoch"], **entry["body"]}
    if as_json:
        click.echo(json.dumps(told))
        return
    click.echo(f"A new epoch has begun after entry {told['cut']}: {told['epoch']}")
    click.echo("Passcodes changed and accounts closed since the backup are as they were: change and close them again.")
