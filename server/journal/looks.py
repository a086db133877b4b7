"""After people looked whether a coat is dry: what the yard's own coats teach, said once where it has changed."""

from __future__ import annotations

import json

from sqlalchemy import func, select

from server.journal import tables as t
from server.journal.read import Part, drying_parts, parts_named
from server.journal.writer import Writer
from server.rules import CURRENT, learn, learned_id, observations, place_of

# The yard's factor is about how it dries now; and what a look costs must not grow with all that ever left.
MODULES = 150
KINDS = ("module", "coat", "air", "heat")
LOOK = b'"coat.found_'


def say_learned(writer: Writer) -> None:
    """Writes `drying.learned` when a look of this transaction changed the factors, unless the yard switched it off."""
    if not writer.looked:
        return
    writer.looked = False
    yard = writer.work.part("yard", writer.yard)
    if not (yard or {}).get("coats", {}).get("learned", True):
        return
    writer.flush()
    said = drying_parts(writer.connection)
    plans = parts_named(writer.connection, "plan")
    places = [place_of(module, [*parts, *said, *plans]) for module, parts in looked_at(writer).items()]
    factors = {material: learn(found, CURRENT) for material, found in sorted(observations(places).items())}
    about = learned_id(writer.yard)
    known = writer.work.part("learned", about)
    if factors != (known["factors"] if known else {}):
        writer.say("drying.learned", None, about, {"factors": factors})


def looked_at(writer: Writer) -> dict[str, list[Part]]:
    """The parts of those modules, of the ones with the latest coats, whose coats somebody has looked at."""
    connection, part = writer.connection, t.part.c
    latest = (
        select(part.module)
        .where(part.yard == writer.yard, part.kind == "coat", part.module.is_not(None))
        .group_by(part.module)
        .order_by(func.max(part.seq).desc())
        .limit(MODULES)
    )
    modules = [row[0] for row in connection.execute(latest)]
    rows = connection.execute(
        select(part.module, part.body)
        .where(part.module.in_(modules), part.kind.in_(KINDS))
        .order_by(part.module, part.kind, part.id)
    )
    found: dict[str, list[bytes]] = {}
    for module, body in rows:
        found.setdefault(module, []).append(body)
    looks = {module: bodies for module, bodies in found.items() if any(LOOK in body for body in bodies)}
    return {module: [json.loads(body) for body in bodies] for module, bodies in looks.items()}
