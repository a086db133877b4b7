"""Puts the rooms together. Nothing happens at import: each call of `create_app` is a server of its own."""

from __future__ import annotations

from collections.abc import Callable

from flask import Flask
from sqlalchemy import create_engine

from server import api, journal, migrations
from server.clock import Clock, SystemClock
from server.db import db, prepare
from server.settings import Settings

LARGEST_BODY = 2 * 1024 * 1024


def create_app(
    settings: Settings, clock: Clock | None = None, tell: Callable[[str], None] = lambda _words: None
) -> Flask:
    """The application on the data folder of `settings`, its database at the newest schema and its parts of this form.

    `tell` hears, in a person's words, of what takes long.
    """
    settings.data.mkdir(parents=True, exist_ok=True, mode=0o700)
    app = Flask("server", static_folder=None)
    app.config.update(
        TESTING=settings.testing,
        SQLALCHEMY_DATABASE_URI=_address(settings),
        MAX_CONTENT_LENGTH=LARGEST_BODY,
    )
    app.extensions["clock"] = clock or SystemClock()
    app.extensions["settings"] = settings
    db.init_app(app)
    with app.app_context():
        prepare(db.engine)
        migrations.upgrade(db.engine)
        journal.fold_anew(tell)
    api.register(app)
    return app


def up_to_date(settings: Settings) -> bool:
    """Whether `create_app` would change nothing in an existing database: schema and parts are of this version."""
    engine = create_engine(_address(settings))
    try:
        with engine.connect() as connection:
            return migrations.newest(connection) and journal.of_this_form(connection)
    finally:
        engine.dispose()


def _address(settings: Settings) -> str:
    return f"sqlite:///{settings.database.resolve()}"
