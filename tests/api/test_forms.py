"""A phone whose program reads parts of another form is heard, gets its verdicts and no parts, and stays where it is."""

from __future__ import annotations

from typing import Any

import pytest

from server.rules import FIRST_LINK, FORM
from tests.phone import Phone

Phones = dict[str, Phone]
NICK = {"defect": "nick", "room": "bed1", "surface": "B", "light": "raking"}


def call(phone: Phone, form: int | None, **changed: Any) -> dict[str, Any]:
    asked = phone.envelope(**changed)
    asked.pop("form")
    response = phone.post("/api/sync", asked if form is None else {**asked, "form": form})
    assert response.status_code == 200, response.text
    answer: dict[str, Any] = response.get_json()
    return answer


@pytest.mark.parametrize("form", [None, FORM - 1, FORM + 1])
def test_another_form_gets_verdicts_and_no_parts(phones: Phones, module: str, form: int | None) -> None:
    phone = phones["inspector"]
    phone.write("item.logged", phone.clock.new_id(), NICK, module)
    answer = call(phone, form)
    assert [("seq" in one) for one in answer["verdicts"]] == [True]
    here = {"parts": [], "gone": [], "more": False, "cursor": phone.cursor, "from": phone.cursor, "chain": phone.chain}
    assert {name: answer[name] for name in here} == here
    assert (answer["form"], answer["n"], answer["epoch"]) == (FORM, 1, phone.epoch)
    assert len(call(phone, FORM, entries=[])["parts"]) > 0


def test_what_an_updated_phone_sends_first_counts_for_what_its_author_had_seen(phones: Phones, module: str) -> None:
    """From where it stood; from 0, as it will pull, the close would have seen nothing."""
    phone, lead, item = phones["inspector"], phones["crew_lead"], phones["inspector"].clock.new_id()
    phone.say("item.logged", item, NICK, module)
    lead.sync()
    lead.say("item.cleared", item, {}, module)
    phone.sync()
    close = phone.write("item.closed", item, {}, module)
    phone.queue.clear()
    call(phone, 0, entries=[close])
    lead.sync()
    assert lead.part("item", item)["state"] == "closed"
    assert call(phone, FORM, cursor=0, chain=None, entries=[])["from"] == 0


@pytest.mark.parametrize("place", [{"cursor": 0, "chain": None}, {"cursor": 3, "chain": "00"}])
def test_from_the_beginning_or_from_another_past_it_stands_at_the_beginning(
    phones: Phones, module: str, place: dict[str, Any]
) -> None:
    answer = call(phones["inspector"], 0, **place)
    assert (answer["cursor"], answer["from"], answer["chain"], answer["parts"]) == (0, 0, FIRST_LINK.hex(), [])


@pytest.mark.parametrize("form", [-1, "1", 1.0, None, True])
def test_a_form_is_a_whole_number(phones: Phones, form: Any) -> None:
    response = phones["inspector"].post("/api/sync", phones["inspector"].envelope(form=form))
    assert response.status_code == 422
    assert list(response.get_json()["fields"]) == ["form"]
