"""`rakelight audit`: whether the record is what it says it is."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from server import journal, photos
from server.cli.common import data_option, json_option, opened
from server.db import reading, whole


@click.command()
@data_option
@json_option
def audit(data: Path, as_json: bool) -> None:
    """Checks the database's pages, the chain, the parts against a new fold, and every photo against its hash.

    Exit status 1 when anything is wrong.
    """
    with opened(data, reads=True):
        with reading() as conn:
            found, pages = journal.audit(conn), whole(conn)
        pictures = photos.audit()
    broken = {name: pictures[name] for name in ("damaged", "missing") if pictures[name]}
    sound = not found["problems"] and pages and not broken
    answer = {"ok": sound, "pages": pages, "journal": found, "photos": pictures}
    click.echo(json.dumps(answer, indent=1) if as_json else told(answer, sound))
    sys.exit(0 if sound else 1)


def told(answer: dict[str, Any], sound: bool) -> str:
    """The same for a person."""
    lines = ["All is as it should be." if sound else "Something is wrong."]
    for room in ("journal", "photos"):
        for name, value in sorted(answer[room].items()):
            shown = len(value) if isinstance(value, list) else value
            lines.append(f"  {room} {name.replace('_', ' ')}: {shown}")
    return "\n".join([*lines, f"  database pages: {'whole' if answer['pages'] else 'broken'}"])
