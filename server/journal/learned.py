"""What was set aside for a kind that nobody knew is judged again when the program has learnt the kind."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from sqlalchemy import delete, select, update

from server.clock import Clock
from server.db import reading, writing
from server.journal import tables as t
from server.journal.aside import let_in_waiting, put_aside
from server.journal.devices import people_on
from server.journal.folding import Entry
from server.journal.judge import Offered
from server.journal.rests import astray, missing
from server.journal.writer import Writer
from server.rules import kind_of, may, tables

_WAITING = (
    select(t.set_aside)
    .where(t.set_aside.c.reason == "unknown_kind", t.set_aside.c.state == "waiting")
    .order_by(t.set_aside.c.device, t.set_aside.c.n)
)


def judge_again(read: Callable[[Any], Offered], clock: Clock) -> None:
    """Lets in what can be taken now; what cannot is set aside for the reason that holds now. `read` judges one alone.

    Its number was used when it came, so its place in the phone's count is not asked for again.
    """
    with reading() as connection:
        if connection.execute(_WAITING).first() is None:
            return
    with writing() as connection:
        writer = Writer(connection, clock)
        for row in connection.execute(_WAITING).mappings().all():
            one = read(json.loads(row["bytes"]))
            fields = one.fields or {}
            if kind_of(fields) is None:
                continue
            reason, about = _why_not(writer, one, fields), fields["about"]
            if reason is None:
                this = t.set_aside.c.sha256 == row["sha256"]
                connection.execute(update(t.set_aside).where(this).values(reason="not_arrived", rests_on=about))
                let_in_waiting(writer, about)
                continue
            connection.execute(delete(t.set_aside).where(t.set_aside.c.sha256 == row["sha256"]))
            rests_on = missing(writer.work, fields) if reason == "not_arrived" else None
            put_aside(writer, row["bytes"], fields, row["sha256"], reason, rests_on, row["time"], row["seen_to"])
        writer.flush()


def _why_not(writer: Writer, one: Offered, fields: Entry) -> str | None:
    if one.problem:
        return "malformed"
    if fields["by"] not in people_on(writer.connection, fields["device"]):
        return "not_signed_in"
    if astray(writer.work, writer.yard, fields):
        return "malformed"
    existing = writer.work.part(tables(fields["rules"])["kinds"][fields["kind"]]["part"], fields["about"])
    person = writer.work.part("person", fields["by"])
    why_not = may(person, fields["kind"], fields["body"], existing, fields["rules"])
    return why_not or ("not_arrived" if missing(writer.work, fields) else None)
