"""Accounts, sessions and the throttle of sign-ins."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "account",
        sa.Column("person", sa.String(36), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("folded", sa.String(400), nullable=False),
        sa.Column("passcode", sa.String(200), nullable=False),
        sa.Column("disabled", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("person", name=op.f("pk_account")),
        sa.UniqueConstraint("folded", name=op.f("uq_account_folded")),
    )
    op.create_table(
        "session",
        sa.Column("token", sa.String(64), nullable=False),
        sa.Column("person", sa.String(36), nullable=False),
        sa.Column("device", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("created_at", sa.Integer(), nullable=False),
        sa.Column("last_at", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("token", name=op.f("pk_session")),
    )
    op.create_index(op.f("ix_session_person"), "session", ["person"])
    op.create_table(
        "throttle",
        sa.Column("key", sa.String(80), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("last_at", sa.Integer(), nullable=False),
        sa.Column("until", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_throttle")),
    )


def downgrade() -> None:
    for table in ("throttle", "session", "account"):
        op.drop_table(table)
