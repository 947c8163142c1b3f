"""Several stops of one piece: one order, the gravest named, the others counted; what comes next is the stop again."""

from __future__ import annotations

import datetime as dt

from bot.messages.bin_stops import orders_bin
from bot.messages.figures import Voice
from bot.messages.findings import finding_text
from scheduler.safety import Finding, FindingLevel
from tests.fakes.kitchen import PlayedKitchen, on, window

NOW = dt.datetime(2026, 8, 15, 13, tzinfo=dt.UTC)


def _bird(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Bring a chicken off the fire at 17:05 with 120 F."""
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


def test_the_graver_order_is_the_only_one(kitchen: PlayedKitchen) -> None:
    """Dropped cooked and under its minimum: bin it; nobody is told to put it back on as well."""
    bird = _bird(kitchen)
    bird.say("Ines", "dropped it on the grass")
    bird.until(on("17:10"))
    sent = bird.until(on("17:45"))
    stops = [heard for heard in sent if heard.room == window("Ines") and heard.sort == "stop"]
    assert stops
    for told in stops:
        assert "back on" not in told.text
        assert list(told.labels).count("Thrown away") == 1
    still = bird.say("Ines", "what next").text
    assert ", and 1 more: throw it away." in still
    assert still.count("Stop, still:") == 1
    both = bird.say("Ines", "is it safe").text
    assert both.count("Stop: ") == 2


def test_the_last_line_names_the_stop_that_comes_again(kitchen: PlayedKitchen) -> None:
    """A stop is repeated in half an hour: when nothing comes before it, that is what comes next."""
    bird = _bird(kitchen)
    assert bird.say("Ines", "is it safe").last == "Next: 17:35, this stop again."


def test_which_stops_order_the_bin() -> None:
    """Heat mends a minimum; no heat mends time; a floor is mended while there is time; unread is unknown."""
    under = Finding(rule="pulled_under_minimum", level=FindingLevel.STOP, limit_c=73.9)
    held = Finding(rule="held_under_floor", level=FindingLevel.STOP, found_min=30, limit_min=120)
    late = Finding(rule="held_under_floor", level=FindingLevel.STOP, found_min=130, limit_min=120)
    out = Finding(rule="two_hours_out", level=FindingLevel.STOP)
    unread = Finding(rule="two_hours_out", level=FindingLevel.STOP, unread=True)
    assert [orders_bin(one) for one in (under, held, late, out, unread)] == [False, False, True, True, False]


def test_putting_it_back_can_be_told_as_it_says() -> None:
    """The stop names the words that the program reads, and the spot where it needs one."""
    voice = Voice(zone="UTC", unit="F", now=NOW)
    plain = Finding(rule="pulled_under_minimum", level=FindingLevel.STOP, found_c=60.0, limit_c=73.9)
    spot = Finding(rule="pulled_under_minimum", level=FindingLevel.STOP, found_c=60.0, limit_c=73.9, spot="thigh")
    assert '(type "back on")' in finding_text(plain, voice)
    assert "undo" not in finding_text(plain, voice)
    assert "spot named" in finding_text(spot, voice)


def test_food_orders_bin_is_not_announced_as_dinner(kitchen: PlayedKitchen) -> None:
    """Under a stop nobody reads "on time", "enjoy it" or how to slice."""
    bird = _bird(kitchen)
    bird.say("Ines", "dropped it on the grass")
    sent = [heard.text for heard in bird.until(on("18:30"))]
    assert not any("Enjoy it" in text or ": on time" in text or "slice the breast" in text for text in sent)
    assert "not of this meat: throw it away." in bird.say("Ines", "when is dinner").text


def test_people_come_before_a_stop_that_stands(kitchen: PlayedKitchen) -> None:
    """While a stop stands somebody chokes: the card opens the message in every window, the stop comes after it."""
    bird = _bird(kitchen)
    answer = bird.say("Ines", "somebody is choking")
    for heard in (answer, *bird.told("Tomas")):
        assert heard.text.startswith("Coughing: let them cough.")
        assert "Stop, still: " in heard.text
