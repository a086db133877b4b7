"""Page data to HTML to PDF. HTML is made here with everything escaped; the PDF in a child process with limits.

WeasyPrint is imported in the child alone: it needs libraries that a server without reports does without, a crash
in it (no font at all ends in a segmentation fault) must not take the server along, and nothing in a page may reach
the network or a file: the child knows the photos and fonts that it is handed, and nothing else.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from server.reports.drawing import lone_mark
from server.reports.words import say, say_n

_HERE = Path(__file__).parent
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufffe\uffff]")
SECONDS = 60
# What a face is called in paper.css, and how its file is called by whoever made it.
FACES = {
    "text": "*atkinson-hyperlegible-next-latin-wght-normal*.woff2",
    "mono": "*atkinson-hyperlegible-mono-latin-wght-normal*.woff2",
}


class PaperFailed(Exception):
    """The PDF could not be made; the text says what to do. Nothing is lost: it is made from the journal again."""

    key = "packet.paper_failed"


class PaperTooSlow(PaperFailed):
    """The child took longer than its limit."""

    key = "packet.paper_slow"


@lru_cache(maxsize=1)
def _templates() -> Environment:
    return Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def html_of(template: str, page: Mapping[str, Any]) -> str:
    """The page as HTML. Every text is escaped; drawings come from drawing.py, which escapes by itself."""
    lang = page["lang"]

    def words(key: str, **values: Any) -> str:
        return say(key, lang, **values)

    def count(key: str, n: int, **values: Any) -> str:
        return say_n(key, n, lang, **values)

    html = _templates().get_template(template).render(page=page, say=words, say_n=count, mark=lone_mark)
    # No reader shows a control character, and one is enough for a PDF's text not to be found again.
    return _CONTROL.sub(" ", html)


def fonts_in(static: Path) -> dict[str, str]:
    """The faces found below the built client; without them paper falls back to DejaVu Sans."""
    found = {}
    for face, pattern in FACES.items():
        files = sorted(static.rglob(pattern)) if static.is_dir() else []
        if files:
            found[face] = str(files[0])
    return found


def pdf_of(html: str, photos: Mapping[str, bytes], static: Path) -> bytes:
    """PDF bytes. `photos`: rendition by SHA-256, which the page names as photo:<sha256>. PaperFailed, PaperTooSlow."""
    with tempfile.TemporaryDirectory(prefix="rakelight-paper-") as folder:
        for sha256, data in photos.items():
            (Path(folder) / f"{sha256}.jpg").write_bytes(data)
        css = (_HERE / "templates" / "paper.css").read_text("utf-8")
        job = {"html": html, "css": css, "photos": folder, "fonts": fonts_in(static)}
        return _in_child(json.dumps(job).encode())


def _in_child(job: bytes) -> bytes:
    command = [sys.executable, "-I", str(_HERE / "child.py")]
    # The child gets what finds its libraries and fonts, and none of the server's secrets.
    kept = ("PATH", "LD_LIBRARY_PATH", "FONTCONFIG_FILE", "FONTCONFIG_PATH", "XDG_CACHE_HOME", "HOME", "LANG", "TMPDIR")
    environment = {name: os.environ[name] for name in kept if name in os.environ}
    try:
        done = subprocess.run(command, input=job, capture_output=True, timeout=SECONDS, env=environment, check=False)
    except subprocess.TimeoutExpired as late:
        raise PaperTooSlow(f"the PDF was not ready after {SECONDS} seconds") from late
    if done.returncode != 0 or not done.stdout.startswith(b"%PDF-"):
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()[-1:] or ["it ended without a word"]
        hint = " (a crash like this means that no font is installed)" if done.returncode == -11 else ""
        raise PaperFailed(f"the PDF could not be made: {said[0]}{hint}")
    return done.stdout
