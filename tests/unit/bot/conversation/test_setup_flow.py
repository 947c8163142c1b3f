"""Setting up a cook over several messages: what is kept, what is asked next, what the plan is made of."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.commands import Draft
from bot.conversation.flows.setup import merge, missing, planned
from bot.conversation.interpreter import read
from scheduler.facts import Serving, ServingKind, Wrap
from tests.unit.bot.conversation.spoken import DAY, ZONE, at, setting


def told(*texts: tuple[str, str]) -> Draft:
    """Return the draft after these (question, answer) pairs, the first one unasked."""
    draft = Draft()
    for slot, text in texts:
        asked = f" setup={slot}" if slot else ""
        for intent in read(text, setting(f"stage=none unit=-{asked} now=09:00")):
            assert isinstance(intent, Draft)
            draft = merge(draft, intent)
    return draft


def test_one_sentence_is_enough() -> None:
    """A full sentence leaves nothing to ask."""
    draft = told(("", "brisket 6 kg, dinner 18:00 Saturday, pit 250"))
    assert missing(draft) is None
    plan = planned(draft, ZONE, "F")
    assert (plan.cut, plan.count, plan.mass_kg, plan.from_middle) == ("brisket_packer", 1, 6.0, False)
    assert (round(plan.pit_low_c), round(plan.pit_high_c)) == (121, 121)
    assert plan.serving.start == dt.datetime.combine(DAY, dt.time(18, 0))
    assert plan.unit == "F"


def test_what_is_missing_is_asked_one_by_one() -> None:
    """First what is cooking, then when people eat, then how hot; mass and count have usual figures."""
    draft = told(("", "hello"))
    assert missing(draft) == "cut"
    draft = merge(draft, told(("cut", "7 racks of short ribs")))
    assert missing(draft) == "serving"
    draft = merge(draft, told(("serving", "6-7")))
    assert missing(draft) == "pit"
    draft = merge(draft, told(("pit", "250-275")))
    assert missing(draft) is None
    plan = planned(draft, ZONE, "F")
    assert (plan.cut, plan.count, plan.mass_kg) == ("beef_chuck_ribs", 7, None)
    assert plan.serving.kind is ServingKind.WINDOW
    assert (round(plan.pit_low_c), round(plan.pit_high_c)) == (121, 135)


def test_a_newer_word_replaces_an_older_one() -> None:
    """What was said last counts, and what was not mentioned stays."""
    draft = told(("", "brisket 6 kg, dinner 18:00, pit 250"), ("", "dinner 19:00, in foil"))
    assert (draft.cut, draft.mass_kg, draft.wrap) == ("brisket_packer", 6.0, Wrap.FOIL)
    assert draft.serving is not None
    assert draft.serving.start == dt.datetime.combine(DAY, dt.time(19, 0))


def test_a_known_cut_clears_an_unknown_one() -> None:
    """After "trout" and then "brisket" nothing unknown is left; an unknown word never takes a known cut away."""
    draft = told(("cut", "trout"))
    assert (draft.cut, draft.unknown_cut) == (None, "trout")
    assert missing(draft) == "cut"
    draft = merge(draft, told(("cut", "brisket")))
    assert (draft.cut, draft.unknown_cut) == ("brisket_packer", None)
    assert merge(draft, told(("cut", "trout"))).cut == "brisket_packer"


@pytest.mark.parametrize(
    "text", ["on since 11, 165 now, eating at 6", "brisket on since 5am, dinner 18:00", "150 internal now, brisket"]
)
def test_a_cook_may_be_told_from_the_middle(text: str) -> None:
    """What is on the fire already makes a plan that asks for no earlier step."""
    intents = read(text, setting("stage=none unit=F now=14:00"))
    draft = merge(Draft(cut="brisket_packer", pit_low_c=121.0), *[i for i in intents if isinstance(i, Draft)])
    serving = Serving(kind=ServingKind.WHEN_READY, zone=ZONE)
    assert planned(merge(draft, Draft(serving=draft.serving or serving)), ZONE, "F").from_middle


def test_since_when_is_the_nearest_past() -> None:
    """A cook that is "on since 11" is on since this morning."""
    (draft,) = read("on since 11, 165 now, eating at 6", setting("stage=none unit=F now=14:00"))
    assert isinstance(draft, Draft)
    assert draft.on_at == at("11:00")
    assert draft.core_c == pytest.approx((165 - 32) / 1.8)


def test_a_plan_is_not_made_of_half_a_draft() -> None:
    """Asking for the plan too early is a mistake of the program, and says what is missing."""
    with pytest.raises(ValueError, match="serving"):
        planned(Draft(cut="pork_butt", pit_low_c=121.0), ZONE, "C")
