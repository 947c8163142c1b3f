"""Words of steps, cautions, findings and refusals: complete, short, and calm."""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
import typing

import pytest

from bot.commands import Unclear, Undo
from bot.messages.figures import Voice
from bot.messages.findings import finding_text
from bot.messages.refusals import question, refusal_text
from bot.messages.steps import CAUTIONS, all_step_ids, step_words
from bot.messages.steps.by_cut import do_of
from bot.messages.trip import meaning
from scheduler.cook import Refusal
from scheduler.safety import Finding, FindingLevel
from tests.fakes.kitchen import CATALOGUE, on
from tests.unit.scheduler.logbook import Logbook, planned

VOICE = Voice(zone="UTC", unit="F", now=on("12:00"))
STEPS = {step.id: step for step in CATALOGUE.steps.steps}
QUESTIONS = (
    "unit", "slot", "typo", "which_step", "skip_which", "was_or_in", "which_wrap", "which_time", "impossible",
    "not_understood",
)  # fmt: skip
"""Every key that `bot.commands.Unclear` names."""
REASONS: tuple[str, ...] = typing.get_args(typing.get_type_hints(Refusal)["reason"])
RULES = (
    "minimum_not_measured", "held_under_floor", "held_act_now", "held_not_read", "come_up_slow", "two_hours_out",
    "pit_cold", "pulled_under_minimum",
)  # fmt: skip


def test_catalogue_and_words_hold_the_same_steps() -> None:
    """Every step of the catalogue has words, and there are no words without a step."""
    assert set(STEPS) == set(all_step_ids())


@pytest.mark.parametrize("step_id", all_step_ids())
def test_the_words_of_a_step(step_id: str) -> None:
    """Each step has a short name for lists, a sentence to do and a button; each outcome has a button that means it."""
    words, step = step_words(step_id), STEPS[step_id]
    assert len(words.name.split()) <= 6
    assert words.name[0].islower()
    assert words.do.endswith((".", "?"))
    assert 0 < len(words.done) <= 30
    if step.outcomes:
        assert {outcome for outcome, _label in words.outcomes} == set(step.outcomes) - {"set"}
    labels = [label for _outcome, label in words.outcomes]
    assert len(set(labels)) == len(labels)
    assert all(meaning(step_id, outcome) for outcome, _label in words.outcomes)


def test_the_catalogue_asks_for_no_caution_without_words() -> None:
    """Every caution that a step carries has words, and every caution in words is carried by a step."""
    carried = {caution for step in STEPS.values() for caution in step.cautions}
    assert carried <= set(CAUTIONS)


@pytest.mark.parametrize("name", list(CAUTIONS))
def test_a_caution_is_at_most_twenty_words(name: str) -> None:
    """A caution that is long is not read."""
    assert len(CAUTIONS[name]().split()) <= 20


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        ("co", ("Outdoors only", "carbon monoxide", "No garage, tent, porch or van")),
        ("hold", ("140 F (60 C)", "145 F (63 C)")),
        ("minimum", ("145 F (62.8 C)", "three minutes", "lowest spot")),
        ("two_hour", ("Two hours", "90 F (32 C)")),
        ("ash", ("48 hours", "metal tin with lid", "outdoors")),
        ("unattended", ("awake", "never left alone")),
        ("fluid", ("Never starter fluid",)),
    ],
)
def test_cautions_say_their_figures(name: str, figures: tuple[str, ...]) -> None:
    """What a caution is for stands in it, with its number: shortening must not lose it."""
    assert [figure for figure in figures if figure not in CAUTIONS[name]()] == []


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("unit", ["F", "C"])
def test_a_finding_in_words(rule: str, unit: str) -> None:
    """Each finding has its sentence with the measured number, and nothing is left unfilled."""
    voice = Voice(zone="UTC", unit=unit, now=on("12:00"))
    finding = Finding(rule=rule, level=FindingLevel.STOP, found_c=57.3, limit_c=62.8, since=on("11:00"))
    text = finding_text(finding, voice)
    assert "{" not in text
    assert "None" not in text
    if rule not in {"two_hours_out", "held_not_read"}:
        assert f" {unit}" in text


@pytest.mark.parametrize("rule", ["minimum_not_measured", "held_under_floor", "two_hours_out"])
def test_what_must_stop_begins_with_stop(rule: str) -> None:
    """The gravest findings begin with the word that is read first."""
    finding = Finding(rule=rule, level=FindingLevel.STOP, found_c=None, limit_c=62.8, since=on("11:00"))
    assert finding_text(finding, VOICE).startswith("Stop: ")


def test_tenths_are_told_near_a_limit() -> None:
    """62.6 C is not 63 C: near a safety limit tenths are shown, never rounded up past it."""
    voice = Voice(zone="UTC", unit="C", now=on("12:00"))
    finding = Finding(rule="minimum_not_measured", level=FindingLevel.STOP, found_c=62.6, limit_c=62.8)
    assert "62.6 C at the coldest spot, it needs 145 F (62.8 C)" in finding_text(finding, voice)


@pytest.mark.parametrize("reason", REASONS)
def test_every_refusal_has_words(reason: str) -> None:
    """Each reason has a sentence with nothing unfilled, that says what is the matter or what would work."""
    refusal = Refusal(
        reason=reason,  # type: ignore[arg-type]  # the literals are walked as strings
        at=on("18:00"),
        step="light",
        other="meat_on",
        minutes=(("light", 60), ("cook", 300), ("vent", 20), ("rest", 30), ("slice", 15)),
    )
    text = refusal_text(refusal, VOICE)
    assert "{" not in text
    assert text[0].isupper() or text[0].isdigit()
    assert text.endswith((".", "?"))


@pytest.mark.parametrize("key", QUESTIONS)
def test_every_question_has_words_of_its_own(key: str) -> None:
    """Each thing that may be unclear has one short question; only what was not understood says so."""
    text = question(Unclear(question=key, text="blue", values=(190.0,)), VOICE).text
    assert "{" not in text
    assert text.startswith("I did not get") == (key == "not_understood")
    assert text.count("?") <= 2
    assert len(text) < 200


def test_a_long_text_is_quoted_short() -> None:
    """What somebody typed is quoted up to a bearable length."""
    text = question(Unclear(question="not_understood", text="word " * 200), VOICE).text
    assert len(text) < 200
    assert "..." in text


@pytest.mark.parametrize(
    ("key", "label"),
    [("core", "The meat"), ("pit", "The pit"), ("celsius", "Celsius"), ("fahrenheit", "Fahrenheit"),
     ("was", "It was then"), ("in", "Ask me then"), ("paper", "Paper"), ("light", "Lit"), ("7:30", "7:30")],
)  # fmt: skip
def test_options_of_a_question_have_labels(key: str, label: str) -> None:
    """Keys become words, steps become their buttons, everything else is shown as it is."""
    asked = question(Unclear(question="which_step", text="x", options=((key, Undo()),)), VOICE)
    assert [option[0] for row in asked.choices for option in row] == [label]


def test_nobody_is_shouted_at() -> None:
    """No exclamation marks and no capitals for emphasis, in any word of a step, caution or button."""
    texts = [text() for text in CAUTIONS.values()]
    for step_id in all_step_ids():
        words = step_words(step_id)
        texts += [words.name, words.do, words.done, *(label for _outcome, label in words.outcomes)]
    assert [text for text in texts if "!" in text or re.search(r"\b[A-Z]{3,}\b", text)] == []


def test_minutes_of_the_sum_are_rounded() -> None:
    """The sum behind an earliest dinner is told in hours and five minutes, not to the second."""
    refusal = Refusal(reason="serving_too_soon", at=on("18:00"), minutes=(("cook", 303.7), ("rest", 30)))
    assert ": cooking about 5 h 5 min, the shortest rest 30 min." in refusal_text(refusal, VOICE)
    assert dt.timedelta(minutes=303.7) > dt.timedelta(hours=5)


@pytest.mark.parametrize(
    ("cut", "step", "wanted", "never"),
    [
        ("whole_chicken", "slice", "at the joints", "across the grain"),
        ("pork_butt", "slice", "Pull it apart", "across the grain"),
        ("brisket_packer", "slice", "across the grain", "joints"),
        ("salmon_side", "pull", "it breaks", "Hot fat runs"),
        ("sausages", "pull", "hot fat spurts", "two people"),
        ("whole_turkey", "pull", "two people for a heavy bird", "Hot fat runs"),
        ("salmon_side", "stage_kit", "foil for a tent", "box and towels"),
        ("sausages", "stage_kit", "foil for a tent", "spray"),
        ("brisket_packer", "stage_kit", "wrap, spray, box and towels", "tent"),
        ("salmon_side", "trim", "pin bones", "Trim"),
    ],
)
def test_words_fit_the_kind_of_meat(cut: str, step: str, wanted: str, never: str) -> None:
    """A bird is not sliced across the grain, fish needs no second person, and nobody lays out a box for sausages."""
    seen = Logbook(dataclasses.replace(planned(), cut=cut)).situation
    said = do_of(step, step_words(step).do, seen)
    assert wanted in said
    assert never not in said


def test_every_pull_keeps_raw_apart_and_warns_of_what_is_hot() -> None:
    """Whatever the words are, the clean tray stays."""
    for cut in CATALOGUE.cuts.cuts:
        seen = Logbook(dataclasses.replace(planned(), cut=cut.id)).situation
        assert "not the raw one" in do_of("pull", step_words("pull").do, seen)


def test_no_pit_reads_a_degree_beside_the_trade() -> None:
    """Every usual pit is a round number of Fahrenheit, as people set it."""
    for cut in CATALOGUE.cuts.cuts:
        assert round(cut.pit_c.typical * 1.8 + 32) % 5 == 0, cut.id
