"""The one way in: appends entries to a yard's journal inside one writing transaction and keeps the parts folded."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

import orjson
from sqlalchemy import Connection, bindparam, insert, select, update

from server.clock import Clock, stamp
from server.journal import tables as t
from server.journal.folding import Entry, fold_one, store_parts
from server.journal.text import quick
from server.rules import CURRENT, FORM, PHONE_FIELDS, Workspace, link, sha256

SERVER = "server"
BLOCK = 400
LOOKS = frozenset({"coat.found_wet", "coat.found_dry"})
_FIND_PART = select(t.part.c.body).where(
    t.part.c.yard == bindparam("y"), t.part.c.kind == bindparam("k"), t.part.c.id == bindparam("i")
)


class OtherForm(RuntimeError):
    """Another version of the program has folded the parts anew while this one runs: it must be started anew."""


class Writer:
    """The journal of one yard during one transaction. `flush` must be called before the transaction ends."""

    def __init__(self, connection: Connection, clock: Clock) -> None:
        row = connection.execute(select(t.yard)).mappings().one()
        if row["form"] != FORM:
            raise OtherForm(f"parts of form {row['form']}, not {FORM}")
        self.connection = connection
        self.clock = clock
        self.now: datetime = clock.now()
        self.received_at = stamp(self.now)
        self.yard: str = row["id"]
        self.epoch: str = row["epoch"]
        self.seq: int = row["seq"]
        self.chain = bytes.fromhex(row["chain"])
        self.server_device: str = row["server_device"]
        self.work = Workspace(self._part)
        self.looked = False
        self._prefetched: dict[tuple[str, str], bytes | None] = {}
        self._rows: list[dict[str, Any]] = []
        self._photos: dict[str, dict[str, bool]] = {}
        self._photo_refs: list[dict[str, Any]] = []
        self._left: dict[str, int] = {}
        self._server_row: dict[str, Any] | None = None

    def prefetch(self, keys: Iterable[tuple[str, str]]) -> None:
        """Loads parts that are about to be needed, a few statements instead of one each."""
        wanted: dict[str, list[str]] = {}
        for kind, part_id in set(keys) - self._prefetched.keys():
            wanted.setdefault(kind, []).append(part_id)
        for kind, ids in wanted.items():
            self._prefetched.update(((kind, part_id), None) for part_id in ids)
            for start in range(0, len(ids), BLOCK):
                # By the whole primary key: with the kind left out this would read the yard's whole index.
                rows = self.connection.execute(
                    select(t.part.c.id, t.part.c.body).where(
                        t.part.c.yard == self.yard, t.part.c.kind == kind, t.part.c.id.in_(ids[start : start + BLOCK])
                    )
                )
                self._prefetched.update(((kind, part_id), body) for part_id, body in rows)

    def append(self, fields: Entry, *, seen_to: int, time: str, let_in: int = 0, digest: str | None = None) -> Entry:
        """Gives an entry its place, links it and folds it. `fields`: exactly the phone's."""
        self.seq += 1
        given = {"seq": self.seq, "received_at": self.received_at, "time": time, "let_in": let_in, "seen_to": seen_to}
        whole = {**fields, **given}
        text = quick(whole)
        self.chain = link(self.chain, text)
        self._rows.append(
            {
                "yard": self.yard,
                "seq": self.seq,
                "id": fields["id"],
                "device": fields["device"],
                "n": fields["n"],
                "module": fields["module"],
                "about": fields["about"],
                "kind": fields["kind"],
                "canon": text,
                "sha256": digest or sha256(quick(fields)),
                "received_at": self.received_at,
                "time": time,
                "let_in": let_in,
                "chain": self.chain.hex(),
            }
        )
        fold_one(self.work, whole, self._left)
        if fields["kind"] in LOOKS:
            self.looked = True
        if fields["kind"] == "photo.added":
            self._photo_added(fields)
        return whole

    def say(self, kind: str, module: str | None, about: str, body: dict[str, Any], by: str = SERVER) -> Entry:
        """Writes as the server's own device; `by` a person where it only brings in what they chose."""
        if self._server_row is None:
            found = (
                self.connection.execute(select(t.device).where(t.device.c.id == self.server_device)).mappings().one()
            )
            self._server_row = dict(found)
        row = self._server_row
        fields = {
            "id": self.clock.new_id(),
            "device": self.server_device,
            "n": row["last_n"] + 1,
            "prev": row["last_id"],
            "epoch": self.epoch,
            "seen": self.seq,
            "at": self.received_at,
            "by": by,
            "module": module,
            "about": about,
            "kind": kind,
            "body": body,
            "rules": CURRENT,
        }
        row["last_n"], row["last_id"] = fields["n"], fields["id"]
        return self.append(fields, seen_to=self.seq, time=self.received_at)

    def flush(self) -> None:
        """Writes what was appended and folded."""
        connection = self.connection
        if self._rows:
            connection.execute(insert(t.entry), self._rows)
            connection.execute(
                update(t.yard).values(
                    seq=self.seq, chain=self.chain.hex(), epoch=self.epoch, server_device=self.server_device
                )
            )
        if self._server_row is not None:
            row = self._server_row
            connection.execute(
                update(t.device)
                .where(t.device.c.id == row["id"])
                .values(last_n=row["last_n"], last_id=row["last_id"], heard_at=self.received_at)
            )
        store_parts(connection, self.yard, self.work, self._left)
        if self._photo_refs:
            connection.execute(insert(t.photo_ref), self._photo_refs)
        self._rows, self._photo_refs, self._left, self.work.changed = [], [], {}, {}

    def _part(self, kind: str, part_id: str) -> dict[str, Any] | None:
        key = (kind, part_id)
        if key in self._prefetched:
            body = self._prefetched[key]
        else:
            body = self.connection.execute(_FIND_PART, {"y": self.yard, "k": kind, "i": part_id}).scalar_one_or_none()
        return orjson.loads(body) if body is not None else None

    def _photo_added(self, fields: Entry) -> None:
        """Remembers which photo waits for which bytes; bytes that came before count at once."""
        digest = fields["body"]["sha256"]
        here = self.remember_photo(digest, fields["about"], fields["module"])
        photo = self.work.part("photo", fields["about"])
        if here and photo is not None and photo["sha256"] == digest and not photo["arrived"]:
            self.say("photo.arrived", fields["module"], fields["about"], {"sha256": digest})

    def remember_photo(self, digest: str, photo: str, module: str | None) -> bool:
        """Notes, once, that a photo waits for bytes; whether they are here already."""
        self.prefetch_photos([digest])
        known = self._photos[digest]
        here = any(known.values())
        if photo not in known:
            known[photo] = here
            self._photo_refs.append({"sha256": digest, "photo": photo, "module": module, "arrived": int(here)})
        return here

    def prefetch_photos(self, digests: Iterable[str]) -> None:
        """Looks up which photos wait for these bytes, a few statements instead of one each."""
        wanted = list(set(digests) - self._photos.keys())
        for start in range(0, len(wanted), BLOCK):
            block = wanted[start : start + BLOCK]
            self._photos.update((digest, {}) for digest in block)
            ref = t.photo_ref.c
            rows = self.connection.execute(select(ref.sha256, ref.photo, ref.arrived).where(ref.sha256.in_(block)))
            for digest, photo, arrived in rows:
                self._photos[digest][photo] = bool(arrived)


def phone_fields(fields: Entry) -> Entry:
    """Only what the phone wrote, in no particular order."""
    return {name: fields[name] for name in (*PHONE_FIELDS, "proof") if name in fields}
