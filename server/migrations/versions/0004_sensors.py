"""The keys of sensors."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "sensor",
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("key", sa.String(64), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("module", sa.String(36), nullable=True),
        sa.Column("room", sa.String(40), nullable=True),
        sa.Column("made_by", sa.String(36), nullable=False),
        sa.Column("made_at", sa.Integer(), nullable=False),
        sa.Column("heard_at", sa.Integer(), nullable=True),
        sa.Column("revoked_at", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sensor")),
        sa.UniqueConstraint("key", name=op.f("uq_sensor_key")),
    )


def downgrade() -> None:
    op.drop_table("sensor")
