"""What the operating system must bring: the means for a virtual environment, and libraries and a font for PDFs.

Without any font the process that makes a PDF would die, not fail.
"""

import ctypes
import os
from pathlib import Path

from server.bootstrap.debian import install
from server.bootstrap.packages import for_venv
from server.bootstrap.run import Stop

NEEDED = (
    "libgobject-2.0.so.0",
    "libpango-1.0.so.0",
    "libpangoft2-1.0.so.0",
    "libfontconfig.so.1",
    "libharfbuzz.so.0",
)
PACKAGES = ["libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0", "fonts-dejavu-core"]
FONT_FOLDERS = ["/usr/share/fonts", "/usr/local/share/fonts", "~/.fonts", "~/.local/share/fonts"]


def libraries() -> None:
    """Sees to it that all of it is there; asked for at once, so that a person without root has one line to run."""
    wanted = [*for_venv(), *(PACKAGES if missing() else [])]
    if not wanted:
        return
    install(wanted, "Rakelight")
    still = [*for_venv(), *missing()]
    if still:
        raise Stop(f"Rakelight still lacks: {', '.join(still)}")


def missing() -> list[str]:
    """What is not here: names of libraries, and "a font"."""
    lacking = [name for name in NEEDED if not _loads(name)]
    return lacking if _has_font() else [*lacking, "a font"]


def _loads(name: str) -> bool:
    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True


def _has_font() -> bool:
    for folder in FONT_FOLDERS:
        for _, _, names in os.walk(Path(folder).expanduser()):
            if any(name.endswith((".ttf", ".otf", ".ttc")) for name in names):
                return True
    return False
