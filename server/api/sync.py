"""Push and pull, one round trip."""

from flask import Blueprint, Response, current_app, g

from server import journal, photos
from server.api import limits, schemas, types
from server.api.bodies import asked, said
from server.api.described import described
from server.api.offered import judged
from server.api.problems import OtherDevice, TooLarge, UnknownDevice
from server.db import reading

blueprint = Blueprint("sync", __name__)


@blueprint.post("/sync")
@described(asks=schemas.SyncAsk, refuses=(400, 409, 413, 415, 422, 429))
def sync() -> Response:
    """Takes a phone's entries and gives the parts that changed; the same call again is right."""
    limits.push()
    call = asked(schemas.SyncAsk())
    if call["device"] != g.session.device:
        raise OtherDevice()
    learn()
    entries = call.pop("entries")
    if len(entries) > schemas.ENTRIES:
        raise TooLarge(f"At most {schemas.ENTRIES} entries in one push.")
    offered = [judged(entry) for entry in entries]
    try:
        answer = journal.sync(call, offered, current_app.extensions["clock"])
    except journal.UnknownDevice as error:
        raise UnknownDevice() from error
    here_already(offered)
    return said(answer)


def learn() -> None:
    """Once for each start: a newer program may know kinds that an older one had to set aside."""
    if not current_app.extensions.get("learnt"):
        journal.judge_again(judged, current_app.extensions["clock"])
        current_app.extensions["learnt"] = True


def here_already(offered: list[journal.Offered]) -> None:
    """After a restore the phone offers its photo's entry again but may have dropped the bytes: those are here still."""
    here = [sha256 for one in offered if (sha256 := _photo_of(one)) and photos.has(sha256)]
    if not here:
        return
    with reading() as conn:
        awaited = set(journal.photos_awaited(conn))
    for sha256 in awaited.intersection(here):
        journal.photo_arrived(sha256, current_app.extensions["clock"])


def _photo_of(one: journal.Offered) -> str | None:
    """The hash of the bytes that an entry names. Under rules of a later version its body may be anything."""
    if one.problem or one.fields is None or one.fields["kind"] != "photo.added":
        return None
    sha256 = one.fields["body"].get("sha256")
    return sha256 if types.sha256(sha256) else None
