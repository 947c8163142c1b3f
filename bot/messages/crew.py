"""The crew in words: what each role is called, who may do what, kind refusals, who is here and who can be woken.

Sentences only; rights are decided in `bot.crew`, who has the watch in `scheduler`.
"""

from __future__ import annotations

from collections.abc import Iterable

from bot.crew import Right, Role
from bot.messages.board import watch_line
from bot.messages.crew_sound import deaf_lines
from bot.messages.figures import Voice
from bot.messages.message import lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.nights import is_quiet, watching
from scheduler.planning.prompts import EscalationLevel
from scheduler.planning.trips import Trip


def role_name(role: Role) -> str:
    """Return what a role is called."""
    names = {
        Role.OWNER: _("owner"),
        Role.FIRE_LEAD: _("fire lead"),
        Role.WATCH: _("watch"),
        Role.HELPER: _("helper"),
        Role.CARVER: _("carver"),
        Role.HOST: _("host"),
        Role.FOOD_HANDLER: _("food handler"),
        Role.GUEST: _("guest"),
    }
    return names[role]


def roles_named(roles: Iterable[Role]) -> str:
    """Return several roles in one line, those that decide most first."""
    held = set(roles)
    return ", ".join(role_name(role) for role in Role if role in held)


def right_name(right: Right) -> str:
    """Return what a right is about, as the end of "... decides about"."""
    names = {
        Right.ASK: _("questions"),
        Right.REPORT: _("readings and what was done"),
        Right.TEND: _("the fire and the meat"),
        Right.DECIDE: _("wrap, pull, pit and plan"),
        Right.DINNER: _("dinner and guests"),
        Right.SLICE: _("slicing"),
        Right.START: _("beginning and ending a cook"),
        Right.INVITE: _("who is in the crew"),
        Right.DISCARD: _("throwing food away"),
    }
    return names[right]


def may_not(roles: Iterable[Role], right: Right, who: str | None) -> str:
    """Say kindly that somebody may not do this, who may, and that nothing has changed."""
    named = who or _("whoever leads the fire")
    return lines(
        _("As {role} you cannot change that here: {who} decides about {what}.").format(
            role=roles_named(roles), who=named, what=right_name(right)
        ),
        _("Nothing has changed. You can always ask how long, and always say if somebody is in danger."),
    )


def asked_for(what: str, who: str, until: str, default: str) -> str:
    """Say to whoever asked that somebody else decides: who, until when, and what happens without an answer."""
    return lines(
        _("{who} decides that, and is asked now: {what}.").format(who=who, what=what),
        _("Answer by {time}; until then nothing changes. Without an answer: {default}.").format(
            time=until, default=default
        ),
    )


def asked_to_confirm(what: str, who: str, until: str, default: str) -> str:
    """Thank whoever told something that somebody else answers for: who looks at it, until when, what happens else."""
    return lines(
        _("Thank you. {who} looks at that, and is asked now: {what}.").format(who=who, what=what),
        _("Answer by {time}; until then nothing changes. Without an answer: {default}.").format(
            time=until, default=default
        ),
    )


def asked_to_decide(what: str, by: str, until: str, default: str) -> str:
    """Ask whoever decides."""
    return lines(
        _("{by} asks: {what}. Yes or no?").format(by=by, what=what),
        _("By {time}, please. Without an answer: {default}.").format(time=until, default=default),
    )


def safe_default(default: str) -> str:
    """Return the safe thing that is done when nobody decides."""
    names = {
        "keep_pit": _("pit and dinner stay as they are"),
        "wrap": _("the watch may wrap, if the bark is set"),
        "hold": _("the meat is held warm, dinner stays as it is"),
    }
    return names[default]


def yes() -> str:
    """Return the label of the button that agrees."""
    return _("Yes")


def no() -> str:
    """Return the label of the button that does not."""
    return _("No")


def nobody_decided(what: str, who: str, default: str) -> str:
    """Tell that nobody decided in time: what may be done now, and nothing else."""
    return lines(
        _("No answer from {who}: {what}. It is not done.").format(who=who, what=what),
        _("Until {who} answers: {default}.").format(who=who, default=default),
    )


def do_default(default: str) -> str:
    """Return the label of the button that does the safe thing."""
    names = {"keep_pit": _("Keep the pit"), "wrap": _("Wrap it, bark is set"), "hold": _("Hold it warm")}
    return names[default]


def default_done(default: str) -> str:
    """Confirm the safe thing, with what to do."""
    names = {
        "keep_pit": _("Good: the pit stays as it is. Nothing else changes."),
        "wrap": _('Good. Scratch the bark first: if it does not come off, wrap, and tell me "wrapped in paper".'),
        "hold": _("Good: hold it warm, closed. Dinner stays as it is."),
    }
    return names[default]


def declined(what: str, who: str) -> str:
    """Tell that who decides said no."""
    return _("{who} says no: {what}. Everything stays as it is.").format(who=who, what=what)


def agreed(what: str, who: str) -> str:
    """Tell that who decides said yes."""
    return _("{who} says yes: {what}.").format(who=who, what=what)


def settled(when: str, who: str | None) -> str:
    """Answer a button of a question that was settled meanwhile."""
    if who is None:
        return _("That was settled at {time}. Nothing was changed now.").format(time=when)
    return _("That was settled at {time} by {who}. Nothing was changed now.").format(time=when, who=who)


def nothing_asked() -> str:
    """Answer a button of a question of which nothing is known any more."""
    return _("Nobody waits for that answer any more. Nothing was changed.")


def not_yours(who: str) -> str:
    """Say to somebody who answers in place of who decides that they cannot."""
    return _("That question is for {who}. Nothing has changed.").format(who=who)


def only_later(until: str, who: str) -> str:
    """Say that the safe default may be done only once who decides had the time to answer."""
    return _("{who} has until {time} to decide. Until then nothing changes.").format(who=who, time=until)


def who_is_here(rows: Iterable[tuple[str, Iterable[Role]]], situation: Situation, voice: Voice) -> str:
    """Return names with roles, who has the watch and until when, and who cannot be woken."""
    named = ", ".join(_("{name} ({roles})").format(name=name, roles=roles_named(roles)) for name, roles in rows)
    return lines(_("Here: {names}.").format(names=named), watch_line(situation, voice), *deaf_lines(situation, voice))


def escalation_line(trip: Trip, situation: Situation, voice: Voice) -> str:
    """Return who has not answered, who is called next and when; `situation` is the one after the trip was asked."""
    escalations = [one.escalation for one in trip.prompts if one.escalation is not None]
    levels = {one.level for one in escalations}
    called = {name for one in escalations for name in (*one.names, *one.before)}
    before = tuple(dict.fromkeys(name for one in escalations for name in one.before))
    gone = _("No answer yet from {names}.").format(names=", ".join(before)) if before else ""
    on_watch = watching(situation.state, voice.now)
    coming = []
    for prompt in situation.prompts:
        if prompt.key in trip.keys and prompt.wake_at is not None and prompt.escalation is not None:
            new = tuple(name for name in prompt.escalation.names if name not in {*called, on_watch})
            whole = prompt.escalation.level is EscalationLevel.GROUP and EscalationLevel.GROUP not in levels
            coming += [(prompt.wake_at, new)] if new or whole else []
    if not coming:
        return gone
    at, names = min(coming)
    if not names:
        return lines(gone, _("If nobody answers by {time} I call everybody.").format(time=voice.clock(at)))
    last = (
        _("If nobody answers by {time} I wake {names}.")
        if is_quiet(situation.state, at)
        else _("If nobody answers by {time} I ask {names}.")
    )
    return lines(gone, last.format(time=voice.clock(at), names=", ".join(names)))
