"""Levers and problems have words, and the page about them names each with its figures as the catalogue has them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.messages.advice_words import LEVERS, NOTHING
from bot.messages.problems import CARDS
from scheduler.planning.remedies import Lever
from tests.fakes.kitchen import CATALOGUE

PAGE = (Path(__file__).parents[4] / "docs" / "reference" / "levers-and-problems.md").read_text(encoding="utf-8")
OFFERED = [lever for lever in CATALOGUE.remedies.levers if lever.change != "never"]


def test_every_lever_that_can_be_offered_has_words_and_no_other() -> None:
    """Names on buttons are made here only; what is never offered has none."""
    assert set(LEVERS) - {NOTHING} == {lever.id for lever in OFFERED}


@pytest.mark.parametrize("lever", OFFERED, ids=lambda lever: lever.id)
def test_the_page_names_every_lever_with_its_range(lever: Lever) -> None:
    """The reference page shows id, name and range of the trade."""
    row = re.search(rf"^\| `{lever.id}` \| (?P<name>[^|]+) \|[^|]*\|(?P<effect>[^|]*)\|", PAGE, re.MULTILINE)
    assert row is not None
    assert row["name"] == LEVERS[lever.id].name()
    if lever.effect is not None:
        scale = 100 if lever.unit == "share_left" else 1
        assert f"{lever.effect.low * scale:g} to {lever.effect.high * scale:g} " in row["effect"]


def test_the_page_names_every_problem() -> None:
    """Each problem stands on the page, those of danger marked."""
    for problem in CATALOGUE.remedies.problems:
        row = re.search(rf"^\| `{problem.id}` \| (?P<name>[^|]+) \|(?P<danger>[^|]*)\|", PAGE, re.MULTILINE)
        assert row is not None, problem.id
        assert row["name"] == CARDS[problem.id].name()
        assert bool(row["danger"].strip()) is problem.danger


@pytest.mark.parametrize("name", sorted(set(LEVERS)))
def test_what_to_do_is_short(name: str) -> None:
    """A name fits a button, and what to do once it was chosen fits two lines."""
    words = LEVERS[name]
    assert len(words.name()) <= 32
    assert len(words.cost()) <= 60
    assert len(words.do()) <= 170
