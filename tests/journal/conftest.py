from __future__ import annotations

from pathlib import Path

import pytest
from flask import Flask

from tests.journal.backup import Backup


@pytest.fixture
def backup(app: Flask, tmp_path: Path) -> Backup:
    """Backups of the yard of this test."""
    return Backup(app, tmp_path / "data")
