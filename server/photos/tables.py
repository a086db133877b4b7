"""Which photos have arrived. The bytes are in the store; the row is what a query can join."""

from __future__ import annotations

import sqlalchemy as sa

from server.db import db

photo = sa.Table(
    "photo",
    db.metadata,
    sa.Column("sha256", sa.String(64), primary_key=True),
    sa.Column("bytes", sa.Integer, nullable=False),
    sa.Column("media", sa.String(20), nullable=False),
)
