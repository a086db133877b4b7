"""What is no coat, no look, no air and no night is set aside as it came; what waits for its coat comes in after it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from server.rules import air_id, forecast_id, heat_id, learned_id, seconds, stream_id
from tests.phone import Phone

Phones = dict[str, Phone]
Body = dict[str, Any]
TAPE: Body = {"coat": "tape", "rooms": ["bed1", "bath"], "material": "drying_type"}
ROOM: Body = {"where": "room", "room": "bath", "source": "hand"}
AT = "2026-12-02T14:00:00Z"
NIGHT = {"from": "2026-12-02T23:00:00Z", "to": "2026-12-03T13:00:00Z", "low": -11}
BAD_COATS: list[Body] = [
    {"coat": "mud"},
    {"material": "plaster"},
    {"thickness": "2 mm"},
    {"rooms": []},
    {"rooms": ["bath", "bath"]},
    {"rooms": [f"r{place}" for place in range(61)]},
    {"surface": "B"},
    {"surface": "floor", "rooms": ["bath"]},
    {"surface": "trim", "rooms": ["bath"]},
    {"paint": {"brand": "x"}},
    {"paint": None},
    {"laid_at": "2026-12-02T08:00:00-06:00"},
    {"laid_at": "2026-02-30T08:00:00Z"},
    {"set_minutes": -1},
    {"early": "  "},
    {"early": ""},
]
BAD_ROWS: dict[str, list[list[Any]]] = {
    "RH 130": [[AT, 211, 130, None]],
    "RH -5": [[AT, 211, -5, None]],
    "RH 101": [[AT, 211, 101, None]],
    "700 °F": [[AT, 3711, 50, None]],
    "60.1 °C": [[AT, 601, 50, None]],
    "-60.1 °C": [[AT, -601, 50, None]],
    "a surface of 700 °F": [[AT, 211, 50, 3711]],
    "a fraction": [[AT, 21.1, 50, None]],
    "no surface told": [[AT, 211, 50]],
    "a local time": [["2026-12-02T08:00:00-06:00", 211, 50, None]],
    "a day that does not exist": [["2026-02-30T08:00:00Z", 211, 50, None]],
    "nothing": [],
    "501 rows": [[AT, 211, 50, None]] * 501,
}
GOOD_ROWS: dict[str, list[list[Any]]] = {
    "RH 0": [[AT, 211, 0, None]],
    "RH 100": [[AT, 211, 100, None]],
    "the ends": [[AT, -600, 50, -600], [AT, 600, 50, 600]],
    "out of order and twice": [[AT, 211, 50, None], ["2026-12-02T13:00:00Z", 211, 50, None], [AT, 211, 50, None]],
    "500 rows": [[AT, 211, 50, None]] * 500,
}


def sent(phone: Phone, kind: str, about: str, module: str | None, bodies: list[Body]) -> list[str | None]:
    """For each body, told one after the other in one push, why it was set aside; None for what was taken."""
    for body in bodies:
        phone.write(kind, phone.clock.new_id() if about == "new" else about, body, module)
    return [verdict.get("set_aside") for verdict in phone.sync()["verdicts"]]


def yard_of(phone: Phone) -> str:
    phone.sync()
    return next(part_id for kind, part_id in phone.parts if kind == "yard")


def lay(phone: Phone, module: str, **changed: Any) -> str:
    coat = phone.clock.new_id()
    assert sent(phone, "coat.laid", coat, module, [{**TAPE, **changed}]) == [None]
    return coat


def test_what_is_no_coat_is_set_aside_and_holds_nothing_up(phones: Phones, module: str) -> None:
    bodies = [
        {**TAPE, **changed} for changed in [*BAD_COATS, {}, {"rooms": ["bath"], "surface": "ceiling", "paint": {}}]
    ]
    found = sent(phones["crew_lead"], "coat.laid", "new", module, bodies)
    refused = dict(zip(map(str, BAD_COATS), found, strict=False))
    assert {name: reason for name, reason in refused.items() if reason != "malformed"} == {}
    assert found[len(BAD_COATS) :] == [None, None]


def test_what_is_no_air_is_set_aside_and_the_ends_of_what_is_are_taken(phones: Phones, module: str) -> None:
    rows = {**BAD_ROWS, **GOOD_ROWS}
    bodies = [{**ROOM, "rows": one} for one in rows.values()]
    found = dict(
        zip(rows, sent(phones["shipping"], "reading.taken", stream_id(module, "bath"), module, bodies), strict=True)
    )
    assert found == {**dict.fromkeys(BAD_ROWS, "malformed"), **dict.fromkeys(GOOD_ROWS)}


def test_a_reading_says_whose_air_it_is(phones: Phones, module: str) -> None:
    phone, yard = phones["inspector"], yard_of(phones["inspector"])
    other = {"source": "hand", "rows": [[AT, 211, 50, None]]}
    wrong: list[tuple[str, str | None, Body]] = [
        (stream_id(module, "bath"), module, {"where": "room"}),
        (stream_id(module, "hall"), module, {"where": "room", "room": "bath"}),
        (stream_id(module), module, {"where": "module", "room": "bath"}),
        (stream_id(module), module, {"where": "yard"}),
        (stream_id(yard), None, {"where": "module"}),
        (stream_id(yard), None, {"where": "yard", "room": "bath"}),
        (stream_id(module), None, {"where": "yard"}),
        (forecast_id(yard), None, {"where": "yard"}),
    ]
    for about, where, body in wrong:
        assert sent(phone, "reading.taken", about, where, [{**body, **other}]) == ["malformed"], body
    assert sent(phone, "reading.taken", stream_id(module), module, [{"where": "module", **other}]) == [None]
    assert sent(phone, "reading.taken", stream_id(yard), None, [{"where": "yard", **other}]) == [None]


def test_readings_are_kept_by_day_with_rows_in_order(phones: Phones, module: str) -> None:
    phone = phones["inspector"]
    now = phone.clock.now()
    told = [(now - timedelta(minutes=ago)).strftime("%Y-%m-%dT%H:%M:%SZ") for ago in (5, 65)]
    ahead = (now + timedelta(days=400)).strftime("%Y-%m-%dT%H:%M:%SZ")
    rows = [[one, 211, 50, None] for one in (told[0], ahead, told[1], told[0])]
    stream = stream_id(module, "bath")
    assert sent(phone, "reading.taken", stream, module, [{**ROOM, "rows": rows}]) == [None]
    kept = {part_id: part for (kind, part_id), part in phone.parts.items() if kind == "air"}
    assert set(kept) == {air_id(stream, seconds(one)) for one in told}
    times = [row[0] for part in sorted(kept.values(), key=lambda part: str(part["day"])) for row in part["rows"]]
    assert times == [seconds(told[1]), seconds(told[0])]


def test_heat_and_nights_are_about_this_module_and_this_yard(phones: Phones, module: str) -> None:
    manager = phones["manager"]
    yard = yard_of(manager)
    assert sent(manager, "heat.told", heat_id(module), module, [{"on": True, "to": 211}]) == [None]
    assert sent(manager, "heat.told", heat_id(yard), module, [{"on": True}]) == ["malformed"]
    assert sent(manager, "forecast.told", forecast_id(yard), None, [{"nights": [NIGHT], "source": "typed"}]) == [None]
    assert sent(manager, "forecast.told", forecast_id(module), None, [{"nights": [NIGHT], "source": "typed"}]) == [
        "malformed"
    ]
    backwards = {**NIGHT, "to": NIGHT["from"]}
    bad: list[list[Body]] = [[], [NIGHT] * 15, [backwards], [{**NIGHT, "low": 999}]]
    bodies = [{"nights": nights, "source": "typed"} for nights in bad]
    assert sent(manager, "forecast.told", forecast_id(yard), None, bodies) == ["malformed"] * 4


def test_what_the_yard_has_learned_is_the_servers_to_say(phones: Phones) -> None:
    manager = phones["manager"]
    body = {"factors": {"drying_type": {"percent": 60, "looks": 500}}}
    assert sent(manager, "drying.learned", learned_id(yard_of(manager)), None, [body]) == ["not_your_role"]


def test_a_reason_to_cover_early_is_the_crew_leads_to_give(phones: Phones, module: str) -> None:
    early = [{**TAPE, "early": "rain tonight"}]
    assert sent(phones["inspector"], "coat.laid", "new", module, early) == ["not_your_role"]
    assert sent(phones["crew_lead"], "coat.laid", "new", module, early) == [None]


def test_a_look_that_comes_before_its_coat_is_let_in_after_it(phones: Phones, module: str) -> None:
    lead, inspector = phones["crew_lead"], phones["inspector"]
    coat = lead.clock.new_id()
    assert sent(inspector, "coat.found_wet", coat, module, [{"rooms": ["bath"]}]) == ["not_arrived"]
    assert sent(lead, "coat.laid", coat, module, [TAPE]) == [None]
    part = lead.part("coat", coat)
    assert part["cells"]["bath"]["wet"]["by"] == inspector.person
    assert list(part["cells"]["bath"]["objections"]) == ["*"]
    assert [line.get("let_in") for line in part["lines"]] == [None, 1]


def test_a_reading_that_comes_before_its_module_is_let_in_after_it(phones: Phones) -> None:
    lead, manager = phones["crew_lead"], phones["manager"]
    made = manager.clock.new_id()
    stream, time = stream_id(made, "bath"), lead.clock.now().strftime("%Y-%m-%dT%H:%M:%SZ")
    body = {**ROOM, "rows": [[time, 211, 50, None]]}
    assert sent(lead, "reading.taken", stream, made, [body]) == ["not_arrived"]
    assert sent(manager, "module.added", made, made, [{"serial": "LM-0502-A", "home": "LM-0502"}]) == [None]
    assert manager.part("air", air_id(stream, seconds(time)))["rows"][0][1:3] == [211, 50]


def test_a_coat_is_spoken_of_in_its_own_module(phones: Phones, module: str) -> None:
    lead, manager = phones["crew_lead"], phones["manager"]
    other = manager.clock.new_id()
    assert sent(manager, "module.added", other, other, [{"serial": "LM-0503-A", "home": "LM-0503"}]) == [None]
    coat = lay(lead, module)
    assert sent(lead, "coat.found_wet", coat, other, [{"rooms": ["bath"]}]) == ["malformed"]
    assert sent(lead, "coat.voided", coat, module, [{"reason": " "}]) == ["malformed"]
    assert sent(lead, "coat.voided", coat, module, [{"reason": "wrong room"}]) == [None]
    assert lead.part("coat", coat)["void"]["reason"] == "wrong room"


def test_schedules_and_the_plants_own_words_name_coats_that_there_are(phones: Phones, module: str) -> None:
    manager = phones["manager"]
    good: list[Body] = [{"coats": {"*": ["tape", "prime"], "bath": []}}, {"coats": {}}]
    bad: list[Body] = [{"coats": {"*": ["mud"]}}, {"coats": {"*": ["tape", "tape"]}}, {"coats": ["tape"]}]
    assert sent(manager, "module.amended", module, module, [*good, *bad]) == [None, None, *["malformed"] * 3]
    words = {
        "order": ["tape", "prime", "texture"],
        "names": {"first": "Box coat"},
        "crews": {"paint": "north"},
        "learned": False,
    }
    wrong: list[Body] = [{"names": {"first": ""}}, {"crews": {"mud": "north"}}, {"learned": 1}, {"order": ["mud"]}]
    bodies = [{"coats": one} for one in [words, {}, *wrong]]
    assert sent(manager, "yard.amended", yard_of(manager), None, bodies) == [None, None, *["malformed"] * 4]
