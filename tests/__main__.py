"""`python3 tests [what]`: sets up what is missing, then runs everything that a change must pass.

    python3 tests                                     all of it, in order; the first stage that fails ends the run
    python3 tests --fast                              all but what needs a browser
    python3 tests journal                             the tests of one room, both languages
    python3 tests tests/journal/test_x.py::test_y     one test (pytest's options go through: -k, -x, -s …)
    python3 tests tests/journal/sync.test.ts          one file of the web client's tests
    python3 tests bench                               the benchmarks
    python3 tests long                                the tests again, property tests in their long setting

The last line is always `N passed, N failed`.
"""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def main(argv: list[str]) -> int:
    if {"-h", "--help"} & set(argv):
        print(__doc__)
        return 0
    from server.bootstrap import inside, set_up

    failed = set_up(with_browser="--fast" not in argv)
    if failed:
        print("0 passed, 1 failed")
        return failed
    inside(Path(__file__).parent, argv)
    from tests.stages import run_all

    return run_all(argv)


if __name__ == "__main__":
    # Not the folder of this file: its names are imported as `tests.…`, as everywhere else.
    sys.path[0] = str(ROOT)
    sys.exit(main(sys.argv[1:]))
