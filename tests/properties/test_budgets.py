"""Over drawn crews: what a night costs them, whom it calls in which order, and that nobody is called who cannot hear.

The cooks are played by a good crew from the evening on; few of them, for each is a whole night.
"""

from __future__ import annotations

import datetime as dt
import itertools
from zoneinfo import ZoneInfo

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from scheduler.facts import CrewRole, CrewTold, HandoverTaken, SoundHeard, SoundSent, Watch, WatchesTold
from scheduler.planning.escalation import escalates, stages
from scheduler.planning.nights import everybody
from scheduler.planning.prompts import EscalationLevel
from scheduler.state import Stage, fold
from tests.budgets import LOOKS, Counted, counted
from tests.properties.actions import Start
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, planned

EVENING = dt.datetime(2026, 9, 12, 21, tzinfo=ZoneInfo("Europe/London"))
NAMES = ("Bashir", "Ines", "Tomas", "Wren")


@st.composite
def nights(draw: st.DrawFn) -> Start:
    """Draw a big piece that went on some hours before nine in the evening, with one to three watches on it."""
    names = draw(st.lists(st.sampled_from(("Ines", "Tomas", "Wren")), min_size=1, max_size=3, unique=True))
    first = dt.datetime.combine(EVENING.date(), dt.time(22))
    each = dt.timedelta(hours=9) / len(names)
    watches = tuple(
        Watch(name=name, start=first + n * each, end=first + (n + 1) * each) for n, name in enumerate(names)
    )
    return Start(
        at=EVENING.astimezone(dt.UTC),
        cut=draw(st.sampled_from(("pork_butt", "brisket_packer"))),
        dinner_min=21 * 60,
        pit_c=121.0,
        on_ago_min=draw(st.integers(10, 180)),
        pace=draw(st.sampled_from((0.4, 0.6, 0.8))),
        watches=WatchesTold(watches=watches),
    )


@given(start=nights())
@settings(max_examples=5, deadline=None, phases=(Phase.generate,))
def test_a_good_night_keeps_the_budget(start: Start) -> None:
    """One message in 45 minutes or more on the whole, the lead woken twice at most beside own watches and what is felt
    at the end, nothing that could have been one message with the one before.
    """
    play = Counted(start)
    assert play.refused is None
    play.work(10 * 60)
    cooking = [one for one in play.heard if one.stage is Stage.COOKING]
    budget = counted(start.cut, cooking)
    before_the_end = [one for one in cooking if not {"tender_test", "second_spot", "pull"} & set(one.steps)]
    looks = [one for one in before_the_end if one.quiet and set(one.steps) <= LOOKS]
    assert sum(one.wakes_lead for one in before_the_end if one.quiet) <= 2, [one.steps for one in before_the_end]
    assert budget.not_collapsed == ()
    hours = max(1.0, budget.night_h)
    assert len(looks) <= hours * 60 / 45 + 1, [(one.at, one.steps) for one in looks]
    for one in looks:
        assert one.watch is None or one.trip.wakes[:1] in {(), (one.watch,)}, one.steps


@st.composite
def crews(draw: st.DrawFn) -> Logbook:
    """Draw who is what, who has the watch, who took it, and who answered the test, in a cook that burns at night."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0))
    log.done("light", 800)
    log.done("meat_on", 860)
    for name in draw(st.lists(st.sampled_from(NAMES), max_size=4)):
        log.tell(CrewTold(name=name, role=draw(st.sampled_from(CrewRole)), dropped=draw(st.booleans())), 870)
    bounds = sorted(draw(st.lists(st.integers(900, 1500), min_size=2, max_size=4, unique=True)))
    wall = [at(minutes).replace(tzinfo=None) for minutes in bounds]
    parts = [Watch(name=draw(st.sampled_from(NAMES)), start=a, end=b) for a, b in itertools.pairwise(wall)]
    log.tell(WatchesTold(watches=tuple(parts)), 880)
    for name in draw(st.lists(st.sampled_from(NAMES), max_size=4, unique=True)):
        log.tell(SoundSent(name=name, private=draw(st.booleans())), 890, by=None)
        if draw(st.booleans()):
            log.tell(SoundHeard(name=name), draw(st.integers(891, 1100)), by=name)
    if draw(st.booleans()):
        log.tell(HandoverTaken(), draw(st.integers(900, 1500)), by=draw(st.sampled_from(NAMES)))
    return log


@given(log=crews(), minutes=st.integers(900, 1600), step=st.sampled_from(CATALOGUE.steps.steps))
@settings(max_examples=150, deadline=None)
def test_everything_that_must_not_be_missed_calls_somebody_and_nobody_twice(
    log: Logbook, minutes: int, step: object
) -> None:
    """Whatever the crew: a first name, no name at two stages, no stage empty but that of the group, and nobody
    passed over who is called, unless nobody at all can be woken.
    """
    chosen = next(one for one in CATALOGUE.steps.steps if one is step)
    state = fold(log.facts, at(minutes))
    found = stages(chosen, state, at(minutes))
    if chosen.anchor.kind == "watch" and not found.names:
        return  # no change of the watch is to come
    called = [name for names in found.names for name in names]
    assert called
    named = dict(zip(found.levels, found.names, strict=True))
    assert all(names for level, names in named.items() if level is not EscalationLevel.GROUP)
    assert len(called) == len(set(called))
    assert not set(called) & set(found.skipped)
    assert set(called) <= set(everybody(state)) | {"Ines"}
    assert len(found.names) <= (3 if escalates(chosen) else 1)


@given(log=crews())
@settings(max_examples=60, deadline=None)
def test_somebody_has_the_watch_from_the_first_to_the_last_and_only_a_taking_moves_it(log: Logbook) -> None:
    """Looked at every ten minutes: in a row of watches there is always a holder, and it changes at a taking, at the
    beginning of a row or at its end, and at no other time.
    """
    assert log.state.watches is not None
    start, end = log.state.watches.watches[0].start, log.state.watches.watches[-1].end
    before: str | None = None
    for minutes in range(900, 1500, 10):
        now = at(minutes)
        holder = fold(log.facts, max(now, log.facts[-1].recorded_at)).watch_holder(now)
        inside = start <= now.replace(tzinfo=None) < end
        if inside:
            assert holder is not None
        moved = [one for one in log.state.takings if now - dt.timedelta(minutes=10) < one.at <= now]
        if inside and before is not None and holder != before:
            assert moved, (minutes, before, holder)
        before = holder if inside else None
