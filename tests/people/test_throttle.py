"""How fast one may guess: a delay that grows for a name, a rate for an address, and never a lock."""

from __future__ import annotations

from flask.testing import FlaskClient

from server.clock import StoryClock
from tests.phone import NAMES, PASSCODE, attempt


def test_five_wrong_tries_then_a_delay_that_grows_and_ends(client: FlaskClient, clock: StoryClock) -> None:
    for number in range(5):
        assert attempt(client, passcode="wrong one", address=f"10.0.0.{number}").status_code == 401
    waits = []
    for number in range(12):
        early = attempt(client, address=f"10.0.1.{number}")
        assert early.status_code == 429  # the right passcode too: else the delay would tell which one it is
        waits.append(int(early.headers["Retry-After"]))
        clock.forward(seconds=waits[-1])
        assert attempt(client, passcode="wrong one", address=f"10.0.2.{number}").status_code == 401
    assert waits == sorted(waits)
    assert waits[0] <= 4
    assert waits[-1] == 900
    clock.forward(seconds=900)
    assert attempt(client, address="10.0.3.1").status_code == 200
    assert attempt(client, passcode="wrong one", address="10.0.3.2").status_code == 401
    assert attempt(client, address="10.0.3.3").status_code == 200


def test_trying_during_the_delay_does_not_lengthen_it(client: FlaskClient, clock: StoryClock) -> None:
    for _ in range(5):
        attempt(client, passcode="wrong one")
    wait = int(attempt(client).headers["Retry-After"])
    for _ in range(50):
        attempt(client, passcode="wrong one")
    clock.forward(seconds=wait)
    assert attempt(client).status_code == 200


def test_one_name_delayed_leaves_the_others_alone(client: FlaskClient) -> None:
    for number in range(6):
        attempt(client, passcode="wrong one", address=f"10.0.0.{number}")
    assert attempt(client, NAMES["manager"], address="10.0.9.1").status_code == 200


def test_an_unknown_name_is_delayed_like_a_known_one(client: FlaskClient) -> None:
    found = [attempt(client, "Nobody Known", address=f"10.0.0.{number}").status_code for number in range(7)]
    assert found == [401] * 5 + [429] * 2


def test_an_address_may_be_wrong_thirty_times_a_minute(client: FlaskClient, clock: StoryClock) -> None:
    found = [attempt(client, f"Nobody {number}", "wrong one").status_code for number in range(31)]
    assert found == [401] * 30 + [429]
    assert attempt(client).status_code == 429
    assert attempt(client, address="10.0.0.2").status_code == 200
    clock.forward(seconds=60)
    assert attempt(client).status_code == 200


def test_right_passcodes_are_not_counted(client: FlaskClient) -> None:
    assert {attempt(client).status_code for _ in range(35)} == {200}


def test_a_forwarded_address_is_not_believed(client: FlaskClient) -> None:
    for number in range(30):
        attempt(client, f"Nobody {number}", "wrong one")
    ask = {"name": NAMES["inspector"], "passcode": PASSCODE}
    told = {"X-Forwarded-For": "10.9.9.9", "Forwarded": "for=10.9.9.9"}
    response = client.post("/api/sign-in", json=ask, headers=told, environ_base={"REMOTE_ADDR": "10.0.0.1"})
    assert response.status_code == 429
