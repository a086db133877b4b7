"""Parts of another form than this program's are folded anew before anything reads them. The journal stays as it is."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from sqlalchemy import Connection, delete, select, update

from server.clock import steady
from server.db import reading, writing
from server.journal import tables as t
from server.journal.folding import Entry, chained, fold_one, store_parts
from server.rules import FORM, Workspace

Tell = Callable[[str], None]
# Seconds between two words about how far it is; what takes less is not worth a word.
PATIENCE = 1.0


def fold_anew(tell: Tell) -> None:
    """Folds the whole journal, in one transaction, where the kept parts have another form. `tell` hears of it."""
    with reading() as connection:
        if of_this_form(connection):
            return
    began = since = steady()
    with writing() as connection:
        yard = connection.execute(select(t.yard)).mappings().one()
        if yard["form"] == FORM:  # another process of this version was first
            return
        work, left = Workspace(lambda _kind, _id: None), dict[str, int]()
        for entry in _entries(connection, tell):
            fold_one(work, entry, left)
            if steady() - since >= PATIENCE:
                since = steady()
                tell(f"This version reads the journal in a new way: {entry['seq']:,} of {yard['seq']:,} entries done.")
        connection.execute(delete(t.part).where(t.part.c.yard == yard["id"]))
        store_parts(connection, yard["id"], work, left)
        connection.execute(update(t.yard).where(t.yard.c.id == yard["id"]).values(form=FORM))
    if since != began:
        tell(f"All {yard['seq']:,} entries done in {steady() - began:.0f} s. Phones fetch the yard anew.")


def of_this_form(connection: Connection) -> bool:
    """Whether the parts that are kept are as this program folds them; so they are where no yard has been opened."""
    return connection.execute(select(t.yard.c.form)).scalar_one_or_none() in (None, FORM)


def _entries(connection: Connection, tell: Tell) -> Iterator[Entry]:
    """The journal in order. What is damaged counts for nothing, as in the audit: a server that would not start for it
    could not even be audited."""
    for row in chained(connection):
        for wrong in row.wrong:
            tell(f"The record is damaged: {wrong}, which counts for nothing now. `rakelight audit` says more.")
        if row.entry is not None:
            yield row.entry
