"""A logger's file or an hourly forecast: looked at first, then brought in by the plan that a person confirmed.

The file is the body, the plan the query. `look` guesses what the query leaves open, and says what it could not settle.
"""

from __future__ import annotations

from typing import Any
from zoneinfo import ZoneInfo

from flask import Blueprint, Response, current_app, g, request

from server import journal, loggers
from server.api import limits, schemas
from server.api.bodies import raw_body, said
from server.api.described import described
from server.api.problems import NotAccepted, NotUnderstood, NoYard
from server.api.readings import brought
from server.api.troubles import in_words, unread
from server.db import reading

blueprint = Blueprint("csv_files", __name__)
MEDIA = ("text/csv", "application/octet-stream")
SHOWN, REFUSED_SHOWN, EXAMPLES = 8, 200, 3
STRING = {"type": "string"}
PLAN = {name: STRING for name in loggers.NAMES}
PLACE = {"where": {**STRING, "enum": ["room", "module", "yard"]}, "module": STRING, "room": STRING, "name": STRING}
REFUSES = (400, 409, 413, 415, 422, 429)


@blueprint.post("/readings/csv/look")
@described(asks=MEDIA, query=PLAN, refuses=REFUSES)
def look() -> Response:
    """How a logger's file would be read: the plan guessed, what to confirm, the first rows as understood."""
    return said(looked(wants_rh=True))


@blueprint.post("/readings/csv")
@described(asks=MEDIA, query={**PLAN, **PLACE}, refuses=(*REFUSES, 404))
def take() -> Response:
    """Brings a logger's file in by its confirmed plan, in one transaction; says what was taken, known or refused."""
    told = query({*PLAN, *PLACE})
    place = place_of({name: value for name, value in told.items() if name in PLACE})
    try:
        found = loggers.confirmed(body(), plan_in(told), now())
    except loggers.NotRead as error:
        raise unread(error) from error
    return said(brought(place, found, "line", g.session.person))


@blueprint.post("/forecast/csv/look")
@described(asks=MEDIA, query=PLAN, refuses=REFUSES)
def look_ahead() -> Response:
    """How an hourly forecast would be read, and the lows of the nights (18:00 to 10:00) that it gives."""
    return said(looked(wants_rh=False))


@blueprint.post("/forecast/csv")
@described(asks=MEDIA, query=PLAN, refuses=REFUSES)
def take_ahead() -> Response:
    """Tells the lows of the nights to come from an hourly forecast, by its confirmed plan."""
    try:
        found = loggers.confirmed(body(), plan_in(query(set(PLAN))), None, wants_rh=False)
    except loggers.NotRead as error:
        raise unread(error) from error
    nights = loggers.nights_of(found, ZoneInfo(yard_zone()), now())
    if not nights:
        raise unread(loggers.NotRead("no_nights"))
    new = journal.bring_nights(nights, current_app.extensions["clock"], g.session.person)
    return said({"nights": nights, "told": new, **troubles(found)})


def looked(*, wants_rh: bool) -> dict[str, Any]:
    """The answer of a look."""
    zone = yard_zone()
    try:
        one = loggers.looked(body(), query(set(PLAN)), zone, now() if wants_rh else None, wants_rh=wants_rh)
    except loggers.NotRead as error:
        raise unread(error) from error
    found, cells = one.found, [*one.cells.values()][:EXAMPLES]
    nights = {} if wants_rh else {"nights": loggers.nights_of(found, ZoneInfo(zone), now())}
    return {
        "encoding": one.encoding,
        "mark": one.mark,
        "columns": [
            {"name": name[:200], "examples": [row[at][:60] for row in cells if at < len(row)]}
            for at, name in enumerate(one.names[:200])
        ],
        "plan": one.plan.as_told(),
        "asks": one.asks,
        "count": len(found.rows),
        "from": loggers.written(found.rows[0].at) if found.rows else None,
        "to": loggers.written(found.rows[-1].at) if found.rows else None,
        "rows": [shown(row, one.cells) for row in found.rows[:SHOWN]],
        **troubles(found),
        **nights,
    }


def shown(row: loggers.Row, cells: dict[int, list[str]]) -> dict[str, Any]:
    """A row as understood, beside what stands in the file."""
    told = {"line": row.line, "at": loggers.written(row.at), "temp": row.temp, "rh": row.rh, "surface": row.surface}
    return {**told, "said": [cell[:60] for cell in cells.get(row.line, [])][:20]}


def troubles(found: loggers.Found) -> dict[str, Any]:
    return {
        "repeated": found.repeated,
        "refused_count": len(found.refused),
        "refused": [in_words(one) for one in found.refused[:REFUSED_SHOWN]],
        "notes": [in_words(one) for one in found.notes],
    }


def query(known: set[str]) -> dict[str, str]:
    """The query's words, each once and none that the route does not know."""
    told = request.args.to_dict(flat=False)
    for name, values in told.items():
        if name not in known or len(values) != 1:
            raise NotUnderstood(f"The query may hold, once each: {', '.join(sorted(known))}.")
    return {name: values[0] for name, values in told.items()}


def plan_in(told: dict[str, str]) -> dict[str, str]:
    return {name: value for name, value in told.items() if name in PLAN}


def place_of(told: dict[str, str]) -> journal.Place:
    """Where the logger hung; 422 when the query does not say one place."""
    wrong = schemas.PlaceAsk().validate(told)
    needs = {"room": {"module", "room"}, "module": {"module"}, "yard": set[str]()}.get(told.get("where", ""), set())
    if wrong or (told.keys() & {"module", "room"}) != needs:
        raise NotAccepted("Say where: room with module and room, module with module, or yard.", fields=wrong)
    return journal.Place(told.get("module"), told.get("room"), "logger", told.get("name") or None)


def body() -> bytes:
    limits.file()
    data = raw_body()
    if not data:
        raise unread(loggers.NotRead("file_empty"))
    return data


def now() -> int:
    return int(current_app.extensions["clock"].now().timestamp())


def yard_zone() -> str:
    """Where local times are told when nothing else is said."""
    with reading() as conn:
        yards = journal.parts_named(conn, "yard")
    if not yards:
        raise NoYard()
    zone: str = yards[0]["zone"]
    return zone
