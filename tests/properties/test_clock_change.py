"""A brisket over the night in which the clocks change: instants are what counts, wall time is only how it is said."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest

from tests.properties.actions import Start
from tests.properties.laws import LAWS
from tests.properties.play import Play

BACK = dt.datetime(2026, 10, 24, 17, 0, tzinfo=dt.UTC)
"""Six in the evening in London; at one o'clock UTC the clocks go back an hour."""

FORWARD = dt.datetime(2026, 3, 28, 18, 0, tzinfo=dt.UTC)
"""Six in the evening in London; at one o'clock UTC the clocks go forward an hour."""

HOURS = {BACK: 25, FORWARD: 23}
"""Hours from six in the evening to six in the evening."""


def _overnight(evening: dt.datetime) -> Play:
    """Return a brisket planned in the evening for six o'clock on the next, by the clock on the wall, and cooked."""
    played = Play(Start(at=evening, cut="brisket_packer", dinner_min=HOURS[evening] * 60, pit_c=121.0, pace=0.55))
    played.work(30 * 60)
    return played


@pytest.mark.parametrize(("evening", "hour_utc"), [(BACK, 18), (FORWARD, 17)])
def test_dinner_is_at_six_on_the_wall(evening: dt.datetime, hour_utc: int) -> None:
    """Six in the evening of the next day, 25 or 23 hours later."""
    outlook = Play(Start(at=evening, cut="brisket_packer", dinner_min=HOURS[evening] * 60)).situation.outlook
    assert outlook.serve_at is not None
    assert (outlook.serve_at.day, outlook.serve_at.hour) == (evening.day + 1, hour_utc)


@pytest.mark.parametrize("evening", [BACK, FORWARD])
def test_the_night_is_kept_by_instants(evening: dt.datetime) -> None:
    """From the fire to the plate: on before the change, read about every hour through it, served at six on the wall."""
    played = _overnight(evening)
    for law in LAWS:
        law(played)
    state = played.situation.state
    on_at, served_at = state.at("meat_on"), state.at("serve")
    assert on_at is not None
    assert served_at is not None
    assert dt.timedelta() <= served_at - (evening + HOURS[evening] * dt.timedelta(hours=1)) < dt.timedelta(minutes=10)
    readings = [r.at for r in state.readings if on_at <= r.at <= (state.at("pull") or served_at)]
    gaps = [later - earlier for earlier, later in itertools.pairwise(sorted(set(readings)))]
    assert max(gaps) < dt.timedelta(hours=2)
    assert min(gaps) > dt.timedelta()
