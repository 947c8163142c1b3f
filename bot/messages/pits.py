"""What is said of a pit that does not fit a cut. Words only; what fits is judged by `scheduler.planning.bounds`."""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.words import _
from scheduler.planning.alternatives import pit_limits_c
from scheduler.planning.bounds import PitSense, coldest_c, pit_sense
from scheduler.planning.views import PieceView

_ROUNDED_C = 1.0
"""Limits are whole degrees of one unit or the other [°C]."""


def pit_note(view: PieceView, voice: Voice) -> str:
    """Return a caution about a pit that is no usual one for a piece; nothing about a usual one."""
    band, cut = view.state.pit[-1], view.cut
    pit = voice.band(band.low_c, band.high_c)
    match pit_sense(cut, view.state.planned.wrap, band.low_c, band.high_c):
        case PitSense.COLD:
            return _(
                "Pit {pit} is too cold for {cut}: the meat is too long below 140 F (60 C), where germs grow. "
                "At least {coldest}."
            ).format(pit=pit, cut=_(cut.name), coldest=voice.temp(coldest_c(cut)))
        case PitSense.HOT | PitSense.IMPOSSIBLE:
            return _(
                "Pit {pit} is hotter than usual for {cut} (up to {hottest}): it dries and scorches sooner."
            ).format(pit=pit, cut=_(cut.name), hottest=voice.temp(pit_limits_c(cut, view.state.planned.wrap)[1]))
        case PitSense.USUAL if band.high_c < cut.pit_c.low - _ROUNDED_C:
            return _("Pit {pit} is colder than usual for {cut} (from {low}): it takes longer.").format(
                pit=pit, cut=_(cut.name), low=voice.temp(cut.pit_c.low)
            )
        case PitSense.USUAL:
            return ""
