"""The whole story folded anew, photos and coats and all: byte for byte what the days had made of it one by one."""

from __future__ import annotations

from pathlib import Path

from server import journal
from server.app import create_app
from server.clock import StoryClock
from server.db import db, reading
from server.settings import Settings
from tests.journal.old_parts import everything, make_old
from tests.seed.conftest import Told
from tests.sync.copies import copy_database


def test_the_story_folds_anew_to_the_same_parts(told: Told, tmp_path: Path) -> None:
    copied = tmp_path / "rakelight.sqlite"
    copy_database(told.folder / copied.name, copied)
    before = everything(copied)
    make_old(copied)
    app = create_app(Settings(data=tmp_path, testing=True), StoryClock(told.story.now))
    with app.app_context(), reading() as conn:
        found = journal.audit(conn)
        db.engine.dispose()
    assert found["problems"] == []
    assert everything(copied) == before
    assert {"coat", "air", "photo", "forecast", "learned"} <= {row["kind"] for row in before["part"]}
