"""What one running server is told from outside, read once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Settings:
    """`data` holds the database and the photos; `static` the built web client."""

    data: Path
    testing: bool = False
    static: Path | None = None
    secure_cookies: bool = False

    @property
    def database(self) -> Path:
        return self.data / "rakelight.sqlite"

    @property
    def photos(self) -> Path:
        return self.data / "photos"
