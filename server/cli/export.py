"""`rakelight export`: everything that was ever said, in a form that needs no program of ours to read."""

from __future__ import annotations

import json
from pathlib import Path

import click

from server import journal, photos
from server.cli.common import data_option, json_option, opened
from server.db import reading


@click.command()
@data_option
@json_option
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def export(data: Path, folder: Path, as_json: bool) -> None:
    """Writes the journal as JSON lines (journal.jsonl) and every photo as it was sent (photos/) into FOLDER."""
    folder.mkdir(parents=True, exist_ok=True)
    with opened(data):
        with reading() as conn:
            entries = journal.entries(conn)
        with open(folder / "journal.jsonl", "w", encoding="utf-8") as lines:
            for entry in entries:
                lines.write(json.dumps(entry, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n")
        pictures = written(folder / "photos", photos.audit()["whole"])
    counts = {"entries": len(entries), "photos": pictures}
    click.echo(json.dumps(counts) if as_json else f"{len(entries)} entries and {pictures} photos in {folder}")


def written(folder: Path, names: list[str]) -> int:
    """Copies the photos, one file each, under their SHA-256."""
    folder.mkdir(exist_ok=True)
    for name in names:
        (folder / name).write_bytes(photos.original(name))
    return len(names)
