"""The sound check in words: the test as a wake-up will come, who heard it, who needs an ordinary alarm clock.

Sentences only; who is tested when is decided in `scheduler.planning.sound`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from bot.commands import HeardIt
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.trip import wake_line
from bot.messages.words import _
from scheduler.cook import Situation


def test(name: str) -> Message:
    """Return the test, in the form in which a wake-up comes: the name first, then what to do, then the button."""
    return Message(
        text=lines(
            wake_line((name,)),
            _("This is a test: at night I wake you exactly like this."),
            _("Was it loud enough? Tap within 15 min, or I count you as not wakeable."),
        ),
        choices=(((_("I heard it"), HeardIt()),),),
    )


def heard() -> str:
    """Confirm that somebody can be woken."""
    return _("Good: I can wake you. Leave the phone loud and near you tonight.")


def tests_sent(able: Sequence[str], without: Sequence[str]) -> str:
    """Say who is tested now, and who cannot be."""
    parts = []
    if able:
        parts.append(_("Test sent to: {names}. They have 15 min to answer.").format(names=", ".join(able)))
    if without:
        parts.append(_("No private chat with me: {names}. I cannot wake them.").format(names=", ".join(without)))
    return lines(*parts) if parts else _("Nobody has a watch yet. Tell me like: Tomas 22-03, Bashir 03-07.")


def cannot_wake(name: str, alarms: Iterable[dt.datetime], voice: Voice, *, private: bool) -> str:
    """Tell the others that somebody cannot be woken, why, and for when an ordinary alarm clock is set."""
    why = (
        _("{name} did not answer the test in 15 min.").format(name=name)
        if private
        else _("{name} has no private chat with me.").format(name=name)
    )
    return lines(why, alarm_line(name, alarms, voice))


def passed_over() -> str:
    """Say what is done at night about those who cannot be woken."""
    return _("Whoever I cannot wake I pass over at night: the next name is called.")


def awake_again(name: str) -> str:
    """Tell the watch that somebody who could not be woken has done something."""
    return _("{name} is awake: called again from now on.").format(name=name)


def alarm_line(name: str, alarms: Iterable[dt.datetime], voice: Voice) -> str:
    """Return for when an ordinary alarm clock is set; nothing where there is no time for it."""
    times = ", ".join(voice.by(at) for at in alarms)
    return _("An ordinary alarm clock for {name}: {times}.").format(name=name, times=times) if times else ""


def you_cannot_be_woken(alarms: Iterable[dt.datetime], voice: Voice) -> str:
    """Tell somebody that they cannot be woken, and what to set instead."""
    times = ", ".join(voice.by(at) for at in alarms)
    return lines(
        _("You did not answer the test, so I do not count on waking you."),
        _("Set an ordinary alarm clock for: {times}.").format(times=times) if times else "",
        _('Or tap "I heard it" now.'),
    )


def deaf_lines(situation: Situation, voice: Voice) -> list[str]:
    """Return for everybody who cannot be woken by a message a line that says so, with the times for an alarm clock."""
    found = []
    for name in situation.not_wakeable(voice.now):
        times = ", ".join(voice.by(at) for at in situation.alarm_times(name))
        line = _("{name} cannot be woken by a message.").format(name=name)
        clock = _("Ordinary alarm clock: {times}.").format(times=times) if times else ""
        found.append(f"{line} {clock}".strip())
    return found


def deaf_line(situation: Situation, voice: Voice) -> str:
    """Return the same in one line, for a plan; nothing when everybody can be woken, or nobody was tested."""
    return " ".join(deaf_lines(situation, voice))
