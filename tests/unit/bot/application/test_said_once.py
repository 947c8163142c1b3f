"""What a receipt and a finding would both say is said once, and the letters of a stop go on to mean what they meant."""

from __future__ import annotations

import string

import pytest

from tests.fakes.kitchen import Heard, PlayedKitchen, on, window

LIMIT = "155 F (68.3 C"


def _texts(sent: list[Heard], name: str) -> str:
    return "\n".join(heard.text for heard in sent if heard.room == window(name))


def test_the_stricter_minimum_is_said_once_with_a_plan(kitchen: PlayedKitchen) -> None:
    """Injected meat told with the plan: the plan names the minimum, and no prompt after it says so again."""
    kitchen.opens("Tomas")
    kitchen.mutter("Ines", "injected pork butt 4 kg, dinner 20:00, pit 275")
    sent = [*kitchen.new, *kitchen.until(on("09:00"))]
    assert len([heard for heard in sent if heard.room == window("Ines")]) > 1
    for name in ("Ines", "Tomas"):
        assert _texts(sent, name).count(LIMIT) == 1


def test_the_stricter_minimum_is_said_once_when_it_is_told_later(kitchen: PlayedKitchen) -> None:
    """Told while the cook runs: once in the answer, once to the others, and not again."""
    kitchen.opens("Tomas")
    kitchen.mutter("Ines", "pork butt 4 kg, dinner 20:00, pit 275")
    sent = [*kitchen.mutter("Tomas", "it's injected"), *kitchen.until(on("09:00"))]
    for name in ("Ines", "Tomas"):
        assert _texts(sent, name).count(LIMIT) == 1


@pytest.fixture
def stopped(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Return a chicken pulled at 120 F with Tomas beside: a stop stands."""
    kitchen.opens("Tomas")
    kitchen.now = on("10:00")
    kitchen.say("Ines", "chicken, dinner 18:00, pit 325")
    kitchen.until(on("15:55"))
    for text in ("lit at 15:00", "pit 325", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    kitchen.until(on("17:00"))
    kitchen.say("Ines", "325/120")
    kitchen.later(5)
    kitchen.say("Ines", "pulled")
    return kitchen


def test_discarding_that_ends_a_stop_is_said_once(stopped: PlayedKitchen) -> None:
    """Who threw it away, when, and that nobody eats it: one sentence each, to both."""
    sent = stopped.mutter("Tomas", "threw it out")
    for name in ("Ines", "Tomas"):
        text = _texts(sent, name)
        assert text.casefold().count("thrown away") == 1
        assert "That stop is over: thrown away, told by Tomas at 17:05. Nobody eats it." in text


def test_discarding_without_a_stop_has_its_receipt(kitchen: PlayedKitchen) -> None:
    """Where no stop stood the receipt is all that says it."""
    kitchen.say("Ines", "chicken, dinner 18:00, pit 325")
    answer = kitchen.say("Ines", "threw it out")
    assert "Thrown away, nobody eats it" in answer.text
    assert "That stop is over" not in answer.text


@pytest.mark.parametrize("name", ["Ines", "Tomas"])
def test_letters_of_a_stop_keep_their_meaning(stopped: PlayedKitchen, name: str) -> None:
    """The stop and the message that follows it: "a" means the same under both, for whoever told it and for others."""
    sent = [heard for heard in stopped.new if heard.room == window(name)]
    stop = next(heard for heard in sent if heard.sort == "stop")
    last = next(heard for heard in reversed(sent) if heard.outgoing.choices)
    assert last is not stop
    assert _lettered(last)["a"] == _lettered(stop)["a"] == "Thrown away"
    assert len(_lettered(last)) > len(_lettered(stop))
    stopped.say(name, "a")
    assert stopped.situation.state.discarded


def _lettered(heard: Heard) -> dict[str, str]:
    labels = [choice.label for row in heard.outgoing.choices for choice in row]
    return dict(zip(string.ascii_lowercase, labels, strict=False))
