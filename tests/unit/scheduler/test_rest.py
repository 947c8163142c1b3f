"""The meat after the pull: until when it likely stays hot, and when it is looked at."""

from __future__ import annotations

import datetime as dt
from typing import Any

from scheduler.cuts import Cut
from scheduler.facts import AirTold, RestPlace, RestTold
from scheduler.planning.backward import SnagKind, backward
from scheduler.planning.rest import keeps_until, read_by, rest_of
from scheduler.planning.telling import wanted
from scheduler.safety import act_by
from tests.catalogue import CUTS
from tests.unit.scheduler.logbook import CATALOGUE, WHEN_READY, Logbook, at, cooking, cut, dinner, planned, resting


def _boxed(log: Logbook, minutes: float = 500) -> Logbook:
    log.done("box_meat", minutes)
    return log


def _falls(log: Logbook, of: Cut | None = None) -> tuple[dt.datetime, dt.datetime]:
    """Return the careful and the likely time of falling."""
    rest = rest_of(log.state, of or cut())
    assert rest is not None
    assert rest.early is not None
    assert rest.likely is not None
    return rest.early, rest.likely


def test_nothing_is_expected_of_meat_on_the_fire_or_never_read() -> None:
    """Only held meat rests, and only a reading near the pull says how hot it is."""
    assert rest_of(cooking().state, cut()) is None
    unread = cooking()
    unread.done("pull", 480)
    assert rest_of(unread.state, cut()) is None
    assert read_by(unread.state, cut()) == act_by(unread.state, cut())
    served = resting()
    served.done("serve", 780)
    assert rest_of(served.state, cut()) is None


def test_an_old_core_says_nothing_about_the_pull() -> None:
    """An hour before the pull it was somewhere else."""
    log = cooking()
    log.read(90.0, 420)
    log.done("pull", 480)
    assert rest_of(log.state, cut()) is None


def test_one_in_ten_falls_before_the_likely_time() -> None:
    """Both lie after the box was closed, the careful one first."""
    early, likely = _falls(_boxed(resting()))
    assert at(500) < early < likely


def test_a_long_vent_makes_it_shorter() -> None:
    """Twenty minutes in the open or fifty."""
    assert _falls(_boxed(resting(), 500))[1] > _falls(_boxed(resting(), 530))[1]


def test_pieces_in_one_box_keep_one_another_warm() -> None:
    """Seven racks stay hot for longer than one."""
    one, seven = _boxed(resting(planned(count=1))), _boxed(resting(planned(count=7)))
    assert _falls(seven)[1] > _falls(one)[1]


def test_the_air_of_the_cooker_is_not_that_of_the_box() -> None:
    """Frost and wind were told of the fire; the box may stand in the kitchen."""
    mild, frost = _boxed(resting()), _boxed(resting())
    frost.tell(AirTold(temp_c=-15.0, wind="windy"), 490)
    assert _falls(frost) == _falls(mild)


def test_a_reading_in_the_box_is_believed() -> None:
    """Hotter than thought it stays longer; at the acting temperature nothing more is foretold."""
    hot, warm, act = (_boxed(resting()) for _ in range(3))
    hot.read(85.0, 560)
    warm.read(72.0, 560)
    act.read(63.0, 560)
    assert _falls(hot)[1] > _falls(warm)[1] > at(560)
    assert rest_of(act.state, cut()) is None


def test_a_look_never_comes_later_than_safety_asks() -> None:
    """The earlier of the two counts, after a usual vent and after a long one, read or not."""
    for vented in (0, 20, 60):
        log = _boxed(resting(), 480 + vented)
        for _look in range(2):
            looked, asked = read_by(log.state, cut()), act_by(log.state, cut())
            assert looked is not None
            assert asked is not None
            assert looked <= asked
            log.read(76.0, 490 + vented)


def test_only_a_cut_that_is_done_by_its_temperature_climbs_worth_a_word() -> None:
    """A rib roast pulled at 66 C goes on climbing in the box; ribs pulled at 96 C are vented so that they stop."""
    assert _peak(cut()) is None
    roast = CUTS.get("prime_rib").model_copy(update={"vent_min": 0.0})
    peak = _peak(roast, core_c=66.0, pit=150.0)
    assert peak is not None
    assert 67.0 < peak < 80.0


def _peak(of: Cut, *, core_c: float = 96.0, **more: Any) -> float | None:  # noqa: ANN401 - fields of the plan
    fields = {"pit_low_c": more["pit"], "pit_high_c": more["pit"]} if more else {}
    log = cooking(planned(**fields))
    log.read(core_c, 475)
    log.done("pull", 480)
    rest = rest_of(log.state, of)
    assert rest is not None
    return None if rest.peak is None else rest.peak.middle_c


def test_it_is_asked_for_when_it_is_told_to_be_read() -> None:
    """The look at held meat is due at the time the receipt names."""
    log = _boxed(resting(pulled=300), 360)
    due = log.prompt("hold_check")
    assert due is not None
    assert due.due_at == read_by(log.state, cut())


def test_a_box_keeps_no_longer_than_one_in_ten_stays_hot() -> None:
    """The earlier of the longest rest of the cut and the careful time; cold already, it keeps no longer at all."""
    log = _boxed(resting(pulled=480), 500)
    careful, _likely = _falls(log)
    short, long = (cut().model_copy(update={"rest_max_unheated_min": minutes}) for minutes in (30.0, 900.0))
    assert keeps_until(log.state, short) == at(530)
    assert keeps_until(log.state, long) == careful
    assert keeps_until(cooking().state, cut()) is None
    log.read(62.0, 540)
    assert keeps_until(log.state, long) == at(540)


# --- a warm oven ------------------------------------------------------------------------------------------------------


def _in_the_oven(oven_c: float | None = None, place: RestPlace = RestPlace.OVEN) -> Logbook:
    log = _boxed(resting(planned(serving=dinner(1000)), pulled=300), 320)
    log.tell(RestTold(place=place, oven_c=oven_c), 330)
    return log


def test_a_warm_oven_keeps_it_as_long_as_heated_meat_keeps() -> None:
    """At 65 to 77 C, or when nobody told the set point, the limit of the box counts no more, that of heat does."""
    of = cut()
    heated = at(320 + of.rest_max_heated_min)
    assert of.rest_max_heated_min > of.rest_max_unheated_min
    for oven_c in (None, 65.0, 77.0):
        log = _in_the_oven(oven_c)
        assert keeps_until(log.state, of) == heated
        assert log.situation.outlook.box_outlasted == (at(1000) > heated)


def test_an_oven_too_cool_is_a_box() -> None:
    """Set to 55 C it holds nothing: the meat is counted on as in a cold box."""
    cool, box = _in_the_oven(55.0), _in_the_oven(place=RestPlace.BOX)
    assert keeps_until(cool.state, cut()) == keeps_until(box.state, cut())
    assert cool.situation.outlook.box_outlasted


def test_meat_that_was_read_cold_keeps_in_no_oven() -> None:
    """A reading at the acting temperature ends it, oven or not."""
    log = _in_the_oven(74.0)
    log.read(62.0, 400)
    assert keeps_until(log.state, cut()) == at(400)


def test_an_oven_never_puts_off_what_safety_asks() -> None:
    """The look at held meat comes as early as in a box: only a reading knows that the oven is on."""
    for log in (_in_the_oven(74.0), _in_the_oven(place=RestPlace.BOX)):
        looked, asked = read_by(log.state, cut()), act_by(log.state, cut())
        assert looked is not None
        assert asked is not None
        assert looked <= asked
    assert act_by(_in_the_oven(74.0).state, cut()) == act_by(_in_the_oven(place=RestPlace.BOX).state, cut())


def test_a_plan_with_a_warm_oven_needs_none_told() -> None:
    """Before the fire: that the fast end outlasts a cold box is no snag any more once the oven is the place."""
    log = Logbook(planned(cut="brisket_packer", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0))
    snags = {snag.kind for snag in backward(log.state, cut("brisket_packer")).snags}
    assert SnagKind.NEEDS_OVEN in snags
    log.tell(RestTold(place=RestPlace.OVEN), 5)
    after = {snag.kind for snag in backward(log.state, cut("brisket_packer")).snags}
    assert after == snags - {SnagKind.NEEDS_OVEN}


def test_no_box_is_warmed_for_an_oven() -> None:
    """The box is warmed for meat that goes into a box, not for an oven or the shut-down cooker."""
    step = next(s for s in CATALOGUE.steps.steps if s.id == "box_ready")
    for place, asked in ((RestPlace.BOX, True), (RestPlace.OVEN, False), (RestPlace.COOKER, False)):
        log = cooking()
        log.tell(RestTold(place=place), 70)
        assert wanted(step, log.state, cut()) is asked


def test_a_rest_told_in_minutes_moves_a_dinner_that_follows_the_meat() -> None:
    """From pull to knife as told, never shorter than the shortest: an open dinner comes so much earlier."""
    plain, told, least = (cooking(planned(serving=WHEN_READY)) for _ in range(3))
    of = cut()
    told.tell(RestTold(minutes=of.vent_min + of.rest_min_min + 10), 61)
    least.tell(RestTold(minutes=1), 61)
    plates = [log.situation.outlook.plate_at for log in (least, told, plain)]
    pulls = {log.situation.outlook.pull.likely for log in (least, told, plain)}
    assert len(pulls) == 1
    assert plates[0] is not None
    assert plates[1] is not None
    assert plates[2] is not None
    assert plates[1] - plates[0] == dt.timedelta(minutes=10)
    assert plates[1] < plates[2]
