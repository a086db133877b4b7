"""Photos and their bytes: which are wanted, and word that they have come."""

from __future__ import annotations

from sqlalchemy import Connection, select, update

from server.clock import Clock
from server.db import writing
from server.journal import tables as t
from server.journal.writer import Writer


def photo_wanted(connection: Connection, sha256: str) -> bool:
    """Whether an entry, taken or set aside, names these bytes."""
    return (
        connection.execute(select(t.photo_ref.c.photo).where(t.photo_ref.c.sha256 == sha256).limit(1)).first()
        is not None
    )


def photos_awaited(connection: Connection) -> list[str]:
    """The hashes of bytes that some entry names and that have not come, sorted."""
    rows = connection.execute(select(t.photo_ref.c.sha256).where(t.photo_ref.c.arrived == 0).distinct())
    return sorted(row[0] for row in rows)


def photo_arrived(sha256: str, clock: Clock) -> None:
    """Writes `photo.arrived` for every photo of these bytes, once."""
    with writing() as connection:
        writer = Writer(connection, clock)
        rows = (
            connection.execute(select(t.photo_ref).where(t.photo_ref.c.sha256 == sha256, t.photo_ref.c.arrived == 0))
            .mappings()
            .all()
        )
        for row in rows:
            photo = writer.work.part("photo", row["photo"])
            if photo is not None and not photo["arrived"] and photo["sha256"] == sha256:
                writer.say("photo.arrived", photo["module"], row["photo"], {"sha256": sha256})
        writer.flush()
        connection.execute(update(t.photo_ref).where(t.photo_ref.c.sha256 == sha256).values(arrived=1))
