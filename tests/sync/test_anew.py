"""Days full of bad luck, folded anew by a server that finds parts of another form: byte for byte the same parts."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from server import journal
from server.app import create_app
from server.db import db, reading
from server.settings import Settings
from tests.journal.old_parts import everything, form_of, make_old
from tests.sync.copies import copy_database
from tests.sync.day import Day
from tests.sync.settled import quiesce
from tests.sync.world import World

DAYS = 3


@pytest.mark.parametrize("seed", range(DAYS))
def test_a_day_folds_anew_to_the_same_parts(world: World, seed: int, tmp_path: Path) -> None:
    Day(world).hour(Random(seed), 150)
    quiesce(world)
    copied = tmp_path / world.database.name
    copy_database(world.database, copied)
    before = everything(copied)
    make_old(copied)
    app = create_app(Settings(data=tmp_path, testing=True), world.clock)
    with app.app_context(), reading() as conn:
        found = journal.audit(conn)
        db.engine.dispose()
    assert found["problems"] == []
    assert everything(copied) == before
    assert form_of(copied) > 0
    kinds = {row["kind"] for row in before["part"]}
    assert {"module", "item", "set_aside", "device", "sheet", "person", "yard"} <= kinds
    assert len(before["entry"]) > 200
