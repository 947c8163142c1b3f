"""The catalogue: its files are read, broken ones are refused by name, and every step and caution has words."""

from __future__ import annotations

import re
import string

import pytest

from bot.messages.steps import CAUTIONS, StepWords, all_step_ids, step_words
from scheduler.cuts import Cut, read_cuts
from scheduler.errors import CatalogueError, UnknownCut
from scheduler.facts import Feel, Wrap
from scheduler.forecast.fitted import RECORDED, figures
from scheduler.planning.catalogue import read_catalogue
from scheduler.planning.steps import Level, Step
from tests.catalogue import CUT_TEXTS, CUTS, TEXTS
from tests.unit.scheduler.logbook import CATALOGUE

STEPS = CATALOGUE.steps.steps
MOST_WORDS = 20

HANDLED_BY_NAME = {
    "rules_recheck", "light", "meat_on", "smoke_clean", "pit_check", "fuel_check", "core_read", "come_up_check",
    "bark_check", "wrap_do", "box_ready", "tender_test", "pull", "vent_meat", "shutdown", "box_meat", "hold_check",
    "t_minus", "serve_reading", "slice", "serve", "two_hour", "leftovers", "fire_out", "ash",
}  # fmt: skip
"""Steps that code of the engine speaks of."""


# --- the files as they are ----------------------------------------------------------------------


def test_the_catalogue_is_read() -> None:
    """27 cuts, each with its fit recorded, beef first; steps from the day before to the ash."""
    assert {cut.id for cut in CUTS.cuts} == set(RECORDED)
    assert len(CUTS.cuts) == 27
    assert [cut.id for cut in CUTS.cuts][:3] == ["beef_chuck_ribs", "beef_plate_ribs", "brisket_packer"]
    assert CATALOGUE.cuts == CUTS
    assert {step.phase for step in STEPS} == {"before", "fire", "cooking", "resting", "serving", "after"}


def test_steps_stand_in_the_order_of_doing() -> None:
    """The order of an open lid is the order of the file: on, wrap, pull, rest, slice, plate."""
    order = [
        CATALOGUE.steps.order(step) for step in ("light", "meat_on", "wrap_do", "pull", "box_meat", "slice", "serve")
    ]
    assert order == sorted(order)
    phases = [step.phase for step in STEPS]
    assert phases == sorted(phases, key=["before", "fire", "cooking", "resting", "serving", "after"].index)


def test_what_the_engine_names_exists() -> None:
    """No step that code speaks of is missing from the file."""
    assert {step.id for step in STEPS} >= HANDLED_BY_NAME


def test_every_safety_step_stays_open() -> None:
    """Nobody's silence closes a safety step, and there are such steps at every turn of the cook."""
    safety = [step for step in STEPS if step.safety]
    assert {step.unanswered.then for step in safety} == {"open"}
    assert {step.phase for step in safety} == {"before", "fire", "cooking", "resting", "serving", "after"}


def test_every_figure_names_where_it_comes_from() -> None:
    """Safety classes, cuts, steps and cautions carry a source, or say that there is none."""
    words = [
        *(entry.source for entry in CATALOGUE.cuts.safety.values()),
        *(words for cut in CUTS.cuts for words in (cut.basis, cut.composition_source)),
        *(step.basis for step in STEPS),
        *(caution.source for caution in CATALOGUE.steps.cautions),
    ]
    assert all(words)


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_the_figures_behind_a_recorded_fit_are_unchanged(cut: Cut) -> None:
    """Who corrects one of these figures has to record the fit anew (`python -m tests.calibration.record`)."""
    assert RECORDED[cut.id].figures == figures(cut)


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_figures_of_a_cut_fit_one_another(cut: Cut) -> None:
    """Testing begins at or below the target, a wrap comes before it, the shortest rest lies within the ideal."""
    assert cut.start_testing_c <= cut.target_c.low
    assert cut.bark_look_c < cut.wrap_until_c <= cut.start_testing_c
    assert cut.rest_min_min <= cut.rest_ideal_min[0] < cut.rest_ideal_min[1] <= cut.rest_max_unheated_min
    assert cut.stall_c[0] < cut.stall_c[1]
    assert cut.duration_wrap in cut.wraps
    assert cut.mass_kg.low <= cut.duration_kg <= cut.mass_kg.high
    assert cut.pit_c.low <= cut.duration_pit_c <= cut.pit_c.high
    assert cut.first_look_h < cut.duration_h.low
    assert 0.4 < cut.cooked_share.low < cut.cooked_share.high < 1


@pytest.mark.parametrize("cut", [cut for cut in CUTS.cuts if cut.doneness == "feel"], ids=lambda cut: cut.id)
def test_a_tough_cut_stalls_before_it_is_felt_and_is_safe_before_it_stalls(cut: Cut) -> None:
    """What goes by feel has hours in a stall that ends below the first feel, far above its safe minimum."""
    assert cut.stall_h.low > 0
    assert cut.stall_c[1] < cut.start_testing_c
    assert CUTS.minimum_c(cut) <= cut.stall_c[0]


@pytest.mark.parametrize("cut", [cut for cut in CUTS.cuts if cut.doneness == "temperature"], ids=lambda cut: cut.id)
def test_what_goes_by_temperature_is_usually_done_at_its_safe_minimum_or_above(cut: Cut) -> None:
    """The typical target is no lower than the published minimum; such cuts have no hours in a stall."""
    assert cut.target_c.typical >= round(CUTS.minimum_c(cut))
    assert (cut.stall_h.low, cut.stall_h.typical, cut.stall_h.high) == (0, 0, 0)


@pytest.mark.parametrize(
    ("cut", "minimum_f", "rest_min"),
    [
        ("whole_turkey", 165, 0), ("duck", 165, 0), ("chicken_thighs", 165, 0), ("sausages", 160, 0),
        ("salmon_side", 145, 0), ("leg_of_lamb", 145, 3), ("prime_rib", 145, 3), ("fresh_ham", 145, 3),
    ],
)  # fmt: skip
def test_classes_hold_the_published_minimum(cut: str, minimum_f: float, rest_min: float) -> None:
    """Poultry 165 F, ground meat 160 F and fish 145 F at once; whole roasts 145 F and 3 min (USDA FSIS chart)."""
    entry = CUTS.safety[CUTS.get(cut).safety_class]
    assert (entry.minimum_f, entry.rest_min) == (minimum_f, rest_min)


@pytest.mark.parametrize(
    ("cut", "water", "fat"),
    [
        ("brisket_packer", 0.6108, 0.1906), ("pork_butt", 0.6918, 0.1236), ("pork_belly", 0.3674, 0.5301),
        ("whole_chicken", 0.6599, 0.1506), ("lamb_shoulder", 0.6336, 0.1896), ("baby_back_ribs", 0.6347, 0.1633),
    ],
)  # fmt: skip
def test_compositions_are_those_of_the_published_rows(cut: str, water: float, fat: float) -> None:
    """Shares of water and fat as printed in the USDA tables (Standard Reference, rows 13803, 10080, 10005, ...)."""
    made_of = CUTS.get(cut).composition
    assert (made_of.water, made_of.fat) == (water, fat)


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_a_composition_says_where_it_was_read(cut: Cut) -> None:
    """Either the number of a row that was read, of the piece or of a near one, or that it is remembered."""
    told = cut.composition_source
    assert re.match(r"(nearest: )?USDA SR NDB \d{5} [A-Z].*\(READ\)|from memory: ", told)


# --- words ----------------------------------------------------------------------


def test_steps_and_words_match() -> None:
    """Every step has words, and nothing is worded that is no step."""
    assert sorted(all_step_ids()) == sorted(step.id for step in STEPS)


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_every_outcome_of_a_step_has_its_button(step: Step) -> None:
    """A step that offers choices in the file has a button for each; one that offers none there has no choices."""
    words = step_words(step.id)
    if step.id == "wrap_do":  # its choices are the wraps, which are facts of their own
        assert {outcome for outcome, _ in words.outcomes} == {"paper", "foil", "boat", "bare"}
        return
    assert tuple(outcome for outcome, _ in words.outcomes) == step.outcomes


def test_wraps_and_feels_are_offered_as_the_log_knows_them() -> None:
    """Buttons of the bark and of the feel stand for values that facts can hold."""
    assert {outcome for outcome, _ in step_words("tender_test").outcomes} == {feel.value for feel in Feel}
    bark = {outcome for outcome, _ in step_words("bark_check").outcomes}
    assert bark - {"bare", "not_yet"} == {wrap.value for wrap in Wrap} - {"none"}


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_words_of_a_step_are_complete(step: Step) -> None:
    """Name, task and button are there; the task asks only for figures that the message can fill in."""
    words: StepWords = step_words(step.id)
    assert all((words.name, words.do, words.done))
    fields = {name for _, name, _, _ in string.Formatter().parse(words.do) if name}
    assert fields <= {
        "feel", "salt", "vent", "pit", "act", "buy", "come_up", "new_pit", "pit_floor",
        "thaw", "thaw_water", "trip_low", "trip_high", "done_at", "watch", "eat_by",
    }  # fmt: skip


def test_two_buttons_of_one_step_never_read_alike() -> None:
    """What is chosen is told apart by its label alone."""
    for step in STEPS:
        labels = [label for _, label in step_words(step.id).outcomes]
        assert len(set(labels)) == len(labels), step.id


def test_cautions_have_words_and_no_more_than_twenty() -> None:
    """Every caution of the file is worded, every worded one is in the file, and all fit a message."""
    assert set(CAUTIONS) == {caution.id for caution in CATALOGUE.steps.cautions}
    assert {name: text() for name, text in CAUTIONS.items() if len(text().split()) > MOST_WORDS} == {}


def test_every_caution_is_told_at_the_usual_level() -> None:
    """A caution on a nice-to-have step alone would never be told; one that no step carries comes with what happens, or
    is said by a step or a card itself.
    """
    carried = {caution for step in STEPS if step.safety or step.level is not Level.NICE for caution in step.cautions}
    without = {one.id: (*one.returns, *one.spoken_by) for one in CATALOGUE.steps.cautions if one.id not in carried}
    assert [name for name, ways in without.items() if not ways] == []


# --- broken files are refused by name ----------------------------------------------------------------------


def _broken(name: str, entry: str, old: str, new: str) -> dict[str, str]:
    """Return the texts with the first `old` of an entry replaced, in whichever file of the subject it stands."""
    begins = f'id = "{entry}"'
    file = next(one for one in TEXTS if one.split("/")[0] == name and begins in TEXTS[one])
    text = TEXTS[file]
    place = text.index(old, text.index(begins))
    return {**TEXTS, file: text[:place] + new + text[place + len(old) :]}


@pytest.mark.parametrize(
    ("name", "entry", "old", "new", "says"),
    [
        ("cuts", "pork_butt", 'usual_wrap = "paper"', 'usual_wrap = "sack"', "pork_butt.usual_wrap"),
        ("cuts", "beef_chuck_ribs", '"none"\nbark', '"boat"\nbark', "beef_chuck_ribs: the usual wrap boat"),
        ("cuts", "brisket_packer", '"intact_beef"', '"game"', "brisket_packer: safety_class 'game' is none of beef"),
        ("cuts", "pork_butt", '"boston butt"', '"brisket"', "'brisket' names both brisket_packer and pork_butt"),
        ("cuts", "pork_butt", "{ low = 2.7", "{ low = 9.9", "pork_butt.mass_kg"),
        ("cuts", "pork_butt", "duration_kg = 3.8", "duration_kg = 0", "pork_butt.duration_kg"),
        ("cuts", "pork_butt", "vent_min", "vent_mins", "pork_butt.vent_mins"),
        ("cuts", "beef_plate_ribs", '"beef"', '"owl"', "beef_plate_ribs.species"),
        ("cuts", "pork_butt", "water = 0.6918", "water = 0.7918", "pork_butt.composition"),
        ("cuts", "pork_butt", "composition = {", "recipe = {", "pork_butt.composition"),
        ("cuts", "pork_butt", "come_up_check = true", "come_up_check = yes", "cuts: Invalid value"),
        ("steps", "trim", '"trim"', '"light"', "stands twice: light"),
        ("steps", "trim", '["light", "meat_on"]', '["lamp"]', "trim: no such step: ['lamp']"),
        ("steps", "stage_kit", '"prep"', '"wet_brine"', "stage_kit: no such step: ['wet_brine']"),
        ("steps", "meat_on", '"smoke_clean"', '"smoke_gone"', "meat_on: no such step: ['smoke_gone']"),
        ("steps", "two_hour", '["leftovers"]', '["dog"]', "two_hour: no such step: ['dog']"),
        ("steps", "pull", '["hot"]', '["cold"]', "pull: no such caution: ['cold']"),
        ("steps", "hold_check", '"open"', '"lapse"', "hold_check: a safety step must stay open"),
        ("steps", "hold_check", '"held"', '"hold"', "hold_check.anchor"),
        ("steps", "sides", '"nice"', '"kind"', "sides.level"),
        ("steps", "sides", "early_min = 60", "", "sides.early_min"),
        ("steps", "ash", "early_min", "after = 1\nearly_min", "ash.after"),
        ("steps", "pull", "[[steps]]", "[[steps", "steps: "),
        ("cautions", "knife", "source", "sauce", "knife.source"),
        ("cautions", "knife", '"common practice"', '"hearsay"', "knife.status"),
        ("cautions", "knife", '["serve"]', '["dinner"]', "knife: no such step: ['dinner']"),
        ("cautions", "hold", '["box_meat"]', '["boxes"]', "caution hold: never happens: boxes"),
        ("cautions", "burn_aid", "problem:burn", "problem:bum", "caution burn_aid: never happens: problem:bum"),
    ],
)  # fmt: skip
def test_a_broken_file_is_refused_by_the_name_of_its_entry(
    name: str, entry: str, old: str, new: str, says: str
) -> None:
    """The error says which entry, and which of its fields, is wrong."""
    with pytest.raises(CatalogueError, match=re.escape(says)):
        read_catalogue(_broken(name, entry, old, new))


def test_two_texts_never_hold_one_thing_twice() -> None:
    """A cut, a class or a name that stands in two files of cuts is refused, not read once."""
    with pytest.raises(CatalogueError, match="fish: minimum_f stands twice"):
        read_cuts(*CUT_TEXTS, TEXTS["cuts/safety"][TEXTS["cuts/safety"].index("[safety.fish]") :])
    with pytest.raises(CatalogueError, match="beef_chuck_ribs stands twice"):
        read_cuts(*CUT_TEXTS, TEXTS["cuts/beef"])
    with pytest.raises(CatalogueError, match="'duck' names both salmon_side and duck"):
        read_cuts(*(text.replace('"salmon fillet"', '"duck"') for text in CUT_TEXTS))


@pytest.mark.parametrize("name", ["cuts", "cookers", "steps", "cautions"])
def test_a_missing_subject_is_refused_by_name(name: str) -> None:
    """Without one of its subjects there is no catalogue."""
    with pytest.raises(CatalogueError, match=name):
        read_catalogue({other: text for other, text in TEXTS.items() if other.split("/")[0] != name})


def test_an_unknown_cut_is_an_error_of_code() -> None:
    """What people type is matched before; asking the catalogue for a cut it lacks names that cut."""
    with pytest.raises(UnknownCut, match="swan"):
        CATALOGUE.cuts.get("swan")
