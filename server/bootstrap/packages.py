"""Python packages: a virtual environment in .venv, filled from the lock, every file checked by its hash."""

import importlib
import importlib.util
import shutil
import subprocess
import sys

from server.bootstrap import stamps
from server.bootstrap.places import LOCK, PYTHON, ROOT, VENV
from server.bootstrap.run import Stop, run, telling

PIP = [str(PYTHON), "-m", "pip", "--disable-pip-version-check"]


def packages() -> None:
    """Sees to it that .venv holds exactly what the lock says, and the `rakelight` command."""
    mark = stamps.fingerprint([LOCK, ROOT / "pyproject.toml"])
    works = _works()
    if works and stamps.is_current("packages", mark):
        return
    if not works:
        _make()
    with telling("Installing Python packages (about half a minute)"):
        run([*PIP, "install", "--require-hashes", "--only-binary", ":all:", "-r", str(LOCK)])
        run([*PIP, "install", "--no-deps", "--no-build-isolation", "-e", str(ROOT)])
    stamps.keep("packages", mark)


def _works() -> bool:
    """False also after the system's Python moved to another version: the packages lie under the old one's name."""
    if not PYTHON.exists():
        return False
    return subprocess.run([PYTHON, "-c", "import pip"], capture_output=True).returncode == 0


def for_venv() -> list[str]:
    """The Debian package without which no virtual environment can be made here; none when there is nothing to make."""
    importlib.invalidate_caches()
    modules = ("venv", "ensurepip")
    if all(importlib.util.find_spec(name) for name in modules) or _works():
        return []
    return [f"python{sys.version_info.major}.{sys.version_info.minor}-venv"]


def _make() -> None:
    if sys.prefix != sys.base_prefix:
        raise Stop("Please run this outside the virtual environment that is active now (type: deactivate).")
    if VENV.exists():
        shutil.rmtree(VENV)
    with telling("Making a virtual environment in .venv"):
        run([sys.executable, "-m", "venv", str(VENV)])
