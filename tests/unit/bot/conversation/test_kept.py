"""What people type of raw meat out of the fridge, of the fridge itself, and of leftovers: the days before and after."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from bot.commands import Done, Draft, Intent, Report
from bot.conversation.context import Context, OpenStep
from bot.conversation.interpreter import read
from scheduler.facts import Slot
from tests.catalogue import CUTS

NOW = dt.datetime(2026, 8, 15, 12, 0, tzinfo=dt.UTC)
BEFORE = Context(now=NOW, zone="UTC", unit="F", stage="before", cuts=CUTS, pit_target_c=135.0)
AFTER = dataclasses.replace(BEFORE, stage="after", meat_on_at=NOW - dt.timedelta(hours=20), chilling=True)


def one(text: str, context: Context) -> Intent:
    """Return the single intent of a text."""
    (intent,) = read(text, context)
    return intent


@pytest.mark.parametrize(
    ("text", "slot", "celsius"),
    [
        ("fridge 38", Slot.FRIDGE, 3.3), ("fridge is at 45", Slot.FRIDGE, 7.2),
        ("the fridge reads 41 f", Slot.FRIDGE, 5.0),
        ("fridge 4 c", Slot.FRIDGE, 4.0), ("fridge 4", Slot.FRIDGE, 4.0),
    ],
)  # fmt: skip
@pytest.mark.parametrize("context", [BEFORE, AFTER], ids=["before", "after"])
def test_a_fridge_is_read_as_a_fridge(context: Context, text: str, slot: Slot, celsius: float) -> None:
    """Before and after the cook, whatever else may be asked: never meat, never the pit."""
    report = one(text, context)
    assert isinstance(report, Report)
    assert [(v.slot, round(v.value_c, 1)) for v in report.values] == [(slot, celsius)]


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("leftovers 165", 73.9), ("leftovers at 68", 20.0), ("reheated to 170", 76.7), ("68", 20.0), ("165 f", 73.9)],
)
def test_a_number_the_day_after_is_of_the_leftovers(text: str, celsius: float) -> None:
    """Named or bare: food that was put away is what is read now, no core of meat on a fire."""
    report = one(text, AFTER)
    assert isinstance(report, Report)
    assert [(v.slot, round(v.value_c, 1)) for v in report.values] == [(Slot.LEFTOVERS, celsius)]


def test_a_bare_number_answers_the_question_about_the_fridge() -> None:
    """Asked for the fridge, "38" is the fridge; not asked, cold is the meat out of it."""
    asked = dataclasses.replace(
        BEFORE, open_steps=(OpenStep(step="fridge_check", title="read the fridge", slots=(Slot.FRIDGE,)),)
    )
    for context, slot in ((asked, Slot.FRIDGE), (BEFORE, Slot.CORE)):
        report = one("38", context)
        assert isinstance(report, Report)
        assert report.values[0].slot is slot


@pytest.mark.parametrize(
    ("text", "outcome", "hours_ago"),
    [
        ("meat out of the fridge", "out", 0), ("meat out of the fridge at 11", "out", 1),
        ("took the meat out of the fridge at 10:00", "out", 2), ("it's been on the counter since 10", "out", 2),
        ("the brisket is on the counter", "out", 0), ("meat back in the fridge", "back", 0),
        ("back into the fridge at 11", "back", 1), ("thawing on the counter", "thawing", 0),
        ("thawing it at room temperature", "thawing", 0), ("defrosting on the counter since 10", "thawing", 2),
        ("marinating on the counter", "out", 0),
    ],
)  # fmt: skip
def test_raw_meat_comes_out_and_goes_back(text: str, outcome: str, hours_ago: float) -> None:
    """Told in plain words, with its time: no pull of cooked meat, no leftovers."""
    done = one(text, BEFORE)
    assert isinstance(done, Done)
    assert (done.step, done.outcome) == ("raw_out", outcome)
    assert (done.at or NOW) == NOW - dt.timedelta(hours=hours_ago)


@pytest.mark.parametrize("text", ["it is marinating", "meat's in the marinade", "marinated the brisket"])
def test_a_marinade_is_heard(text: str) -> None:
    """Told, so that it can be said that it stays in the fridge and is boiled before it is a sauce."""
    done = one(text, BEFORE)
    assert isinstance(done, Done)
    assert done.step == "marinade"


@pytest.mark.parametrize("text", ["the meat is not out of the fridge", "when should it come out of the fridge"])
def test_what_is_not_so_is_not_told(text: str) -> None:
    """A question or a no brings no clock."""
    assert not any(isinstance(one_, Done) and one_.step == "raw_out" for one_ in read(text, BEFORE))


@pytest.mark.parametrize(
    ("text", "step", "outcome"),
    [
        ("reheating the leftovers", "reheat_on", None), ("leftovers are in the oven", "reheat_on", None),
        ("froze the leftovers", "leftover_expire", "frozen"), ("leftovers are all gone", "leftover_expire", "eaten"),
        ("ate the last of the leftovers", "leftover_expire", "eaten"),
    ],
)  # fmt: skip
def test_leftovers_are_reheated_or_gone(text: str, step: str, outcome: str | None) -> None:
    """The days after, without being asked."""
    done = one(text, AFTER)
    assert isinstance(done, Done)
    assert (done.step, done.outcome) == (step, outcome)


@pytest.mark.parametrize(
    ("text", "frozen"),
    [
        ("frozen pork butt 3 kg, dinner 18:00 tomorrow, pit 250", True),
        ("pork butt from the freezer, dinner 18:00 tomorrow, pit 250", True),
        ("pork butt, not frozen, dinner 18:00 tomorrow, pit 250", False),
        ("pork butt, dinner 18:00 tomorrow, pit 250", None),
    ],
)
def test_a_plan_hears_that_the_meat_is_frozen(text: str, frozen: bool | None) -> None:
    """Said with the meat; unsaid is not known."""
    draft = one(text, dataclasses.replace(BEFORE, stage="none"))
    assert isinstance(draft, Draft)
    assert (draft.cut, draft.frozen) == ("pork_butt", frozen)
