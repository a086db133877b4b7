"""Photos that have arrived."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "photo",
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("bytes", sa.Integer, nullable=False),
        sa.Column("media", sa.String(20), nullable=False),
        sa.PrimaryKeyConstraint("sha256", name="pk_photo"),
    )


def downgrade() -> None:
    op.drop_table("photo")
