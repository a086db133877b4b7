"""The real browser for tests (mark them `@pytest.mark.browser`): where it is, and how it is started."""

import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Playwright

from server.bootstrap.browser import installed
from server.bootstrap.places import BROWSER, environment

# Playwright's own Node wants a library that a bare machine lacks; this also holds when pytest is run by hand.
os.environ.setdefault("PLAYWRIGHT_NODEJS_PATH", environment()["PLAYWRIGHT_NODEJS_PATH"])

# As root there is no sandbox; the rest keeps the browser from talking to anybody but the server under test.
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]


def chromium_path() -> Path:
    """The Chromium that `python3 tests` unpacked, else one that this machine has."""
    packed = BROWSER / "chromium"
    found = packed if packed.is_file() else installed()
    if found is None:
        raise FileNotFoundError("There is no Chromium here: `python3 tests` sets one up.")
    return found


def launch(playwright: Playwright, *flags: str, **options: Any) -> Browser:
    """Starts the browser, with further flags and Playwright's options."""
    return playwright.chromium.launch(**_options(flags, options))


def launch_kept(playwright: Playwright, folder: Path, *flags: str, **options: Any) -> BrowserContext:
    """Starts it on a profile folder that outlives it: for tests that end the browser and look what was kept."""
    return playwright.chromium.launch_persistent_context(folder, **_options(flags, options))


def _options(flags: tuple[str, ...], options: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "executable_path": str(chromium_path()),
        "args": [*FLAGS, *flags],
        "env": _environment(),
        **options,
    }


def _environment() -> dict[str, str | float | bool]:
    ours: dict[str, str | float | bool] = dict(os.environ)
    if (BROWSER / "chromium").is_file():
        # The libraries that the packed browser brought along.
        before = os.environ.get("LD_LIBRARY_PATH", "")
        ours["LD_LIBRARY_PATH"] = os.pathsep.join(filter(None, [str(BROWSER / "lib"), str(BROWSER), before]))
    return ours
