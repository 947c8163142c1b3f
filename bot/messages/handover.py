"""The card of a handover: everything that whoever takes the watch should know, in one message.

Words only; it reads the situation and computes nothing.
"""

from __future__ import annotations

from bot.messages.allergies import standing_care
from bot.messages.cooker import fuel_line, vent_words
from bot.messages.figures import Voice
from bot.messages.message import lines
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Slot, Wrap
from scheduler.planning.nights import lead_of
from scheduler.safety.fire import PIT_COLD_C

_LAST, _NEXT = 3, 3
"""How many things are named of what was done and of what is due."""

_TOO_HOT_C, _JUMP_C = 150.0, 8.0
"""A pit above the first for twenty minutes, or a core that rises by the second in half an hour, wakes the lead [°C];
common practice, no source."""


def handover_card(situation: Situation, voice: Voice) -> str:
    """Return how it stands, what was done last, what is due next, and when to wake the lead."""
    state = situation.state
    return lines(
        *standing_care(situation),
        _readings(situation, voice),
        fuel_line(situation, voice),
        " ".join(part for part in (_wrap(situation), vent_words(state, voice)) if part),
        _done(situation, voice),
        _due(situation, voice),
        _wake(situation, voice),
    )


def card_again() -> str:
    """Say where the card of a handover is that was shown already."""
    return _("How it stands is in the card above.")


def _readings(situation: Situation, voice: Voice) -> str:
    """Return the newest pit and core with their times, beside what the pit should hold."""
    band = situation.state.pit[-1]
    parts = [
        _("{name} {temp} at {time}").format(name=name, temp=voice.temp(last.value_c), time=voice.clock(last.at))
        for slot, name in ((Slot.PIT, _("pit")), (Slot.CORE, _("meat")))
        if (last := situation.state.last(slot)) is not None
    ]
    should = _("pit should hold {pit}").format(pit=voice.band(band.low_c, band.high_c))
    return _("Now: {what}.").format(what=", ".join((*parts, should)))


def _wrap(situation: Situation) -> str:
    wraps = situation.state.wraps
    if not wraps:
        return _("Not wrapped.")
    names = {
        Wrap.NONE: _("Bare to the end."), Wrap.PAPER: _("Wrapped in paper."), Wrap.FOIL: _("Wrapped in foil."),
        Wrap.BOAT: _("In a foil boat."),
    }  # fmt: skip
    return names[wraps[-1][1].wrap]


def _done(situation: Situation, voice: Voice) -> str:
    done = sorted(
        ((entry.at, step) for step, entries in situation.state.done.items() for entry in entries[-1:]), reverse=True
    )
    named = [_("{what} {time}").format(what=step_words(step).name, time=voice.clock(at)) for at, step in done[:_LAST]]
    return _("Done last: {what}.").format(what=", ".join(named)) if named else ""


def _due(situation: Situation, voice: Voice) -> str:
    due = [p for p in situation.prompts if p.wake_at is not None and p.step.id != "handover"]
    named = [
        _("{time} {what}").format(time=voice.clock(max(p.wake_at, voice.now)), what=step_words(p.step.id).name)
        for p in sorted(due, key=lambda p: p.wake_at or voice.now)[:_NEXT]
        if p.wake_at is not None
    ]
    return _("Due next: {what}.").format(what=", ".join(named)) if named else ""


def _wake(situation: Situation, voice: Voice) -> str:
    """Return when to wake whoever leads."""
    high_c = max(_TOO_HOT_C, situation.state.pit[-1].high_c + 15.0)
    rise = _JUMP_C * 1.8 if voice.unit == "F" else _JUMP_C
    return _(
        "Wake {name} if: pit under {low} or over {high} for 20 min, meat up {rise:.0f} {unit} in 30 min, fire out, "
        "rain or wind, or any doubt."
    ).format(
        name=lead_of(situation.state) or _("the lead"),
        low=voice.temp(PIT_COLD_C),
        high=voice.temp(high_c),
        rise=rise,
        unit=voice.unit,
    )
