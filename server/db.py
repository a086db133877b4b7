"""The database: one engine, one way to write, one way to read.

SQLite in WAL with synchronous=FULL: WAL/NORMAL lost acknowledged commits in simulated power cuts. Every writing
transaction begins IMMEDIATE: a deferred read-then-write between threads fails with "database is locked" whatever
the timeout. Statements are SQLAlchemy Core, so that PostgreSQL can follow: there `writing()` locks the yard's row.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Connection, event, text

NAMING = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

db = SQLAlchemy(disable_autonaming=True)
db.metadata.naming_convention = NAMING


def prepare(engine: Any) -> None:
    """Sets the pragmas on every new connection and hands BEGIN to us; call once an engine."""

    @event.listens_for(engine, "connect")
    def _connected(raw: Any, _record: Any) -> None:
        raw.isolation_level = None
        cursor = raw.cursor()
        for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=20000"):
            cursor.execute(f"PRAGMA {pragma}")
        mode = cursor.execute("PRAGMA journal_mode").fetchone()[0]
        level = cursor.execute("PRAGMA synchronous").fetchone()[0]
        if (mode, level) != ("wal", 2):
            raise RuntimeError(f"SQLite refused WAL with synchronous=FULL: {mode}, {level}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def _begun(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def writing() -> Iterator[Connection]:
    """One immediate transaction: committed, durably, when the block ends well; rolled back otherwise."""
    with db.engine.connect().execution_options(writes=True) as connection, connection.begin():
        yield connection


@contextmanager
def reading() -> Iterator[Connection]:
    """One snapshot of the database."""
    with db.engine.connect() as connection, connection.begin():
        yield connection


def whole(connection: Connection) -> bool:
    """SQLite's own check of its pages."""
    told: str = connection.execute(text("PRAGMA integrity_check")).scalar_one()
    return told == "ok"
