"""Headers on every answer: pages, files, data, problems."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from server.app import create_app
from server.clock import StoryClock
from server.settings import Settings
from tests.conftest import close_app
from tests.phone import Phone


@pytest.fixture
def site(tmp_path: Path, clock: StoryClock) -> Iterator[FlaskClient]:
    """A server with a small web client of its own, over HTTPS."""
    static = tmp_path / "static"
    (static / "assets").mkdir(parents=True)
    (static / "index.html").write_text("<!doctype html><title>the page</title>")
    (static / "sw.js").write_text("self.addEventListener('fetch', () => undefined)")
    (static / "assets" / "main-0a1b2c.js").write_text("console.log('" + "raking light " * 200 + "')")
    (static / "assets" / "plex-0a1b2c.woff2").write_bytes(b"wOF2")
    (static / ".hidden").write_text("not for anybody")
    (tmp_path / "secret.txt").write_text("not for anybody")
    app = create_app(Settings(data=tmp_path / "data", static=static, secure_cookies=True, testing=True), clock)
    yield app.test_client()
    close_app(app)


def directives(policy: str) -> dict[str, list[str]]:
    return {name: sources for name, *sources in (part.split() for part in policy.split(";"))}


PATHS = ["/", "/modules/7", "/sw.js", "/assets/main-0a1b2c.js", "/assets/none.js", "/api/health", "/api/none",
         "/api/people/me", "/api/rules", "/api/openapi.json", "/../secret.txt", "/.hidden"]  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("method", ["GET", "HEAD", "POST", "DELETE", "TRACE"])
def test_every_answer_is_guarded(site: FlaskClient, path: str, method: str) -> None:
    response = site.open(path, method=method)
    policy = directives(response.headers["Content-Security-Policy"])
    assert policy["default-src"] == ["'none'"]
    assert policy["script-src"] == policy["style-src"] == policy["connect-src"] == ["'self'"]
    assert policy["frame-ancestors"] == policy["base-uri"] == policy["object-src"] == ["'none'"]
    assert "unsafe" not in response.headers["Content-Security-Policy"]
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert response.headers["Referrer-Policy"] == "no-referrer"
    assert response.headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert response.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert int(response.headers["Strict-Transport-Security"].removeprefix("max-age=")) >= 31_536_000
    assert "Access-Control-Allow-Origin" not in response.headers
    if path.startswith("/api/") or response.status_code >= 400:
        assert response.headers["Cache-Control"] == "no-store"


def test_the_worker_and_the_page_are_asked_for_anew_and_hashed_files_never(site: FlaskClient) -> None:
    for path in ("/", "/modules/7", "/sw.js"):
        assert site.get(path).headers["Cache-Control"] == "no-cache"
    for path in ("/assets/main-0a1b2c.js", "/assets/plex-0a1b2c.woff2"):
        assert site.get(path).headers["Cache-Control"] == "public, max-age=31536000, immutable"


def test_an_address_of_the_client_gives_its_page_and_a_missing_file_does_not(site: FlaskClient) -> None:
    assert "the page" in site.get("/modules/01a2/items").text
    assert site.get("/assets/gone-0a1b2c.js").status_code == 404
    assert site.get("/api/modules-of-mine").mimetype == "application/problem+json"


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/assets/../../secret.txt",
        "/..%2fsecret.txt",
        "/.hidden",
        "//etc/passwd",
    ],
)
def test_nothing_outside_the_client_is_served(site: FlaskClient, path: str) -> None:
    assert "not for anybody" not in site.get(path).text
    assert "root:" not in site.get(path).text


@pytest.mark.parametrize("coding", ["br", "gzip"])
def test_scripts_travel_packed_and_an_unchanged_file_not_at_all(site: FlaskClient, coding: str) -> None:
    first = site.get("/assets/main-0a1b2c.js", headers={"Accept-Encoding": coding})
    assert first.headers["Content-Encoding"] == coding
    assert len(first.data) < 200
    headers = {"Accept-Encoding": coding, "If-None-Match": first.headers["ETag"]}
    again = site.get("/assets/main-0a1b2c.js", headers=headers)
    assert (again.status_code, again.data) == (304, b"")
    assert "Content-Security-Policy" in again.headers


def test_a_problem_in_the_middle_of_a_session_is_guarded_too(app: Flask, phones: dict[str, Phone]) -> None:
    response = phones["inspector"].post("/api/release", {})
    assert response.status_code == 403
    assert response.headers["Cache-Control"] == "no-store"
    assert "default-src 'none'" in response.headers["Content-Security-Policy"]
