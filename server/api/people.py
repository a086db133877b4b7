"""Signing in and out, and giving people their passcodes."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, current_app, g, request
from sqlalchemy import Connection

from server import journal, people
from server.api import schemas
from server.api.bodies import asked, said
from server.api.described import described
from server.api.noted import note
from server.api.problems import (
    Conflict,
    NotAccepted,
    NotFound,
    NotSignedIn,
    NoYard,
    OtherDevice,
    SlowDown,
    WrongPasscode,
)
from server.db import reading, writing

blueprint = Blueprint("people", __name__)


@blueprint.get("/people/names")
@described()
def names() -> Response:
    """The names that can sign in, for the list on the first screen."""
    with reading() as conn:
        return said({"names": [row["name"] for row in people.accounts(conn)]})


@blueprint.get("/people/me")
@described()
def me() -> Response:
    """Whose session this is, and of which device."""
    with reading() as conn:
        return said({"person": person_shown(conn, g.session.person), "device": g.session.device})


@blueprint.post("/sign-in")
@described(asks=schemas.SignIn, refuses=(400, 401, 403, 409, 413, 415, 422, 429))
def sign_in() -> Response:
    """Name and passcode for a session: a cookie for a browser, or with `token` a bearer token for a script."""
    ask, clock = asked(schemas.SignIn()), current_app.extensions["clock"]
    checked = people.check_passcode(ask["name"], ask["passcode"], request.remote_addr or "", clock)
    if checked.wait:
        note("sign_in_delayed", wait=checked.wait)
        raise SlowDown(f"Try again in {checked.wait} s.", headers={"Retry-After": str(checked.wait)})
    if checked.person is None:
        note("sign_in_failed")
        raise WrongPasscode()
    bearer, open_now = ask.get("token", False), people.person_of(request, clock)
    with writing() as conn:
        facts = journal.yard_facts(conn)
        if facts is None:
            raise NoYard()
        device = enrolled(conn, ask, checked.person, open_now)
        token = people.start_session(conn, checked.person, device, "bearer" if bearer else "cookie", clock)
        answer = {
            "yard": facts["yard"],
            "epoch": facts["epoch"],
            "device": device,
            "person": person_shown(conn, checked.person),
        }
    # Only now: a sign-in that is refused leaves the phone with whoever holds it.
    people.end_session(request)
    note("signed_in", person=checked.person, device=device, kind="bearer" if bearer else "cookie")
    if bearer:
        return said({**answer, "token": token})
    response = said(answer)
    settings = current_app.extensions["settings"]
    response.set_cookie(
        people.COOKIE,
        token,
        max_age=30 * 86_400,
        path="/",
        httponly=True,
        samesite="Strict",
        secure=settings.secure_cookies,
    )
    return response


def enrolled(conn: Connection, ask: dict[str, Any], person: str, open_now: people.Session | None) -> str:
    """The device that this person works on from now on: the one that the phone names as its own, or a new enrolment."""
    clock, named = current_app.extensions["clock"], ask.get("device")
    if named is None:
        device, before = journal.enrol(conn, person, clock), set[str]()
    else:
        before = journal.people_on(conn, named)
        device = journal.admit(conn, named, person, clock)
    first = not before or person in before or (open_now is not None and open_now.device == device)
    if not people.is_its_phone(conn, device, ask.get("device_key"), may_be_first=first):
        note("other_phone", person=person, device=device)
        raise OtherDevice("This enrolment is another phone's. Sign in without it for a new one.")
    return device


def person_shown(conn: Connection, person: str) -> dict[str, Any]:
    """What the phone may know of the person, and nothing of the account."""
    part = journal.part(conn, "person", person)
    if part is None:
        raise NotSignedIn("The journal does not know this person.")
    return {"id": person, "name": part["name"], "roles": part["roles"], "crew": part.get("crew")}


@blueprint.post("/sign-out")
@described(refuses=(403,))
def sign_out() -> Response:
    """Ends the session of this request; what the phone has not sent stays on the phone."""
    people.end_session(request)
    response = said({"signed_out": True})
    response.delete_cookie(people.COOKIE, path="/", httponly=True, samesite="Strict")
    return response


@blueprint.post("/people/<person>/passcode")
@described(asks=schemas.Passcode, refuses=(400, 404, 409, 413, 415, 422))
def passcode(person: str) -> Response:
    """Gives a person whom the journal names a passcode, the first or a new one; ends their sessions."""
    ask = asked(schemas.Passcode())
    with writing() as conn:
        part = journal.part(conn, "person", person)
        if part is None:
            raise NotFound("The journal names no such person.")
        if not part["roles"]:
            # Crew leads name people without roles and may amend them: those are no names to sign in with.
            raise NotAccepted("Give this person a role first.")
        problem = people.problem_with(ask["passcode"], part["name"])
        if problem:
            raise NotAccepted(problem)
        if not people.set_passcode(conn, person, part["name"], ask["passcode"]):
            raise Conflict("Somebody else signs in under this name.")
    note("passcode_set", by=g.session.person, person=person)
    return said({"person": person, "name": part["name"]})


@blueprint.post("/people/<person>/close-account")
@described(refuses=(400, 404, 409))
def close_account(person: str) -> Response:
    """The person cannot sign in any more; what they wrote stays theirs. A new passcode opens the account again."""
    with writing() as conn:
        if journal.part(conn, "person", person) is None:
            raise NotFound("The journal names no such person.")
        if last_administrator(conn, person):
            raise Conflict(
                "This is the last administrator who can sign in: give another that role and a passcode first."
            )
        people.disable(conn, person)
        journal.expel(conn, person)
    note("account_closed", by=g.session.person, person=person)
    return said({"person": person, "disabled": True})


def last_administrator(conn: Connection, person: str) -> bool:
    """Whether nobody could give passcodes any more if this person could not sign in."""
    named = [one["id"] for one in journal.parts_named(conn, "person") if "administrator" in one["roles"]]
    return people.usable(conn, named) <= {person} and person in named
