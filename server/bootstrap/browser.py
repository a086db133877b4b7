"""The browser that tests drive: one that comes as a package and needs no root, else one that is installed."""

import platform
import shutil
from pathlib import Path

from server.bootstrap import stamps
from server.bootstrap.debian import install
from server.bootstrap.places import BROWSER, PYTHON, ROOT, WEBCLIENT
from server.bootstrap.run import run, telling

PACKED = WEBCLIENT / "node_modules" / "@sparticuz" / "chromium"
INSTALLED = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")


def browser() -> None:
    """Sees to it that there is a Chromium for tests."""
    if platform.machine() == "x86_64" and (PACKED / "bin").is_dir():
        _unpack()
    elif installed() is None:
        install(["chromium"], "Testing in a real browser")


def installed() -> Path | None:
    """The browser of this machine, if it has one."""
    found = next(filter(None, map(shutil.which, INSTALLED)), None)
    return Path(found) if found else None


def _unpack() -> None:
    mark = stamps.fingerprint([PACKED / "package.json"])
    if (BROWSER / "chromium").is_file() and stamps.is_current("browser", mark):
        return
    with telling("Unpacking the browser for tests"):
        run([str(PYTHON), "-m", "server.bootstrap.unpack", str(PACKED / "bin"), str(BROWSER)], cwd=ROOT)
    stamps.keep("browser", mark)
