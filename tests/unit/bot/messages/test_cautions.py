"""Cautions in the words of messages: each row of the trade where it is said, in twenty words; no lit cooker is left."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from pathlib import Path

import pytest

import bot.messages
from bot.commands import DANGERS
from bot.messages.figures import Voice
from bot.messages.problems import CARDS, problem_card
from bot.messages.steps import CAUTIONS, caution_text
from bot.messages.trip import trip_message
from scheduler.facts import Asked, CareTold, StepDone, TreatedTold, Treatment
from scheduler.planning.cautions import caution_for
from scheduler.planning.prompts import Prompt, Why
from scheduler.planning.trips import Trip
from scheduler.safety.register import people
from tests.screens.scenes import GOLDEN
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, dinner, planned

STEPS = {step.id: step for step in CATALOGUE.steps.steps}
OVERNIGHT = planned(cut="brisket_packer", serving=dinner(30 * 60), pit_low_c=104.0, pit_high_c=104.0, mass_kg=7.0)

# --- every row of the trade's table of cautions, where it is said --------------------------------------------------


def _prompt(step_id: str, minutes: float, number: int = 1, piece: str = "p1") -> Prompt:
    return Prompt(
        key=f"{piece}/{step_id}/{number}", cook="c1", piece=piece, step=STEPS[step_id], due_at=at(minutes),
        why=Why(kind="after"), order=CATALOGUE.steps.order(step_id),
    )  # fmt: skip


def asked(log: Logbook, step_id: str, minutes: float, needle: str) -> bool:
    """Return whether the message that asks this step says the caution, or one of the next (after a refuel, which always
    says its own: a look at the pit); each is written as asked.
    """
    for number in range(1, 15):
        again = "pit_check" if step_id == "refuel" and number > 1 else step_id
        trip = Trip(prompts=(_prompt(again, minutes + number, number),))
        now = at(minutes + number)
        cautions = caution_for(log.facts, log.situation.views, CATALOGUE.steps, trip.prompts, now)
        trip = Trip(prompts=trip.prompts, cautions=cautions)
        text = trip_message(trip, log.situation, Voice(zone="UTC", unit="F", now=now)).text
        log.tell(Asked(prompts=trip.keys, cautions=cautions), minutes + number, by=None)
        if needle in text:
            return True
    return False


def card_of(problem: str) -> str:
    """Return what is said at once when a problem is told."""
    found = CATALOGUE.remedies.problem(problem)
    assert found is not None
    log = cooking(OVERNIGHT)
    return problem_card(found, log.situation, Voice(zone="UTC", unit="F", now=at(70))).text


def fresh() -> Logbook:
    """Return a cook that is planned."""
    return Logbook(OVERNIGHT)


def burning() -> Logbook:
    """Return a cook with meat on the fire."""
    return cooking(OVERNIGHT)


def served() -> Logbook:
    """Return a cook of which dinner is on the table and the vents are shut."""
    log = cooking(OVERNIGHT)
    for minutes, step in ((1700, "pull"), (1710, "shutdown"), (1800, "serve")):
        log.tell(StepDone(step=step), minutes)
    return log


def told(*facts: CareTold | TreatedTold) -> Logbook:
    """Return a cook on the fire of which something was told."""
    log = cooking(OVERNIGHT)
    for fact in facts:
        log.tell(fact, 100)
    return log


BY_STEP: tuple[tuple[str, str, Callable[[], Logbook], str, float, str], ...] = (
    ("ban", "planning", fresh, "clean_cooker", 10, "Ask your county"),
    ("ban", "before lighting", fresh, "rules_recheck", 10, "Local rules decide"),
    ("permit", "event with public or payment", lambda: told(CareTold(public=True)), "core_read", 110, "health office"),
    ("allergy", "headcount", fresh, "headcount", 10, "Ask for allergies"),
    ("co", "lighting", fresh, "light", 10, "carbon monoxide"),
    ("co", "overnight", burning, "pit_check", 17 * 60, "carbon monoxide"),
    ("co", "shutdown", burning, "shutdown", 900, "carbon monoxide"),
    ("site", "lighting", fresh, "light", 10, "children and pets"),
    ("fluid", "lighting", fresh, "light", 10, "Starter fluid only before the flame"),
    ("fluid", "refuel", burning, "refuel", 300, "Never starter fluid on a lit fire"),
    ("hot", "meat on", fresh, "meat_on", 50, "gloves, long sleeves"),
    ("hot", "wrap", burning, "wrap_do", 500, "gloves, long sleeves"),
    ("hot", "refuel", burning, "refuel", 500, "gloves, long sleeves"),
    ("hot", "pull", burning, "pull", 900, "gloves, long sleeves"),
    ("burp", "opening", burning, "fuel_check", 200, "a starved fire can jump"),
    ("grease", "drippy cuts", burning, "pit_check", 100, "Fat on fire: lid and vents shut. Never water."),
    ("grease", "dry water pan", burning, "water_pan", 200, "Never water."),
    ("raw", "trim", fresh, "trim", 10, "Do not rinse meat"),
    ("raw", "rub", fresh, "rub_binder", 40, "Do not rinse meat"),
    ("raw", "probe in", fresh, "probe_in", 40, "Do not rinse meat"),
    ("raw", "meat on", fresh, "meat_on", 50, "Do not rinse meat"),
    ("thaw", "frozen cut", fresh, "thaw_start", 10, "never the counter"),
    ("intact", "tenderised", lambda: told(TreatedTold(treatments=(Treatment.ROLLED,))), "core_read", 110, "never pink"),
    ("minimum", "near target", burning, "second_spot", 700, "The lowest spot counts"),
    ("danger", "fuel out", burning, "refuel", 300, "Never pause half-cooked meat"),
    ("hold", "in the box", burning, "box_meat", 1720, "140 F (60 C) is the floor"),
    ("two_hour", "served", served, "two_hour", 1890, "Two hours is the limit, one if it is above 90 F (32 C)"),
    ("chill", "leftovers", served, "leftovers", 1890, "never a whole hot joint"),
    ("at_risk", "headcount says so", lambda: told(CareTold(at_risk=True)), "core_read", 110, "held meat strictly hot"),
    ("unattended", "night watch", burning, "handover", 16 * 60 + 5, "awake and near"),
    ("ash", "day after", served, "ash", 4700, "48 hours"),
    ("bristle", "cleaning", fresh, "clean_cooker", 10, "Wire bristles"),
    ("storm", "forecast", fresh, "weather", 10, "30 minutes after the last thunder"),
    ("drink_sleep", "night watch > 6 h", burning, "handover", 16 * 60 + 5, "Tired or drinking"),
    ("knife", "carving", burning, "slice", 1790, "cut-resistant glove"),
    ("marinade", "salting", fresh, "dry_brine", 10, "A marinade that held raw meat"),
)
"""(caution, when the trade shows it, the cook, the step that is asked, when, words that are seen)."""

BY_PROBLEM = (
    ("co", "wind", "carbon monoxide kills"), ("co", "rain", "carbon monoxide"), ("co", "cold", "carbon monoxide"),
    ("co", "cooker_indoors", "carbon monoxide"), ("fluid", "fluid_on_fire", "Never starter fluid on a lit fire"),
    ("grease", "flare_up", "Never water on burning fat"), ("grease", "grease_fire", "Never water"),
    ("danger", "fuel_out", "the meat under 140 F"), ("hold", "hold_low", "140 F"),
    ("burn_aid", "burn", "cool running water, 10 to 20 min. No ice, no butter"),
    ("burn_aid", "burn", "emergency number"),
    ("storm", "lightning", "30 min after the last thunder"), ("ban", "fire_ban_now", "Obey it"),
    ("unattended", "helper_missing", "Nobody leaves a lit cooker alone"),
    ("thaw", "frozen_middle", "Never from frozen"),
    ("fluid", "wont_light", "Never any liquid on coals"),
)  # fmt: skip
"""(caution, problem that is told, words of the answer)."""

TRADE = frozenset(
    ("ban", "permit", "allergy", "co", "site", "fluid", "hot", "burp", "grease", "raw", "thaw", "intact", "minimum",
     "danger", "hold", "two_hour", "chill", "at_risk", "unattended", "ash", "bristle", "burn_aid", "storm",
     "drink_sleep")
)  # fmt: skip
"""Ids in the trade's table of cautions, copied from it; marinade and knife are the house's own."""


@pytest.mark.parametrize(("name", "when", "cook", "step", "minutes", "needle"), BY_STEP)
def test_a_caution_of_the_trade_is_said_where_it_belongs(
    name: str, when: str, cook: Callable[[], Logbook], step: str, minutes: float, needle: str
) -> None:
    """In a played log the message that asks the step says the caution; one whose place is taken, in one of the next."""
    assert asked(cook(), step, minutes, needle), (name, when)


@pytest.mark.parametrize(("name", "problem", "needle"), BY_PROBLEM)
def test_a_caution_of_the_trade_is_in_the_answer_to_the_problem(name: str, problem: str, needle: str) -> None:
    """Told of rain, a burn or burning fat, the answer itself says it, and the catalogue knows that it does."""
    assert needle in card_of(problem)
    caution = next(one for one in CATALOGUE.steps.cautions if one.id == name)
    assert name == "danger" or f"problem:{problem}" in caution.spoken_by


def test_every_row_of_the_trade_has_its_caution_and_its_place() -> None:
    """All of the table are in the catalogue, in words, and each in one of the tables above."""
    ids = {caution.id for caution in CATALOGUE.steps.cautions}
    assert ids == TRADE | {"marinade", "knife"} == set(CAUTIONS)
    assert {row[0] for row in BY_STEP} | {row[0] for row in BY_PROBLEM} == ids


def test_what_is_spoken_by_a_problem_is_tested() -> None:
    """No card is trusted to say a caution unless a row above reads it there."""
    trusted = {(one.id, what) for one in CATALOGUE.steps.cautions for what in one.spoken_by if ":" in what}
    read = {(name, f"problem:{problem}") for name, problem, _needle in BY_PROBLEM}
    more = {("co", "problem:co_symptom"), ("co", "problem:lightning"), ("fluid", "problem:fuel_out"),
            ("fluid", "problem:fire_out")}  # fmt: skip
    assert trusted <= read | more
    for name, problem in more:
        words = {"co": ("carbon monoxide", "never into a garage"), "fluid": ("No fluid",)}[name]
        assert any(word in card_of(problem.removeprefix("problem:")) for word in words), problem


# --- short -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["beef", "poultry", "ground", "fish"])
@pytest.mark.parametrize("name", list(CAUTIONS))
def test_a_caution_is_at_most_twenty_words_figures_counted(name: str, kind: str) -> None:
    """140, F, (60 and C) are words, too; no exclamation."""
    text = caution_text(name, kind)
    assert len(text.split()) <= 20, text
    assert "!" not in text


@pytest.mark.parametrize("unit", ["F", "C"])
@pytest.mark.parametrize("problem", sorted(set(CARDS) - DANGERS))
def test_the_caution_of_a_card_is_at_most_twenty_words(problem: str, unit: str) -> None:
    """One line that begins with "Careful", with every figure filled in. Where people are in danger the card is first
    aid and has a message of its own.
    """
    found = CATALOGUE.remedies.problem(problem)
    assert found is not None
    text = problem_card(found, burning().situation, Voice(zone="UTC", unit=unit, now=at(70))).text
    careful = [line.removeprefix("Careful: ") for line in text.split("\n") if line.startswith("Careful: ")]
    assert len(careful) <= 1
    assert [line for line in careful if len(line.split()) > 20] == []


# --- a lit cooker is never left ------------------------------------------------------------------------------------

LEAVING = re.compile(
    r"\b(go (back )?(to (bed|sleep)|home|out)\b|sleep (well|tight|on)|get some sleep|good night|quiet night"
    r"|you (can|may) (sleep|rest|leave|go)|nobody (needs|has) to (be|stay|watch)|needs? no(body| watch)"
    r"|walk away|step away|leave(s)? (it|the (fire|cooker|pit|kettle|grill|charcoal)|a lit cooker)\b"
    r"|(left|leave|burns?) (alone|unattended)|by itself (over ?night|all night)|look after itself|unwatched)",
    re.IGNORECASE,
)
"""Words that would say that a fire may be left."""

MEANT = {
    "A lit cooker is never left alone": "says that it is not",
    "a lit cooker is never left alone": "says that it is not",
    "Nobody leaves a lit cooker alone": "says that it is not",
    "Lightning: leave the cooker": "people in danger go first",
    "leave it shut": "the lid",
    "leave it as it is": "the plan",
    "leave it covered": "meat off the fire",
    "Leave it whole": "meat in the box",
    "Leave it bare": "the meat stays unwrapped",
    "leave it out, or say none": "a word on the command line",
    "Leave it out": "a question of the setup",
}
"""What the words find although it says no such thing, and why."""


def _texts() -> dict[str, str]:
    """Return every text that is said, from the source of `bot/messages` and from the kept screens: text -> place."""
    found: dict[str, str] = {}
    for path in sorted(Path(bot.messages.__path__[0]).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"_", "ngettext"}:
                for argument in node.args:
                    if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                        found[argument.value] = path.name
    for path in sorted(GOLDEN.glob("*.txt")):
        found[path.read_text(encoding="utf-8")] = path.name
    return found


def test_no_text_says_that_a_lit_cooker_may_be_left() -> None:
    """Read in every word of every message and on every kept screen: nobody is sent to bed, home or away from a fire."""
    texts = _texts()
    assert len(texts) > 800
    odd = []
    for text, place in texts.items():
        plain = text
        for meant in MEANT:
            plain = plain.replace(meant, "")
        odd += [(place, found[0]) for found in [LEAVING.search(plain)] if found is not None]
    assert odd == []


@pytest.mark.parametrize(
    "text", ["Good night.", "You can sleep until 6.", "Leave the fire to itself", "It burns alone."]
)
def test_leaving_is_found_where_it_is_said(text: str) -> None:
    """The words above would be found."""
    assert LEAVING.search(text)


def test_what_is_meant_otherwise_is_still_said() -> None:
    """No exception outlives its text."""
    everything = "\n".join(_texts())
    assert [meant for meant in MEANT if meant not in everything] == []


# --- the register ------------------------------------------------------------------------------------------------


def test_every_caution_that_is_a_rule_stands_in_the_register() -> None:
    """By its id, with a source where there is one; the others are figures that a rule of food limits, or questions."""
    registered = {rule.id.removeprefix("caution_") for rule in people.REGISTER}
    by_food = {"minimum", "hold", "two_hour", "chill", "intact", "thaw"}
    assert registered | by_food == set(CAUTIONS)
    status = {one.id: one.status for one in CATALOGUE.steps.cautions}
    assert {rule.id for rule in people.REGISTER if rule.house} == {
        f"caution_{name}" for name in registered if status[name] == "common practice"
    }
