"""Schema steps, numbered, one subject each; run at every start."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config


def upgrade(engine: Any) -> None:
    """Brings the database to the newest schema, in one transaction."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent))
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
