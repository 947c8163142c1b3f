"""What follows from raw meat taken out, food put away, and leftovers on the heat: by when the next thing has to be.

Limits come from the safety room; nothing is judged here.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import Changes, Situation, Taken
from scheduler.facts import Reading, Slot, StepDone
from scheduler.safety import cold_by, hot_by, is_cooling_measured, out_by, put_away

_NEWS = dt.timedelta(hours=6)
"""A limit that is over for so long is no news: the rules say what is to be said."""


def after_kept(changes: Changes, voice: Voice) -> list[str]:
    """Return the limits that begin with what was just told."""
    found: list[str] = []
    for event in changes.events:
        if isinstance(event, Taken):
            found += _of(event, changes.after.seen_from(event.piece), voice)
    return list(dict.fromkeys(found))


def _of(event: Taken, after: Situation, voice: Voice) -> list[str]:
    state = after.state
    match event.body:
        case StepDone(step="raw_out", outcome=outcome) if outcome != "back":
            return _by(out_by(state), _("On the fire or back in the fridge by {time}."), voice)
        case StepDone(step="marinade"):
            return [step_words("marinade").do]
        case StepDone(step="reheat_on"):
            return _by(hot_by(state), _("165 F (74 C) in the middle by {time}; type it like: leftovers 165."), voice)
        case StepDone(step="leftovers" | "two_hour" | "reheat_away") if is_cooling_measured(state):
            return _cooling(after, voice)
        case Reading(slot=Slot.LEFTOVERS) if _just_reheated(after, event.at):
            return [_("Hot enough. Serve it at once; two hours count from now.")]
        case _:
            return []


def _by(at: dt.datetime | None, text: str, voice: Voice) -> list[str]:
    return [] if at is None or at <= voice.now - _NEWS else [text.format(time=voice.by(at))]


def _cooling(after: Situation, voice: Voice) -> list[str]:
    times = cold_by(after.state)
    if times is None or times[1] <= voice.now:
        return []
    return [
        _("Counted from when it was last known hot: 70 F (21 C) by {first}, 41 F (5 C) by {whole}.").format(
            first=voice.by(times[0]), whole=voice.by(times[1])
        )
    ]


def _just_reheated(after: Situation, at: dt.datetime) -> bool:
    return any(reheat.done_at == at for reheat in put_away(after.state).reheats)
