"""A cook set up by taps alone: how many it takes, what is shown back, the way back, and a cook as last time."""

from __future__ import annotations

import dataclasses

import pytest

from bot.chat import IncomingKind
from scheduler.facts import CareTold, Wrap
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, group, on, window

THURSDAY = on("09:00", -2)
OLD = "That button is from an older question; nothing was changed."
FIVE = ("Whole brisket", "Usual: 13 lb (5.9 kg)", "Sat 18:00", "Usual: 250 F", "Start")


@dataclasses.dataclass
class Thumb:
    """Somebody who never types; counts taps."""

    kitchen: PlayedKitchen
    taps: int = 0

    def on(self, *labels: str) -> Heard:
        """Press buttons one after another; return the last answer."""
        self.taps += len(labels)
        return [self.kitchen.tap("Ines", label) for label in labels][-1]


@pytest.fixture
def thumb(kitchen: PlayedKitchen) -> Thumb:
    """Return a thumb in a window that was just opened, on a Thursday."""
    kitchen.now = THURSDAY
    kitchen.opens("Ines")
    return Thumb(kitchen)


def test_a_first_cook_takes_six_taps(thumb: Thumb) -> None:
    """Cut, mass, dinner, pit, start and guests at risk: six taps, and not a letter typed."""
    begun = thumb.on(*FIVE)
    assert begun.lines[0] == "Whole brisket, 5.9 kg, pit 250 F, wrap decided at the bark."
    thumb.on("None of these")
    assert thumb.taps == 6
    assert thumb.kitchen.situation.state.care == CareTold(at_risk=False, allergies=(), public=False)


def test_one_sentence_begins_at_once(kitchen: PlayedKitchen) -> None:
    """Whoever says it all is asked nothing but who eats."""
    begun = kitchen.say("Ines", "brisket 6 kg, dinner 18:00 Sunday, pit 250")
    assert begun.lines[0] == "Whole brisket, 6 kg, pit 250 F, wrap decided at the bark."


def test_every_question_shows_what_was_said(thumb: Thumb) -> None:
    """The first line of each question is the set-up so far; the usual answer comes first and says so."""
    pit = thumb.on(*FIVE[:3])
    assert pit.lines[0] == "Whole brisket, 5.9 kg, dinner Sat 18:00."
    assert pit.labels == ("Usual: 250 F", "225 F", "300 F", "Back")


def test_the_whole_is_shown_before_it_begins(thumb: Thumb) -> None:
    """With everything that can be changed as buttons."""
    shown = thumb.on(*FIVE[:4])
    assert shown.lines == [
        "Whole brisket, 5.9 kg, dinner Sat 18:00, pit 250 F.", "Start it, or change something?",
    ]  # fmt: skip
    assert shown.labels == (
        "Start", "Change: cut", "Change: mass", "Change: dinner", "Change: pit", "Change: wrap", "Change: who eats",
        "Back",
    )  # fmt: skip
    assert thumb.kitchen.store.open_cooks() == ()


@pytest.mark.parametrize(
    ("change", "answer", "shown"),
    [
        ("Change: mass", "10 lb (4.5 kg)", "Whole brisket, 4.5 kg, dinner Sat 18:00, pit 250 F."),
        ("Change: dinner", "Sun 18:00", "Whole brisket, 5.9 kg, dinner Sun 18:00, pit 250 F."),
        ("Change: pit", "225 F", "Whole brisket, 5.9 kg, dinner Sat 18:00, pit 225 F."),
        ("Change: wrap", "Paper", "Whole brisket, 5.9 kg, dinner Sat 18:00, pit 250 F, in paper."),
        ("Change: who eats", "Guests at risk", "Whole brisket, 5.9 kg, dinner Sat 18:00, pit 250 F, guests at risk."),
    ],
)
def test_everything_can_be_changed_before_it_begins(thumb: Thumb, change: str, answer: str, shown: str) -> None:
    """Two taps change one thing; all else stays."""
    thumb.on(*FIVE[:4], change)
    assert thumb.on(answer).lines[0] == shown


def test_another_cut_is_another_piece(thumb: Thumb) -> None:
    """Dinner and pit stay, the mass is asked again."""
    thumb.on(*FIVE[:4], "Change: cut")
    asked = thumb.on("Pork shoulder")
    assert asked.lines[0] == "Pork shoulder, dinner Sat 18:00, pit 250 F."
    assert asked.labels[0].startswith("Usual: ")


def test_back_is_one_step(thumb: Thumb) -> None:
    """From the pit back to dinner; from a change back to the whole, with nothing lost."""
    assert thumb.on(*FIVE[:3], "Back").lines[0] == "Whole brisket, 5.9 kg."
    thumb.on(*FIVE[2:4])
    assert thumb.on("Change: mass", "Back").lines[0] == "Whole brisket, 5.9 kg, dinner Sat 18:00, pit 250 F."


def test_typed_answers_fit_into_it(thumb: Thumb) -> None:
    """Whoever taps may type in between."""
    thumb.on("Whole brisket")
    thumb.kitchen.say("Ines", "6 kg")
    thumb.kitchen.say("Ines", "saturday 18:00")
    assert thumb.kitchen.say("Ines", "250-275").lines[0] == "Whole brisket, 6 kg, dinner Sat 18:00, pit 250 to 275 F."


def test_racks_are_counted(thumb: Thumb) -> None:
    """Ribs are not weighed: how many racks."""
    asked = thumb.on("Beef short ribs")
    assert asked.labels == ("1", "2", "3", "4", "6", "8", "Back")
    thumb.on("3", "Sat 18:00", "Usual: 275 F")
    assert thumb.on("Start").lines[0].startswith("3 racks of beef short ribs, pit 275 F")


def test_it_survives_a_restart_and_is_offered_again(thumb: Thumb) -> None:
    """Killed in the middle: the buttons go on where they were, and a greeting asks again, with a way to start over."""
    thumb.on(*FIVE[:2])
    thumb.kitchen.reopen()
    asked = thumb.kitchen.opens("Ines")
    assert asked.lines[:2] == ["We were setting up a cook.", "Whole brisket, 5.9 kg."]
    assert "Start over" in asked.labels
    assert thumb.on("Sat 18:00").lines[0] == "Whole brisket, 5.9 kg, dinner Sat 18:00."
    thumb.kitchen.reopen()
    thumb.kitchen.opens("Ines")
    assert thumb.on("Start over").lines[0] == "Started over."


def test_as_last_time_takes_three_taps(thumb: Thumb) -> None:
    """The cook before it with its pit, wrap and hour: only the date is asked, and who eats."""
    thumb.on(*FIVE[:4], "Change: wrap", "Paper", "Start")
    thumb.kitchen.say("Ines", "call it off")
    thumb.on("Yes, call it off")
    thumb.kitchen.now, thumb.taps = on("09:00", 4), 0
    offered = thumb.kitchen.opens("Ines")
    assert offered.labels[0] == "As last time: Whole brisket, 5.9 kg, pit 250 F, in paper, dinner 18:00"
    thumb.on(offered.labels[0], "Sat 18:00", "None of these")
    assert thumb.taps == 3
    state = thumb.kitchen.situation.state
    assert (state.planned.cut, state.planned.wrap, state.serving.start) == (
        "brisket_packer", Wrap.PAPER, on("18:00", 7).replace(tzinfo=None),
    )  # fmt: skip


def test_the_cuts_of_this_room_come_first(thumb: Thumb) -> None:
    """What was cooked here before stands above the usual cuts."""
    thumb.kitchen.say("Ines", "salmon, dinner 18:00, pit 225")
    thumb.kitchen.say("Ines", "call it off")
    thumb.on("Yes, call it off")
    offered = thumb.kitchen.opens("Ines").labels
    assert next(label for label in offered if not label.startswith("As last time")) == "Salmon side"


def test_waves_are_as_last_time(thumb: Thumb) -> None:
    """Several pieces come again; one with a dinner of its own keeps its distance from the first."""
    thumb.kitchen.say("Ines", "brisket 6 kg and 2 chickens at 20:00, dinner 18:00 Saturday, pit 250")
    before = [view.state.serving.start for view in thumb.kitchen.situation.views]
    thumb.kitchen.say("Ines", "call it off")
    thumb.on("Yes, call it off")
    thumb.kitchen.now = on("09:00", 4)
    thumb.on(thumb.kitchen.opens("Ines").labels[0], "Sat 18:00")
    after = [view.state.serving.start for view in thumb.kitchen.situation.views]
    assert [b - a for a, b in zip(before, after, strict=True) if a and b] == [on("00:00", 7) - on("00:00")] * 2


@pytest.mark.parametrize("label", ["Start", "Sat 18:00", "Back"])
def test_a_button_of_a_set_up_that_is_over(thumb: Thumb, label: str) -> None:
    """Kindly told; nothing begins twice and nothing is changed."""
    thumb.on(*FIVE[:4])
    old = thumb.kitchen.token(label, window("Ines"))
    thumb.on("Start")
    cook, length = thumb.kitchen.cook.id, len(thumb.kitchen.cook.facts)
    sent = thumb.kitchen.does(thumb.kitchen.tapped("Ines", old))
    told = [heard.lines[0] for heard in sent if heard.sort == "answer"]
    assert told == [OLD]
    assert thumb.kitchen.store.open_cooks() == (cook,)
    assert len(thumb.kitchen.cook.facts) == length


def test_a_group_sets_up_together(kitchen: PlayedKitchen) -> None:
    """In a group anybody goes on with the set-up, and a second tap on the last button begins no second cook."""
    kitchen.now, room = THURSDAY, group("Harrow Lane")
    kitchen.invite("owner-code", "owner")
    kitchen.say("Ines", "/start owner-code", room=chat("Ines"))
    kitchen.does(kitchen.incoming("Ines", room, IncomingKind.ARRIVED))
    kitchen.say("Ines", "brisket 6 kg", room=room)
    kitchen.tap("Ines", "Sat 18:00", room=room)
    tokens = kitchen.token("Usual: 250 F", room)
    kitchen.does(kitchen.tapped("Ines", tokens, room=room), kitchen.tapped("Ines", tokens, room=room))
    assert len(kitchen.store.open_cooks()) == 1
    assert kitchen.situation.state.planned.mass_kg == 6


@pytest.mark.parametrize(
    ("change", "answer", "line"),
    [
        ("Change: mass", "10 lb (4.5 kg)", "4.5 kg"),
        ("Change: dinner", "Sun 18:00", "Dinner Sun 18:00"),
        ("Change: pit", "225 F", "225 F"),
        ("Change: wrap", "Paper", "paper"),
        ("Change: cut", "Pork shoulder", "Pork shoulder"),
        ("Change: who eats", "Guests at risk", "Guests at risk"),
    ],
)
def test_everything_can_be_changed_after_it_has_begun(thumb: Thumb, change: str, answer: str, line: str) -> None:
    """Three taps change one thing of a cook that runs; the plan shows it."""
    thumb.on(*FIVE, "Change something", change)
    thumb.on(answer)
    assert line.casefold() in thumb.kitchen.say("Ines", "plan").text.casefold()


def test_meat_that_is_on_stays_what_it_is(thumb: Thumb) -> None:
    """Another cut is another cook once the meat is on."""
    thumb.on(*FIVE)
    thumb.kitchen.now = on("22:25", -1)
    thumb.kitchen.say("Ines", "lit at 21:25")
    thumb.kitchen.say("Ines", "meat on at 22:20")
    thumb.on("Change something")
    assert thumb.on("Change: cut").lines[0].startswith("The meat is on: another cut is another cook.")


def test_the_crew_is_as_last_time(thumb: Thumb) -> None:
    """Roles come again, and watches at the same hours before dinner; it is said, and three taps stay three."""
    thumb.kitchen.opens("Tomas")
    thumb.on(*FIVE)
    thumb.kitchen.say("Ines", "Tomas is a helper")
    thumb.kitchen.say("Ines", "Tomas watches 22:00 to 2:00")
    before = thumb.kitchen.situation.state
    assert before.watches is not None
    thumb.kitchen.say("Ines", "call it off")
    thumb.on("Yes, call it off")
    thumb.kitchen.now, thumb.taps = on("09:00", 4), 0
    begun = thumb.on(thumb.kitchen.opens("Ines").labels[0], "Sat 18:00")
    thumb.on("None of these")
    after = thumb.kitchen.situation.state
    assert thumb.taps == 3
    assert after.crew == before.crew
    assert "Tomas" in after.crew
    assert after.watches is not None
    week = [
        (new.start - old.start).days for old, new in zip(before.watches.watches, after.watches.watches, strict=True)
    ]
    assert week == [7]
    (line,) = [line for line in begun.lines if line.startswith("Crew as last time: ")]
    assert "Tomas (helper)" in line
    assert line.endswith("Watches: Tomas 22:00 to 02:00.")
