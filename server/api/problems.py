"""What can go wrong with a request, and the one place where it becomes an answer (RFC 9457).

    Problem
    ├── NotUnderstood 400          the body is not what the route asks for
    ├── NotSignedIn 401            no token that is good today
    │   ├── UnknownKey 401         no sensor has this key
    │   ├── WrongPasscode 401      name and passcode do not belong together
    │   └── UnknownDevice 401      an older backup came back: its person signs in on this device again
    ├── NotAllowed 403             the person's roles do not cover this route
    │   ├── KeyRevoked 403         a sensor's key that the manager has revoked
    │   ├── CrossSite 403          a browser sent it for another site
    │   └── OtherDevice 403        the session belongs to another device
    ├── NotFound 404
    ├── Conflict 409               right in itself, but not as things stand
    │   ├── Held 409               release refused, with the holds
    │   ├── Behind 409             release refused: the asker had not seen everything
    │   ├── NotWanted 409          no entry names this photo
    │   └── NoYard 409             no yard has been opened on this server
    ├── TooLarge 413
    ├── WrongType 415
    ├── NotAccepted 422            understood, but the content is not good
    ├── SlowDown 429               with Retry-After
    ├── NotNow 503                 the server has its hands full; with Retry-After
    │   └── NoPaper 503            the PDF could not be made; the log has why
    └── NoRoom 507                 the disk is full; nothing was taken

The photo room has a tree of its own (server/photos), and Flask raises HTTPException: both are translated here too.
"""

from __future__ import annotations

from typing import Any

from flask import Flask, Response, current_app, json, request
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException

from server.photos import PhotoProblem

MEDIA = "application/problem+json"
TYPE = "urn:rakelight:problem:"


class Problem(Exception):
    """`detail` is a sentence for a person; `more` are further members of the answer."""

    status, slug, title = 500, "broken", "Something broke on the server"

    def __init__(self, detail: str = "", *, headers: dict[str, str] | None = None, **more: Any) -> None:
        super().__init__(detail or self.title)
        self.detail, self.headers, self.more = detail or self.title, headers or {}, more


class NotUnderstood(Problem):
    status, slug, title = 400, "not_understood", "The request could not be read"


class NotSignedIn(Problem):
    status, slug, title = 401, "not_signed_in", "Sign in first"


class WrongPasscode(NotSignedIn):
    slug, title = "wrong_passcode", "Name and passcode do not belong together"


class UnknownKey(NotSignedIn):
    slug, title = "unknown_key", "No sensor has this key: ask the manager for a new one"


class UnknownDevice(NotSignedIn):
    slug, title = "unknown_device", "Sign in again on this device"


class NotAllowed(Problem):
    status, slug, title = 403, "not_allowed", "Your roles do not cover this"


class KeyRevoked(NotAllowed):
    slug, title = "key_revoked", "This sensor's key has been revoked: ask the manager for a new one"


class CrossSite(NotAllowed):
    slug, title = "cross_site", "A request from another site is refused"


class OtherDevice(NotAllowed):
    slug, title = "other_device", "This sign-in belongs to another device"


class NotFound(Problem):
    status, slug, title = 404, "not_found", "There is nothing here"


class Conflict(Problem):
    status, slug, title = 409, "conflict", "Not as things stand"


class Held(Conflict):
    slug, title = "held", "Something still stops this module"


class Behind(Conflict):
    slug, title = "behind", "Something about this module has not been seen yet"


class NotWanted(Conflict):
    slug, title = "not_wanted", "No entry names this photo yet"


class NoYard(Conflict):
    slug, title = "no_yard", "No yard has been opened on this server"


class TooLarge(Problem):
    status, slug, title = 413, "too_large", "More than this route takes at once"


class WrongType(Problem):
    status, slug, title = 415, "wrong_type", "The content type is not the one this route takes"


class NotAccepted(Problem):
    status, slug, title = 422, "not_accepted", "The content is not good"


class SlowDown(Problem):
    status, slug, title = 429, "slow_down", "Too many tries"


class NotNow(Problem):
    status, slug, title = 503, "not_now", "The server has its hands full"


class NoPaper(NotNow):
    slug, title = "no_paper", "The PDF could not be made"


class NoRoom(Problem):
    status, slug, title = 507, "no_room", "The server's disk is full"


def answer(status: int, slug: str, title: str, detail: str, **more: Any) -> Response:
    """One problem as a response; `type` is TYPE and the slug."""
    body = {"type": TYPE + slug, "title": title, "status": status, "detail": detail, **more}
    return Response(json.dumps(body), status=status, content_type=MEDIA)


def translate(error: Exception) -> Response:
    """Any exception that leaves a route, as its problem."""
    if isinstance(error, Problem):
        response = answer(error.status, error.slug, error.title, error.detail, **error.more)
        response.headers.update(error.headers)
        if error.status == 401:
            response.headers["WWW-Authenticate"] = 'Bearer realm="rakelight"'
        return response
    if isinstance(error, HTTPException):
        return _plain(error)
    if isinstance(error, PhotoProblem):
        words = type(error).__doc__ or ""
        return answer(error.status, error.key.replace(".", "_"), words.split(". ")[0].strip(), words, again=error.again)
    if isinstance(error, OperationalError) and "full" in str(error.orig):
        return translate(NoRoom())
    return _broken(error)


def _plain(error: HTTPException) -> Response:
    """Flask's and Werkzeug's own refusals; Allow and Retry-After stay what they were."""
    status = error.code or 500
    slug = {404: "not_found", 405: "wrong_method", 413: "too_large", 415: "wrong_type"}.get(status, f"http_{status}")
    words = error.description or error.name
    if status == 413:
        words = f"A body may have {request.max_content_length} bytes here: send it in parts, or packed with gzip."
    response = answer(status, slug, error.name, words)
    for name, value in error.get_headers():
        if name in ("Allow", "Retry-After", "Location"):
            response.headers[name] = value
    return response


def _broken(error: Exception) -> Response:
    """The log gets the whole of it, the other side only a mark to find it by."""
    mark = current_app.extensions["clock"].new_id()
    current_app.logger.error("broken %s", mark, exc_info=error)
    return answer(500, Problem.slug, Problem.title, f"It has been noted as {mark}.", mark=mark)


def register(app: Flask) -> None:
    app.register_error_handler(Exception, translate)
