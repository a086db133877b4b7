"""The servers that strangers reach: clients that say nothing, or a byte at a time, keep nobody else waiting."""

from __future__ import annotations

import socket
import ssl
import threading
import time
import urllib.request
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from flask import Flask, request

from server.cli import door
from tests import loopback
from tests.certificate import certificate

SECONDS = 8.0


def echo() -> Flask:
    app = Flask("echo")

    @app.route("/", methods=["GET", "POST"])
    def said() -> str:
        return f"{request.scheme} {len(request.get_data())}"

    return app


@pytest.fixture
def https(tmp_path: Path) -> Iterator[tuple[int, ssl.SSLContext]]:
    cert, key = certificate(tmp_path)
    server = door.tls_server(echo(), "127.0.0.1", 0, cert, key)
    server.prepare()
    thread = threading.Thread(target=server.serve, daemon=True)
    thread.start()
    yield server.bind_addr[1], ssl.create_default_context(cafile=str(cert))
    server.stop()
    thread.join(15)


@pytest.fixture
def http() -> Iterator[int]:
    with loopback.running(door.plain_server(echo(), "127.0.0.1", 0)) as port:
        yield port


def asked(port: int, context: ssl.SSLContext | None = None, data: bytes | None = None) -> tuple[str, float]:
    """The answer and the seconds that it took."""
    begun = time.monotonic()
    address = f"{'https' if context else 'http'}://127.0.0.1:{port}/"
    with urllib.request.urlopen(address, data, context=context, timeout=30) as answer:
        return answer.read().decode(), time.monotonic() - begun


def connected(stack: ExitStack, port: int) -> socket.socket:
    return stack.enter_context(socket.create_connection(("127.0.0.1", port), timeout=20))


def test_https_still_answers(https: tuple[int, ssl.SSLContext]) -> None:
    port, context = https
    assert asked(port, context)[0] == "https 0"
    assert asked(port, context, b"x" * 900_000)[0] == "https 900000"


def test_clients_that_say_nothing_keep_nobody_waiting(https: tuple[int, ssl.SSLContext]) -> None:
    """Far more than there are threads, and none has even begun the handshake."""
    port, context = https
    with ExitStack() as stack:
        for _ in range(3 * door.TLS_THREADS):
            connected(stack, port)
        assert asked(port, context)[1] < SECONDS


def test_clients_that_stop_in_the_handshake_keep_nobody_waiting(https: tuple[int, ssl.SSLContext]) -> None:
    port, context = https
    with ExitStack() as stack:
        for _ in range(door.TLS_THREADS - 4):
            connected(stack, port).sendall(b"\x16\x03\x01\x02\x00\x01")
        assert asked(port, context)[1] < SECONDS


def test_a_byte_now_and_then_does_not_hold_a_thread_for_ever(
    https: tuple[int, ssl.SSLContext], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(door, "WHOLE", 1.5)
    port, context = https
    with ExitStack() as stack:
        plain = connected(stack, port)
        slow = stack.enter_context(context.wrap_socket(plain, server_hostname="127.0.0.1"))
        slow.sendall(b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 500\r\n\r\n")
        begun = time.monotonic()
        assert any(let_go(slow) for _ in range(75)), "the server is still waiting"
        assert time.monotonic() - begun < 12


def let_go(sock: ssl.SSLSocket) -> bool:
    """Sends one byte more; whether the server answers or hangs up within a fifth of a second."""
    sock.settimeout(0.2)
    try:
        sock.sendall(b"x")
        sock.recv(100)
    except TimeoutError:
        return False
    except OSError:
        return True
    return True


def test_who_speaks_plain_http_to_the_https_port_gets_nothing(https: tuple[int, ssl.SSLContext]) -> None:
    port, context = https
    with ExitStack() as stack:
        plain = connected(stack, port)
        plain.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
        assert b"200" not in plain.recv(1000)
    assert asked(port, context)[0] == "https 0"


def status(sock: socket.socket) -> int:
    return int(sock.recv(200).split(b" ")[1])


@pytest.mark.parametrize("kind", ["http", "https"])
def test_what_is_too_large_is_refused_before_it_is_read(kind: str, request: pytest.FixtureRequest) -> None:
    found = request.getfixturevalue(kind)
    port, context = found if kind == "https" else (found, None)
    with ExitStack() as stack:
        for head, expected in (
            (f"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: {door.LARGEST + 1}\r\n\r\n", {413}),
            ("GET / HTTP/1.1\r\nHost: x\r\nX: " + "x" * door.HEADERS + "\r\n\r\n", {413, 431}),
        ):
            sock = connected(stack, port)
            if context:
                sock = stack.enter_context(context.wrap_socket(sock, server_hostname="127.0.0.1"))
            sock.sendall(head.encode())
            assert status(sock) in expected
    assert asked(port, context)[0] == f"{kind} 0"
