"""Running other programs quietly: one plain line for the person, the whole output only when it failed."""

import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from server.bootstrap.places import ROOT


class Stop(Exception):
    """The set-up cannot go on; the text says what the person can do."""


def say(line: str) -> None:
    print(line, flush=True)


@contextmanager
def telling(what: str) -> Iterator[None]:
    """Says what is being done, and afterwards how long it took."""
    start = time.monotonic()
    print(f"{what} …", end="", flush=True)
    try:
        yield
    except BaseException:
        print(flush=True)
        raise
    print(f" {time.monotonic() - start:.0f} s", flush=True)


def run(command: Sequence[str], *, cwd: Path = ROOT, env: Mapping[str, str] | None = None) -> None:
    """Runs a program to its end; Stop with its last lines if it fails."""
    done = subprocess.run(
        command, cwd=cwd, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    if done.returncode:
        lines = "\n".join(done.stdout.splitlines()[-40:])
        raise Stop(f"{lines}\n\nThis failed (exit code {done.returncode}): {' '.join(map(str, command))}")


def leave(reason: Stop) -> int:
    print(f"\n{reason}", file=sys.stderr, flush=True)
    return 1
