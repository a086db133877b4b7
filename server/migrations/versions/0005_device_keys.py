"""The secrets by which a phone is known again."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "device_key",
        sa.Column("device", sa.String(64), nullable=False),
        sa.Column("secret", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("device", name=op.f("pk_device_key")),
    )


def downgrade() -> None:
    op.drop_table("device_key")
