"""Typical cooks at typical states, and what each lever brings there in the units of the trade: `python -m` prints it.

Common practice, no source; nothing is asserted here.
"""

from __future__ import annotations

import functools

from scheduler.facts import Serving, Slot, StepDone, Wrap, Wrapped
from scheduler.planning.advice import Option, option_of
from scheduler.planning.remedies import Lever
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, minutes_of, planned

CUTS = ("brisket_packer", "pork_butt", "beef_chuck_ribs", "spareribs_stl")

FAR = 2400.0
"""Dinner so far off that nothing is late [min]."""


@functools.cache
def cook(name: str, wrap: Wrap = Wrap.NONE, *, core_c: float | None = None, dinner_at: float = FAR) -> Logbook:
    """Return a usual cook read four times up to a core (the cut's bark look), wrapped there unless it stays bare."""
    cut = CATALOGUE.cuts.get(name)
    log = Logbook(
        planned(
            cut=name,
            serving=dinner(dinner_at),
            pit_low_c=cut.duration_pit_c,
            pit_high_c=cut.duration_pit_c,
            wrap=wrap,
        )
    )
    log.done("light", 0)
    log.done("meat_on", 60)
    course = log.situation.outlook.forecast
    until = minutes_of(course.crossing(core_c or cut.bark_look_c).quantile(0.5))
    assert until is not None
    for quarter in range(1, 5):
        minutes = 60 + (until - 60) * quarter / 4
        log.read(round(course.core_c(at(minutes)), 1), minutes)
    if wrap is not Wrap.NONE and core_c is None:
        log.wrapped(wrap, until)
    return log


def moved(log: Logbook, serving: Serving) -> Logbook:
    """Return a log of its own that goes on from this one, with another dinner."""
    again = Logbook()
    body = log.facts[0].body
    again.facts = log.facts
    again.tell(type(body)(**{**vars(body), "serving": serving}), now_of(log) - 1)
    return again


def now_of(log: Logbook) -> float:
    """Return when the last thing happened, in minutes after the start."""
    found = minutes_of(max(fact.happened_at for fact in log.facts))
    assert found is not None
    return found


def left_of(log: Logbook) -> float:
    """Return what is left to the likely pull [min]."""
    found = minutes_of(log.situation.outlook.pull.likely)
    assert found is not None
    return found - now_of(log)


def pulled_before(log: Logbook, minutes: float) -> Logbook:
    """Return the cook with dinner so long after the likely pull: negative is late before it began to rest."""
    return moved(log, dinner(round(now_of(log) + left_of(log) + minutes)))


def option(log: Logbook, lever: str) -> Option | None:
    """Return a lever as it stands a moment after the last fact, None when it is closed."""
    seen = log.situation
    return option_of(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, lever, at(now_of(log) + 0.1))


def in_trade_units(found: Option, left_min: float) -> float:
    """Return an effect in the unit that the trade has for the lever: share of what is left, or minutes."""
    minutes = found.effect.shift.total_seconds() / 60.0
    if found.lever.unit == "share_left":
        return minutes / left_min
    if found.lever.unit == "minutes_per_opening":
        return minutes / (found.effect.times or 1)
    return minutes


def lever(name: str) -> Lever:
    """Return a lever of the catalogue."""
    found = CATALOGUE.remedies.lever(name)
    assert found is not None
    return found


def with_cold_pit(name: str, short_c: float) -> Logbook:
    """Return the usual cook whose pit was just read so far under its set point."""
    log = moved(cook(name), dinner(FAR))
    log.read(log.state.pit_c - short_c, now_of(log) + 1, slot=Slot.PIT)
    return log


def often_opened(name: str) -> Logbook:
    """Return the usual cook whose lid was opened four times in the last two hours."""
    log = moved(cook(name), dinner(FAR))
    now = now_of(log)
    for ago in (100, 70, 40, 10):
        log.tell(StepDone(step="first_look"), now - ago, recorded=now)
    return log


def unwrapping(name: str) -> Logbook:
    """Return the usual cook an hour after it was wrapped in paper."""
    log = moved(cook(name), dinner(FAR))
    now = now_of(log)
    log.tell(Wrapped(wrap=Wrap.PAPER), now - 60, recorded=now)
    return log


def figures(name: str) -> dict[str, float]:
    """Return what each lever that the engine computes brings to a usual cook of a cut, in the trade's units."""
    bare, left = cook(name), left_of(cook(name))
    late, early = pulled_before(bare, -20), pulled_before(bare, 900)
    found: dict[str, float] = {}
    for one in CATALOGUE.remedies.levers:
        seen = option(late if one.when == "late" else early, one.id)
        if seen is not None and seen.effect.computed and one.effect is not None:
            found[one.id] = in_trade_units(seen, left)
    cold, busy, paper = with_cold_pit(name, 14.0), often_opened(name), unwrapping(name)
    wrapped = pulled_before(cook(name, Wrap.FOIL), -20)
    near = pulled_before(cook(name, core_c=CATALOGUE.cuts.get(name).start_testing_c - 1.0), -20)
    for key, of, seen_in in (
        ("late_fix_pit", "late_fix_pit", cold),
        ("late_stop_opening", "late_stop_opening", busy),
        ("early_unwrap", "early_unwrap", paper),
        ("late_oven", "late_oven, wrapped before", wrapped),
        ("late_accept_low", "late_accept_low", near),
    ):
        seen = option(seen_in, key)
        if seen is not None and seen.effect.before.pull.likely is not None:
            as_it_was = minutes_of(seen.effect.before.pull.likely)
            assert as_it_was is not None
            found[of] = in_trade_units(seen, as_it_was - now_of(seen_in))
    return found


def main() -> None:
    """Print every figure with its range."""
    for name in CUTS:
        for key, value in figures(name).items():
            effect = lever(key.partition(",")[0]).effect
            assert effect is not None
            mark = "" if effect.low <= value <= effect.high else "  outside"
            print(f'    ("{name}", "{key}"): {value:.2f},  # {effect.low:g} to {effect.high:g}{mark}')  # noqa: T201 - a list for the terminal


if __name__ == "__main__":
    main()
