"""The form of the parts that are kept. 0, which no program folds: parts from before this are folded anew."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("yard", sa.Column("form", sa.Integer, nullable=False, server_default="0"))


def downgrade() -> None:
    op.drop_column("yard", "form")
