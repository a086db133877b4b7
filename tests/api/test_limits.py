"""How often one person may push or print: refused with Retry-After, nothing lost, nobody else slowed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.api.limits import Buckets
from server.app import create_app
from server.cli import settings
from server.clock import StoryClock
from server.settings import Settings
from tests.conftest import START, close_app, settle
from tests.phone import Phone


def test_a_bucket_lets_a_burst_through_and_then_a_steady_flow() -> None:
    bucket = Buckets(3, 60)
    assert [bucket.take("ada", 0) for _ in range(3)] == [0, 0, 0]
    assert bucket.take("ada", 0) == 20
    assert bucket.take("ada", 12.5) == 8
    assert bucket.take("ben", 12.5) == 0
    assert [bucket.take("ada", 20), bucket.take("ada", 20)] == [0, 20]
    assert [bucket.take("ada", 1000) for _ in range(4)] == [0, 0, 0, 20]


class Steady:
    now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def steady(monkeypatch: pytest.MonkeyPatch) -> Steady:
    steady = Steady()
    monkeypatch.setattr("server.api.limits.steady", steady)
    return steady


@pytest.fixture
def few(tmp_path: Path, steady: Steady) -> Iterator[dict[str, Phone]]:
    """A yard that takes 20 pushes a minute of each person, after its first minute."""
    limits = Settings(data=tmp_path / "data", testing=True, pushes_a_minute=20, papers_an_hour=2, files_an_hour=2)
    app = create_app(limits, StoryClock(START))
    phones = settle(app)
    steady.now = 60
    yield phones
    close_app(app)


def push(phone: Phone) -> tuple[int, str | None, int]:
    """Status, Retry-After and how many verdicts."""
    answer = phone.post("/api/sync", phone.envelope())
    verdicts = len(answer.get_json()["verdicts"]) if answer.status_code == 200 else 0
    return answer.status_code, answer.headers.get("Retry-After"), verdicts


def test_pushes_beyond_the_limit_wait_and_lose_nothing(few: dict[str, Phone], steady: Steady) -> None:
    manager = few["manager"]
    made = []
    for number in range(30):
        module = manager.clock.new_id()
        manager.write("module.added", module, {"serial": f"LM-{number:04}-A", "home": f"LM-{number:04}"}, module)
        made.append(module)
    found = [push(manager) for _ in range(23)]
    assert [status for status, _, _ in found] == [200] * 20 + [429] * 3
    assert found[-1][1] == "3"
    assert push(few["inspector"])[0] == 200
    steady.now += 3
    assert push(manager) == (200, None, 30)
    steady.now += 60
    manager.sync()
    assert {part for kind, part in manager.parts if kind == "module"} >= set(made)


def test_the_refusal_is_problem_details(few: dict[str, Phone]) -> None:
    phone = few["inspector"]
    answers = [phone.post("/api/sync", phone.envelope()) for _ in range(21)]
    refused = answers[-1]
    assert refused.content_type == "application/problem+json"
    assert refused.get_json()["type"].endswith("slow_down")


def test_papers_are_counted_by_person(few: dict[str, Phone], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("server.reports.packet", lambda module, lang, clock: b"%PDF-")
    manager = few["manager"]
    module = manager.clock.new_id()
    assert "seq" in manager.say("module.added", module, {"serial": "LM-1-A", "home": "LM-1"}, module)
    found = [manager.get(f"/api/modules/{module}/packet.pdf") for _ in range(3)]
    assert [one.status_code for one in found] == [200, 200, 429]
    assert found[-1].headers["Retry-After"] == "1800"
    # Asking for a module that is not there makes no paper and is not counted.
    other = few["inspector"]
    assert [other.get(f"/api/modules/{other.clock.new_id()}/packet.pdf").status_code for _ in range(4)] == [404] * 4


def test_files_are_counted_by_person(few: dict[str, Phone]) -> None:
    """The largest one takes seconds to read."""

    def looked(phone: Phone) -> tuple[int, str | None]:
        headers = {**phone.bearer(), "Content-Type": "text/csv"}
        answer = phone.client.post("/api/forecast/csv/look", data="time,temp F\n2026-12-01 20:00,40\n", headers=headers)
        return answer.status_code, answer.headers.get("Retry-After")

    assert [looked(few["manager"]) for _ in range(3)] == [(200, None), (200, None), (429, "1800")]
    assert looked(few["shipping"]) == (200, None)


def test_a_served_yard_has_limits(tmp_path: Path) -> None:
    told = settings(tmp_path)
    assert told.pushes_a_minute == 120
    assert told.papers_an_hour == 30
    assert told.files_an_hour == 120
