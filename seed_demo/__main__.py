"""`python3 seed_demo [--port N] [--data FOLDER]`: sets up what is missing, makes the demo's yard, and serves it."""

import importlib
import importlib.util
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def main(argv: list[str]) -> int:
    from server.bootstrap import inside, set_up

    failed = set_up(with_browser=False)
    if failed:
        return failed
    inside(Path(__file__).parent, argv)
    if importlib.util.find_spec("seed_demo.start") is None:
        print("Everything is set up, but this copy has no demo in it yet (seed_demo/start.py).", file=sys.stderr)
        return 1
    start = importlib.import_module("seed_demo.start")
    return int(start.main(argv) or 0)


if __name__ == "__main__":
    # Not the folder of this file: its names are imported as `seed_demo.…`, as everywhere else.
    sys.path[0] = str(ROOT)
    sys.exit(main(sys.argv[1:]))
