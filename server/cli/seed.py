"""`rakelight seed`: the invented yard."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click

ROOT = Path(__file__).parent.parent.parent


@click.command(context_settings={"ignore_unknown_options": True}, add_help_option=True)
@click.argument("words", nargs=-1, type=click.UNPROCESSED)
def seed(words: tuple[str, ...]) -> None:
    """Tells the invented yard and serves it: the same as `python3 seed_demo`, with its options (--port, --data)."""
    start = ROOT / "seed_demo"
    if not start.is_dir():
        raise click.ClickException("The invented yard comes with the source, not with the installed package.")
    # In place of this process, so that stopping it stops the server too.
    os.execv(sys.executable, [sys.executable, str(start), *words])
