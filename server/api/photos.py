"""Photos: bytes in, by their hash; renditions out."""

from flask import Blueprint, Response, current_app, request

from server import journal, photos
from server.api.bodies import said
from server.api.described import described
from server.api.problems import NotFound, NotUnderstood, NotWanted, TooLarge
from server.db import reading

blueprint = Blueprint("photos", __name__)
MEDIA = ("image/jpeg", "image/png", "image/webp")


@blueprint.put("/photos/<sha256>")
@described(asks=MEDIA, status=201, refuses=(400, 404, 409, 413, 415, 422, 507))
def put(sha256: str) -> Response:
    """Takes the bytes of a photo that an entry names; 200 instead of 201 when they were here already."""
    request.max_content_length = photos.MOST_BYTES
    if (request.content_length or 0) > photos.MOST_BYTES:
        raise TooLarge(f"A photo may have {photos.MOST_BYTES} bytes.")
    if request.headers.get("Content-Encoding"):
        raise NotUnderstood("A photo is sent as it is, without Content-Encoding.")
    with reading() as conn:
        if not journal.photo_wanted(conn, sha256):
            raise NotWanted()
    got = photos.receive(sha256, request.get_data(cache=False), request.mimetype)
    journal.photo_arrived(sha256, current_app.extensions["clock"])
    return said({"sha256": got.sha256}, 201 if got.new else 200)


@blueprint.get("/photos/<sha256>/<size>.jpg")
@described(gives="image/jpeg", refuses=(404,))
def rendition(sha256: str, size: str) -> Response:
    """A photo as it is shown: screen, paper or thumb; made from what was sent, without its metadata."""
    with reading() as conn:
        if not journal.photo_wanted(conn, sha256):
            raise NotFound("There is no such photo.")
    response = Response(photos.rendition(sha256, size), content_type="image/jpeg")
    response.headers["Content-Security-Policy"] = "default-src 'none'; sandbox"
    response.headers["Content-Disposition"] = f'inline; filename="{size}.jpg"'
    # The bytes under one hash never change; private, because a photo is for people who are signed in.
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response
