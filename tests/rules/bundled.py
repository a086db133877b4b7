"""What the phone's own rules answer, bundled as for a browser and run without one."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

from server.bootstrap.places import WEBCLIENT, environment, node


def on_the_phone(script: Path, given: Any, folder: Path) -> Any:
    """Bundles a script, hands it `given` as JSON and reads its answer: node bundle.mjs <in.json> <out.json>."""
    (folder / "given.json").write_text(json.dumps(given))
    _node([str(bundled(script, folder)), str(folder / "given.json"), str(folder / "found.json")])
    return json.loads((folder / "found.json").read_text("utf-8"))


def bundled(script: Path, folder: Path) -> Path:
    """The script with the packages inside that phones get, as one module for browsers."""
    bundle = folder / "bundle.mjs"
    rolldown = str(WEBCLIENT / "node_modules/rolldown/bin/cli.mjs")
    _node([rolldown, str(script), "--platform", "browser", "--format", "esm", "--file", str(bundle)])
    return bundle


def _node(words: list[str]) -> None:
    done = subprocess.run([str(node()), *words], cwd=WEBCLIENT, env=environment(), capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
