"""Guests in a chat: whom the meat feeds, what to buy, and questions of which nothing is kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.facts import GuestsTold
from tests.fakes.kitchen import PlayedKitchen, on

INES = "Ines"


@pytest.fixture
def kitchen(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen on a Saturday at six in the morning, with a window that is open."""
    played = PlayedKitchen(tmp_path, on("6:00"))
    played.opens(INES)
    return played


def test_the_plan_says_whom_it_feeds(kitchen: PlayedKitchen) -> None:
    """Guests of the first sentence are in the plan, with what is missing; without guests nothing is said."""
    plan = kitchen.say(INES, "brisket 6 kg, dinner Sunday 18:00, pit 250, 24 adults and 6 kids").text
    assert "6 kg of whole brisket feed about 17 of 30 at a usual appetite; about 4.6 kg more would do." in plan


def test_guests_told_later_are_answered_with_what_the_meat_feeds(kitchen: PlayedKitchen) -> None:
    """Each correction of the head count says anew whether it is enough; what was not said stays."""
    first = kitchen.say(INES, "brisket 6 kg, dinner Sunday 18:00, pit 250").text
    assert "feed" not in first
    assert "feed about 15 of 20 at a usual appetite" in kitchen.say(INES, "20 people").text
    assert "at a usual appetite, in buns: enough for 20." in kitchen.say(INES, "20 people in buns").text
    told = kitchen.say(INES, "12 hungry people").text
    assert told.startswith("Guests: 12 people, hearty eaters, in buns.")
    assert kitchen.situation.state.guests is not None
    assert kitchen.situation.state.guests.buns


def test_a_question_keeps_nothing(kitchen: PlayedKitchen) -> None:
    """Neither guests nor a note come of asking; the answer is about the cook where no cut is named."""
    kitchen.say(INES, "brisket 6 kg, dinner Sunday 18:00, pit 250, 20 people")
    before = kitchen.cook.facts
    assert "feed about 15 of 20" in kitchen.say(INES, "will it be enough?").text
    asked = kitchen.say(INES, "will it be enough for 10?").text
    assert "enough for 10" in asked
    assert "To buy for them: 3.9 kg of whole brisket (planned: 6 kg)." in asked
    assert "For 40 adults" in kitchen.say(INES, "how much pork butt for 40?").text
    assert kitchen.cook.facts == before
    assert [fact.body for fact in before if isinstance(fact.body, GuestsTold)] == [GuestsTold(adults=20)]


def test_it_can_be_asked_with_no_cook(kitchen: PlayedKitchen) -> None:
    """An answer with figures and how sure they are; no cook is begun."""
    asked = kitchen.say(INES, "how much brisket for 20?").text
    assert asked.startswith("For 20 adults at a usual appetite: 7.8 kg of whole brisket, raw as sold")
    assert "common practice, not measured" in asked
    assert "one of these" in kitchen.say(INES, "how much meat for 24 adults and 6 children").text
    assert kitchen.say(INES, "will it be enough?").text.startswith("For how many?")
    assert kitchen.store.open_cooks() == ()


def test_while_a_cook_is_set_up_the_open_question_stays(kitchen: PlayedKitchen) -> None:
    """The answer comes, then the question that was open, and the set-up goes on."""
    kitchen.say(INES, "brisket 6 kg")
    asked = kitchen.say(INES, "how much brisket for 20?").text
    assert "7.8 kg" in asked
    assert "When do people eat?" in asked
    assert "How hot" in kitchen.say(INES, "Sunday 18:00").text


def test_steps_weeks_before_carry_the_kilograms(tmp_path: Path) -> None:
    """Who eats is asked with what is planned; ordering and fetching name what to buy of each cut for the guests."""
    kitchen = PlayedKitchen(tmp_path, on("6:00"))
    kitchen.opens(INES)
    kitchen.say(INES, "brisket 6 kg and 3 racks of spareribs, dinner on 24 oct 18:00, pit 250")
    _plays_until(kitchen, "Who eats, and when?")
    asked = next(h.text for h in kitchen.heard if "Who eats, and when?" in h.text)
    assert "Planned: 6 kg of whole brisket, 3 racks of spareribs." in asked
    kitchen.say(INES, "24 adults, 6 kids")
    _plays_until(kitchen, "Fetch the meat")
    for words in ("Order or reserve the meat", "Fetch the meat"):
        text = next(h.text for h in kitchen.heard if words in h.text)
        assert "7 kg of whole brisket (planned: 6 kg), 4.2 kg of spareribs" in text


def test_salt_goes_by_the_trimmed_mass(kitchen: PlayedKitchen) -> None:
    """Six kilograms as bought are five to be salted, 9 g for each."""
    kitchen.say(INES, "brisket 6 kg, dinner Sunday 18:00, pit 250")
    _plays_until(kitchen, "Salt the meat")
    text = next(h.text for h in kitchen.heard if "Salt the meat" in h.text)
    assert "Salt the meat: 45 g for each brisket; half of it if a label says solution added." in text


def test_more_than_the_kettle_holds_is_noted(kitchen: PlayedKitchen) -> None:
    """In the plan and when the cooker is told; a note, nothing else."""
    plan = kitchen.say(INES, "2 briskets of 6 kg, dinner Sunday 18:00, pit 250").text
    assert "usually holds" not in plan
    told = kitchen.say(INES, "on the kettle").text
    note = "More than one kettle usually holds (one big piece or three racks of ribs beside the coals)"
    assert note in told
    assert note in kitchen.say(INES, "plan").text


def _plays_until(kitchen: PlayedKitchen, words: str) -> None:
    """Let time pass until something was asked, for at most forty messages."""
    for _turn in range(40):
        if any(words in heard.text for heard in kitchen.heard):
            return
        wake = kitchen.kitchen.next_wake_at()
        assert wake is not None, words
        kitchen.until(wake)
    raise AssertionError(words)
