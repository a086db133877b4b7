"""The tables of this room. `account.folded` is the name as it is compared at sign-in."""

from sqlalchemy import Boolean, Column, Integer, String, Table

from server.db import db

account = Table(
    "account",
    db.metadata,
    Column("person", String(36), primary_key=True),
    Column("name", String(200), nullable=False),
    Column("folded", String(400), nullable=False, unique=True),
    Column("passcode", String(200), nullable=False),
    Column("disabled", Boolean, nullable=False, default=False),
)

# The token itself is never stored: whoever reads the database cannot act as anybody.
session = Table(
    "session",
    db.metadata,
    Column("token", String(64), primary_key=True),
    Column("person", String(36), nullable=False, index=True),
    Column("device", String(64), nullable=False),
    Column("kind", String(8), nullable=False),
    Column("created_at", Integer, nullable=False),
    Column("last_at", Integer, nullable=False),
)

# By enrolment: the hash of the secret that its phone made.
device_key = Table(
    "device_key",
    db.metadata,
    Column("device", String(64), primary_key=True),
    Column("secret", String(64), nullable=False),
)

# One row for a name or an address with failed sign-ins; `until` is when the next try may come (epoch seconds).
throttle = Table(
    "throttle",
    db.metadata,
    Column("key", String(80), primary_key=True),
    Column("failures", Integer, nullable=False),
    Column("last_at", Integer, nullable=False),
    Column("until", Integer, nullable=False),
)

# What may send readings without a person: where it hangs is the manager's word, never the sender's.
sensor = Table(
    "sensor",
    db.metadata,
    Column("id", String(36), primary_key=True),
    Column("key", String(64), nullable=False, unique=True),
    Column("name", String(200), nullable=False),
    Column("module", String(36)),
    Column("room", String(40)),
    Column("made_by", String(36), nullable=False),
    Column("made_at", Integer, nullable=False),
    Column("heard_at", Integer),
    Column("revoked_at", Integer),
)
