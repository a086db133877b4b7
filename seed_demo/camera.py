"""Where the camera stands: the shot that takes in all the marks of a write-up, with what the plan has on that wall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from seed_demo.blemishes import SHAPES
from seed_demo.findings import WriteUp
from seed_demo.fixtures import Fixture
from seed_demo.pictures import Blemish, Shot
from seed_demo.yard import PLANS, Json, Module

BASE = 90


@dataclass(frozen=True)
class View:
    """A shot and the pixels of each mark in it, in the write-up's order."""

    shot: Shot
    px: tuple[tuple[int, int], ...]

    def with_left(self, left: Mapping[int, float], light: str | None = None) -> Shot:
        """The same shot when only these marks are still there, by index, and how much of each."""
        kept = [replace(self.shot.blemishes[index], left=much) for index, much in left.items()]
        return replace(self.shot, blemishes=tuple(kept), light=light or self.shot.light)


def view_of(module: Module, found: WriteUp) -> View:
    """Frame a write-up's marks with some wall around them."""
    room = next(room for room in PLANS[module.plan] if room["id"] == found.room)
    along, up = [mark[1] for mark in found.marks], [mark[2] for mark in found.marks]
    reach = max(SHAPES[mark[0]][1] for mark in found.marks)
    spare = 430 if reach < 400 else 800
    width = max(max(along) - min(along) + spare, (max(up) - min(up) + spare * 0.75) / 0.75)
    tall = width * 0.75
    foot = max(-60.0, (max(up) + min(up) - tall) / 2)
    left, top = (max(along) + min(along) - width) / 2, foot + tall
    finish = {**module.finish["*"], **module.finish.get(found.room, {})}
    flat = found.surface in ("ceiling", "floor")
    shot = Shot(
        wall=found.name,
        width=width,
        blemishes=tuple(Blemish(defect, x - left, top - y) for defect, x, y in found.marks),
        light=found.light,
        texture=finish["texture"].replace(" ", "_"),
        paint=finish["paint"].replace(" ", "_"),
        fixtures=() if flat else _fixtures(room["walls"][found.surface], left, top, width),
        base_at=None if flat else top - BASE,
    )
    return View(shot, tuple(shot.px(one.x, one.y) for one in shot.blemishes))


def _fixtures(wall: Json, left: float, top: float, width: float) -> tuple[Fixture, ...]:
    found = [(one["kind"], one) for one in wall["openings"]]
    found += [("outlet" if one["name"] == "outlet" else "thing", one) for one in wall["things"]]
    return tuple(
        Fixture(look, one["along"] - left, top - one["up"] - one["h"], one["w"], one["h"])
        for look, one in found
        if -one["w"] - 60 < one["along"] - left < width + 60
    )
