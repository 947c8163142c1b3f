"""Whole cooks in words, from plan to leftovers: what holds for every message and every answer, at every stage."""

from __future__ import annotations

import dataclasses
import re
import string
from collections.abc import Callable, Iterator

import pytest

from bot.chat import OutgoingKind
from bot.messages.steps import CAUTIONS
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window
from tests.unit.bot.application.cooks import BRISKET_F, RIBS_F, Crew
from tests.unit.scheduler.logbook import CATALOGUE

QUESTIONS = {"how long": 6, "what next": 6, "plan": 10}
"""What can be asked at any moment, and how many lines its answer has at most."""

RETURN = {caution.id for caution in CATALOGUE.steps.cautions if caution.returns}
"""Cautions that come back with their condition."""

NAMES = ("Ines", "Tomas")
"""Who leads, and who only listens."""

LETTERS = string.ascii_lowercase
OF_A_NUMBER = re.compile(r"^(?:Pit )?\d|^Another number$")

MOST_CHARACTERS = 4096
"""Longest text of one message (Bot API manual, sendMessage)."""


@dataclasses.dataclass
class Played:
    """A cook that was played: everything that was sent, and the answers to questions at every stage."""

    kitchen: PlayedKitchen
    asked: list[tuple[str, str, Heard]] = dataclasses.field(default_factory=list)
    """(stage, question, answer)."""

    def ask(self, kitchen: PlayedKitchen) -> None:
        """Ask everything once in each stage."""
        if not kitchen.store.open_cooks():
            return
        state = kitchen.situation.state
        stage = f"{state.stage.value}, {len(state.done)} done"
        if stage not in {known for known, _question, _answer in self.asked}:
            for question in QUESTIONS:
                self.asked.append((stage, question, kitchen.say("Ines", question)))

    @property
    def messages(self) -> list[Heard]:
        """Return every message about the running cook, to anybody, but for taps and boards."""
        sent = [h for h in self.kitchen.heard if h.outgoing.kind is OutgoingKind.MESSAGE and h.sort != "board"]
        return sent[[h.text.startswith(("7 racks", "Whole brisket")) for h in sent].index(True) :]


def played(tmp_path_factory: pytest.TempPathFactory, sentence: str, rise_f: tuple[tuple[float, float], ...]) -> Played:
    """Play one cook to its end, with Tomas listening."""
    kitchen = PlayedKitchen(tmp_path_factory.mktemp("cook"), on("06:00"))
    kitchen.opens("Ines")
    kitchen.opens("Tomas")
    kitchen.say("Ines", sentence)
    cook = Played(kitchen)
    Crew(kitchen, "Ines", rise_f, each_time=cook.ask).play(on("12:00", 6))
    return cook


@pytest.fixture(scope="module")
def ribs(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Played]:
    """Return a cook of ribs in Fahrenheit."""
    cook = played(tmp_path_factory, "7 racks of short ribs, dinner 18:00, pit 250", RIBS_F)
    yield cook
    cook.kitchen.close()


@pytest.fixture(scope="module")
def brisket(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Played]:
    """Return a brisket over night, wrapped in paper."""
    cook = played(tmp_path_factory, "brisket 6 kg, dinner 18:00 tomorrow, pit 250, paper", BRISKET_F)
    yield cook
    cook.kitchen.close()


@pytest.fixture(params=["ribs", "brisket"])
def cook(request: pytest.FixtureRequest) -> Played:
    """Return each of the cooks."""
    found = request.getfixturevalue(request.param)
    assert isinstance(found, Played)
    return found


def test_a_cook_is_played_to_its_end(cook: Played) -> None:
    """From the plan to the last leftovers, and then it says that this was it."""
    assert cook.kitchen.store.open_cooks() == ()
    assert cook.messages[-1].text.endswith("That was this cook. Everything is kept for the next one.")
    stages = {stage.split(",")[0] for stage, _question, _answer in cook.asked}
    assert {"before", "cooking", "resting", "after"} <= stages


def test_every_message_ends_with_when_the_next_one_comes(cook: Played) -> None:
    """The last line of each message, and no other, says when the next one comes by itself, or that it will not."""
    wrong = [h.text for h in cook.messages if not re.match(r"(Next: \S|That was )", h.last)]
    assert wrong == []
    twice = [h.text for h in cook.messages if sum(line.startswith("Next: ") for line in h.lines) > 1]
    assert twice == []


def test_answers_are_short_at_every_stage(cook: Played) -> None:
    """How long and what next in six lines, the plan in ten, whenever they are asked."""
    long = [(stage, question, a.text) for stage, question, a in cook.asked if len(a.lines) > QUESTIONS[question]]
    assert long == []
    assert len(cook.asked) > 30


def test_answers_say_how_dinner_stands(cook: Played) -> None:
    """Until the food is out each answer says whether dinner is on time; afterwards that it is served."""
    silent = [
        (s, q, a.text)
        for s, q, a in cook.asked
        if not re.search(r"^Dinner (\w{3} )?18:00: |served", a.text, re.MULTILINE)
    ]
    assert silent == []


def test_how_long_tells_pull_and_plate(cook: Played) -> None:
    """While it cooks: windows for pull and plate, the last readings, and the next action."""
    while_cooking = [a.text for s, q, a in cook.asked if q == "how long" and s.startswith("cooking")]
    assert while_cooking
    for text in while_cooking:
        assert re.search(r"^Ready to pull: .+ to .+, likely .+\.$|^Off the fire since ", text, re.MULTILINE)
        assert re.search(r"^Plate possible", text, re.MULTILINE)


def test_the_next_action_has_an_owner_and_a_time(cook: Played) -> None:
    """Every answer names who has the next action, and when."""
    unowned = [a.text for _s, _q, a in cook.asked if not re.match(r"Next: .*\(Ines\)(, now)?\.|That was ", a.last)]
    assert unowned == []


def test_nothing_is_too_long_to_be_sent(cook: Played) -> None:
    """No message is longer than a messenger takes."""
    assert max(len(h.text) for h in cook.messages) < MOST_CHARACTERS


def test_nobody_is_shouted_at(cook: Played) -> None:
    """No exclamation mark in a whole cook."""
    assert [h.text for h in cook.messages if "!" in h.text] == []


def test_nothing_is_left_unfilled(cook: Played) -> None:
    """No brace, no None, no empty line at an end."""
    odd = [h.text for h in cook.messages if re.search(r"[{}]|\bNone\b|^\s|\s$|\n\n\n", h.text)]
    assert odd == []


def test_one_caution_in_a_message_and_each_once(cook: Played) -> None:
    """At most one caution rides in a message, and each comes once to a person, but those whose condition returns."""
    mine = [h for h in cook.messages if h.room == window("Ines")]
    cautions = [line for h in mine for line in h.lines if line.startswith("Careful: ")]
    assert {line for line in cautions if cautions.count(line) > 1} <= {
        f"Careful: {CAUTIONS[name]()}" for name in RETURN
    }
    assert max(sum(line.startswith("Careful: ") for line in h.lines) for h in mine) == 1
    assert any("carbon monoxide" in caution for caution in cautions)


def test_prompts_come_to_both_and_buzz_once(cook: Played) -> None:
    """By day what comes by itself comes to both at one instant; in the quiet hours what wakes comes to Ines alone, who
    leads, for Tomas sleeps. Nothing buzzes for the second one unless it is about safety.
    """
    prompts = [h for h in cook.messages if h.sort in {"prompt", "summary"}]
    asleep = [h for h in prompts if not 7 <= h.at.hour < 22]
    by_room = [[(h.at, h.text) for h in prompts if h.room == window(name) and h not in asleep] for name in NAMES]
    assert by_room[0] == by_room[1]
    assert len(by_room[0]) > 10
    assert asleep
    assert {h.room for h in asleep if not h.outgoing.silent} == {window("Ines")}
    assert [h.text for h in asleep if h.room == window("Tomas") and not h.outgoing.silent] == []
    assert {h.room for h in prompts if not h.outgoing.silent and not h.outgoing.urgent} == {window("Ines")}


def test_reports_are_echoed(cook: Played) -> None:
    """Whatever Ines reported, Tomas saw with her name."""
    echoes = [h for h in cook.messages if h.room == window("Tomas") and h.sort == "echo"]
    assert len(echoes) > 20
    assert all("Ines" in h.text for h in echoes)


def test_other_days_have_their_weekday(brisket: Played) -> None:
    """Over night every time of another day is told with its weekday: none lies in the past of the day it is told."""
    for heard in brisket.messages:
        found = re.match(r"Next: (\d\d):(\d\d), ", heard.last)
        if found:
            assert heard.at.strftime("%H:%M") <= f"{found[1]}:{found[2]}", heard.text


def test_units_stay_what_they_were(ribs: Played) -> None:
    """A cook begun in Fahrenheit is told in Fahrenheit to its end."""
    own = re.compile(r"\b\d+(?:\.\d)? C\b(?!\))")
    assert [h.text for h in ribs.messages if own.search(h.text)] == []


# --- every choice that is offered -------------------------------------------------------------------------------------


def test_every_offered_choice_can_be_typed(tmp_path_factory: pytest.TempPathFactory) -> None:
    """At every prompt of a whole cook, a button typed as its label, as its letter, or as its label after a newer
    message covered it, does what the same button does when it is tapped. A number is tapped or chosen by its letter:
    typed digits are a reading of their own, finer than the button.
    """
    kitchen = PlayedKitchen(tmp_path_factory.mktemp("choices"), on("06:00"))
    kitchen.say("Ines", "7 racks of short ribs, dinner 18:00, pit 250")
    tried: set[str] = set()
    wrong: list[tuple[str, str]] = []

    def try_each(played: PlayedKitchen) -> None:
        prompts = [h for h in played.new if h.sort == "prompt" and h.labels and h.room == window("Ines")]
        for number, label in enumerate(prompts[-1].labels if prompts else ()):
            if label not in tried:
                tried.add(label)
                tapped = _taken(tmp_path_factory, played, _tapping(label))
                words = () if OF_A_NUMBER.match(label) else (label.lower(), f"plan\n{label}")
                wrong.extend((label, typed) for typed in (LETTERS[number], *words)
                             if _taken(tmp_path_factory, played, _typing(typed)) != tapped)  # fmt: skip

    Crew(kitchen, "Ines", RIBS_F, each_time=try_each).play(on("12:00", 6))
    kitchen.close()
    assert wrong == []
    assert len(tried) > 30


def _tapping(label: str) -> Callable[[PlayedKitchen], object]:
    """Return the pressing of a button."""
    return lambda kitchen: kitchen.tap("Ines", label)


def _typing(lines: str) -> Callable[[PlayedKitchen], object]:
    """Return the typing of lines, one message each."""
    return lambda kitchen: [kitchen.say("Ines", line) for line in lines.split("\n")]


def _taken(
    tmp_path_factory: pytest.TempPathFactory, kitchen: PlayedKitchen, act: Callable[[PlayedKitchen], object]
) -> list[str]:
    """Return what people had told, in a twin of this kitchen, after somebody did something; nothing when it is over."""
    twin = kitchen.continued(tmp_path_factory.mktemp("twin"))
    act(twin)
    told = [str(f.body) for f in twin.cook.facts if f.by is not None] if twin.store.open_cooks() else []
    twin.close()
    return told
