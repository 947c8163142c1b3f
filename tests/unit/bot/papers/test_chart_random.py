"""Charts of cooks drawn at random: whatever happens, there is a picture, and no words lie over others."""

from __future__ import annotations

import hypothesis.strategies as st
from hypothesis import given, settings

from bot.papers.chart_scale import LEFT, RIGHT
from scheduler.facts import PieceAdded, Reading, Slot, Wrap, Wrapped
from tests.unit.bot.papers.charts import drawn
from tests.unit.bot.papers.records import tell
from tests.unit.bot.papers.test_chart_layout import outside, overlaps
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, dinner, planned

CUTS = ("beef_chuck_ribs", "brisket_packer", "pork_butt", "spareribs_stl", "whole_chicken", "salmon_side")
LETTERS = st.characters(exclude_categories=("Cs", "Cc"))
NAMES = st.text(LETTERS, min_size=1, max_size=30).filter(lambda text: text.strip() != "")


@st.composite
def cooks(draw: st.DrawFn) -> tuple[Logbook, float]:
    """Draw a log and an instant at which it is looked at."""
    hours = draw(st.floats(1.0, 30.0))
    serving = draw(st.sampled_from([dinner(60 * hours), dinner(60 * hours, window=90), WHEN_READY]))
    pit_c = draw(st.floats(95.0, 180.0))
    log = Logbook(planned(cut=draw(st.sampled_from(CUTS)), serving=serving, pit_low_c=pit_c, pit_high_c=pit_c))
    others = draw(st.lists(st.sampled_from(CUTS), max_size=5))
    for number, cut in enumerate(others, start=2):
        tell(log, PieceAdded(cut=cut), 1, piece=f"p{number}")
    names = draw(st.lists(NAMES, min_size=1, max_size=9, unique=True))
    minutes = 2.0
    if draw(st.booleans()):
        log.done("light", 10)
        log.done("meat_on", 60)
        minutes = 60.0
        core_c = 5.0
        for n in range(draw(st.integers(0, 25))):
            minutes += draw(st.floats(1.0, 60.0))
            core_c = min(99.0, core_c + draw(st.floats(-1.0, 12.0)))
            slot = draw(st.sampled_from([Slot.CORE, Slot.CORE, Slot.PIT]))
            value_c = core_c if slot is Slot.CORE else pit_c + draw(st.floats(-30.0, 30.0))
            body = Reading(slot=slot, value_c=value_c, doubtful=draw(st.booleans()) and n % 5 == 0)
            log.tell(body, minutes, by=draw(st.sampled_from([*names, None])))
        if draw(st.booleans()):
            log.tell(Wrapped(wrap=draw(st.sampled_from(list(Wrap)))), minutes + 1)
        if draw(st.booleans()):
            log.done("pull", minutes + 2)
            if draw(st.booleans()):
                log.done("serve", minutes + draw(st.floats(3.0, 400.0)))
    return log, minutes + draw(st.floats(0.0, 500.0))


@settings(max_examples=40, deadline=None)
@given(cook=cooks(), unit=st.sampled_from(["C", "F"]))
def test_every_cook_has_a_chart_without_overlaps(cook: tuple[Logbook, float], unit: str) -> None:
    """Any cook at any time: labels have their own room, and dots lie inside the plots."""
    made = drawn(*cook, unit=unit)
    assert overlaps(made) == []
    assert outside(made) == []
    for dot in made.shape("dot"):
        middle = sum(x for x, _ in dot.points) / len(dot.points)
        assert LEFT - 12 <= middle <= RIGHT + 12
