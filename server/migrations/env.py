"""Runs the migration steps on the connection that `server.migrations.upgrade` hands over."""

from alembic import context

from server.db import db

context.configure(connection=context.config.attributes["connection"], target_metadata=db.metadata, render_as_batch=True)
with context.begin_transaction():
    context.run_migrations()
