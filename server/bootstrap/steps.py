"""The steps in order, one at a time even when both commands are started at once."""

import fcntl
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from server.bootstrap.browser import browser
from server.bootstrap.libraries import libraries
from server.bootstrap.packages import packages
from server.bootstrap.places import PYTHON, ROOT, environment, in_venv
from server.bootstrap.run import Stop, leave, say
from server.bootstrap.web import web_build, web_packages


def set_up(*, with_browser: bool) -> int:
    """Brings this copy up to date; 0, or 1 after having said what the person can do."""
    try:
        with _alone():
            libraries()
            packages()
            web_packages()
            web_build()
            if with_browser:
                browser()
    except Stop as reason:
        return leave(reason)
    return 0


def inside(script: Path, argv: Sequence[str]) -> None:
    """Goes on inside .venv by starting `script` again there; returns at once if we are inside already."""
    if in_venv():
        return
    os.execve(PYTHON, [str(PYTHON), str(script), *argv], environment())


@contextmanager
def _alone() -> Iterator[None]:
    """Holds the repository for one set-up at a time."""
    folder = os.open(ROOT / "server" / "bootstrap", os.O_RDONLY)
    try:
        try:
            fcntl.flock(folder, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Another command is setting up this copy; waiting for it …")
            fcntl.flock(folder, fcntl.LOCK_EX)
        yield
    finally:
        os.close(folder)
