"""The servers that strangers reach: waitress for plain HTTP, cheroot for HTTPS, and what both refuse.

Waitress reads every request before a thread takes it up. Cheroot gives a thread to each connection, at once and for as
long as it likes, and shakes hands where it accepts: so here a connection waits without a thread until its first bytes
come, the handshake is done by that thread, and a request that is not all there after a while is dropped.
"""

from __future__ import annotations

import socket
import ssl
from pathlib import Path
from typing import Any

import waitress
from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server
from flask import Flask

from server.clock import steady
from server.photos import MOST_BYTES
from server.settings import Settings

# A photo is the largest that any route takes.
LARGEST, HEADERS = MOST_BYTES + 1_000_000, 32 * 1024
# Seconds: without a byte, and for a whole request to come in over a bad network.
SILENT, WHOLE = 10, 120
THREADS, TLS_THREADS, CONNECTIONS = 8, 32, 500


def settings(data: Path, *, secure_cookies: bool = False) -> Settings:
    """A served yard's settings, with how often one person may call what costs much."""
    return Settings(data=data, secure_cookies=secure_cookies, pushes_a_minute=120, papers_an_hour=30, files_an_hour=120)


def plain_server(app: Flask, host: str, port: int) -> Any:
    """HTTP; `run()` serves until the process ends. OSError when the port is taken."""
    return waitress.create_server(
        app,
        host=host,
        port=port,
        threads=THREADS,
        ident=None,
        max_request_body_size=LARGEST,
        max_request_header_size=HEADERS,
        channel_timeout=WHOLE,
        connection_limit=CONNECTIONS,
        asyncore_use_poll=True,
    )


def tls_server(app: Flask, host: str, port: int, cert: Path, key: Path) -> Server:
    """HTTPS; `start()` serves until `stop()`."""
    server = Patient((host, port), app, numthreads=TLS_THREADS, server_name="rakelight", timeout=SILENT)
    server.max_request_body_size = LARGEST
    server.max_request_header_size = HEADERS
    server.ssl_adapter = Lazy(str(cert), str(key))
    return server


class Patient(Server):
    """A new connection waits among the idle ones, which cost no thread and are closed after SILENT seconds."""

    def process_conn(self, conn: Any) -> None:
        if not hasattr(conn, "heard"):
            conn.heard = False
            self.put_conn(conn)
            return
        conn.socket.until = steady() + WHOLE
        super().process_conn(conn)


class Bounded(ssl.SSLSocket):
    """A socket that stops reading a request at `until`, however regularly a byte comes."""

    until = float("inf")

    def recv_into(self, *words: Any, **named: Any) -> int:
        left = self.until - steady()
        if left <= 0:
            raise TimeoutError("timed out")
        self.settimeout(min(SILENT, left))
        return super().recv_into(*words, **named)


class Lazy(BuiltinSSLAdapter):
    """Shakes hands with the first read, in the thread that has the request."""

    def __init__(self, certificate: str, key: str) -> None:
        super().__init__(certificate, key)
        self.context.sslsocket_class = Bounded

    def wrap(self, sock: socket.socket) -> tuple[socket.socket, dict[str, str]]:
        wrapped = self.context.wrap_socket(sock, do_handshake_on_connect=False, server_side=True)
        return wrapped, {"wsgi.url_scheme": "https", "HTTPS": "on"}
