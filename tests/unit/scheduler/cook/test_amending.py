"""Taking back and correcting: facts that act on facts, and what comes back with them."""

from __future__ import annotations

from scheduler.cook import Undid
from scheduler.facts import (
    Closed,
    Corrected,
    Fact,
    Feel,
    Felt,
    Noted,
    Planned,
    Reading,
    Slot,
    StepDone,
    Undone,
    Withdrawn,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.state import last_by
from tests.unit.scheduler.logbook import Logbook, at, cooking, planned, resting


def _core(value_c: float) -> Reading:
    return Reading(slot=Slot.CORE, value_c=value_c)


def _undo(log: Logbook, minutes: float, by: str = "Ines") -> tuple[Undid, ...]:
    """Take back the last thing a person told; return what was taken back."""
    last = last_by(log.facts, by)
    changes = log.taken(Undone(of="" if last is None else last.id), minutes=minutes, by=by)
    return tuple(event for event in changes.events if isinstance(event, Undid))


def _fact(log: Logbook, step: str) -> Fact:
    return next(fact for fact in log.facts if isinstance(fact.body, StepDone) and fact.body.step == step)


# --- taking back ------------------------------------------------------------------------------------------------------


def test_undo_takes_back_the_last_report_and_names_it() -> None:
    """The fact is named, its prompt comes back, and the log has grown by one."""
    log = cooking()
    log.ring(150)
    log.taken(_core(30.0), minutes=152)
    before = len(log.facts)
    undid = _undo(log, 153)
    assert [event.fact.body for event in undid] == [_core(30.0)]
    assert log.prompt("core_read") is not None
    assert len(log.facts) == before + 1


def test_undo_takes_back_the_whole_message() -> None:
    """Meat and pit came in one message: both go, in reverse."""
    log = cooking()
    log.taken(_core(30.0), Reading(slot=Slot.PIT, value_c=135.0), minutes=152)
    assert [event.fact.body for event in _undo(log, 153)] == [Reading(slot=Slot.PIT, value_c=135.0), _core(30.0)]
    assert log.state.readings == ()


def test_undo_takes_back_what_was_implied() -> None:
    """Boxed implied the pull: both are undone, and the meat is on the fire again."""
    log = cooking()
    log.taken(StepDone(step="box_meat"), minutes=480)
    _undo(log, 481)
    assert log.state.did("pull") is None
    assert log.state.did("box_meat") is None


def test_undo_again_goes_one_further_back() -> None:
    """Each undo takes back one report more; then there is nothing left but the plan."""
    log = cooking()
    log.taken(_core(30.0), minutes=150)
    log.taken(_core(48.0), minutes=200)
    _undo(log, 201)
    _undo(log, 202)
    assert log.state.readings == ()
    _undo(log, 203)
    _undo(log, 204)
    assert log.state.did("light") is None
    assert log.refused(Undone(of=""), minutes=205).reason == "nothing_to_undo"


def test_undo_reaches_only_what_one_told_oneself() -> None:
    """Tomas has told nothing: there is nothing of his to take back."""
    assert last_by(cooking().facts, "Tomas") is None
    assert cooking().refused(Undone(of=""), minutes=90, by="Tomas").reason == "nothing_to_undo"


def test_the_plan_cannot_be_taken_back() -> None:
    """Calling a cook off is another word; undo leaves the plan and the calling off alone."""
    log = Logbook()
    assert log.refused(Undone(of="f0"), minutes=1).reason == "nothing_to_undo"
    log.tell(Closed(reason="called off"), 2)
    assert log.refused(Undone(of="f1"), minutes=3).reason == "nothing_to_undo"


def test_undo_of_a_correction_brings_the_old_value_back() -> None:
    """165 corrected to 156: undo gives 165 again, and names what it took back."""
    log = cooking()
    read = log.taken(_core(56.0), minutes=200).facts[0]
    log.taken(Corrected(of=read.id, body=_core(57.0)), minutes=201)
    undid = _undo(log, 202)
    assert [(event.fact.body, event.fact.happened_at) for event in undid] == [(_core(57.0), at(200))]
    assert [r.value_c for r in log.state.readings] == [56.0]


def test_undo_of_a_corrected_time_brings_the_old_time_back() -> None:
    """On at 7:00, no, 6:50, undo: on at 7:00, and the last reading untouched."""
    log = cooking()
    log.taken(_core(30.0), minutes=150)
    log.taken(StepDone(step="meat_on"), minutes=160, ago=110, dated=True)
    assert log.state.at("meat_on") == at(50)
    _undo(log, 161)
    assert log.state.at("meat_on") == at(60)
    assert len(log.state.readings) == 1


def test_an_edit_is_taken_back_before_the_message_it_edits() -> None:
    """An edited message is two reports: the first undo brings the first text back, the second takes it away."""
    log = cooking()
    read = log.taken(_core(56.0), minutes=200, message="same").facts[0]
    log.taken(Corrected(of=read.id, body=_core(65.0)), minutes=203, message="same")
    _undo(log, 204)
    assert [r.value_c for r in log.state.readings] == [56.0]
    _undo(log, 205)
    assert log.state.readings == ()


def test_meat_on_cannot_be_taken_back_once_it_came_off() -> None:
    """First the pull, then meat on: the order holds for undo, too."""
    log = resting()
    refusal = log.refused(Undone(of=_fact(log, "meat_on").id), minutes=490)
    assert (refusal.reason, refusal.step) == ("not_on_yet", "pull")


def test_the_pull_cannot_be_taken_back_once_the_box_is_shut() -> None:
    """Tomas boxed it: that it was pulled stands as long as that does."""
    log = resting(pulled=480)
    log.taken(StepDone(step="box_meat"), minutes=500, by="Tomas")
    refusal = log.refused(Undone(of=_fact(log, "pull").id), minutes=505)
    assert (refusal.reason, refusal.step, refusal.other) == ("out_of_order", "pull", "box_meat")


def test_taking_back_meat_on_brings_its_question_back() -> None:
    """The meat is asked for again, cooking steps are withdrawn, and nothing of it is lost."""
    log = Logbook()
    log.taken(StepDone(step="light"), minutes=0)
    log.ring(225)
    log.taken(StepDone(step="meat_on"), minutes=230)
    log.ring(230)
    assert log.prompt("raw_cleanup") is not None
    _undo(log, 235)
    assert log.prompt("meat_on") is not None
    gone = {fact.body.prompt for fact in log.facts if isinstance(fact.body, Withdrawn)}
    assert "p1/raw_cleanup/1" in gone
    log.taken(StepDone(step="meat_on"), minutes=240)
    prompt = log.prompt("raw_cleanup")
    assert prompt is not None
    assert prompt.asked == 1


def test_taking_back_the_pull_puts_the_meat_on_the_fire_again() -> None:
    """The resting steps go, the feel and the checks come back."""
    log = cooking()
    log.taken(Felt(feel=Feel.TENDER), minutes=470)
    log.taken(StepDone(step="pull"), minutes=480)
    log.ring(480)
    _undo(log, 482)
    steps = {prompt.step.id for prompt in log.situation.prompts}
    assert "pull" in steps
    assert not steps & {"vent_meat", "shutdown", "box_meat", "hold_check"}


def test_taking_back_the_wrap_brings_the_bark_back() -> None:
    """Not wrapped after all: somebody looks at the bark again."""
    log = cooking()
    log.read(80.0, 300)
    log.ring(300)
    log.taken(Wrapped(wrap=Wrap.FOIL), minutes=302)
    assert log.prompt("bark_check") is None
    _undo(log, 303)
    prompt = log.prompt("bark_check")
    assert prompt is not None
    assert prompt.key == "p1/bark_check/1"


def test_a_wish_for_a_wrap_is_taken_back_with_the_answer_it_came_with() -> None:
    """Told that it will be foil: the plan and the call for the wrap go back with one undo."""
    log = cooking()
    log.taken(planned(wrap=Wrap.FOIL), StepDone(step="bark_check", outcome="set"), minutes=300)
    wraps = [log.state.planned.wrap]
    _undo(log, 301)
    wraps.append(log.state.planned.wrap)
    assert wraps == [Wrap.FOIL, None]
    assert log.state.did("bark_check") is None
    assert isinstance(log.facts[0].body, Planned)


# --- correcting -------------------------------------------------------------------------------------------------------


def test_a_correction_moves_the_forecast() -> None:
    """47 C typed for 74 C: the pull comes forward once it is put right."""
    log = cooking()
    read = log.taken(_core(47.0), minutes=240, sure=True).facts[0]
    before = log.situation.outlook.pull.likely
    log.taken(Corrected(of=read.id, body=_core(74.0)), minutes=241)
    after = log.situation.outlook.pull.likely
    assert before is not None
    assert after is not None
    assert after < before


def test_corrections_out_of_order_each_keep_their_place() -> None:
    """The older reading is corrected after the newer one: both stand right, in the order of their times."""
    log = cooking()
    first = log.taken(_core(30.0), minutes=150).facts[0]
    second = log.taken(_core(48.0), minutes=200).facts[0]
    log.taken(Corrected(of=second.id, body=_core(47.0)), minutes=201)
    log.taken(Corrected(of=first.id, body=_core(29.0)), minutes=202)
    assert [(r.value_c, r.at) for r in log.state.readings] == [(29.0, at(150)), (47.0, at(200))]


def test_a_corrected_outcome_changes_what_follows() -> None:
    """Fuel low, no, half: nobody is sent for charcoal."""
    log = cooking()
    fact = log.taken(StepDone(step="fuel_check", outcome="low"), minutes=210).facts[0]
    log.ring(210)
    assert log.prompt("refuel") is not None
    log.taken(Corrected(of=fact.id, body=StepDone(step="fuel_check", outcome="half")), minutes=212)
    assert log.prompt("refuel") is None


def test_a_correction_must_not_break_the_order_or_lie_in_the_future() -> None:
    """Another time that cannot be is refused, and the old one stands."""
    log = resting(pulled=480)
    pull = _fact(log, "pull")
    early = log.refused(Corrected(of=pull.id, body=StepDone(step="pull"), happened_at=at(30)), minutes=490)
    assert early.reason == "out_of_order"
    late = log.refused(Corrected(of=pull.id, body=StepDone(step="pull"), happened_at=at(600)), minutes=490)
    assert (late.reason, late.at) == ("future", at(600))
    assert log.state.at("pull") == at(480)


def test_what_does_not_stand_cannot_be_corrected() -> None:
    """An unknown fact, and one that was taken back."""
    log = cooking()
    read = log.taken(_core(30.0), minutes=150).facts[0]
    _undo(log, 151)
    for of in ("nothing", read.id):
        assert log.refused(Corrected(of=of, body=_core(31.0)), minutes=152).reason == "nothing_to_correct"


def test_a_cook_that_is_over_takes_only_notes_and_undo() -> None:
    """A reading after the end is refused; a note is kept."""
    log = resting()
    log.done("serve", 780)
    log.tell(Closed(), 800)
    assert log.refused(_core(60.0), minutes=801).reason == "over"
    log.taken(Noted(text="lovely"), minutes=802)
    log.taken(Undone(of=_fact(log, "serve").id), minutes=803)
    assert log.state.over
