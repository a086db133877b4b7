"""A phone of the demo keeps what a real one keeps, whatever happens to its signal and its answers."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from seed_demo import yard
from seed_demo.phones import Phone, PhoneError
from seed_demo.pictures import PX, Shot, draw
from seed_demo.wire import FlaskTransport, Reply, Transport, UrlTransport, call
from seed_demo.workers import Worker
from tests.loopback import on_loopback
from tests.seed.conftest import Small

SPOT = ("living", "B", 1200, 900)


def test_lost_reply_and_repeat_take_each_entry_once(small: Small) -> None:
    inspector, phone = small.inspector, small.inspector.phone
    items = [inspector.logs(small.module, "nick", SPOT) for _ in range(3)]
    assert not inspector.sync(lose_reply=True)
    assert len(phone.outbox) == 3
    items.append(inspector.logs(small.module, "dent", SPOT))
    assert inspector.sync()
    assert inspector.sync()
    assert not phone.outbox
    numbers = [(phone.part("item", item) or {})["number"] for item in items]
    assert numbers == [1, 2, 3, 4]


def test_nothing_moves_without_signal_and_everything_moves_after(small: Small) -> None:
    inspector, lead = small.inspector, small.lead
    inspector.phone.signal = False
    item = inspector.logs(small.module, "nick", SPOT)
    assert not inspector.sync()
    small.clock.forward(hours=5)
    assert lead.sync()
    assert lead.phone.part("item", item) is None
    inspector.phone.signal = True
    assert inspector.sync()
    assert lead.sync()
    part = lead.phone.part("item", item) or {}
    assert part["state"] == "open"
    assert part["time"] == "2026-12-01T15:00:00Z"


def test_wrong_clock_is_reckoned_right(small: Small) -> None:
    small.inspector.phone.clock_error = timedelta(hours=26)
    item = small.inspector.logs(small.module, "nick", SPOT)
    small.clock.forward(minutes=30)
    small.inspector.sync()
    assert (small.inspector.phone.part("item", item) or {})["time"] == "2026-12-01T15:00:00Z"


def test_half_a_push_leaves_a_tail_that_the_server_knows_of(small: Small) -> None:
    inspector, phone = small.inspector, small.inspector.phone
    for _ in range(4):
        inspector.logs(small.module, "nick", SPOT)
    assert not inspector.sync(most=1)
    assert (len(phone.outbox), phone.signal) == (3, False)
    small.lead.sync()
    device = small.lead.phone.part("device", phone.device or "") or {}
    assert device["behind"]["modules"] == [small.module]
    phone.signal = True
    inspector.sync()
    small.lead.sync()
    assert (small.lead.phone.part("device", phone.device or "") or {})["behind"] is None


def test_photo_goes_after_its_entry(small: Small) -> None:
    inspector = small.inspector
    item = inspector.logs(small.module, "dent", SPOT)
    photo = inspector.photographs(small.module, draw(Shot("w", 700)), PX, "before", items=[(item, 600, 450)])
    inspector.sync(most=2)
    small.lead.sync()
    assert (small.lead.phone.part("photo", photo) or {})["arrived"] is False
    inspector.phone.signal = True
    inspector.sync()
    small.lead.sync()
    assert not inspector.phone.photos
    assert (small.lead.phone.part("photo", photo) or {})["arrived"] is True


def test_shared_phone_keeps_one_count_and_both_authors(small: Small) -> None:
    lead = next(one for one in yard.PEOPLE if one.name == small.lead.name)
    item = small.inspector.logs(small.module, "nick", SPOT)
    other = Worker(small.inspector.phone, lead.name, lead.passcode)
    other.clears(small.module, item)
    assert [entry["n"] for entry in small.inspector.phone.outbox] == [1, 2]
    other.sync()
    part = small.inspector.phone.part("item", item) or {}
    assert (part["state"], part["by"], part["hands"]) == ("cleared", small.inspector.id, [other.id])


class Portal:
    """A captive portal or a broken proxy: answers in the server's place once it is switched on."""

    def __init__(self, behind: Transport) -> None:
        self.behind, self.answer = behind, None

    answer: Reply | None

    def send(self, method: str, path: str, data: bytes, headers: Mapping[str, str]) -> Reply:
        return self.answer or self.behind.send(method, path, data, headers)


VERDICTS = {"rakelight": 1, "epoch": "e", "parts": [], "gone": [], "cursor": 1, "chain": "00", "more": False}


@pytest.mark.parametrize(
    "answer",
    [
        Reply(200, {}),
        Reply(200, {**VERDICTS, "verdicts": []}),
        Reply(502, {}),
    ],
)
def test_an_answer_that_is_not_ours_takes_nothing_out_of_the_outbox(small: Small, answer: Reply) -> None:
    phone = small.inspector.phone
    portal = Portal(phone.transport)
    phone.transport, portal.answer = portal, answer
    small.inspector.logs(small.module, "nick", SPOT)
    with pytest.raises(PhoneError):
        small.inspector.sync()
    assert len(phone.outbox) == 1
    portal.answer = None
    assert small.inspector.sync()


def test_the_same_phone_over_a_real_address(small: Small) -> None:
    with on_loopback(small.app, threads=2) as port:
        transport = UrlTransport(f"http://127.0.0.1:{port}")
        assert call(transport, "GET", "/api/health").status == 200
        person = next(one for one in yard.PEOPLE if one.name == small.inspector.name)
        phone = Phone(transport, small.clock.now, ZoneInfo(yard.ZONE), "over the network")
        with pytest.raises(PhoneError, match="401"):
            phone.sign_in(person.name, "not the passcode")
        worker = Worker(phone, person.name, person.passcode)
        item = worker.logs(small.module, "nick", SPOT)
        assert worker.sync()
        assert (phone.part("item", item) or {})["number"] == 1


def test_transports_are_interchangeable(small: Small) -> None:
    assert call(FlaskTransport(small.app), "GET", "/api/no-such-thing").status in (401, 404)
