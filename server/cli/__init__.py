"""The `rakelight` command. Every command has --help; those that compute something have --json."""

import click

from server.cli.audit import audit
from server.cli.common import alone
from server.cli.door import plain_server, settings
from server.cli.drying import dewpoint, drying
from server.cli.export import export
from server.cli.readings import forecast, readings
from server.cli.seed import seed
from server.cli.serve import serve
from server.cli.yard import open_yard, restored

__all__ = ["alone", "main", "plain_server", "settings"]


@click.group()
def main() -> None:
    """The punch list and release of modules in a home plant's finish bays."""


for command in (audit, dewpoint, drying, export, forecast, open_yard, readings, restored, seed, serve):
    main.add_command(command)
