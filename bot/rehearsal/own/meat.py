"""The piece of a rehearsed plan: one course out of the forecast's own fan, fast, usual or slow, and a pit that behaves.

It rehearses the plan, not the forecast: a forecast is never wrong about a piece that was taken from it.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import Feel, Wrap
from scheduler.forecast import Forecast
from scheduler.forecast.after import Held, Holding, Place, hold

AIR_C = 15.0
"""Air around the invented cooker [°C]."""

ALMOST_FOR = dt.timedelta(minutes=25)
"""Before it is tender the probe meets a little grip for so long."""

SMOKE_GREY_FOR = dt.timedelta(minutes=35)
"""After lighting: grey until then, thin later; common practice, no source."""

READY_IN = dt.timedelta(minutes=50)
"""From lighting to the set point in this rehearsal; common practice, no source."""

HORIZON = dt.timedelta(hours=30)


class Pace(StrEnum):
    """Which piece is played."""

    FAST = "fast"
    """One piece in ten is done earlier."""
    USUAL = "usual"
    SLOW = "slow"
    """One piece in ten is done later."""


SHARE = {Pace.FAST: 0.1, Pace.USUAL: 0.5, Pace.SLOW: 0.9}
"""The share of pieces that are ready before this one."""


@dataclasses.dataclass
class Piece:
    """One piece on its course. Instants are UTC, temperatures [°C]."""

    cut: Cut
    pace: Pace
    course: Forecast
    """The forecast at the moment the meat went on, without a reading."""
    on_at: dt.datetime
    pit_c: float
    mass_kg: float | None
    thickness_m: float | None
    wrap: Wrap = Wrap.NONE
    pulled_at: dt.datetime | None = None
    _rest: Holding | None = None

    def wrapped(self, wrap: Wrap) -> None:
        """Follow the course of a wrapped piece from now on."""
        self.wrap = wrap
        if any(choice.wrap is wrap for choice in self.course.choices):
            self.course = self.course.given(wrap)

    @property
    def tender_at(self) -> dt.datetime:
        """Return when it is ready."""
        return self.course.ready().quantile(SHARE[self.pace]) or self.on_at + HORIZON

    def core_c(self, at: dt.datetime) -> float:
        """Return the core: on the fire as this pace has it, after the pull as it rests."""
        if self._rest is not None:
            return self._rest.core_c(at)
        return self.course.core_c(at, 1.0 - SHARE[self.pace])

    def feel(self, at: dt.datetime) -> Feel:
        """Return what the probe meets."""
        if at >= self.tender_at:
            return Feel.TENDER
        return Feel.ALMOST if at >= self.tender_at - ALMOST_FOR else Feel.TIGHT

    def pull(self, at: dt.datetime, dinner_at: dt.datetime | None) -> None:
        """Take it off: from now on it rests, vented and then boxed; in a warm oven where a box would not keep it hot
        until dinner, as the program advises.
        """
        vented = dt.timedelta(minutes=self.cut.vent_min)
        box = dt.timedelta(minutes=self.cut.rest_max_unheated_min)
        too_long = dinner_at is not None and dinner_at - at - vented > 0.75 * box
        self.pulled_at = at
        held = Held(
            cut=self.cut,
            mass_kg=self.mass_kg,
            thickness_m=self.thickness_m,
            core_c=self.core_c(at),
            spread_c=0.0,
            at=at,
            wrap=self.wrap,
            place=Place.OVEN if too_long else Place.BOX,
            pit_c=self.pit_c,
            on_at=self.on_at,
            vented=vented,
        )
        self._rest = hold(held)


def pit_c(set_c: float, lit_at: dt.datetime | None, at: dt.datetime) -> float:
    """Return the pit: rising after lighting, later within a few degrees of what it is set for [°C]."""
    if lit_at is None:
        return AIR_C
    share = min(1.0, (at - lit_at) / READY_IN)
    sway_c = 2.0 if int(at.timestamp() // 1800) % 2 else -1.0
    return AIR_C + (set_c - AIR_C) * share + (sway_c if share >= 1.0 else 0.0)
