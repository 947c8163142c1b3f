"""Limits are told as they were published: no Fahrenheit is made by converting a rounded Celsius back."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.messages.figures import Voice, both, exactly, limit_f
from bot.messages.findings import limit_text
from bot.messages.record import limit_both
from bot.messages.steps import caution_text
from scheduler.facts import Treatment
from scheduler.safety import least_of
from scheduler.safety.limits import LIMITS, Figure
from tests.unit.scheduler.logbook import CATALOGUE, cut

F = Voice(zone="UTC", unit="F", now=dt.datetime(2026, 9, 12, 6, tzinfo=dt.UTC))
FIGURES = [figure for limit in LIMITS for figure in limit.figures if figure.unit == "F"]


@pytest.mark.parametrize("figure", FIGURES, ids=lambda f: f"{f.value:g}")
def test_every_limit_is_said_as_published(figure: Figure) -> None:
    """155 F, not 154.9; 130, 225 and 165 F: in chat, in findings, on paper, in the record."""
    assert limit_f(figure.c) == figure.value
    assert F.limit(figure.c) == f"{figure.value:g} F"
    for text in (limit_text(figure.c), limit_both(figure.c), both(figure.c)):
        assert text.startswith(f"{figure.value:g} F (")


@pytest.mark.parametrize(
    ("temp_c", "said"), [(73.83, "164.9 F"), (73.89, "165 F"), (59.94, "139.9 F"), (80.0, "176 F")]
)
def test_a_reading_is_never_rounded_onto_a_limit(temp_c: float, said: str) -> None:
    """139.9 F is under 140 F and is said so."""
    assert F.read(temp_c) == said


def test_a_wish_just_under_the_minimum_is_said_with_tenths() -> None:
    """73.8 C is 164.8 F: nobody reads "not at 165 F, at least 165 F"."""
    assert exactly(73.8) == "164.8 F (73.8 C)"


def test_a_target_that_means_the_minimum_is_the_minimum() -> None:
    """Sausages come off at 72 C by the catalogue: 160 F, not 162 F."""
    assert F.target(72.0) == "160 F"
    assert F.target(55.0) == "131 F"


def test_the_caution_of_the_minimum_is_that_of_the_piece() -> None:
    """Injected beef needs 155 F, whatever its class needs."""
    least = least_of(cut(), CATALOGUE.cuts, (Treatment.INJECTED,))
    text = caution_text("minimum", cut().safety_class, least)
    assert text.startswith("The lowest spot counts: 155 F (68.3 C)")
    assert len(text.split()) <= 20
