"""One yard for the stories of a file: each begins it anew."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.sync.world import World


@pytest.fixture(scope="module")
def world(tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    world = World(tmp_path_factory.mktemp("yard"))
    yield world
    world.close()
