"""`python3 -m server.bootstrap.lock [python|web]`: makes the locks again, from nothing.

It takes the newest versions that are allowed. Run `python3 tests` afterwards, and read what changed. The web client's
own versions are the ones in its package.json.
"""

import os
import shutil
import sys
import tempfile
from pathlib import Path

from server.bootstrap.places import LOCK, ROOT, WEBCLIENT, environment, npm
from server.bootstrap.run import run, telling

HEAD = """\
# Every Python package that the two commands install, with the hashes of its files. Made, not written:
#
#    python3 -m server.bootstrap.lock python
#
"""
OPTIONS = (
    "--quiet --no-header --generate-hashes --all-extras --all-build-deps --strip-extras --allow-unsafe "
    "--no-emit-index-url --no-emit-find-links --no-emit-options"
).split()


def lock_python(folder: Path) -> None:
    made = folder / "requirements.lock"
    run([sys.executable, "-m", "venv", str(folder / "venv")])
    run([str(folder / "venv" / "bin" / "pip"), "install", "--quiet", "pip-tools"])
    compile_all = [str(folder / "venv" / "bin" / "pip-compile"), *OPTIONS, "--output-file", str(made), "pyproject.toml"]
    # Only the public index counts: a shelf of packages on this machine would put its own hashes into the lock.
    run(compile_all, cwd=ROOT, env={**os.environ, "PIP_CONFIG_FILE": os.devnull, "PIP_FIND_LINKS": ""})
    LOCK.write_text(HEAD + made.read_text())


def lock_web(folder: Path) -> None:
    for name in ("package.json", ".npmrc"):
        shutil.copy(WEBCLIENT / name, folder / name)
    # In an empty folder, so that the lock names the packages of every platform and not only of this one.
    run([*npm(), "install", "--package-lock-only", "--ignore-scripts"], cwd=folder, env=environment())
    shutil.copy(folder / "package-lock.json", WEBCLIENT / "package-lock.json")


def main(which: list[str]) -> None:
    for name, lock in (("python", lock_python), ("web", lock_web)):
        if not which or name in which:
            with telling(f"Locking {name} packages (a few minutes)"), tempfile.TemporaryDirectory() as folder:
                lock(Path(folder))


if __name__ == "__main__":
    main(sys.argv[1:])
