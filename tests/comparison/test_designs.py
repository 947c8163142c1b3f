"""Every design answers in order and always the same; the rival learners do learn; the tables hold what was asked."""

from __future__ import annotations

import dataclasses
import itertools

import numpy as np
import pytest

from scheduler.forecast import model
from scheduler.forecast.draws import dice
from tests.comparison.answer import PROBABILITIES, SAMPLE
from tests.comparison.asking import ask
from tests.comparison.cases import Case, kitchen, of_cook
from tests.comparison.designs import DESIGNS, OURS, VARIANTS, gauss_newton, reweighted, square_root
from tests.comparison.fresh import fresh_cooks
from tests.comparison.past import Unknowns, past
from tests.comparison.table import report
from tests.skill.cooks import all_cooks
from tests.skill.rivals import LONGEST_MIN

CASES = kitchen(2)


def _asked(design: str, case: Case) -> tuple[float, ...]:
    model.forget()
    answer = DESIGNS[design](case.question, case.target_c)
    return (*answer.quantiles, *answer.sample)


@pytest.mark.parametrize("design", DESIGNS)
def test_quantiles_are_in_order(design: str) -> None:
    """Later quantiles are later times, in the sample too, and all lie between meat on and the horizon."""
    for case in CASES:
        found = _asked(design, case)
        quantiles, sample = found[: len(PROBABILITIES)], found[len(PROBABILITIES) :]
        assert len(sample) == SAMPLE
        for some in (quantiles, sample):
            assert all(early <= late for early, late in itertools.pairwise(some))
            assert some[0] > 0.0
            assert some[-1] <= LONGEST_MIN


@pytest.mark.parametrize("design", DESIGNS)
def test_the_same_question_has_the_same_answer(design: str) -> None:
    """A design asked twice says the same to the last bit, whatever was asked in between."""
    first = [_asked(design, case) for case in CASES]
    assert [_asked(design, case) for case in reversed(CASES)] == first[::-1]


def test_the_variants_start_from_the_engine_itself() -> None:
    """With as many members and the same dice a variant answers what the engine answers; with others it does not."""
    for case in CASES:
        asked = (case.question, case.target_c)
        assert square_root.variant()(*asked) == DESIGNS[OURS](*asked)
        others = [predict(*asked) for name, predict in VARIANTS.items() if name != OURS]
        assert len({one.sample for one in others}) == len(others)


def test_gauss_newton_finds_a_piece_that_agrees_better_than_the_median_piece() -> None:
    """Readings and prior together are less at odds with the most probable piece than with the prior's median."""
    for case in CASES:
        known = past(case.question)
        space = gauss_newton.space_of(known, dice(known.of.seed, gauss_newton.MEMBERS))
        best, _, inflation = gauss_newton.most_probable(space)
        noise = known.raised(inflation)
        usual = np.zeros_like(best)
        seen = [space.linear(x)[0] for x in (best, usual)]
        agrees = [gauss_newton.misfit(known, noise, x, found) for x, found in zip((best, usual), seen, strict=True)]
        assert agrees[0] < agrees[1]


def test_weights_favour_members_that_agree_and_leave_enough_of_them() -> None:
    """The weighted members lie nearer to the last reading than the prior's, and count for thirty or more."""
    for case in CASES:
        known = past(case.question)
        thrown = dice(known.of.seed, 400)
        level = np.zeros_like(thrown.pit)
        prior = Unknowns(parameters=thrown.parameters, heat=thrown.heat, vapour=thrown.vapour, pit_path=level)
        seen = known.seen(prior)
        weight = reweighted.weights(known, seen)
        off = np.abs(seen[-1] - known.told_c[-1])
        assert weight @ off < off.mean()
        assert 1.0 / (weight @ weight) >= reweighted.LEAST_COUNT


def test_without_readings_the_engine_and_the_textbook_form_share_one_prior() -> None:
    """All that is special to the learners vanishes with the readings: medians agree to what other dice do."""
    for case in CASES:
        question = dataclasses.replace(case.question, readings=(), pit_readings=(), wraps=())
        now = {name: DESIGNS[name](question, case.target_c).at(0.5) for name in list(DESIGNS)[:4]}
        assert list(now.values()) == pytest.approx([now[OURS]] * 4, rel=0.06), now


def test_other_dice_move_only_the_designs_that_throw_them() -> None:
    """Another name of the cook is other luck for the designs that draw, and nothing to those that do not."""
    found = ask(DESIGNS, CASES[:1], ("", ", again"))
    moved = {name for name in DESIGNS if len({one.foretold.quantiles for one in found if one.design == name}) > 1}
    assert moved == set(list(DESIGNS)[:5])


def test_fresh_cooks_are_not_the_committed_ones() -> None:
    """Another seed makes other cooks, in the form of the committed ones and with the truth kept beside."""
    committed = {(one.id, tuple(one.rows)) for one in all_cooks()}
    found = fresh_cooks(7, 1)
    assert len(found) == len({one.family for one in all_cooks()})
    assert not {(one.id, tuple(one.rows)) for one in found} & committed
    assert any(of_cook(one) for one in found)


def test_the_tables_hold_every_design() -> None:
    """Each section has a line for each design, and the last one for each design but the engine."""
    sections = report(ask(DESIGNS, CASES)).split("\n\n### ")
    lines = [[line for line in section.splitlines() if line.startswith("| ")] for section in sections]
    assert all(len(found) == len(DESIGNS) + 1 for found in lines[:-1])
    assert len(lines[-1]) == len(DESIGNS)
