"""The yard's own factor: found again from simulated looks, still without data, and moved little by one bad look."""

from __future__ import annotations

import json
from math import log
from pathlib import Path
from random import Random
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.rules import tables
from server.rules.learned_factor import Observation, dry_share, learn, surprise
from tests.rules import learned_tables

LEAST = tables(1)["drying"]["limits"]["learned_least"]
FACTORS = (0.6, 0.8, 1.0, 1.2, 1.5, 1.8)
# Looks -> the largest error of the factor that is stated, once on average and once for each single yard.
STATED = {20: (0.12, 0.25), 60: (0.05, 0.15), 200: (0.04, 0.08)}
YARDS = 5
DOSE = st.integers(0, 6000)
WET = st.builds(lambda low: {"low": low, "high": None}, DOSE)
TRIED = st.builds(lambda high: {"low": None, "high": high}, DOSE)


def looked(factor: float, chance: Random, bad: float = 0.02) -> Observation:
    """One coat: it needs the factor times a share that differs from coat to coat; looked at until called dry.

    A crew looks when it suits: at half the time, the next morning, two mornings later. Few looks are wrong outright.
    """
    needs, low, dose = 1000 * factor * chance.lognormvariate(0, 0.25), None, chance.uniform(300, 1200)
    while dose < needs or chance.random() < bad:
        low = round(dose)
        if chance.random() < 0.15:
            return {"low": low, "high": None}
        dose *= chance.uniform(1.15, 1.9)
    return {"low": low, "high": round(dose)}


def test_the_tables_are_those_of_the_script() -> None:
    written = Path(learned_tables.__file__).parents[2] / "server/rules/data/1/learned.json"
    assert json.loads(written.read_text("utf-8")) == learned_tables.tables()


@settings(deadline=None)
@given(st.integers(1, 6000), st.integers(50, 250))
def test_the_share_by_table_is_the_share_by_math(dose: int, percent: int) -> None:
    by_math = learned_tables.dry_share(dose / 10 / percent) * 1_000_000
    assert dry_share(dose, percent, 1) == pytest.approx(by_math, abs=70)


def test_a_known_factor_is_found_again(capsys: pytest.CaptureFixture[str]) -> None:
    rows = [f"\n{'looks':>8}{'factor':>8}{'found, mean':>13}{'mean error':>12}{'largest':>9}"]
    for looks, (on_average, at_most) in STATED.items():
        for factor in FACTORS:
            chance = Random(f"{looks} {factor}")
            found = [learn([looked(factor, chance) for _ in range(looks)], 1)["percent"] / 100 for _ in range(YARDS)]
            errors = [abs(one / factor - 1) for one in found]
            off = abs(mean(found) / factor - 1)
            rows.append(f"{looks:>8}{factor:>8}{mean(found):>13.3f}{off:>11.1%} {max(errors):>8.1%}")
            assert max(errors) <= at_most, rows[-1]
            assert off <= on_average, rows[-1]
    with capsys.disabled():
        print("\n".join(rows))


def test_no_data_moves_nothing() -> None:
    assert learn([], 1) == {"percent": 100, "looks": 0}
    assert learn([{"low": None, "high": None}] * LEAST, 1) == {"percent": 100, "looks": LEAST}


def test_it_speaks_only_from_twenty_looks() -> None:
    slow: list[Observation] = [{"low": 1500, "high": None}] * LEAST
    assert LEAST == 20
    assert learn(slow[1:], 1) == {"percent": 100, "looks": LEAST - 1}
    assert learn(slow, 1)["percent"] > 130


@settings(deadline=None, max_examples=12)
@given(st.lists(WET, min_size=20, max_size=40))
def test_not_dry_never_shortens(wet: list[Observation]) -> None:
    assert learn(wet, 1)["percent"] >= 100


@settings(deadline=None, max_examples=12)
@given(st.lists(TRIED, min_size=20, max_size=40))
def test_tried_and_dry_never_lengthens(tried: list[Observation]) -> None:
    assert learn(tried, 1)["percent"] <= 100


@settings(deadline=None, max_examples=12)
@given(st.lists(st.one_of(WET, TRIED), min_size=20, max_size=30), st.randoms())
def test_the_order_of_looks_changes_nothing(looks: list[Observation], chance: Random) -> None:
    again = list(looks)
    chance.shuffle(again)
    assert learn(again, 1) == learn(looks, 1)


@pytest.mark.parametrize("factor", FACTORS)
def test_one_bad_look_does_not_run_away(factor: float) -> None:
    """Whatever it says, it moves the factor of twenty looks by a few points, and weighs no more than ln 100."""
    moved = []
    for seed in range(2):
        chance = Random(seed)
        good = [looked(factor, chance, bad=0) for _ in range(LEAST)]
        before = learn(good, 1)["percent"]
        for dose in range(0, 6000, 400):
            for bad in ({"low": dose, "high": None}, {"low": None, "high": dose}):
                assert 0 <= min(surprise([bad], percent, 1) for percent in (50, 100, 250)) <= 1000 * log(100) + 1
                moved.append(abs(learn([*good, bad], 1)["percent"] - before))
    assert 0 < max(moved) <= 8 * factor, max(moved)


def test_nothing_is_dry_sooner_than_it_was_ever_found() -> None:
    """Looks that all came at the law's time fit a quick yard too; a single quick one, or two, show nothing yet."""
    late: list[Observation] = [{"low": None, "high": 1000}] * 30
    quick: list[Observation] = [{"low": None, "high": 700}]
    assert learn(late, 1)["percent"] == 100
    assert learn(late + quick * 2, 1)["percent"] == 100
    assert learn(late + quick * 3, 1)["percent"] == 70
