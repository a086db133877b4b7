"""The built web client: its files, and its one page for every address that the client draws by itself."""

from __future__ import annotations

import functools
import gzip
import mimetypes
from pathlib import Path

import brotli
from flask import Blueprint, Flask, Response, current_app, request
from werkzeug.routing import BaseConverter
from werkzeug.security import safe_join

from server.api.problems import NotFound

blueprint = Blueprint("pages", __name__)
BUILT = Path(__file__).parent.parent / "static"
TEXT = (".js", ".css", ".html", ".svg", ".json", ".webmanifest", ".txt")
TYPES = {".js": "text/javascript", ".webmanifest": "application/manifest+json", ".woff2": "font/woff2"}


class PagePath(BaseConverter):
    """Any path outside /api: an unknown address there is a problem, never a page."""

    regex = "(?!api(?:/|$)).+"
    part_isolating = False


@blueprint.get("/", defaults={"path": "index.html"})
@blueprint.get("/<page:path>")
def page(path: str) -> Response:
    """A file of the web client, or its page."""
    root = current_app.extensions["settings"].static or BUILT
    found = safe_join(str(root), path)
    file = Path(found) if found else root / "index.html"
    if not file.is_file() or file.name.startswith("."):
        if file.suffix:
            raise NotFound("There is no such file.")
        file = root / "index.html"
    if not file.is_file():
        raise NotFound("The web client has not been built yet.")
    return as_response(file, immutable=path.startswith("assets/"))


def as_response(file: Path, *, immutable: bool) -> Response:
    """Hashed names never change their content; everything else, the service worker above all, is asked for anew."""
    facts = file.stat()
    coding = chosen(file)
    response = Response(packed(file, facts.st_mtime_ns, coding), content_type=content_type(file))
    if coding:
        response.headers["Content-Encoding"] = coding
    if file.suffix in TEXT:
        response.vary.add("Accept-Encoding")
    response.headers["Cache-Control"] = "public, max-age=31536000, immutable" if immutable else "no-cache"
    response.set_etag(f"{facts.st_mtime_ns:x}-{facts.st_size:x}-{coding or 'plain'}")
    response.make_conditional(request)
    return response


def chosen(file: Path) -> str:
    """The coding for this file and this browser; nothing for what is compressed already."""
    if file.suffix not in TEXT:
        return ""
    return next((coding for coding in ("br", "gzip") if request.accept_encodings.quality(coding) > 0), "")


@functools.lru_cache(maxsize=256)
def packed(file: Path, _changed: int, coding: str) -> bytes:
    """The bytes in that coding, made once for each state of the file."""
    data = file.read_bytes()
    if coding == "br":
        return bytes(brotli.compress(data, quality=9))
    return gzip.compress(data, compresslevel=9, mtime=0) if coding else data


def content_type(file: Path) -> str:
    guess = TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0] or "application/octet-stream"
    return f"{guess}; charset=utf-8" if guess.startswith("text/") else guess


def register(app: Flask) -> None:
    app.url_map.converters["page"] = PagePath
    app.register_blueprint(blueprint)
