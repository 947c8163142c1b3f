"""Words of the gate before the meat goes on: what waiting costs, and when to begin with the vents.

Words only; both are computed by the engine.
"""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.gates import CLOSING_C, FEW_READINGS, passes_at, pit_ready_at, rising_readings, slack


def waiting_line(situation: Situation, voice: Voice) -> str:
    """Return what waiting with the meat costs; nothing once it is on, or when dinner follows the meat."""
    found = slack(situation.state, situation.outlook, situation.cut)
    if found is None:
        return ""
    if voice.now < found.free_until:
        return _("It may wait until {free}; then waiting costs rest until {rest}, dinner after.").format(
            free=voice.by(found.free_until), rest=voice.by(found.rest_until)
        )
    if voice.now < found.rest_until:
        return _("Waiting costs rest until {rest}, dinner after.").format(rest=voice.by(found.rest_until))
    return _("Each minute of waiting now moves dinner.")


def vents_line(situation: Situation, voice: Voice) -> str:
    """Return at which number of the rising pit the vents begin to close, and about when; nothing before two readings,
    and once it is done.
    """
    state = situation.state
    if state.did("vents_early") or pit_ready_at(state) is not None or len(rising_readings(state)) < FEW_READINGS:
        return ""
    pit_c = state.pit_c - CLOSING_C[0]
    at = passes_at(state, pit_c)
    if at is None:
        return ""
    if at <= voice.now:
        return _("Begin to close the vents now: the pit has passed {pit}.").format(pit=voice.temp(pit_c))
    return _("Begin to close the vents at {pit}, about {time}.").format(pit=voice.temp(pit_c), time=voice.clock(at))
