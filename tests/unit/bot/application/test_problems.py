"""Problems told unasked in a running cook: the card, who hears it, what it does to the log and to the plan, its end."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.commands import DANGERS
from bot.messages.figures import Voice
from bot.messages.problem_over import over_words
from bot.messages.problems import CARDS, danger_card, problem_card
from scheduler.facts import AirTold, Corrected, PutOff, Reading, Slot, Troubled
from tests.fakes.kitchen import PlayedKitchen, chat, on

EMERGENCY = "Call the emergency number (112 in Europe, 911 in North America, or your own)."
DANGER_WORDS = {
    "burn": ("I burned my hand", "Cool the burn now"),
    "co_symptom": ("I have a headache", "Everybody out into fresh air now"),
    "grease_fire": ("grease fire", "People back."),
    "lightning": ("thunderstorm right here", "Everybody inside now"),
    "cooker_indoors": ("we moved the grill into the garage", "Everybody out of there now"),
    "allergic_reaction": ("Wren is having an allergic reaction", EMERGENCY),
    "choking": ("somebody is choking", "Coughing: let them cough."),
    "guest_ill": ("a guest is vomiting", "Stop serving"),
    "fluid_on_fire": ("added lighter fluid on the embers", "No more of it."),
    "fire_spreads": ("the deck is on fire", EMERGENCY),
    "sparks": ("sparks flying", "Lid on, vents shut now."),
    "hot_ash": ("I put the ash into the plastic bin", "Away from house"),
    "cooker_fell": ("the chimney fell over", "People and pets back"),
    "building_fire": ("hut is on fire", "Everybody out now"),
    "burn_severe": ("kid fell in the coals", EMERGENCY),
    "collapsed": ("someone collapsed", EMERGENCY),
    "cut": ("cut my finger", "Press hard on it"),
    "gas_smell": ("I smell gas", "No flame, no switch"),
    "cooker_moving": ("moving the grill into the garage", "Stop: it stays outdoors."),
    "children_near": ("child at the fire", "Bring them away now"),
    "danger_unclear": ("fire!!", "Somebody is in danger"),
}


def troubles(kitchen: PlayedKitchen) -> list[Troubled]:
    """Return the problems in the log, in order."""
    return [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, Troubled)]


@pytest.mark.parametrize("what", sorted(DANGERS))
def test_people_come_first_urgently_and_in_every_room(ribs: PlayedKitchen, what: str) -> None:
    """Danger: the card opens the message, names the emergency number, is loud, and nothing of the plan is before it."""
    text, first = DANGER_WORDS[what]
    ribs.until(on("10:40"))
    answer = ribs.say("Tomas", text)
    (echo,) = ribs.told("Ines")
    for heard in (answer, echo):
        assert heard.text.startswith(first)
        assert EMERGENCY in heard.text
        assert heard.outgoing.urgent
        assert "Dinner" not in heard.text.split("\n\n")[0]
        assert heard.last.startswith("Next: ")
    assert troubles(ribs) == [Troubled(problem=what)]


@pytest.mark.parametrize("what", sorted(DANGERS))
def test_danger_is_answered_without_a_cook(kitchen: PlayedKitchen, what: str) -> None:
    """Before anything was planned the same card comes, urgent."""
    kitchen.opens("Ines")
    answer = kitchen.say("Ines", DANGER_WORDS[what][0])
    assert answer.text == danger_card(what).text
    assert answer.outgoing.urgent


def test_cautions_of_the_trade_stand_in_the_cards() -> None:
    """Fire, fat, carbon monoxide, food: each caution of the trade is in its card, in these words."""
    for problem, words in (
        ("grease_fire", ("Never water", "Do not carry or move the cooker")),
        ("burn", ("No ice, no butter", "10 to 20 min")),
        ("co_symptom", ("Do not go back in", "carbon monoxide")),
        ("lightning", ("30 min after the last thunder", "never into a garage, tent or porch")),
        ("cooker_indoors", ("carbon monoxide", "Nobody goes back in", "outdoors only")),
        ("allergic_reaction", ("adrenaline pen", "Lie them down", "never leave them alone", "from memory")),
        ("choking", ("between the shoulder blades", "from memory")),
        ("guest_ill", ("Stop serving", "health office", "carbon monoxide", "from memory")),
        ("fluid_on_fire", ("Never starter fluid on a lit fire",)),
        ("sparks", ("your county or fire service decides", "Somebody stays")),
        ("hot_ash", ("metal tin with lid", "48 hours")),
        ("cooker_fell", ("nobody lifts", "10 to 20 min")),
        ("children_near", ("a good metre",)),
        ("cross_contamination", ("Nobody eats it", "{reheat}", "boil it or bin it")),
        ("reader_wrong", ("I call it unknown",)),
        ("dropped_done", ("Bin it", "I do not call it safe")),
        ("flare_up", ("Never water on burning fat",)),
        ("fire_out", ("No fluid on embers", "{floor}", "{danger}", "30 min")),
        ("fuel_out", ("No fluid on hot coals", "{floor}", "{danger}", "30 min")),
        ("wont_light", ("Never any liquid",)),
        ("wind", ("never into a garage, tent or porch", "carbon monoxide")),
        ("rain", ("No tarp", "carbon monoxide")),
        ("cold", ("Ice underfoot",)),
        ("heat", ("an hour at most, not two",)),
        ("hold_low", ("2 h (1 h on a hot day)", "bin it")),
        ("frozen_middle", ("Never from frozen in a low pit",)),
        ("dropped", ("In doubt: bin it",)),
        ("eaten", ("In doubt: bin it",)),
        ("pink_inside", ("Colour says nothing", "Under {minimum} it goes back on", "counts as raw")),
        ("skin_rubbery", ("Fat flares", "{minimum} at the coldest spot")),
        ("lid_open", ("Gloves", "fat may flare", "{climbs}")),
        ("helper_missing", ("Nobody leaves a lit cooker alone",)),
        ("fire_ban_now", ("outdoors",)),
        ("too_tough_at_dinner", ("the safe minimum is not",)),
    ):
        card = CARDS[problem]
        text = f"{card.do()} {card.caution()}"
        assert all(word in text for word in words), problem


@pytest.mark.parametrize("what", sorted(set(CARDS) - DANGERS))
def test_each_card_is_short_and_asks_one_question(ribs: PlayedKitchen, what: str) -> None:
    """What to do, the caution, what to tell next: 420 letters at most, two question marks, no field left."""
    ribs.until(on("10:40"))
    seen = ribs.situation
    problem = seen.catalogue.remedies.problem(what)
    assert problem is not None
    message = problem_card(problem, seen, Voice(zone="UTC", unit="F", now=ribs.now), lever=True)
    assert len(message.text) <= 420
    assert message.text.count("?") <= 2
    assert "{" not in message.text


def test_a_button_is_there_once(ribs: PlayedKitchen) -> None:
    """The card about fuel and the prompt that follows it both end with fresh charcoal: one button."""
    ribs.until(on("10:00"))
    labels = ribs.say("Ines", "ran out of charcoal").labels
    assert labels.count("Charcoal added") == 1


def test_a_problem_is_kept_until_it_is_over(ribs: PlayedKitchen) -> None:
    """Rain stands in the log and on the state until somebody says that it stopped; by button or by words."""
    ribs.until(on("10:00"))
    assert "It is over" in ribs.say("Tomas", "it's raining").labels
    assert list(ribs.situation.state.troubles) == ["rain"]
    assert ribs.tap("Tomas", "It is over").lines[0] == "The rain is over, 10:00."
    ribs.say("Tomas", "pouring down")
    assert ribs.say("Ines", "it stopped").lines[0] == "The rain is over, 10:00."
    assert troubles(ribs)[-1] == Troubled(problem="rain", over=True)
    assert not ribs.situation.state.troubles


def test_what_a_problem_costs_is_told(ribs: PlayedKitchen) -> None:
    """A pit that stays cold moves the pull: by how much, and to when."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "270/122")
    answer = ribs.say("Tomas", "pit is too cold")
    assert "If the pit stays near 250 F: pull about " in answer.text
    assert " later, near " in answer.text


def test_readings_that_come_along_are_taken(ribs: PlayedKitchen) -> None:
    """A pit that ran away to 340 is a problem and a number: both are kept."""
    ribs.until(on("09:40"))
    answer = ribs.say("Ines", "pit ran away 340")
    assert answer.text.startswith("Close top and bottom a little")
    assert "Pit 340 F" in answer.text
    assert troubles(ribs) == [Troubled(problem="pit_hot")]


def test_a_probe_that_reads_too_much_already_is_doubted(ribs: PlayedKitchen) -> None:
    """A number that cannot be is kept aside with the card about bone; one that can be is a plain reading."""
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "probe reads 210 already")
    assert answer.text.startswith("Into the thick middle, away from bone")
    newest = ribs.situation.state.readings[-1]
    assert newest.doubtful
    assert not troubles(ribs)
    fits = ribs.say("Ines", "probe reads 122 already")
    assert fits.lines[0] == "Meat 122 F, 10:40."


def test_a_probe_on_the_bone_makes_its_last_number_doubtful(ribs: PlayedKitchen) -> None:
    """Told without a number: the newest reading of the meat is held out of the forecast, nothing is averaged."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "270/122")
    ribs.say("Tomas", "the probe is on the bone")
    (corrected,) = [fact.body for fact in ribs.cook.facts if isinstance(fact.body, Corrected)]
    assert isinstance(corrected.body, Reading)
    assert (corrected.body.slot, corrected.body.doubtful) == (Slot.CORE, True)
    assert ribs.situation.state.last(Slot.CORE) is None


def test_ice_in_the_middle_keeps_the_meat_off(planned: PlayedKitchen) -> None:
    """Frozen: meat on is put off by the thawing in cold water, the plan with it, until it is said to be over."""
    before = planned.situation.outlook.on_at
    answer = planned.say("Ines", "it's still frozen in the middle")
    assert answer.text.startswith("Do not cook it yet.")
    put_off = next(fact.body for fact in planned.cook.facts if isinstance(fact.body, PutOff))
    assert put_off.step == "meat_on"
    assert put_off.until >= planned.now + dt.timedelta(hours=1)
    assert planned.situation.outlook.on_at >= max(before, put_off.until - dt.timedelta(minutes=1))
    planned.say("Ines", "it has thawed, all good")
    planned.tap("Ines", "It is over")
    assert planned.situation.outlook.on_at <= max(before, planned.now + dt.timedelta(hours=2))


def test_weather_is_kept_and_answered(ribs: PlayedKitchen) -> None:
    """Snow is cold air for the forecast and a problem with a card."""
    ribs.until(on("10:00"))
    answer = ribs.say("Tomas", "snowing")
    assert answer.text.startswith("Half as much fuel again within reach")
    assert [fact.body for fact in ribs.cook.facts if isinstance(fact.body, AirTold)] == [AirTold(word="cold")]


def test_the_end_of_nothing_is_answered_kindly(ribs: PlayedKitchen) -> None:
    """A button pressed twice ends nothing twice."""
    ribs.say("Tomas", "it's raining")
    ribs.tap("Tomas", "It is over")
    count = len(troubles(ribs))
    assert ribs.tap("Tomas", "It is over").text.startswith("Good. No problem stands here.")
    assert len(troubles(ribs)) == count


def test_a_stranger_reports_no_danger_into_a_kitchen(kitchen: PlayedKitchen) -> None:
    """Whoever does not belong here is not answered in its name."""
    kitchen.opens("Ines")
    assert kitchen.mutter("Mallory", "grease fire", room=chat("Mallory")) == []


# --- what makes food unsafe, whatever was read -----------------------------------------------------------------------


def _pulled_safe(ribs: PlayedKitchen) -> None:
    """Bring the ribs off the fire, measured safe."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 203")
    ribs.tap("Ines", "203 F is right")
    ribs.say("Ines", "pulled")


def test_dropped_meat_is_answered_by_typing_and_not_called_safe(ribs: PlayedKitchen) -> None:
    """On the fire: "raw" or "done" is typed; until then unknown, done is for the bin, and no word ends that."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 203")
    ribs.tap("Ines", "203 F is right")
    assert 'Type "raw" or "done"' in ribs.say("Ines", "dropped it on the grass").text
    assert not ribs.say("Ines", "is it safe").text.startswith("Measured safe")
    done = ribs.say("Ines", "done")
    assert "Bin it, the whole piece" in done.text
    assert "Thrown away" in done.labels
    assert ribs.say("Ines", "is it safe").text.startswith("Not safe.")
    assert "only a number or throwing it away ends a stop" in ribs.say("Ines", "it's fine").text
    ribs.say("Ines", "it is over")
    assert ribs.say("Ines", "is it safe").text.startswith("Not safe.")


def test_raw_meat_that_fell_cooks_on(ribs: PlayedKitchen) -> None:
    """The word "raw" ends the question."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "dropped it")
    assert "Cut off the dirty face" in ribs.say("Ines", "raw").text
    assert "dropped" not in ribs.situation.state.troubles


def test_off_the_fire_it_was_not_raw(ribs: PlayedKitchen) -> None:
    """Whoever says "raw" of pulled meat is told to bin it."""
    _pulled_safe(ribs)
    ribs.say("Ines", "dropped it")
    assert "Bin it, the whole piece" in ribs.say("Ines", "raw").text


def test_a_wrong_thermometer_makes_it_unknown(ribs: PlayedKitchen) -> None:
    """No number of it counts as safe, before or after, until another one was told and read."""
    _pulled_safe(ribs)
    answer = ribs.say("Ines", "the thermometer is broken, its off by 15")
    assert "Another thermometer" in answer.labels
    unknown = ribs.say("Ines", "is it safe")
    assert unknown.text.startswith("Unknown: ")
    assert "the thermometer is said to be wrong" in unknown.text
    ribs.until(on("10:50"))
    ribs.say("Ines", "I have another thermometer now")
    ribs.until(on("10:52"))
    assert ribs.say("Ines", "is it safe").text.startswith("Unknown: ")
    ribs.say("Ines", "202")
    assert ribs.say("Ines", "is it safe").text.startswith("Measured safe: ")


def test_cooked_food_on_the_raw_tray_is_a_stop(ribs: PlayedKitchen) -> None:
    """165 F read afterwards ends it, nothing said does."""
    _pulled_safe(ribs)
    ribs.say("Ines", "used the same tray as the raw chicken")
    assert ribs.say("Ines", "is it safe").text.startswith("Not safe.")
    ribs.until(on("10:55"))
    ribs.say("Ines", "170")
    assert not ribs.say("Ines", "is it safe").text.startswith("Not safe.")


def test_the_end_of_a_problem_says_what_is_so_now(ribs: PlayedKitchen) -> None:
    """Relit: "the fire burns again" with its time, never "over: the fire is out", which reads as the opposite."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "fire is out")
    ribs.until(on("10:44"))
    assert "Does the fire burn again?" in ribs.say("Ines", "its fine").text
    assert "fire_out" in ribs.situation.state.troubles
    ribs.until(on("10:45"))
    answer = ribs.say("Ines", "relit")
    assert answer.lines[0] == "The fire burns again, 10:45."
    assert "fire is out" not in answer.text


@pytest.mark.parametrize("what", sorted(CARDS))
def test_every_problem_has_an_ending_of_its_own(what: str) -> None:
    """No ending repeats the name of its problem: "the pit is too cold" is not what is said when it is not."""
    said = over_words(what)
    assert CARDS[what].name().casefold() not in said.casefold() or said.endswith((" is over", " is settled"))


def test_a_wrong_thermometer_that_is_fixed_is_told_all_the_same(ribs: PlayedKitchen) -> None:
    """Told as "off by 15, all good now" says that the numbers until now were wrong: it is not dropped."""
    _pulled_safe(ribs)
    ribs.say("Ines", "the thermometer was off by 15, all good now")
    assert ribs.say("Ines", "is it safe").text.startswith("Unknown: ")
