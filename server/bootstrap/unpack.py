"""`python -m server.bootstrap.unpack FROM TO`: unpacks the test browser. Runs inside .venv, for `brotli`."""

import io
import shutil
import sys
import tarfile
from pathlib import Path

ARCHIVES = ("al2023", "swiftshader", "fonts")


def main(source: Path, target: Path) -> None:
    """The browser itself, and the libraries, software graphics and fonts that it brings along."""
    import brotli

    shutil.rmtree(target, ignore_errors=True)
    target.mkdir(parents=True)
    for name in ARCHIVES:
        packed = (source / f"{name}.tar.br").read_bytes()
        with tarfile.open(fileobj=io.BytesIO(brotli.decompress(packed))) as archive:
            _extract(archive, target)
    program = target / "chromium"
    program.write_bytes(brotli.decompress((source / "chromium.br").read_bytes()))
    program.chmod(0o755)


def _extract(archive: tarfile.TarFile, target: Path) -> None:
    # Python before 3.11.4, which Debian 12 has, knows no filters.
    if hasattr(tarfile, "data_filter"):
        archive.extractall(target, filter="data")
    else:
        archive.extractall(target)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
