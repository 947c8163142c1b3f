"""What the facts of the crew add up to: roles, claims, who has the watch, what waits, who answered the test."""

from __future__ import annotations

import datetime as dt

from scheduler.facts import (
    ClaimDropped,
    Claimed,
    Corrected,
    CrewRole,
    CrewTold,
    HandoverAsked,
    HandoverDeclined,
    HandoverTaken,
    LeverAsked,
    LeverDeclined,
    LeverTaken,
    PhotoKept,
    RanOut,
    SoundHeard,
    SoundSent,
    StepDone,
    Undone,
    Watch,
    WatchesTold,
)
from scheduler.state import CLAIM_LASTS, changes_of, fold, spans
from tests.unit.scheduler.logbook import Logbook, at

NIGHT = 16 * 60
"""Ten in the evening of these tests."""


def night_of(*parts: tuple[str, float, float]) -> WatchesTold:
    """Return watches as (name, from, to) in minutes after ten in the evening."""
    return WatchesTold(
        watches=tuple(
            Watch(name=name, start=at(NIGHT + start).replace(tzinfo=None), end=at(NIGHT + end).replace(tzinfo=None))
            for name, start, end in parts
        )
    )


def watched(*parts: tuple[str, float, float]) -> Logbook:
    """Return a cook with watches, in minutes after ten in the evening."""
    log = Logbook()
    log.tell(night_of(*parts), 5)
    return log


def holders(log: Logbook, *minutes: float) -> list[str | None]:
    """Return who has the watch so many minutes after ten in the evening, each as seen at that time."""
    return [fold(log.facts, at(NIGHT + m)).watch_holder(at(NIGHT + m)) for m in minutes]


# --- roles ----------------------------------------------------------------------------------------------------------


def test_a_person_holds_several_roles_and_may_lose_one() -> None:
    """Told one after the other; who has none left is not in the crew."""
    log = Logbook()
    log.tell(CrewTold(name="Wren", role=CrewRole.CARVER), 1)
    log.tell(CrewTold(name="Wren", role=CrewRole.WATCH), 2)
    log.tell(CrewTold(name="Tomas", role=CrewRole.GUEST), 3)
    assert log.state.crew == {"Wren": {CrewRole.CARVER, CrewRole.WATCH}, "Tomas": {CrewRole.GUEST}}
    log.tell(CrewTold(name="Wren", role=CrewRole.WATCH, dropped=True), 4)
    log.tell(CrewTold(name="Tomas", role=CrewRole.GUEST, dropped=True), 5)
    assert log.state.crew == {"Wren": {CrewRole.CARVER}}


def test_a_role_is_corrected_and_taken_back_like_any_fact() -> None:
    """The log says helper; it was the carver who was meant; then it is undone."""
    log = Logbook()
    told = log.tell(CrewTold(name="Wren", role=CrewRole.HELPER), 1)
    log.tell(Corrected(of=told, body=CrewTold(name="Wren", role=CrewRole.CARVER)), 2)
    assert log.state.crew == {"Wren": {CrewRole.CARVER}}
    log.tell(Undone(of=told), 3)
    assert log.state.crew == {}


# --- claims ---------------------------------------------------------------------------------------------------------


def test_a_claim_lapses_after_a_quarter_of_an_hour() -> None:
    """Counted as of the instant that is asked about: no fact says that it lapsed."""
    log = Logbook()
    log.tell(Claimed(step="refuel"), 100, by="Tomas")
    assert log.state.claims["refuel"].name == "Tomas"
    assert log.state.claims["refuel"].lapses_at == at(100) + CLAIM_LASTS
    assert fold(log.facts, at(114.9)).claims.keys() == {"refuel"}
    assert fold(log.facts, at(115)).claims == {}


def test_what_is_done_dropped_or_claimed_anew_is_no_longer_claimed() -> None:
    """By anybody; the newest claim counts."""
    log = Logbook()
    log.tell(Claimed(step="refuel"), 100, by="Tomas")
    log.tell(Claimed(step="refuel"), 101, by="Wren")
    assert log.state.claims["refuel"].name == "Wren"
    dropped = log.tell(ClaimDropped(step="refuel"), 102, by="Wren")
    assert log.state.claims == {}
    log.tell(Undone(of=dropped), 103)
    assert log.state.claims["refuel"].name == "Wren"
    log.tell(StepDone(step="refuel"), 104, by="Bashir")
    assert log.state.claims == {}


def test_an_answer_to_its_prompt_ends_a_claim() -> None:
    """A reading answers the question that somebody had claimed."""
    log = Logbook()
    log.tell(Claimed(step="pit_check"), 100, by="Tomas")
    log.tell(CrewTold(name="Wren", role=CrewRole.HELPER), 101, answers=("p1/pit_check/1",))
    assert log.state.claims == {}


# --- the watch ------------------------------------------------------------------------------------------------------


def test_the_outgoing_keeps_the_watch_until_the_incoming_has_taken_it() -> None:
    """Not the plan moves it, and not a step that was ticked off: only the acceptance."""
    log = watched(("Wren", 0, 240), ("Tomas", 240, 540))
    assert holders(log, -1, 0, 239, 240, 300) == [None, "Wren", "Wren", "Wren", "Wren"]
    log.tell(HandoverTaken(), NIGHT + 310, by="Tomas")
    assert holders(log, 309, 310, 539, 540) == ["Wren", "Tomas", "Tomas", None]


def test_what_lies_ahead_is_taken_to_come_as_planned() -> None:
    """At noon the plan says Wren, then Tomas; nobody has to have accepted anything yet."""
    log = watched(("Wren", 0, 240), ("Tomas", 240, 540))
    assert [log.state.watch_holder(at(NIGHT + m)) for m in (-1, 0, 239, 240, 539, 540)] == [
        None, "Wren", "Wren", "Tomas", "Tomas", None,
    ]  # fmt: skip


def test_who_takes_it_early_has_it_at_once() -> None:
    """Tomas is up before his time; what is planned after him still comes."""
    log = watched(("Wren", 0, 240), ("Tomas", 240, 540), ("Ines", 540, 600))
    log.tell(HandoverTaken(), NIGHT + 230, by="Tomas")
    assert holders(log, 229, 230, 400, 541) == ["Wren", "Tomas", "Tomas", "Tomas"]
    assert log.state.watch_holder(at(NIGHT + 541)) == "Ines"


def test_the_end_that_was_named_is_the_next_change() -> None:
    """Somebody has it "till two" in the middle of the night: then the next name is asked, or the lead."""
    log = watched(("Wren", 0, 240), ("Tomas", 240, 540))
    until = at(NIGHT + 300)
    log.tell(HandoverTaken(until=until), NIGHT + 60, by="Bashir")
    planned, taken = spans(log.state.watches, "Etc/UTC"), log.state.takings
    assert changes_of(planned, taken, "Ines") == ((until, "Bashir", "Tomas"),)
    alone = Logbook()
    alone.tell(HandoverTaken(until=until), NIGHT + 60, by="Bashir")
    assert changes_of((), alone.state.takings, "Ines") == ((until, "Bashir", "Ines"),)
    assert holders(alone, 59, 60, 400) == [None, "Bashir", "Bashir"]


def test_an_offer_moves_nothing_until_it_is_taken() -> None:
    """Going to bed, Bashir has it: he is asked, and the sender stays until he says so."""
    log = watched(("Wren", 0, 540))
    log.tell(HandoverAsked(to="Bashir", until=at(NIGHT + 200)), NIGHT + 60, by="Wren")
    offer = log.state.handover
    assert offer is not None
    assert (offer.by, offer.to, offer.at) == ("Wren", "Bashir", at(NIGHT + 60))
    assert holders(log, 70) == ["Wren"]
    log.tell(HandoverTaken(), NIGHT + 75, by="Bashir")
    assert log.state.handover is None
    assert holders(log, 75, 199) == ["Bashir", "Bashir"]
    assert log.state.takings[-1].until == at(NIGHT + 200)


def test_an_offer_that_is_declined_is_over() -> None:
    """Only by whom it was made to."""
    log = watched(("Wren", 0, 540))
    log.tell(HandoverAsked(to="Bashir"), NIGHT + 60, by="Wren")
    log.tell(HandoverDeclined(), NIGHT + 61, by="Tomas")
    waits = log.state.handover
    assert waits is not None
    log.tell(HandoverDeclined(), NIGHT + 62, by="Bashir")
    over = log.state.handover
    assert over is None
    assert holders(log, 63) == ["Wren"]


def test_a_watch_of_the_next_night_begins_as_planned() -> None:
    """Whoever had the last one of the night before does not keep it through the day."""
    log = watched(("Wren", 0, 480), ("Tomas", 24 * 60, 24 * 60 + 480))
    log.tell(HandoverTaken(), NIGHT + 5, by="Wren")
    assert holders(log, 100, 481, 24 * 60 + 1) == ["Wren", None, "Tomas"]


# --- what waits for who decides ---------------------------------------------------------------------------------------


def test_a_lever_waits_until_it_is_taken_or_declined() -> None:
    """By its name; silence past the end is kept, and it may still be decided."""
    log = Logbook()
    asked = LeverAsked(lever="late_wrap_foil", decider="Ines", default="wrap", until=at(320))
    log.tell(asked, 300, by="Tomas")
    waiting = log.state.levers_asked["late_wrap_foil"]
    assert (waiting.by, waiting.decider, waiting.default, waiting.until) == ("Tomas", "Ines", "wrap", at(320))
    log.tell(RanOut(what="lever", about="late_wrap_foil"), 320, by=None)
    assert log.state.levers_asked["late_wrap_foil"].silent_at == at(320)
    log.tell(LeverTaken(lever="late_wrap_foil"), 325)
    assert log.state.levers_asked == {}
    log.tell(asked, 330, by="Tomas")
    log.tell(LeverDeclined(lever="late_wrap_foil"), 331)
    assert log.state.levers_asked == {}


# --- the sound check, photos ------------------------------------------------------------------------------------------


def test_the_sound_check_is_sent_and_heard() -> None:
    """The newest of each person; answering later counts as well."""
    log = Logbook()
    log.tell(SoundSent(name="Tomas"), 700, by=None)
    log.tell(SoundSent(name="Bashir", private=False), 700, by=None)
    assert (log.state.sound["Tomas"].sent_at, log.state.sound["Tomas"].heard_at) == (at(700), None)
    assert not log.state.sound["Bashir"].private
    log.tell(SoundHeard(name="Tomas"), 705, by="Tomas")
    log.tell(SoundHeard(name="Bashir"), 900, by="Bashir")
    assert log.state.sound["Tomas"].heard_at == at(705)
    assert (log.state.sound["Bashir"].private, log.state.sound["Bashir"].heard_at) == (True, at(900))


def test_photos_are_kept_at_the_step_they_answer() -> None:
    """In order of time, with who sent them."""
    log = Logbook()
    log.tell(PhotoKept(name="a.jpg", step="bark_check", media_type="image/jpeg"), 500, by="Wren")
    log.tell(PhotoKept(name="b.png", media_type="image/png"), 400, recorded=501)
    assert [(p.name, p.step, p.by) for p in log.state.photos] == [
        ("b.png", None, "Ines"),
        ("a.jpg", "bark_check", "Wren"),
    ]


def test_a_log_without_a_crew_has_none() -> None:
    """Old logs say nothing of a crew, and mean what they meant."""
    state = Logbook().state
    assert (state.crew, state.claims, state.handover, state.takings, state.levers_asked) == ({}, {}, None, (), {})
    assert (state.sound, state.photos, state.watch_holder(at(0) + dt.timedelta(days=1))) == ({}, (), None)
