"""The journal's tables. Core tables on one metadata; the migrations are what makes them."""

from __future__ import annotations

from sqlalchemy import Column, Index, Integer, LargeBinary, Table, Text, UniqueConstraint, text

from server.db import db

yard = Table(
    "yard",
    db.metadata,
    Column("id", Text, primary_key=True),
    Column("epoch", Text, nullable=False),
    Column("seq", Integer, nullable=False),
    Column("chain", Text, nullable=False),
    Column("server_device", Text, nullable=False),
    Column("form", Integer, nullable=False, server_default="0"),
)
epoch = Table(
    "epoch",
    db.metadata,
    Column("yard", Text, primary_key=True),
    Column("epoch", Text, primary_key=True),
    Column("old", Text, nullable=False),
    Column("cut", Integer, nullable=False),
)
entry = Table(
    "entry",
    db.metadata,
    Column("yard", Text, primary_key=True),
    Column("seq", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("device", Text, nullable=False),
    Column("n", Integer, nullable=False),
    Column("module", Text),
    Column("about", Text),
    Column("kind", Text, nullable=False),
    Column("canon", LargeBinary, nullable=False),
    Column("sha256", Text, nullable=False),
    Column("received_at", Text, nullable=False),
    Column("time", Text, nullable=False),
    Column("let_in", Integer, nullable=False),
    Column("chain", Text, nullable=False),
    Index("ix_entry_module", "module", "seq"),
    Index(
        "uq_entry_device_n",
        "device",
        "n",
        unique=True,
        sqlite_where=text("let_in = 0"),
        postgresql_where=text("let_in = 0"),
    ),
)
part = Table(
    "part",
    db.metadata,
    Column("yard", Text, primary_key=True),
    Column("kind", Text, primary_key=True),
    Column("id", Text, primary_key=True),
    Column("module", Text),
    Column("seq", Integer, nullable=False),
    Column("gone", Integer, nullable=False),
    Column("left_seq", Integer, nullable=False),
    Column("body", LargeBinary, nullable=False),
    Index("ix_part_pull", "yard", "gone", "seq"),
    Index("ix_part_module", "module"),
    Index("ix_part_left", "yard", "left_seq"),
)
device = Table(
    "device",
    db.metadata,
    Column("id", Text, primary_key=True),
    Column("yard", Text, nullable=False),
    Column("last_n", Integer, nullable=False),
    Column("last_id", Text),
    Column("any_first", Integer, nullable=False),
    Column("blind_n", Integer, nullable=False),
    Column("behind", Text, nullable=False),
    Column("heard_at", Text, nullable=False),
    Column("clock_error_ms", Integer, nullable=False),
)
device_person = Table(
    "device_person",
    db.metadata,
    Column("device", Text, primary_key=True),
    Column("person", Text, primary_key=True),
)
set_aside = Table(
    "set_aside",
    db.metadata,
    Column("sha256", Text, primary_key=True),
    Column("id", Text, nullable=False, index=True),
    Column("device", Text, nullable=False),
    Column("n", Integer, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
    Column("reason", Text, nullable=False),
    Column("about", Text, nullable=False, index=True),
    Column("rests_on", Text, index=True),
    Column("time", Text, nullable=False),
    Column("seen_to", Integer, nullable=False),
    Column("state", Text, nullable=False),
)
release_ask = Table(
    "release_ask",
    db.metadata,
    Column("id", Text, primary_key=True),
    Column("module", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("now", Text, nullable=False),
    Column("answer", Text, nullable=False),
)
photo_ref = Table(
    "photo_ref",
    db.metadata,
    Column("sha256", Text, nullable=False),
    Column("photo", Text, nullable=False),
    Column("module", Text),
    Column("arrived", Integer, nullable=False),
    UniqueConstraint("sha256", "photo"),
)
