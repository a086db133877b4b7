"""`rakelight export`: everything that was ever said, in a form that needs no program of ours to read."""

from __future__ import annotations

import json
from pathlib import Path

import click

from server import journal, photos
from server.cli.common import data_option, json_option, opened
from server.db import reading
from server.rules import canonical


@click.command()
@data_option
@json_option
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def export(data: Path, folder: Path, as_json: bool) -> None:
    """Writes the journal and what was set aside as JSON lines, and every photo as it was sent, into FOLDER.

    The lines of journal.jsonl are the canonical bytes that the chain is made of.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with opened(data, reads=True):
        with reading() as conn:
            entries = journal.entries(conn)
            aside = [journal.set_aside_bytes(conn, part["id"]) for part in journal.parts_named(conn, "set_aside")]
        with open(folder / "journal.jsonl", "wb") as lines:
            lines.writelines(canonical(entry) + b"\n" for entry in entries)
        with open(folder / "set_aside.jsonl", "wb") as lines:
            lines.writelines(entry + b"\n" for entry in aside if entry is not None)
        pictures = written(folder / "photos", photos.audit()["whole"])
    counts = {"entries": len(entries), "set_aside": len(aside), "photos": pictures}
    words = f"{len(entries)} entries, {len(aside)} set aside, {pictures} photos in {folder}"
    click.echo(json.dumps(counts) if as_json else words)


def written(folder: Path, names: list[str]) -> int:
    """Copies the photos, one file each, under their SHA-256."""
    folder.mkdir(exist_ok=True)
    for name in names:
        (folder / name).write_bytes(photos.original(name))
    return len(names)
