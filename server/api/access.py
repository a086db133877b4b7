"""Who may use which route: one table, and no route outside it answers.

Roles are read from the person's part at every request, so that a change holds from the next one on. What an entry may
say is judged apart, entry by entry, by the rules.
"""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import Flask, current_app, g, request

from server import journal
from server.api.noted import note
from server.api.problems import CrossSite, KeyRevoked, NotAllowed, NotSignedIn, SlowDown, UnknownKey, WrongType
from server.db import reading
from server.people import Sensor, Session, person_of, sensor_of

ANYONE = frozenset({"anyone"})
EVERY_ROLE = frozenset({"inspector", "crew_lead", "shipping", "manager", "administrator"})
# No person: a sensor's own key, good for this and nothing else.
SENSOR = frozenset({"sensor"})
READERS = frozenset({"inspector", "crew_lead", "manager"})
MANAGER, SHIPPING, ADMINISTRATOR = frozenset({"manager"}), frozenset({"shipping"}), frozenset({"administrator"})

ROLES: dict[str, frozenset[str]] = {
    "pages.page": ANYONE,
    "health.health": ANYONE,
    "openapi.description": ANYONE,
    "rules.rules": ANYONE,
    "people.names": ANYONE,
    "people.sign_in": ANYONE,
    "people.sign_out": ANYONE,
    "people.me": EVERY_ROLE,
    "people.passcode": ADMINISTRATOR,
    "people.close_account": ADMINISTRATOR,
    "sync.sync": EVERY_ROLE,
    "photos.put": EVERY_ROLE,
    "photos.rendition": EVERY_ROLE,
    "modules.modules": EVERY_ROLE,
    "modules.module": EVERY_ROLE,
    "reports.packet": EVERY_ROLE,
    "release.release": SHIPPING,
    "set_aside.kept": MANAGER,
    "set_aside.let_in": MANAGER,
    "set_aside.keep_out": MANAGER,
    "devices.write_off": MANAGER,
    "sensors.sensors": MANAGER,
    "sensors.make": MANAGER,
    "sensors.revoke": MANAGER,
    "readings.take": SENSOR,
    "csv_files.look": READERS,
    "csv_files.take": READERS,
    "csv_files.look_ahead": READERS | SHIPPING,
    "csv_files.take_ahead": READERS | SHIPPING,
}
READS = frozenset({"GET", "HEAD", "OPTIONS"})
UPLOADS = frozenset({"photos.put"})
# Neither type can be sent by a form of another site.
FILES = frozenset({"text/csv", "application/octet-stream"})


def register(app: Flask) -> None:
    app.before_request(guard)


def guard() -> None:
    """Runs before every route; what it does not let through ends as a problem."""
    endpoint = request.endpoint
    if endpoint is None:
        return  # no such route or method: Flask's own 404 or 405 follows
    allowed = ROLES.get(endpoint, frozenset())
    if request.method not in READS:
        same_site()
        json_only(endpoint)
    if allowed == ANYONE:
        return
    if allowed == SENSOR:
        g.sensor = sensor()
        return
    session = who()
    held = roles_of(session.person)
    if not held & allowed:
        note("refused", person=session.person, device=session.device)
        raise NotAllowed(f"This is for: {', '.join(sorted(allowed)) or 'nobody'}.")
    g.roles = held


def who() -> Session:
    """The session of this request; 401 when there is none."""
    session = person_of(request, current_app.extensions["clock"])
    if session is None:
        note("not_signed_in")
        raise NotSignedIn()
    g.session = session
    return session


def sensor() -> Sensor:
    """The sensor whose key this request carries; 401 when none has it, 403 when revoked, 429 too often."""
    knock = sensor_of(request, current_app.extensions["clock"])
    if knock.wait:
        raise SlowDown(f"Try again in {knock.wait} s.", headers={"Retry-After": str(knock.wait)})
    if knock.sensor is None:
        note("unknown_key")
        raise UnknownKey()
    if knock.sensor["revoked_at"] is not None:
        note("revoked_key", sensor=knock.sensor["id"])
        raise KeyRevoked()
    return knock.sensor


def roles_of(person: str) -> frozenset[str]:
    with reading() as conn:
        part = journal.part(conn, "person", person)
    return frozenset(part["roles"]) & EVERY_ROLE if part else frozenset()


def same_site() -> None:
    """A browser says where a request comes from; a script that carries a bearer token sends neither header."""
    site = request.headers.get("Sec-Fetch-Site")
    if site is not None:
        if site not in ("same-origin", "none"):
            raise cross_site()
        return
    origin = request.headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc != request.host:
        raise cross_site()
    if origin is None and request.cookies and "Authorization" not in request.headers:
        raise CrossSite("A request with a cookie must say where it comes from (Sec-Fetch-Site or Origin).")


def cross_site() -> CrossSite:
    note("cross_site", origin=request.headers.get("Origin", "")[:200])
    return CrossSite()


def json_only(endpoint: str) -> None:
    """A form of another site can send text or a form, never JSON without asking first."""
    if endpoint in UPLOADS or not (request.mimetype or request.content_length):
        return
    if endpoint.startswith("csv_files."):
        if request.mimetype not in FILES:
            raise WrongType("Send the file as text/csv.", headers={"Accept": "text/csv"})
    elif request.mimetype != "application/json":
        raise WrongType("Send application/json.", headers={"Accept": "application/json"})
