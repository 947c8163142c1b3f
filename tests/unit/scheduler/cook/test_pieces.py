"""Several pieces on one cooker: staggered starts, shared steps once, each report and finding with its own piece."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook import Beginning, Changes, Found, Refusal, TripDue, begin
from scheduler.facts import (
    Body,
    Discarded,
    PieceAdded,
    PieceDropped,
    Reading,
    ServingMoved,
    Slot,
    StepDone,
    Undone,
)  # fmt: skip
from scheduler.planning.outlook import Verdict
from scheduler.planning.pit_change import pit_changes
from scheduler.planning.views import worst
from scheduler.state import Stage
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, minutes_of, planned

DINNER = 34 * 60.0


def _three(**more: object) -> Logbook:
    """Return a brisket, ribs, and a pork shoulder in a hotter pit, all for one dinner on the next day."""
    begun = begin(
        Beginning(
            cook="c1",
            planned=planned(
                cut="brisket_packer", mass_kg=6.0, serving=dinner(DINNER), pit_low_c=121.0, pit_high_c=121.0
            ),
            more=(
                PieceAdded(cut="beef_plate_ribs", count=2, **more),  # type: ignore[arg-type]  # any field of the piece
                PieceAdded(cut="pork_butt", mass_kg=3.0, pit_low_c=149.0),
            ),
        ),
        by="Ines", now=at(0), seed="s", message="m0", catalogue=CATALOGUE,
    )  # fmt: skip
    assert isinstance(begun, Changes), begun
    log = Logbook()
    log.facts = begun.facts
    return log


def _say(log: Logbook, piece: str | None, body: Body, minutes: float) -> Changes:
    result = log.say(body, minutes=minutes, piece=piece)
    assert isinstance(result, Changes), result
    return result


def _all_on(log: Logbook) -> dict[str, float]:
    """Light the fire and put every piece on at its planned time; return those times."""
    on = {view.piece: minutes_of(view.outlook.on_at) or 0.0 for view in log.situation.views}
    first = min(on.values())
    _say(log, None, StepDone(step="light"), first - 60)
    for piece, minutes in sorted(on.items(), key=lambda entry: entry[1]):
        _say(log, piece, StepDone(step="meat_on"), minutes)
    return on


def test_starts_are_staggered_for_one_dinner() -> None:
    """Each goes on when its own forecast says; the fire is lit once, an hour before the first."""
    situation = _three().situation
    starts = [view.outlook.on_at for view in situation.views]
    assert starts[0] < starts[2] < starts[1]
    light = [(at_, piece) for at_, step, piece in situation.courses() if step.id == "light"]
    assert light == [(starts[0] - dt.timedelta(hours=1), None)]
    on = [(at_, piece) for at_, step, piece in situation.courses() if step.id == "meat_on"]
    assert on == [(starts[0], "p1"), (starts[2], "p3"), (starts[1], "p2")]


def test_the_pit_of_a_later_piece_is_foreseen_by_the_others() -> None:
    """The shoulder brings a hotter pit: the brisket that is on by then finishes earlier, so that it may start later."""
    log = _three()
    plain = [v.outlook.on_at for v in log.situation.views]
    added = next(f for f in log.facts if f.piece == "p3")
    assert isinstance(added.body, PieceAdded)
    mild = dataclasses.replace(added, body=dataclasses.replace(added.body, pit_low_c=None))
    log.facts = tuple(mild if f is added else f for f in log.facts)
    assert plain[0] > log.situation.views[0].outlook.on_at


def test_nobody_is_asked_for_the_smoke_of_the_second_piece() -> None:
    """The fire burns: its gate is the probe and the time, and it is not asked hours too early."""
    log = _three()
    on = {v.piece: minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views}
    _say(log, None, StepDone(step="light"), on["p1"] - 60)
    for step in ("smoke_clean", "probe_in", "meat_on"):
        outcome = "thin" if step == "smoke_clean" else None
        _say(log, "p1", StepDone(step=step, outcome=outcome), on["p1"])
    due = {p.key: minutes_of(p.due_at) for p in log.situation.prompts if p.step.id == "meat_on"}
    later = {v.piece: minutes_of(v.outlook.on_at) for v in log.situation.views}
    assert due == {"p2/meat_on/1": later["p2"], "p3/meat_on/1": later["p3"]}
    assert not [p for p in log.situation.prompts if p.step.id in {"smoke_clean", "pit_stable", "light"}]


def test_a_reading_teaches_only_its_own_piece() -> None:
    """The core of the shoulder moves the shoulder; a reading that fits it would be doubted for the brisket."""
    log = _three()
    on = _all_on(log)
    before = {v.piece: v.outlook.pull.likely for v in log.situation.views}
    noon = max(on.values()) + 60
    changes = _say(log, "p3", Reading(slot=Slot.CORE, value_c=40.0), noon)
    after = {v.piece: v.outlook.pull.likely for v in changes.after.views}
    assert (after["p2"] == before["p2"]) is True
    assert after["p3"] != before["p3"]
    assert [f.piece for f in changes.facts if isinstance(f.body, Reading)] == ["p3"]


def test_one_trip_for_all_pieces() -> None:
    """What is due within twenty minutes is one message, whichever piece it belongs to, and the pit is read once."""
    log = _three()
    on = _all_on(log)
    start = max(on.values())
    trips = []
    for minutes in range(int(start), int(start) + 200, 5):
        trips += [e.trip for e in log.ring(minutes).events if isinstance(e, TripDue)]
    mixed = [{p.piece for p in trip.prompts if p.step.id == "core_read"} for trip in trips]
    assert any(len(pieces) > 1 for pieces in mixed)
    assert all(sum(p.step.id == "pit_check" for p in trip.prompts) <= 1 for trip in trips)


def test_the_worst_piece_decides_about_dinner() -> None:
    """Dinner moved to when only one of them can be ready: the verdict is that of the slowest."""
    log = _three()
    _all_on(log)
    situation = log.situation
    late = situation.views[0]
    assert late.outlook.plate.likely is not None
    deciding = worst(
        tuple(
            dataclasses.replace(v, outlook=dataclasses.replace(v.outlook, verdict=Verdict.LATE, chance=0.1))
            if v.piece == "p2" else v
            for v in situation.views
        )
    )  # fmt: skip
    assert deciding.piece == "p2"


def test_dinner_cannot_be_before_the_slowest_piece() -> None:
    """The refusal names the piece that cannot be ready."""
    log = _three()
    _all_on(log)
    now = max(minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views) + 30
    refusal = log.say(ServingMoved(serving=dinner(now + 60)), minutes=now)
    assert isinstance(refusal, Refusal)
    assert (refusal.reason, refusal.piece in {"p1", "p2", "p3"}) == ("serving_too_soon", True)


def test_a_finding_names_its_piece() -> None:
    """A cold core of the held shoulder stops the shoulder, and nothing else."""
    log = _three()
    on = _all_on(log)
    end = max(on.values()) + 300
    _say(log, "p3", StepDone(step="pull"), end)
    log.say(Reading(slot=Slot.CORE, value_c=55.0), minutes=end + 60, piece="p3", sure=True)
    found = [e for e in log.ring(end + 61).events if isinstance(e, Found)]
    assert [(e.finding.rule, e.piece) for e in found] == [("held_under_floor", "p3")]


def test_undo_takes_back_what_was_told_of_a_piece() -> None:
    """The newest thing told goes, whichever piece it was about; the others stay."""
    log = _three()
    on = _all_on(log)
    end = max(on.values()) + 10
    fact = _say(log, "p2", Reading(slot=Slot.CORE, value_c=12.0), end).facts[0]
    changes = _say(log, None, Undone(of=fact.id), end + 1)
    assert changes.after.view("p2").state.read(Slot.CORE) == ()
    assert all(v.state.stage is Stage.COOKING for v in changes.after.views)


def test_a_dropped_piece_asks_for_nothing_and_the_last_one_stays() -> None:
    """Its prompts are withdrawn; a cook without any meat is called off instead."""
    log = _three()
    _all_on(log)
    for piece in ("p2", "p3"):
        end = max(minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views) + 60
        changes = _say(log, piece, PieceDropped(), end)
        assert piece not in {p.piece for p in changes.after.prompts}
    assert log.refused(PieceDropped(), minutes=DINNER - 60, piece="p1").reason == "last_piece"


def test_a_piece_is_not_dropped_while_its_stop_stands() -> None:
    """A dead pit: the stop of that piece does not go with it; thrown away ends it, and then it may be left out."""
    log = Logbook()
    log.taken(PieceAdded(cut="whole_chicken"), minutes=1, piece="p2")
    log.done("light", 2)
    log.done("meat_on", 10)
    log.read(40.0, 20, slot=Slot.PIT)
    refusal = log.refused(PieceDropped(), minutes=200, piece="p1")
    assert (refusal.reason, refusal.piece) == ("stop_stands", "p1")
    log.taken(PieceDropped(), minutes=201, piece="p2")
    log.taken(PieceAdded(cut="whole_chicken"), minutes=202, piece="p3")
    log.taken(Discarded(), minutes=203, piece="p1")
    log.taken(PieceDropped(), minutes=204, piece="p1")


def test_waves_are_served_apart_and_the_food_of_each_is_put_away() -> None:
    """The second wave comes an hour later; what was put away before it came out does not count for it."""
    log = _three(serving=dinner(DINNER + 60))
    on = _all_on(log)
    assert {v.piece: minutes_of(v.outlook.serve_at) for v in log.situation.views} == {
        "p1": DINNER, "p2": DINNER + 60, "p3": DINNER,
    }  # fmt: skip
    end = max(max(on.values()) + 5, DINNER - 200)
    for piece in ("p1", "p2", "p3"):
        _say(log, piece, StepDone(step="pull"), end)
    for piece in ("p1", "p3"):
        _say(log, piece, StepDone(step="serve"), DINNER)
    assert not log.situation.ended
    _say(log, None, StepDone(step="two_hour", outcome="away"), DINNER + 30)
    _say(log, "p2", StepDone(step="serve"), DINNER + 60)
    asked = [p.key for p in log.situation.prompts if p.step.id == "two_hour"]
    assert asked == ["p2/two_hour/1"]
    rules = {e.finding.rule for e in log.ring(DINNER + 60 + 121).events if isinstance(e, Found) and e.piece == "p2"}
    assert "two_hours_out" in rules
    assert log.situation.ended


def test_the_raw_side_is_washed_each_time_raw_meat_goes_on() -> None:
    """Three pieces at three times: three cleanings, each asked when its meat goes on, none closed by an earlier one."""
    log = _three()
    planned_on = sorted(v.outlook.on_at for v in log.situation.views)
    assert [at_ for at_, step, _ in log.situation.courses() if step.id == "raw_cleanup"] == planned_on
    on = {v.piece: minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views}
    _say(log, None, StepDone(step="light"), on["p1"] - 60)
    for piece in ("p1", "p3", "p2"):
        minutes = minutes_of(log.situation.view(piece).outlook.on_at) or 0.0
        _say(log, piece, StepDone(step="meat_on"), minutes)
        open_now = [p.key for p in log.situation.prompts if p.step.id == "raw_cleanup"]
        assert open_now == [f"{piece}/raw_cleanup/1"]
        washed = _say(log, None, StepDone(step="raw_cleanup"), minutes + 5)
        assert [f.body for f in washed.facts if isinstance(f.body, StepDone)] == [StepDone(step="raw_cleanup")]
        assert not [p for p in log.situation.prompts if p.step.id == "raw_cleanup"]


def test_two_pieces_that_go_on_together_are_one_cleaning() -> None:
    """Within twenty minutes it is the same board and the same knife."""
    log = _three()
    first = minutes_of(log.situation.views[0].outlook.on_at) or 0.0
    _say(log, None, StepDone(step="light"), first - 60)
    _say(log, "p1", StepDone(step="meat_on"), first)
    _say(log, "p3", StepDone(step="meat_on"), first + 10)
    assert len([p for p in log.situation.prompts if p.step.id == "raw_cleanup"]) == 1


def test_a_later_piece_is_salted_although_the_fire_burns() -> None:
    """The fire that was lit for the brisket ends no salting of what goes on hours later."""
    log = _three()
    on = {v.piece: minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views}
    _say(log, None, StepDone(step="light"), on["p1"] - 60)
    _say(log, "p1", StepDone(step="meat_on"), on["p1"])
    asked = {p.key for p in log.situation.prompts if p.step.id in {"dry_brine", "trim"}}
    assert asked == {"p2/dry_brine/1", "p2/trim/1", "p3/dry_brine/1", "p3/trim/1"}


def test_the_meat_is_fetched_as_the_strictest_piece_keeps() -> None:
    """A brisket alone three days before; with chicken or fish two; alone each as long as it keeps raw at most."""
    days = {}
    for cuts in (("brisket_packer",), ("brisket_packer", "whole_chicken"), ("sausages",), ("salmon_side",)):
        begun = begin(
            Beginning(
                cook="c1",
                planned=planned(cut=cuts[0], serving=dinner(10 * 1440.0), pit_low_c=121.0, pit_high_c=121.0),
                more=tuple(PieceAdded(cut=cut) for cut in cuts[1:]),
            ),
            by="Ines", now=at(0), seed="s", message="m0", catalogue=CATALOGUE,
        )  # fmt: skip
        assert isinstance(begun, Changes)
        plate = max(v.outlook.plate_at for v in begun.after.views if v.outlook.plate_at is not None)
        (fetch,) = [p.due_at for p in begun.after.prompts if p.step.id == "collect_meat"]
        days[cuts] = round((plate - fetch) / dt.timedelta(days=1), 1)
    assert 2.5 <= days[("brisket_packer",)] <= 3.0
    limits = {cut: CATALOGUE.cuts.get(cut).fridge_days[1] for cut in ("whole_chicken", "sausages", "salmon_side")}
    assert set(limits.values()) == {2.0}
    assert all(1.5 <= found <= 2.0 for cuts, found in days.items() if cuts != ("brisket_packer",)), days


def test_a_pit_that_a_later_piece_brings_is_a_prompt_of_its_own() -> None:
    """Twenty minutes before the shoulder goes on at 149 C it is asked for, once; the brisket brings none, and the
    ribs come to the pit that is there.
    """
    log = _three()
    assert next(piece for _at, step, piece in log.situation.courses() if step.id == "pit_change") == "p3"
    on = {v.piece: minutes_of(v.outlook.on_at) or 0.0 for v in log.situation.views}
    _say(log, None, StepDone(step="light"), on["p1"] - 60)
    _say(log, "p1", StepDone(step="meat_on"), on["p1"])
    later = minutes_of(log.situation.view("p3").outlook.on_at) or 0.0
    (change,) = [p for p in log.situation.prompts if p.key == "p3/pit_change/1"]
    assert minutes_of(change.due_at) == later - 20
    _say(log, "p3", StepDone(step="meat_on"), later)
    assert "p3/pit_change/1" not in [p.key for p in log.situation.prompts]


def test_a_pit_too_hot_for_what_is_on_is_a_snag() -> None:
    """Chickens at 163 C come to ribs that bear 135 C: named with its limit; a pit that all bear is no snag."""
    begun = begin(
        Beginning(
            cook="c1",
            planned=planned(cut="spareribs_stl", serving=dinner(DINNER), pit_low_c=121.0, pit_high_c=121.0),
            more=(PieceAdded(cut="whole_chicken", pit_low_c=162.8),),
        ),
        by="Ines", now=at(0), seed="s", message="m0", catalogue=CATALOGUE,
    )  # fmt: skip
    assert isinstance(begun, Changes)
    (change,) = pit_changes(begun.after.views)
    assert (change.piece, change.others) == ("p2", ("p1",))
    assert [piece for piece, limit_c in change.over if limit_c < 162] == ["p1"]
    assert not any(change.over for change in pit_changes(_three().situation.views) if change.piece == "p1")
