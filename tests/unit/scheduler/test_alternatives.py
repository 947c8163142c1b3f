"""Plans side by side: which are offered, within which limits, and what they ask of people."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest

from scheduler.facts import Wrap
from scheduler.planning.alternatives import (
    APART,
    MOST,
    Alternative,
    Kind,
    alternatives,
    pit_limits_c,
    quiet_span,
    remedies,
)  # fmt: skip
from scheduler.planning.backward import SnagKind, backward
from tests.unit.scheduler.logbook import CATALOGUE, START, WHEN_READY, Logbook, at, cut, dinner, planned

EVENING = 36 * 60
"""Six in the evening of the next day, in minutes after the start."""


def _offered(name: str, pit_c: float, **more: object) -> tuple[Alternative, ...]:
    made = planned(**{"cut": name, "serving": dinner(EVENING), "pit_low_c": pit_c, "pit_high_c": pit_c, **more})
    return alternatives(Logbook(made).state, cut(name))


def _outlasts(one: Alternative) -> bool:
    return SnagKind.OUTLASTS_HOLD in {snag.kind for snag in one.plan.snags}


def test_the_plan_as_asked_comes_first_and_is_the_plan_of_the_cook() -> None:
    """Its pit, its wrap, its start."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(EVENING), pit_low_c=115.0, pit_high_c=125.0, wrap=Wrap.PAPER))
    first = alternatives(log.state, cut("pork_butt"))[0]
    assert (first.kind, first.pit_low_c, first.pit_high_c, first.wrap) == (Kind.AS_ASKED, 115.0, 125.0, Wrap.PAPER)
    assert first.plan == backward(log.state, cut("pork_butt"))


def test_beside_a_night_stands_a_hotter_day() -> None:
    """A brisket at 121 °C burns through the night; hotter, or in foil, it starts later and costs less of the night."""
    asked, *others = _offered("brisket_packer", 121.0)
    assert {one.kind for one in others} == {Kind.HOT, Kind.WRAPPED}
    for one in others:
        assert one.plan.light_at >= asked.plan.light_at + APART
        assert one.awake < asked.awake
        assert one.awake_quiet <= asked.awake_quiet


def test_beside_a_day_stands_a_slow_one() -> None:
    """Ribs that are lit in the morning: milder over a longer day, or hotter."""
    asked, *others = _offered("beef_chuck_ribs", 135.0)
    assert [one.kind for one in others] == [Kind.SLOW, Kind.HOT]
    assert others[0].pit_low_c < 130.0
    assert others[0].plan.light_at < asked.plan.light_at < others[1].plan.light_at


@pytest.mark.parametrize("name", [of.id for of in CATALOGUE.cuts.cuts])
def test_no_alternative_lies_outside_the_limits_of_its_cut(name: str) -> None:
    """Within the cut's own pits; slow cuts from 107 to 149 °C, wrapped to 163; few, and clearly apart."""
    of = cut(name)
    for pit_c in (of.pit_c.low, of.pit_c.typical, of.pit_c.high):
        offered = _offered(name, pit_c)
        assert 1 <= len(offered) <= MOST
        for one in offered[1:]:
            assert of.pit_c.low - 0.5 <= one.pit_low_c <= one.pit_high_c <= of.pit_c.high + 0.5
            if of.doneness == "feel":
                assert one.pit_low_c >= 106.5
                assert one.pit_high_c <= (163.5 if one.wrap in {Wrap.FOIL, Wrap.PAPER} else 149.5)
            assert one.wrap is None or one.wrap in of.wraps
            assert not _outlasts(one) or _outlasts(offered[0])
        starts = [one.plan.light_at for one in offered]
        assert all(abs(a - b) >= APART for a, b in itertools.combinations(starts, 2))


def test_the_limits_of_a_slow_cut_are_narrower_than_those_of_a_roast() -> None:
    """A brisket never above 149 °C and never below 107; a chicken as its own entry says."""
    assert pit_limits_c(cut("brisket_packer"), None) == (107.0, 149.0)
    chicken = cut("whole_chicken")
    assert pit_limits_c(chicken, None) == (chicken.pit_c.low, chicken.pit_c.high)


def test_awake_is_from_the_fire_to_the_box_and_its_quiet_part_is_known() -> None:
    """Lit in the evening, the whole quiet night of nine hours lies in it."""
    asked = _offered("brisket_packer", 121.0)[0]
    assert asked.plan.pull.likely is not None
    vent = dt.timedelta(minutes=cut("brisket_packer").vent_min)
    assert asked.awake == asked.plan.pull.likely + vent - asked.plan.light_at
    assert dt.timedelta(hours=7) < asked.awake_quiet <= dt.timedelta(hours=9)


@pytest.mark.parametrize(
    ("start", "hours", "quiet"),
    [("2026-06-01T20:00", 12, 9), ("2026-06-01T23:00", 2, 2), ("2026-06-01T08:00", 6, 0), ("2026-10-24T21:00", 11, 10)],
)
def test_quiet_hours_are_those_of_the_clock_on_the_wall(start: str, hours: float, quiet: float) -> None:
    """From ten to seven, an hour more in the night in which the clocks go back."""
    from_at = dt.datetime.fromisoformat(start + "+01:00").astimezone(dt.UTC)
    span = quiet_span(from_at, from_at + dt.timedelta(hours=hours), (dt.time(22), dt.time(7)), "Europe/London")
    assert span == dt.timedelta(hours=quiet)


def test_without_a_dinner_plans_differ_by_when_people_eat() -> None:
    """When ready: the same start now, another plate."""
    offered = _offered("brisket_packer", 121.0, serving=WHEN_READY)
    assert len(offered) > 1
    plates = [one.plan.plate.likely for one in offered]
    assert all(plate is not None for plate in plates)
    assert len(set(plates)) == len(plates)


def test_a_dinner_that_the_asked_plan_misses_may_be_met_hotter() -> None:
    """Too late for 121 °C and not for 149: that is said, and it meets dinner as wanted."""
    name = "pork_butt"
    made = planned(cut=name, serving=dinner(14 * 60), pit_low_c=121.0, pit_high_c=121.0)
    state = Logbook(made).state
    assert not backward(state, cut(name)).met
    found = remedies(state, cut(name))
    assert found
    for one in found:
        assert one.plan.met
        assert one.plan.light_at >= at(0)
        assert one.plan.late_probability is not None
        assert one.plan.late_probability <= 0.15 + 1e-9


def test_a_dinner_that_nothing_meets_has_no_remedy() -> None:
    """In three hours no brisket is tender, hot and wrapped or not."""
    state = Logbook(planned(cut="brisket_packer", serving=dinner(180), pit_low_c=121.0, pit_high_c=121.0)).state
    assert remedies(state, cut("brisket_packer")) == ()


@pytest.mark.parametrize("evening_h", [12, 17, 20])
@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt", "beef_plate_ribs", "lamb_shoulder"])
def test_the_wrapped_way_is_hotter_only_where_that_saves_some_of_the_night(name: str, evening_h: int) -> None:
    """Beside a night that no pit saves whole, foil in a hotter pit costs clearly less of it than foil alone and than
    the hotter pit alone; else it stands in the asked pit.
    """
    asked, *others = _offered(name, 121.0, serving=dinner(1440 + 60 * (evening_h - 6)))
    by_kind = {one.kind: one for one in others}
    wrapped, hot = by_kind.get(Kind.WRAPPED), by_kind.get(Kind.HOT)
    if wrapped is None or not asked.plan.met or wrapped.pit_low_c <= asked.pit_high_c + 5:
        return
    lit = wrapped.plan.light_at
    saves_all = lit.date() == (START + dt.timedelta(days=1)).date() and lit.hour >= 5
    assert saves_all or hot is None or hot.awake_quiet - wrapped.awake_quiet >= dt.timedelta(minutes=45)
