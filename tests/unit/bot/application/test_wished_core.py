"""A wished core in the chat: refused with what works as buttons, chosen by time, and treated meat told in passing."""

from __future__ import annotations

import pytest

from scheduler.facts import SafeBy, TargetTold, Treatment
from scheduler.units import c_from_f
from tests.fakes.kitchen import PlayedKitchen

TRI_TIP = "tri-tip, dinner 18:00, pit 250"
TWO = "pork loin and whole chicken 2 kg, dinner 18:00, pit 275"


@pytest.mark.parametrize(
    ("typed", "minimum"),
    [
        ("whole chicken, dinner 18:00, pit 325, pull at 150", "165 F"),
        ("chicken thighs medium, dinner 18:00, pit 325", "165 F"),
        ("sausages medium, dinner 18:00, pit 250", "160 F"),
        ("rolled leg of lamb, pink, dinner 18:00, pit 275", "155 F"),
        ("injected pork loin, done at 140, dinner 18:00, pit 250", "155 F"),
        ("blade tenderised tri-tip, rare, dinner 18:00, pit 250", "155 F"),
        ("stuffed leg of lamb, medium, dinner 18:00, pit 275", "165 F"),
        ("side of salmon, pull at 125, dinner 18:00, pit 225", "145 F"),
    ],
)
def test_undercooked_meat_is_refused_with_the_minimum_as_one_tap(
    kitchen: PlayedKitchen, typed: str, minimum: str
) -> None:
    """Nothing is begun; the button plans to the minimum, and all else that was said is kept."""
    answer = kitchen.say("Ines", typed)
    assert answer.text.startswith("Not at ")
    assert f"at least {minimum}" in answer.text
    assert answer.labels == (f"Plan to {minimum}",)
    assert kitchen.store.open_cooks() == ()
    plan = kitchen.tap("Ines", f"Plan to {minimum}")
    assert "Dinner 18:00" in plan.text
    state, gate = kitchen.situation.state, kitchen.situation.gate
    assert state.target_c == pytest.approx(gate.minimum_c)


@pytest.mark.parametrize("typed", ["145", "plan to 145 F", "pull at 63 C"])
def test_another_core_may_be_typed_instead(kitchen: PlayedKitchen, typed: str) -> None:
    """A number answers the refusal; one that is too low is refused again."""
    kitchen.say("Ines", f"{TRI_TIP}, rare")
    assert "Not at 140 F" in kitchen.say("Ines", "140").text
    assert "Dinner 18:00" in kitchen.say("Ines", typed).text
    assert kitchen.situation.cut.done_c == pytest.approx(62.8, abs=0.3)


def test_words_that_say_no_core_ask_again(kitchen: PlayedKitchen) -> None:
    """After a refusal what is not understood brings the question back, not the one about the cut."""
    kitchen.say("Ines", f"{TRI_TIP}, rare")
    answer = kitchen.say("Ines", "hmm whatever")
    assert "At which core is the tri-tip to come off?" in answer.text
    assert "Dinner 18:00" in kitchen.tap("Ines", "Plan as usual").text


def test_time_at_temperature_is_an_explicit_choice_with_its_row(kitchen: PlayedKitchen) -> None:
    """The row of the table stands in the refusal; the button says that the meat is as cut, too."""
    answer = kitchen.say("Ines", f"{TRI_TIP}, medium rare")
    assert "130 F (54.4 C) for 121 min in the coldest spot (FSIS table), read several times." in answer.text
    assert answer.labels == ("Plan to 145 F", "It is as cut: time at temperature")
    asked = kitchen.tap("Ines", "It is as cut: time at temperature")
    assert "nobody said yet whether guests at risk eat with you" in asked.text
    assert "is anybody pregnant, old, very young or ill among the guests?" in asked.text
    assert asked.labels == ("Nobody at risk", "Guests at risk", "Plan as usual")
    chosen = kitchen.tap("Ines", "Nobody at risk")
    assert "under 130 F (54.4 C) nothing counts" in chosen.text
    state = kitchen.situation.state
    assert (state.safe_by, state.treated, state.care.at_risk) == (SafeBy.EQUIVALENCE, (), False)
    assert kitchen.situation.cut.done_c == pytest.approx(54.4)


def test_under_the_lowest_row_nothing_is_offered_but_the_minimum(kitchen: PlayedKitchen) -> None:
    """Rare is under every row of the table: no time makes it safe."""
    assert kitchen.say("Ines", f"{TRI_TIP}, rare").labels == ("Plan to 145 F",)


def test_while_a_cook_runs_it_is_the_same(kitchen: PlayedKitchen) -> None:
    """Refused with buttons; the choice asks first whether it is as cut, then who eats; guests at risk end it."""
    kitchen.say("Ines", TRI_TIP)
    assert kitchen.say("Ines", "pull at 130").labels == ("Plan to 145 F", "It is as cut: time at temperature")
    assert kitchen.situation.state.target_c is None
    asked = kitchen.say("Ines", "use time at temperature")
    assert asked.labels == ("It is as cut", "Injected", "Tenderised", "Rolled")
    eats = kitchen.tap("Ines", "It is as cut")
    assert "is anybody pregnant, old, very young or ill among the guests?" in eats.text
    assert eats.labels == ("Nobody at risk", "Guests at risk")
    assert kitchen.situation.state.safe_by is SafeBy.MINIMUM
    kitchen.tap("Ines", "Nobody at risk")
    kitchen.say("Ines", "pull at 130")
    assert kitchen.situation.cut.done_c == pytest.approx(c_from_f(130))
    ended = kitchen.say("Ines", "my mum is 80")
    assert "Planned off the fire at 145 F (62.8 C) now." in ended.text
    assert "guests at risk eat with you" in kitchen.say("Ines", "safe by time").text


def test_the_answer_of_guests_at_risk_ends_the_choice(kitchen: PlayedKitchen) -> None:
    """Asked when time at temperature is chosen: told that they are, nothing is chosen and the minimum stays."""
    kitchen.say("Ines", TRI_TIP)
    kitchen.say("Ines", "pull at 130")
    asked = kitchen.tap("Ines", "It is as cut: time at temperature")
    assert asked.labels == ("Nobody at risk", "Guests at risk")
    kitchen.tap("Ines", "Guests at risk")
    state = kitchen.situation.state
    assert (state.care.at_risk, state.safe_by, state.target_c) == (True, SafeBy.MINIMUM, None)
    assert "guests at risk eat with you" in kitchen.say("Ines", "safe by time").text


def test_who_eats_is_not_asked_again(kitchen: PlayedKitchen) -> None:
    """Told before that nobody is at risk: one tap chooses time at temperature, the core that was wished comes along."""
    kitchen.say("Ines", TRI_TIP)
    kitchen.say("Ines", "none of these")
    assert kitchen.situation.state.care.at_risk is False
    kitchen.say("Ines", "pull at 130")
    kitchen.tap("Ines", "It is as cut: time at temperature")
    assert kitchen.situation.cut.done_c == pytest.approx(c_from_f(130))


def test_a_core_above_the_minimum_is_simply_taken(kitchen: PlayedKitchen) -> None:
    """The receipt names it in both units, and the prompt that asks for the spots does, too."""
    kitchen.say("Ines", TRI_TIP)
    assert kitchen.say("Ines", "pull at 155").lines[0] == "Off the fire at 155 F (68.3 C)."
    assert any(isinstance(fact.body, TargetTold) for fact in kitchen.cook.facts)


@pytest.mark.parametrize(
    ("typed", "treatment"),
    [
        ("it's injected", Treatment.INJECTED),
        ("blade tenderised", Treatment.TENDERISED),
        ("rolled and tied", Treatment.ROLLED),
        ("contains up to 12% solution", Treatment.INJECTED),
        ("stuffed", Treatment.STUFFED),
    ],
)
def test_treated_meat_is_told_in_passing(kitchen: PlayedKitchen, typed: str, treatment: Treatment) -> None:
    """The receipt says the stricter minimum and that there is no pink centre by choice."""
    kitchen.say("Ines", TRI_TIP)
    answer = kitchen.say("Ines", typed)
    assert "The stricter minimum counts: " in answer.text
    assert "No pink centre by choice." in answer.text
    assert kitchen.situation.state.treated == (treatment,)


def test_of_several_pieces_the_one_that_is_named_or_asked(kitchen: PlayedKitchen) -> None:
    """A name settles it; without one the pieces are offered."""
    kitchen.say("Ines", TWO)
    kitchen.say("Ines", "loin injected")
    asked = kitchen.say("Ines", "it's stuffed")
    assert asked.text.startswith("The meat is stuffed: which piece?")
    kitchen.tap("Ines", "Whole chicken")
    treated = {view.cut.id: view.state.treated for view in kitchen.situation.views}
    assert treated == {"pork_loin": (Treatment.INJECTED,), "whole_chicken": (Treatment.STUFFED,)}
    assert kitchen.say("Ines", "chicken pull at 150").labels == ("Plan to 165 F",)


def test_a_tough_cut_says_that_it_is_done_by_feel(kitchen: PlayedKitchen) -> None:
    """Of a wish said with the set-up, and of one said later."""
    plan = kitchen.say("Ines", "brisket 6 kg, pull at 203, dinner 18:00 tomorrow, pit 250")
    assert "Whole brisket: done by feel" in plan.text
    assert "done by feel" in kitchen.say("Ines", "pull at 200").text
