"""What was told in the wrong one of two cooks is taken back there, and told in the other by one tap; who did a step
is answered from the log.
"""

from __future__ import annotations

from scheduler.cook import assess
from tests.fakes.kitchen import CATALOGUE, MINUTE, PlayedKitchen


def _lit(kitchen: PlayedKitchen) -> list[str]:
    """Return the cuts whose fire is lit."""
    cooks = [cook for one in kitchen.store.open_cooks() if (cook := kitchen.store.cook(one)) is not None]
    stand = [assess(cook.facts, CATALOGUE, kitchen.now) for cook in cooks]
    return [one.cut.id for one in stand if one.state.did("light") is not None]


def _two_cooks(kitchen: PlayedKitchen) -> None:
    """Begin a brisket and a chicken, each a cook of its own."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.say("Ines", "new cook: chicken 2 kg, dinner 19:00 tomorrow, pit 325")


def test_what_was_told_in_the_wrong_cook_is_offered_to_the_other(kitchen: PlayedKitchen) -> None:
    """It is struck out where it was told, and one tap tells it in the other cook."""
    _two_cooks(kitchen)
    kitchen.now += 5 * MINUTE
    kitchen.say("Ines", "brisket: lit it")
    assert _lit(kitchen) == ["brisket_packer"]
    kitchen.say("Ines", "oops wrong cook")
    assert _lit(kitchen) == []
    kitchen.tap("Ines", "Yes, there")
    assert _lit(kitchen) == ["whole_chicken"]


def test_with_one_cook_it_is_only_taken_back(kitchen: PlayedKitchen) -> None:
    """Where no other cook runs, what was told last is struck out."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.say("Ines", "lit it")
    kitchen.say("Ines", "wrong cook sorry")
    assert _lit(kitchen) == []


def test_who_did_a_step_is_answered_from_the_log(kitchen: PlayedKitchen) -> None:
    """Name and time; of what nobody told, that nobody did."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    assert "nobody has told me" in kitchen.say("Ines", "who did the wood??").text
    kitchen.say("Ines", "lit it")
    assert kitchen.say("Ines", "who lit it").text.startswith("Ines, ")


def test_another_probe_is_no_answer(kitchen: PlayedKitchen) -> None:
    """Whether the probe of the fridge will do is answered no, and the one in the meat is asked for."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    assert kitchen.say("Ines", "can u read it from the fridge probe").text.startswith("No: ")
