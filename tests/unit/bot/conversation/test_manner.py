"""How a room wishes to be spoken to: language and unit, from a whole text alone."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Literal

import pytest

from bot.commands import MannerSaid
from bot.conversation.context import Context
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import setting

NONE, RUNNING, RESTING = "stage=none", "unit=F stage=cooking", "unit=C stage=resting"


@pytest.mark.parametrize(
    ("text", "language", "unit"),
    [
        ("auf deutsch", "de", None),
        ("Deutsch", "de", None),
        ("deutsch bitte!", "de", None),
        ("kannst du deutsch?", "de", None),
        ("language german", "de", None),
        ("/language de", "de", None),
        ("Sprache: Deutsch", "de", None),
        ("english please", "en", None),
        ("auf englisch", "en", None),
        ("celsius", None, "C"),
        ("units C", None, "C"),
        ("switch to celsius", None, "C"),
        ("in Grad Celsius bitte", None, "C"),
        ("use fahrenheit", None, "F"),
        ("Fahrenheit please", None, "F"),
        ("auf deutsch und in celsius", "de", "C"),
        ("language french", "french", None),
        ("units", None, None),
        ("Sprache", None, None),
    ],
)
@pytest.mark.parametrize("here", [NONE, RUNNING, RESTING])
def test_a_wish_is_heard_at_any_stage(
    text: str, language: str | None, unit: Literal["C", "F"] | None, here: str
) -> None:
    """Language and unit are asked for in either language, with a cook or without."""
    assert read(text, setting(here)) == (MannerSaid(language=language, unit=unit),)


@pytest.mark.parametrize("text", ["81c", "pit 120 celsius", "178 fahrenheit", "german potato salad", "english mustard"])
def test_what_is_about_food_is_no_wish(text: str) -> None:
    """A reading with its unit, and a dish with a country in its name, change nothing of how a room is spoken to."""
    context: Context = setting(RUNNING)
    assert not any(isinstance(one, MannerSaid) for one in read(text, context))


PAGE = (Path(__file__).parents[4] / "docs" / "howto" / "languages.md").read_text("utf-8")


def test_the_page_says_what_is_understood() -> None:
    """Every wish that docs/howto/languages.md names is heard, and every German line there is understood."""
    rows = re.findall(r"^\| (`.*?) \| (\w+)", PAGE, re.MULTILINE)
    wishes = [(text, meaning) for cell, meaning in rows for text in re.findall("`([^`]+)`", cell)]
    assert len(wishes) > 10
    assert [text for text, _meaning in wishes if not isinstance(read(text, setting(NONE))[0], MannerSaid)] == []
    examples = re.search(r"danger:\n\n((?: {4}.*\n)+)", PAGE)
    assert examples is not None
    lines = [line.strip() for line in examples[1].splitlines()]
    set_up, *others = lines
    assert "not_understood" not in repr(read(set_up, setting(NONE)))
    assert [line for line in others if "not_understood" in repr(read(line, setting(RUNNING)))] == []
