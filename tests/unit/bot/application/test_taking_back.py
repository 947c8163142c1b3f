"""What was told of guests and meat is taken back only after one question that names it."""

from __future__ import annotations

from scheduler.facts import Treatment
from tests.fakes.kitchen import PlayedKitchen


def test_intact_after_a_treatment_is_asked_back(kitchen: PlayedKitchen) -> None:
    """The stricter minimum counts until somebody says that it was told wrongly; then both are named."""
    kitchen.say("Ines", "injected pork butt 4 kg, dinner 18:00 tomorrow, pit 250")
    asked = kitchen.say("Tomas", "it is intact")
    assert "Was that wrong?" in asked.text
    assert "Ines told me" in asked.text
    assert "injected" in asked.text
    assert list(kitchen.situation.state.treated or ()) == [Treatment.INJECTED]
    said = kitchen.tap("Tomas", "It was wrong")
    assert "it was 155 F" in said.text
    assert list(kitchen.situation.state.treated or ()) == []


def test_a_second_treatment_takes_back_none(kitchen: PlayedKitchen) -> None:
    """Rolled after injected is both."""
    kitchen.say("Ines", "injected pork butt 4 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.say("Ines", "rolled and tied")
    assert kitchen.situation.state.treated == (Treatment.INJECTED, Treatment.ROLLED)


def test_nobody_at_risk_names_what_it_takes_back(kitchen: PlayedKitchen) -> None:
    """All that was told of guests at risk is named; "it stays" keeps it, and a yes takes it back."""
    kitchen.say("Ines", "pork butt 4 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.say("Ines", "grandma is pregnant")
    asked = kitchen.say("Ines", "nobody is at risk")
    assert "Ines told me" in asked.text
    assert kitchen.situation.state.care.at_risk is True
    kitchen.tap("Ines", "It stays")
    assert kitchen.situation.state.care.at_risk is True
    kitchen.say("Ines", "nobody is at risk")
    kitchen.tap("Ines", "It was wrong")
    assert kitchen.situation.state.care.at_risk is False


def test_one_answer_is_enough_with_the_meat_on(kitchen: PlayedKitchen) -> None:
    """From meat on a treatment is taken back by what was said and answered: two words of one person."""
    kitchen.say("Ines", "injected pork butt 4 kg on since 06:00, dinner 18:00, pit 250")
    kitchen.say("Ines", "it is intact")
    assert kitchen.situation.state.treated == (Treatment.INJECTED,)
    kitchen.tap("Ines", "It was wrong")
    assert not kitchen.situation.state.treated
