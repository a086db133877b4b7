"""`rakelight serve`: one process, several threads."""

from __future__ import annotations

import logging
import signal
import sys
from pathlib import Path
from types import FrameType

import click
from flask import Flask

from server.cli.common import alone, app_on, data_option
from server.cli.door import plain_server, settings, tls_server


@click.command()
@data_option
@click.option("--host", default="127.0.0.1", show_default=True, help="The address to listen on.")
@click.option("--port", default=8080, show_default=True, type=click.IntRange(1, 65535), help="The port.")
@click.option("--cert", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Certificate chain (PEM).")
@click.option("--key", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Its private key (PEM).")
def serve(data: Path, host: str, port: int, cert: Path | None, key: Path | None) -> None:
    """Serves the yard in DATA. Phones need HTTPS (--cert and --key) to work offline; plain HTTP is for this machine."""
    if (cert is None) != (key is None):
        raise click.UsageError("--cert and --key go together.")
    if cert is None and host not in ("127.0.0.1", "::1", "localhost"):
        click.echo(
            "Without --cert and --key, passcodes cross the network readable and phones cannot work offline.", err=True
        )
    signal.signal(signal.SIGTERM, _stop)
    logging.basicConfig(level=logging.WARNING, format="%(message)s", stream=sys.stderr)
    logging.getLogger("rakelight").setLevel(logging.INFO)
    with alone(data):
        app = app_on(settings(data, secure_cookies=cert is not None))
        click.echo(f"Rakelight on {'https' if cert else 'http'}://{host}:{port}")
        sys.stdout.flush()
        if cert and key:
            _with_tls(app, host, port, cert, key)
        else:
            plain_server(app, host, port).run()


def _with_tls(app: Flask, host: str, port: int, cert: Path, key: Path) -> None:
    server = tls_server(app, host, port, cert, key)
    try:
        server.start()
    finally:
        server.stop()


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise SystemExit(0)
