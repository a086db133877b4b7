"""What one running server is told from outside, read once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Settings:
    """`data` holds the database and the photos; `static` the built web client.

    `pushes_a_minute`, `papers_an_hour` and `files_an_hour`: how often one person may; None, for programs of this
    machine, is no limit.
    """

    data: Path
    testing: bool = False
    static: Path | None = None
    secure_cookies: bool = False
    pushes_a_minute: int | None = None
    papers_an_hour: int | None = None
    files_an_hour: int | None = None

    @property
    def database(self) -> Path:
        return self.data / "rakelight.sqlite"

    @property
    def photos(self) -> Path:
        return self.data / "photos"
