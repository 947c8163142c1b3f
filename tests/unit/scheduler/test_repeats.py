"""Series of prompts: the rhythm, when it is closer, when it ends, and what undo does to it."""

from __future__ import annotations

import pytest

from scheduler.facts import Feel, Felt, PutBack, Reading, Slot, StepDone, StepSkipped, Undone, Wrap, Wrapped
from scheduler.safety import act_by
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, cooking, cut, dinner, minutes_of, planned, resting


def _pit(value_c: float) -> Reading:
    return Reading(slot=Slot.PIT, value_c=value_c)


def _core(value_c: float) -> Reading:
    return Reading(slot=Slot.CORE, value_c=value_c)


def test_the_next_of_a_series_counts_from_the_answer() -> None:
    """The pit at half an hour, answered ten minutes late: the next an hour after the answer, under a new key."""
    log = cooking()
    assert log.due("pit_check") == 90
    log.ring(90)
    log.taken(_pit(135.0), minutes=100)
    prompt = log.prompt("pit_check")
    assert prompt is not None
    assert (prompt.key, prompt.why.kind) == ("p1/pit_check/2", "repeat")
    assert prompt.why.minutes == 60
    assert log.due("pit_check") == log.due("core_read") == 150, "an hour after, drawn to the reading of the meat"


def test_each_silence_makes_the_pause_longer() -> None:
    """Given up unanswered, the next comes two hours after it was asked instead of one."""
    log = Logbook(planned(serving=WHEN_READY))
    log.done("meat_on", 60)
    log.ring(90)
    assert log.ring(120).facts[0].body.kind == "withdrawn"
    prompt = log.prompt("pit_check")
    assert prompt is not None
    assert prompt.key == "p1/pit_check/2"
    assert log.due("pit_check") == 90 + 120


def test_a_pit_out_of_its_band_is_looked_at_sooner() -> None:
    """More than eight degrees off: half an hour instead of an hour; back in the band: an hour again."""
    log = cooking()
    log.ring(90)
    log.taken(_pit(150.0), minutes=92)
    assert log.due("pit_check") == 122
    log.ring(122)
    log.taken(_pit(136.0), minutes=124)
    due = log.due("pit_check")
    assert due is not None
    assert due >= 150


def test_near_a_decision_the_meat_is_read_more_often() -> None:
    """Within eight degrees of the first feel the next reading comes after half an hour."""
    far, near = cooking(planned(wrap=Wrap.NONE)), cooking(planned(wrap=Wrap.NONE))
    for log, value_c in ((far, 70.0), (near, 83.5)):
        log.read(value_c - 1.0, 310)
        log.read(value_c - 0.5, 355)
        log.tell(_core(value_c), 400, answers=("p1/core_read/1",))
    assert (far.due("core_read"), near.due("core_read")) == (460, 430)


def test_almost_tender_is_felt_again_sooner_than_tight() -> None:
    """Tight: 25 minutes; almost: 15."""
    log = cooking()
    log.read(92.0, 400)
    log.ring(400)
    log.taken(Felt(feel=Feel.TIGHT), minutes=405)
    assert log.due("tender_test") == 430
    log.ring(430)
    log.taken(Felt(feel=Feel.ALMOST), minutes=432)
    assert log.due("tender_test") == 447


def test_the_bark_not_yet_is_looked_at_again_after_forty_minutes_at_the_latest() -> None:
    """Not yet, and the meat hardly rises: forty minutes later."""
    log = cooking()
    for minutes in (240, 270, 300):
        log.read(80.0, minutes)
    log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=305)
    assert log.due("bark_check") == 345


def test_the_bark_not_yet_is_looked_at_again_after_six_degrees() -> None:
    """Not yet, and the meat races: when the forecast says six degrees more, if that is before forty minutes."""
    log = cooking()
    for minutes, value_c in ((240, 60.0), (260, 70.0), (280, 80.0)):
        log.read(value_c, minutes)
    log.ring(280)
    log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=281)
    due = log.due("bark_check")
    assert due is not None
    expected = minutes_of(log.situation.outlook.crossing(86.0).quantile(0.5))
    assert expected is not None
    assert due == min(max(expected, 286), 281 + 40)


def test_the_bark_is_looked_at_three_times_at_most() -> None:
    """After the third "not yet" nobody asks again."""
    log = cooking()
    log.read(80.0, 300)
    for minutes in (300, 350, 400):
        prompt = log.prompt("bark_check")
        assert prompt is not None
        log.ring(minutes)
        log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=minutes + 1)
    assert log.prompt("bark_check") is None


def test_not_yet_told_by_two_people_is_one_look() -> None:
    """The second answer within ten minutes is thanked, and uses up no look."""
    log = cooking()
    log.read(80.0, 300)
    log.ring(300)
    log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=301)
    second = log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=303, by="Tomas")
    assert [type(event).__name__ for event in second.events] == ["Already"]
    assert second.facts == ()
    prompt = log.prompt("bark_check")
    assert prompt is not None
    assert prompt.key == "p1/bark_check/2"


def test_another_answer_soon_after_is_news() -> None:
    """Fuel half, two minutes later fuel low: charcoal is asked for."""
    log = cooking()
    log.ring(210)
    log.taken(StepDone(step="fuel_check", outcome="half"), minutes=212)
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=214, by="Tomas")
    assert log.due("refuel") == 214


def test_bare_to_the_end_is_final() -> None:
    """Decided bare, the bark is not looked at again; unwrapped later, it stays so."""
    log = cooking()
    log.read(80.0, 300)
    log.ring(300)
    log.taken(Wrapped(wrap=Wrap.NONE), minutes=301)
    assert log.prompt("bark_check") is None
    log.read(84.0, 360)
    assert log.prompt("bark_check") is None


def test_wood_is_added_until_the_hours_of_the_cut() -> None:
    """At every step: chuck ribs take smoke for six hours, then no more wood is asked for."""
    log = cooking(planned(detail="every"))
    asked: list[float] = []
    while log.prompt("wood_add") is not None and len(asked) < 20:
        due = log.due("wood_add")
        assert due is not None
        asked.append(due)
        log.taken(StepDone(step="wood_add"), minutes=due)
    assert asked == [150, 210, 270, 330, 390]
    assert asked[-1] <= 60 + 60 * cut().wood_until_h < asked[-1] + 60


def test_spritz_comes_in_the_rhythm_of_the_cut_and_ends_at_its_core() -> None:
    """An unwrapped rib rack is sprayed until it is nearly tender; one read at that core is not any more."""
    log = cooking(planned(detail="every", wrap=Wrap.NONE))
    first = log.due("spritz")
    assert first is not None
    log.taken(StepDone(step="spritz"), minutes=first)
    assert log.due("spritz") == first + (cut().spritz_every_min or 0)
    log.read((cut().spritz_until_c or 0) - 20, first + 10)
    assert log.prompt("spritz") is not None
    log.read(cut().spritz_until_c or 0, first + 30)
    assert log.prompt("spritz") is None


@pytest.mark.parametrize("wrap", [Wrap.PAPER, Wrap.FOIL, Wrap.NONE])
def test_a_wrap_ends_spritz_and_wood(wrap: Wrap) -> None:
    """Through paper or foil nothing gets at the meat; bare to the end is no wrap."""
    log = cooking(planned(detail="every"))
    log.taken(StepDone(step="first_look"), minutes=180)
    log.wrapped(wrap, 185)
    asked = {step for step in ("spritz", "wood_add") if log.prompt(step) is not None}
    assert asked == (set() if wrap is not Wrap.NONE else {"spritz", "wood_add"})


def test_a_skipped_one_of_a_series_is_this_one_only() -> None:
    """Skip the fuel this time: it is asked again at its next time."""
    log = cooking()
    log.ring(210)
    log.taken(StepSkipped(step="fuel_check"), minutes=212)
    prompt = log.prompt("fuel_check")
    assert prompt is not None
    assert prompt.key == "p1/fuel_check/2"


def test_a_held_piece_that_is_warm_is_left_in_peace() -> None:
    """Held at 80 or 65 C the box stays shut until the estimate comes down to 63 C; at 63 C it is read half-hourly."""
    warm, low, cool = (resting(planned(serving=dinner(1400)), pulled=480) for _ in range(3))
    for log, value_c in ((warm, 80.0), (low, 65.0), (cool, 63.0)):
        due = log.due("hold_check")
        assert due is not None
        log.ring(due)
        log.taken(_core(value_c), minutes=due)
    for log in (warm, low):
        careful = minutes_of(act_by(log.state, cut()))
        assert careful is not None
        assert log.due("hold_check") == careful
    last = minutes_of(cool.state.readings[-1].at)
    assert last is not None
    assert cool.due("hold_check") == last + 30


def test_a_series_ends_with_what_overtakes_it() -> None:
    """After the pull neither pit nor fuel nor meat on the fire is asked about; box checks end with serving."""
    log = resting()
    assert not {"pit_check", "fuel_check", "core_read", "tender_test"} & {p.step.id for p in log.situation.prompts}
    log.done("serve", 780)
    assert log.prompt("hold_check") is None


def test_undoing_an_earlier_answer_leaves_the_series_as_it_is() -> None:
    """Ines takes back the first reading when the second is long in: the third stays due."""
    log = cooking()
    log.ring(150)
    first = log.taken(_core(30.0), minutes=152).facts[0]
    log.ring(213)
    log.taken(_core(48.0), minutes=215, by="Tomas")
    before = log.prompt("core_read")
    log.taken(Undone(of=first.id), minutes=220)
    after = log.prompt("core_read")
    assert before is not None
    assert after is not None
    assert after.key == before.key == "p1/core_read/3"
    assert log.due("core_read") == 275


def test_undoing_the_last_answer_asks_it_again() -> None:
    """The question comes back under its old key, as one that was asked already."""
    log = cooking()
    log.ring(150)
    answer = log.taken(_core(30.0), minutes=152).facts[0]
    log.taken(Undone(of=answer.id), minutes=154)
    prompt = log.prompt("core_read")
    assert prompt is not None
    assert (prompt.key, prompt.asked) == ("p1/core_read/1", 1)


def test_a_series_of_meat_that_is_no_longer_on_is_not_asked() -> None:
    """Meat-on taken back: pit, fuel and meat wait until it is on; told again, the series goes on."""
    log = cooking()
    on_fact = log.facts[-1].id
    log.ring(90)
    log.taken(_pit(135.0), minutes=92)
    log.taken(Undone(of=on_fact), minutes=95)
    assert log.prompt("pit_check") is None
    log.taken(StepDone(step="meat_on"), minutes=100)
    prompt = log.prompt("pit_check")
    assert prompt is not None
    assert prompt.key == "p1/pit_check/2"


def test_a_box_of_meat_that_went_back_on_is_not_asked_about() -> None:
    """Back on the heat: the box is not opened for meat on the fire."""
    log = resting(planned(serving=dinner(1400)), pulled=480)
    due = log.due("hold_check")
    assert due is not None
    log.ring(due)
    log.taken(_core(65.0), minutes=due)
    log.taken(PutBack(), minutes=due + 5)
    assert log.prompt("hold_check") is None


def test_what_felt_tight_is_felt_again_when_it_may_be_tender() -> None:
    """Tight at 88 C: again when one in ten would be tender, within the hour; almost comes sooner."""
    log = cooking()
    for core, minutes in ((60.0, 200), (76.0, 330), (88.0, 430)):
        log.read(core, minutes)
    log.ring(430)
    log.taken(_core(88.0), minutes=431)
    log.taken(Felt(feel=Feel.TIGHT), minutes=431)
    due, early = log.due("tender_test"), minutes_of(log.situation.outlook.pull.early)
    assert due is not None
    assert early is not None
    assert 431 + 25 <= due <= 431 + 60
    assert due == max(431 + 25, min(early, 431 + 60))
