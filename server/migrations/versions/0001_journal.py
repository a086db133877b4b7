"""The journal: entries, parts, devices, set-aside entries."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Makes the tables."""
    op.create_table(
        "yard",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("epoch", sa.Text, nullable=False),
        sa.Column("seq", sa.Integer, nullable=False),
        sa.Column("chain", sa.Text, nullable=False),
        sa.Column("server_device", sa.Text, nullable=False),
    )
    op.create_table(
        "epoch",
        sa.Column("yard", sa.Text, primary_key=True),
        sa.Column("epoch", sa.Text, primary_key=True),
        sa.Column("old", sa.Text, nullable=False),
        sa.Column("cut", sa.Integer, nullable=False),
    )
    op.create_table(
        "entry",
        sa.Column("yard", sa.Text, primary_key=True),
        sa.Column("seq", sa.Integer, primary_key=True),
        sa.Column("id", sa.Text, nullable=False, unique=True),
        sa.Column("device", sa.Text, nullable=False),
        sa.Column("n", sa.Integer, nullable=False),
        sa.Column("module", sa.Text),
        sa.Column("about", sa.Text),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("canon", sa.LargeBinary, nullable=False),
        sa.Column("sha256", sa.Text, nullable=False),
        sa.Column("received_at", sa.Text, nullable=False),
        sa.Column("time", sa.Text, nullable=False),
        sa.Column("let_in", sa.Integer, nullable=False),
        sa.Column("chain", sa.Text, nullable=False),
    )
    op.create_index("ix_entry_module", "entry", ["module", "seq"])
    op.create_index(
        "uq_entry_device_n",
        "entry",
        ["device", "n"],
        unique=True,
        sqlite_where=sa.text("let_in = 0"),
        postgresql_where=sa.text("let_in = 0"),
    )
    op.create_table(
        "part",
        sa.Column("yard", sa.Text, primary_key=True),
        sa.Column("kind", sa.Text, primary_key=True),
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("module", sa.Text),
        sa.Column("seq", sa.Integer, nullable=False),
        sa.Column("gone", sa.Integer, nullable=False),
        sa.Column("left_seq", sa.Integer, nullable=False),
        sa.Column("body", sa.LargeBinary, nullable=False),
    )
    op.create_index("ix_part_pull", "part", ["yard", "gone", "seq"])
    op.create_index("ix_part_module", "part", ["module"])
    op.create_index("ix_part_left", "part", ["yard", "left_seq"])
    op.create_table(
        "device",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("yard", sa.Text, nullable=False),
        sa.Column("last_n", sa.Integer, nullable=False),
        sa.Column("last_id", sa.Text),
        sa.Column("any_first", sa.Integer, nullable=False),
        sa.Column("blind_n", sa.Integer, nullable=False),
        sa.Column("behind", sa.Text, nullable=False),
        sa.Column("heard_at", sa.Text, nullable=False),
        sa.Column("clock_error_ms", sa.Integer, nullable=False),
    )
    op.create_table(
        "device_person", sa.Column("device", sa.Text, primary_key=True), sa.Column("person", sa.Text, primary_key=True)
    )
    op.create_table(
        "set_aside",
        sa.Column("sha256", sa.Text, primary_key=True),
        sa.Column("id", sa.Text, nullable=False, index=True),
        sa.Column("device", sa.Text, nullable=False),
        sa.Column("n", sa.Integer, nullable=False),
        sa.Column("bytes", sa.LargeBinary, nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
        sa.Column("about", sa.Text, nullable=False, index=True),
        sa.Column("rests_on", sa.Text, index=True),
        sa.Column("time", sa.Text, nullable=False),
        sa.Column("seen_to", sa.Integer, nullable=False),
        sa.Column("state", sa.Text, nullable=False),
    )
    op.create_table(
        "release_ask",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("module", sa.Text, nullable=False),
        sa.Column("by", sa.Text, nullable=False),
        sa.Column("now", sa.Text, nullable=False),
        sa.Column("answer", sa.Text, nullable=False),
    )
    op.create_table(
        "photo_ref",
        sa.Column("sha256", sa.Text, nullable=False),
        sa.Column("photo", sa.Text, nullable=False),
        sa.Column("module", sa.Text),
        sa.Column("arrived", sa.Integer, nullable=False),
        sa.UniqueConstraint("sha256", "photo"),
    )
