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
    bundle = [str(WEBCLIENT / "node_modules/rolldown/bin/cli.mjs"), str(script),
              "--platform", "browser", "--format", "esm", "--file", str(folder / "bundle.mjs")]  # fmt: skip
    run = [str(folder / "bundle.mjs"), str(folder / "given.json"), str(folder / "found.json")]
    for words in (bundle, run):
        done = subprocess.run([str(node()), *words], cwd=WEBCLIENT, env=environment(), capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr
    return json.loads((folder / "found.json").read_text("utf-8"))
