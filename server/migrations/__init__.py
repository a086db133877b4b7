"""Schema steps, numbered, one subject each; run at every start."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory


def upgrade(engine: Any) -> None:
    """Brings the database to the newest schema, in one transaction."""
    config = _config()
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def newest(connection: Any) -> bool:
    """Whether the database has the newest schema."""
    heads = ScriptDirectory.from_config(_config()).get_heads()
    return set(MigrationContext.configure(connection).get_current_heads()) == set(heads)


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent))
    return config
