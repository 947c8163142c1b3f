"""Readings that are reported: which question they answer, what is doubted, what confirms it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import typing
from types import SimpleNamespace

import pytest

from scheduler.cook import Changes, Situation, SpotAsked
from scheduler.cook.plausible import doubt
from scheduler.facts import Corrected, Feel, Felt, Noted, Reading, ServingMoved, Slot, Undone
from scheduler.forecast import Forecast
from tests.unit.scheduler.logbook import Logbook, at, cooking, dinner, planned, resting


def _core(value_c: float, **more: object) -> Reading:
    return Reading(slot=Slot.CORE, value_c=value_c, **more)  # type: ignore[arg-type]  # fields of the reading


def _pit(value_c: float) -> Reading:
    return Reading(slot=Slot.PIT, value_c=value_c)


# --- which question a number answers ----------------------------------------------------------------------------------


def test_a_number_answers_the_question_that_was_asked() -> None:
    """Asked for the meat, told the meat."""
    log = cooking()
    log.ring(150)
    changes = log.taken(_core(30.0), minutes=155)
    assert changes.facts[0].answers == ("p1/core_read/1",)


@pytest.mark.parametrize(("minutes", "answers"), [(119, ()), (120, ("p1/core_read/1",))])
def test_a_number_volunteered_shortly_before_it_would_be_asked_answers_it(
    minutes: float, answers: tuple[str, ...]
) -> None:
    """Half an hour before its time it counts as the answer, a minute earlier it is just a reading."""
    assert cooking().taken(_core(20.0), minutes=minutes).facts[0].answers == answers


def test_a_number_of_the_other_slot_answers_nothing() -> None:
    """Asked for the meat, told the pit: the meat is still asked for."""
    log = cooking()
    log.done("raw_cleanup", 70)
    log.tell(_pit(135.0), 140, answers=("p1/pit_check/1",))
    log.ring(150)
    changes = log.taken(_pit(136.0), minutes=155)
    assert "p1/core_read/1" not in changes.facts[0].answers
    assert log.prompt("core_read") is not None


def test_meat_and_pit_in_one_message_answer_both() -> None:
    """Two numbers, two questions."""
    log = cooking()
    log.tell(_pit(135.0), 100, answers=("p1/pit_check/1",))
    log.ring(150)
    changes = log.taken(_core(30.0), _pit(135.0), minutes=155)
    assert [fact.answers for fact in changes.facts[:2]] == [("p1/core_read/1",), ("p1/pit_check/2",)]


def test_a_question_for_both_needs_both_and_both_fresh() -> None:
    """Four hours on, a brisket: meat alone leaves it open, the pit half an hour later closes it, later it does not."""
    for later, closed in ((30, True), (31, False)):
        log = cooking(planned(cut="brisket_packer", pit_low_c=121.0, pit_high_c=121.0))
        log.ring(300)
        assert "p1/come_up_check/1" not in log.taken(_core(55.0), minutes=302).facts[0].answers
        log.taken(_pit(121.0), minutes=302 + later)
        assert ("p1/come_up_check/1" in log.state.closed) is closed


def test_a_number_is_no_feel() -> None:
    """Asked for the feel, told a number: the reading is kept, the feel is still asked for."""
    log = cooking()
    log.read(91.0, 400)
    log.ring(400)
    changes = log.taken(_core(92.0), minutes=402)
    assert changes.facts[0].answers == ()
    assert log.prompt("tender_test") is not None
    assert log.taken(Felt(feel=Feel.TIGHT), minutes=403).facts[0].answers == ("p1/tender_test/1",)


def test_an_old_number_told_late_answers_no_new_question() -> None:
    """Asked before serving, told what the probe said hours ago on the fire: the reading is still wanted."""
    log = resting(planned(serving=dinner(640)), pulled=480)
    log.ring(625)
    changes = log.taken(_core(95.0), minutes=628, ago=160)
    assert changes.facts[0].answers == ()
    assert log.prompt("serve_reading") is not None
    log.taken(_core(74.0), minutes=630)
    assert log.prompt("serve_reading") is None


def test_a_question_asked_before_it_moved_takes_the_answer() -> None:
    """Asked at 625, dinner moved an hour: the reading of 630 answers what was asked."""
    log = resting(planned(serving=dinner(640)), pulled=480)
    log.ring(625)
    log.taken(ServingMoved(serving=dinner(700)), minutes=627)
    log.taken(_core(74.0), minutes=630)
    assert "p1/serve_reading/1" in log.state.closed


def test_a_reply_is_dated_by_when_it_was_sent() -> None:
    """Sent five minutes ago, arriving now: it happened then and was written down now."""
    fact = cooking().taken(_core(30.0), minutes=155, ago=5).facts[0]
    assert (fact.happened_at, fact.recorded_at) == (at(150), at(155))


def test_a_phone_that_is_a_little_fast_is_forgiven() -> None:
    """Sent three minutes from now: it happened now. Ten minutes from now: that cannot be."""
    log = cooking()
    assert log.taken(_core(30.0), minutes=155, ago=-3).facts[0].happened_at == at(155)
    refusal = log.refused(_core(31.0), minutes=160, ago=-10)
    assert (refusal.reason, refusal.at) == ("future", at(170))


def _doubted(changes: Changes) -> bool:
    """Return whether the first fact is a reading under question."""
    body = changes.facts[0].body
    assert isinstance(body, Reading)
    return body.doubtful


# --- doubt ------------------------------------------------------------------------------------------------------------


def _forewarned(situation: Situation, wrong: float) -> Situation:
    """Return a situation whose forecast gives every reading this probability of being wrong."""
    forecast = SimpleNamespace(outlier_probability=lambda _reading: wrong, core_c=situation.outlook.forecast.core_c)
    outlook = dataclasses.replace(situation.outlook, forecast=typing.cast("Forecast", forecast))
    return dataclasses.replace(situation, outlook=outlook)


def _credulous(situation: Situation) -> Situation:
    return _forewarned(situation, 0.0)


def _known() -> Logbook:
    log = cooking()
    log.read(60.0, 240)
    return log


@pytest.mark.parametrize(
    ("value_c", "minutes", "doubted"),
    [
        (68.0, 250, False),
        (68.1, 250, True),
        (83.9, 280, False),
        (84.1, 280, True),
        (57.0, 260, False),
        (56.9, 260, True),
    ],
)
def test_a_leap_from_the_reading_before_is_doubted(value_c: float, minutes: float, doubted: bool) -> None:
    """A jump of more than 8 degrees, a rise of more than 0.6 a minute, a fall of more than 3: whatever was foreseen."""
    found = doubt(_core(value_c), at(minutes), _credulous(_known().situation))
    assert (found is not None) is doubted
    if found is not None:
        assert found.before is not None
        assert (found.before.value_c, found.before.at, found.expected_c) == (60.0, at(240), None)


def test_what_leaps_is_kept_aside_and_names_what_it_does_not_fit() -> None:
    """The reading is written as doubtful, and a second spot is asked for."""
    changes = _known().taken(_core(84.1), minutes=280)
    (asked,) = [event for event in changes.events if isinstance(event, SpotAsked)]
    assert (asked.before_c, asked.before_at) == (60.0, at(240))
    assert _doubted(changes)


def test_the_edges_of_an_approximate_reading_count_in_its_favour() -> None:
    """About 70 may be 68: it fits."""
    situation = _credulous(_known().situation)
    assert doubt(_core(70.0, spread_c=2.0), at(250), situation) is None
    assert doubt(_core(70.0), at(250), situation) is not None


@pytest.mark.parametrize(
    ("wrong", "first", "doubted"),
    [(0.05, False, False), (0.07, False, True), (0.45, True, False), (0.55, True, True)],
    ids=["likely right", "likely enough wrong", "first, may be", "first, likely wrong"],
)
def test_a_reading_that_nobody_foresaw_is_doubted(wrong: float, first: bool, doubted: bool) -> None:
    """Above six percent of being wrong a second spot is asked for; the first reading of a cook is given more room."""
    situation = (cooking() if first else _known()).situation
    found = doubt(_core(64.0), at(260), _forewarned(situation, wrong))
    assert (found is not None) is doubted
    if found is not None:
        assert found.before is None
        assert found.expected_c is not None
        assert found.expected_c[0] < found.expected_c[1]


@pytest.mark.parametrize(
    ("before_c", "value_c", "later", "doubted"),
    [(70.0, 72.0, 60, False), (70.0, 74.0, 60, True), (70.0, 71.0, 91, True), (40.0, 41.0, 60, True)],
    ids=["stayed", "moved", "too long ago", "far below the stall"],
)
def test_a_core_that_stays_near_its_stall_is_believed(
    before_c: float, value_c: float, later: float, doubted: bool
) -> None:
    """Slower than anybody foresaw, but read twice: a long stall is nothing to be asked about again and again."""
    log = cooking()
    log.read(before_c, 300)
    found = doubt(_core(value_c), at(300 + later), _forewarned(log.situation, 0.9))
    assert (found is not None) is doubted


def test_an_ordinary_cook_is_not_nagged() -> None:
    """Racks that rise as racks do: not one of their readings is doubted, neither the first one."""
    log = cooking()
    for minutes, core_f in ((150, 112), (210, 142), (270, 158), (330, 168), (375, 179), (420, 193), (445, 199)):
        changes = log.taken(_core((core_f - 32) / 1.8), minutes=minutes)
        assert not [event for event in changes.events if isinstance(event, SpotAsked)], (minutes, core_f)


@pytest.mark.parametrize(("minutes", "value_c"), [(100, 75.0), (300, 8.0)], ids=["bone or fat", "not in the meat"])
def test_even_the_first_reading_may_be_too_strange(minutes: float, value_c: float) -> None:
    """75 C after forty minutes, 8 C after four hours: it contradicts nothing but the meat."""
    changes = cooking().taken(_core(value_c), minutes=minutes)
    assert _doubted(changes)
    (asked,) = [event for event in changes.events if isinstance(event, SpotAsked)]
    assert (asked.before_c, asked.before_at) == (None, None)
    assert asked.expected_c is not None


def test_what_is_doubted_answers_nothing_and_moves_nothing() -> None:
    """The question stays open, the forecast does not move, the number is kept."""
    log = _known()
    log.ring(240)
    before = log.situation.outlook.pull
    changes = log.taken(_core(90.0), minutes=250)
    assert changes.facts[0].answers == ()
    assert changes.after.outlook.pull == before
    assert [r.value_c for r in log.state.read(Slot.CORE, doubtful=True)] == [60.0, 90.0]


def test_a_second_spot_that_agrees_confirms_both() -> None:
    """Within three degrees and half an hour: the first is no longer doubted, and keeps its own doubt and spot. The one
    before, from which it cannot have come in ten minutes, is the doubtful one now.
    """
    log = _known()
    log.taken(_core(80.0, spot="flat", spread_c=1.0), minutes=250)
    log.taken(_core(78.0, spot="point"), minutes=252)
    assert [(r.value_c, r.spot, r.spread_c, r.doubtful) for r in log.state.readings] == [
        (60.0, None, 0.0, True), (80.0, "flat", 1.0, False), (78.0, "point", 0.0, False),
    ]  # fmt: skip


def test_a_second_spot_that_disagrees_leaves_the_first_in_doubt() -> None:
    """63 after a doubted 80: the probe sat against bone; 63 counts."""
    log = _known()
    log.taken(_core(80.0), minutes=250)
    log.taken(_core(63.0), minutes=252)
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [60.0, 63.0]


def test_a_late_second_spot_confirms_nothing() -> None:
    """After more than half an hour it is a reading of its own."""
    log = _known()
    log.taken(_core(80.0), minutes=250)
    log.taken(_core(80.0), minutes=281)
    assert log.state.readings[1].doubtful


def test_an_old_reading_told_late_confirms_nothing() -> None:
    """A number of two hours before the doubted one says nothing about it."""
    log = _known()
    log.taken(_core(80.0), minutes=250)
    log.taken(_core(78.0), minutes=255, ago=125, sure=True)
    assert log.state.readings[-1].doubtful


def test_sure_is_believed() -> None:
    """Said to be right, it counts, and the doubted one before it as well; what they cannot have come from does not."""
    log = _known()
    log.taken(_core(80.0), minutes=250)
    changes = log.taken(_core(80.0), minutes=251, sure=True)
    assert not [event for event in changes.events if isinstance(event, SpotAsked)]
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [80.0, 80.0]


def test_a_confirmed_reading_is_believed_by_the_forecast() -> None:
    """Twice 80 C ten minutes after 60: the pull comes forward."""
    log = _known()
    before = log.situation.outlook.pull.likely
    log.taken(_core(80.0), minutes=250)
    log.taken(_core(80.0), minutes=252)
    after = log.situation.outlook.pull.likely
    assert before is not None
    assert after is not None
    assert before - after > dt.timedelta(minutes=30)


def test_what_was_read_long_before_stays() -> None:
    """An hour lies between: a wrong reading now says nothing against that one."""
    log = cooking()
    log.read(60.0, 240)
    log.taken(_core(98.0), minutes=280)
    log.taken(_core(97.0), minutes=281)
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [60.0, 98.0, 97.0]


def test_taking_back_the_second_spot_brings_the_doubt_back() -> None:
    """Undo of the confirming reading undoes the confirming, too."""
    log = _known()
    log.taken(_core(80.0), minutes=250)
    second = log.taken(_core(79.0), minutes=252).facts[-1]
    log.taken(Undone(of=second.id), minutes=253)
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [60.0]
    assert [r.doubtful for r in log.state.readings] == [False, True]


def test_pit_and_box_are_not_judged() -> None:
    """The pit may jump, and in the box the core may fall."""
    log = _known()
    log.read(135.0, 240, slot=Slot.PIT)
    assert not _doubted(log.taken(_pit(60.0), minutes=245))
    box = resting(pulled=480)
    assert not _doubted(box.taken(_core(75.0), minutes=500))


def test_a_correction_of_a_doubted_reading_counts() -> None:
    """Typed 190, meant 160: what stands is not under question."""
    log = _known()
    doubted = log.taken(_core(88.0), minutes=250).facts[0]
    log.taken(Corrected(of=doubted.id, body=_core(62.0)), minutes=251)
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [60.0, 62.0]


def test_readings_told_out_of_order_take_their_place() -> None:
    """An older reading told after a newer one is judged by what came before it, and sorted in."""
    log = _known()
    log.taken(_core(70.0), minutes=300)
    changes = log.taken(_core(62.0), minutes=302, ago=50)
    assert not _doubted(changes)
    assert [r.value_c for r in log.state.readings] == [60.0, 62.0, 70.0]


def test_the_same_number_twice_is_two_readings_and_one_answer() -> None:
    """Sent twice by a shaky line: both are kept, the second answers nothing that is not asked."""
    log = cooking()
    log.ring(150)
    log.taken(_core(30.0), minutes=152)
    again = log.taken(_core(30.0), minutes=153)
    assert again.facts[0].answers == ()
    prompt = log.prompt("core_read")
    assert prompt is not None
    assert prompt.key == "p1/core_read/2"


def test_a_refused_report_refuses_the_whole_message() -> None:
    """Nothing is half taken."""
    log = Logbook()
    refusal = log.refused(Noted(text="all well"), Felt(feel=Feel.TENDER), minutes=10)
    assert refusal.reason == "not_on_yet"


def test_two_people_who_read_differently_are_asked_about_the_spot() -> None:
    """Six degrees apart within ten minutes from two people: doubt; from one person: the meat moved on."""
    for who, doubtful in (("Tomas", True), ("Ines", False)):
        log = cooking()
        log.taken(Reading(slot=Slot.CORE, value_c=70.0), minutes=300, by="Ines")
        changes = log.taken(Reading(slot=Slot.CORE, value_c=76.0), minutes=305, by=who)
        assert any(isinstance(event, SpotAsked) for event in changes.events) is doubtful, who


def test_named_spots_are_compared_with_themselves() -> None:
    """The flat may read five degrees under the point without any doubt."""
    log = cooking()
    log.taken(Reading(slot=Slot.CORE, value_c=90.0, spot="point"), minutes=300)
    changes = log.taken(Reading(slot=Slot.CORE, value_c=85.0, spot="flat"), minutes=301)
    assert not [event for event in changes.events if isinstance(event, SpotAsked)]
