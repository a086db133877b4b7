"""The `rakelight` command: help for each, a yard opened, audited, exported; one process at a time; HTTPS."""

from __future__ import annotations

import json
import signal
import socket
import sqlite3
import ssl
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result
from flask import Flask
from sqlalchemy import create_engine, text

from server.cli import alone, common, main
from tests.certificate import certificate
from tests.phone import NAMES, Phone

COMMANDS = ("audit", "dewpoint", "drying", "export", "forecast", "open", "readings", "restored", "seed", "serve")


def run(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_every_command_has_help() -> None:
    assert set(main.commands) == set(COMMANDS)
    for name, command in main.commands.items():
        result = run(name, "--help")
        assert result.exit_code == 0
        assert len(command.get_short_help_str(200)) > 20, name
        assert all(option.help for option in command.params if isinstance(option, click.Option)), name


def test_a_yard_is_opened_once_with_a_passcode_shown_once(tmp_path: Path) -> None:
    result = run("open", "--data", tmp_path, "--name", "Long Meadow", "--admin", "Adela Quist",
                 "--bay", "Bay 1", "--crew", "patch=Patch crew", "--json")  # fmt: skip
    assert result.exit_code == 0, result.output
    made = json.loads(result.output)
    assert made.keys() == {"yard", "person", "admin", "passcode"}
    assert len(made["passcode"]) >= 16
    assert run("open", "--data", tmp_path, "--name", "Another", "--admin", "Somebody").exit_code == 1


def test_a_full_disk_at_the_start_is_said_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """SQLite itself says that it is full; only the disk is not, since no test may fill it."""

    def full(*_words: object, **_named: object) -> None:
        with create_engine("sqlite://").begin() as connection:
            connection.execute(text("PRAGMA max_page_count = 1"))
            connection.execute(text("CREATE TABLE part (body BLOB)"))

    assert run("open", "--data", tmp_path, "--name", "Long Meadow", "--admin", "Adela Quist").exit_code == 0
    monkeypatch.setattr(common, "create_app", full)
    result = run("audit", "--data", tmp_path)
    assert (result.exit_code, result.exception and type(result.exception)) == (1, SystemExit)
    assert "The disk is full. The folder is as it was: make room there, then start again" in result.output


def test_a_weak_first_passcode_opens_nothing(tmp_path: Path) -> None:
    words = ("open", "--data", tmp_path, "--name", "Long Meadow", "--admin", "Adela Quist", "--passcode")
    assert run(*words, "password").exit_code == 1
    assert run(*words, "plane of light 7").exit_code == 0


def test_audit_and_export_of_a_whole_yard(app: Flask, phones: dict[str, Phone], module: str, tmp_path: Path) -> None:
    data, out = app.extensions["settings"].data, tmp_path / "out"
    bad = phones["inspector"].write("item.logged", phones["inspector"].clock.new_id(), {"surface": "roof"}, module)
    phones["inspector"].sync()
    audited = json.loads(run("audit", "--data", data, "--json").output)
    assert audited["ok"] is True
    assert "All is as it should be." in run("audit", "--data", data).output
    told = json.loads(run("export", "--data", data, "--json", out).output)
    lines = (out / "journal.jsonl").read_text("utf-8").splitlines()
    assert told["entries"] == len(lines) == audited["journal"]["entries"]
    assert json.loads((out / "set_aside.jsonl").read_text("utf-8")) == bad
    assert [json.loads(line)["seq"] for line in lines] == list(range(1, len(lines) + 1))


def test_audit_finds_an_entry_that_was_changed(app: Flask, module: str) -> None:
    data = app.extensions["settings"].data
    change = "UPDATE entry SET canon = CAST(replace(CAST(canon AS TEXT), 'LM-0417-A', 'LM-0418-A') AS BLOB)"
    with closing(sqlite3.connect(data / "rakelight.sqlite")) as raw, raw:
        raw.execute(change)
    result = run("audit", "--data", data, "--json")
    assert (result.exit_code, json.loads(result.output)["ok"]) == (1, False)


def test_nothing_is_made_where_there_is_no_yard(tmp_path: Path) -> None:
    for words in (("audit",), ("export", tmp_path / "out"), ("restored", "--manager", "Maren", "--yes")):
        assert run(words[0], "--data", tmp_path / "none", *words[1:]).exit_code == 1


def test_only_a_manager_confirms_an_old_backup(app: Flask, phones: dict[str, Phone]) -> None:
    data = app.extensions["settings"].data
    assert run("restored", "--data", data, "--manager", NAMES["inspector"], "--yes").exit_code == 1
    assert run("restored", "--data", data, "--manager", NAMES["manager"]).exit_code == 1
    result = run("restored", "--data", data, "--manager", NAMES["manager"], "--yes", "--json")
    assert result.exit_code == 0, result.output
    assert phones["inspector"].sync()["epoch"] == json.loads(result.output)["epoch"]


def test_a_second_process_on_the_same_data_is_refused(app: Flask) -> None:
    data = app.extensions["settings"].data
    with alone(data):
        result = run("serve", "--data", data)
        assert result.exit_code == 1
        assert "One at a time" in result.output


@pytest.mark.parametrize("left", ["UPDATE yard SET form = 0", "UPDATE alembic_version SET version_num = '0005'"])
def test_a_command_that_reads_brings_nothing_up_under_a_server_that_runs(
    app: Flask, module: str, tmp_path: Path, left: str
) -> None:
    """That server is of the other version: with its folder brought up it would write no more, or write amiss."""
    data, out = app.extensions["settings"].data, tmp_path / "out"
    with alone(data):
        assert run("audit", "--data", data).exit_code == 0
    with closing(sqlite3.connect(data / "rakelight.sqlite")) as raw, raw:
        if "alembic" in left:
            raw.execute("ALTER TABLE yard DROP COLUMN form")
        raw.execute(left)
        before = list(raw.iterdump())
    with alone(data):
        for words in (("audit",), ("export", out)):
            result = run(words[0], "--data", data, *words[1:])
            assert (result.exit_code, "stop it first" in result.output) == (1, True), result.output
        with closing(sqlite3.connect(data / "rakelight.sqlite")) as raw:
            assert list(raw.iterdump()) == before
    assert run("audit", "--data", data).exit_code == 0


def test_a_certificate_without_its_key_is_refused(tmp_path: Path) -> None:
    (tmp_path / "cert.pem").write_text("")
    assert run("serve", "--data", tmp_path, "--cert", tmp_path / "cert.pem").exit_code == 2


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture
def served(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[tuple[str, ssl.SSLContext | None]]:
    """`rakelight serve` in a process of its own; its address and, for HTTPS, the context that trusts it."""
    port, words, context = free_port(), [], None
    if request.param == "https":
        cert, key = certificate(tmp_path)
        words, context = ["--cert", str(cert), "--key", str(key)], ssl.create_default_context(cafile=str(cert))
    command = [sys.executable, "-c", "from server.cli import main; main()", "serve",
               "--data", str(tmp_path / "data"), "--port", str(port), *words]  # fmt: skip
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        assert request.param in process.stdout.readline()
        yield f"{request.param}://127.0.0.1:{port}", context
        process.send_signal(signal.SIGTERM)
        assert process.wait(10) == 0
    finally:
        process.kill()
        process.wait()
        if process.stdout:
            process.stdout.close()


@pytest.mark.parametrize("served", ["http", "https"], indirect=True)
def test_serve_answers_and_stops_when_told(served: tuple[str, ssl.SSLContext | None]) -> None:
    address, context = served
    for _ in range(50):
        try:
            with urllib.request.urlopen(f"{address}/api/health", context=context, timeout=5) as answer:
                told, headers = json.load(answer), answer.headers
            break
        except (ConnectionError, urllib.error.URLError):
            time.sleep(0.1)
    assert told["rakelight"] == 1
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert ("Strict-Transport-Security" in headers) == address.startswith("https")


@pytest.mark.parametrize("words", [("--zone", "Mars/Crater"), ("--crew", "Patch crew"), ("--crew", "PATCH=Patch")])
def test_a_zone_or_a_crew_that_no_phone_could_read_opens_nothing(tmp_path: Path, words: tuple[str, str]) -> None:
    result = run("open", "--data", tmp_path / "new", "--name", "Long Meadow", "--admin", "Adela Quist", *words)
    assert result.exit_code == 2
    assert not (tmp_path / "new").exists()
