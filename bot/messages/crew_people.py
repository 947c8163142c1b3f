"""People of a cook in words: who is what from now on, links that let somebody in, who left and what is free then.

Sentences only; what each role may do is decided in `bot.crew`.
"""

from __future__ import annotations

from collections.abc import Iterable

from bot.crew import Role
from bot.messages.crew import role_name, roles_named
from bot.messages.message import lines
from bot.messages.words import _


def role_does(role: Role) -> str:
    """Return in one sentence what somebody in a role does and hears."""
    names = {
        Role.OWNER: _("Decides everything here."),
        Role.FIRE_LEAD: _("Decides wrap, pull, pit and plan, and hears everything."),
        Role.WATCH: _("Looks after the fire, does what is due, and wakes the lead when in doubt."),
        Role.HELPER: _('Takes things to do: "mine", then "done".'),
        Role.CARVER: _("Hears an hour before slicing, and slices."),
        Role.HOST: _("Decides the serving time and the guests, and hears whether dinner is on time."),
        Role.FOOD_HANDLER: _("Answers for the food: may stop it, throw it away, and keeps the log."),
        Role.GUEST: _("Can ask how long at any time."),
    }
    return names[role]


def told_role(name: str, roles: Iterable[Role], new: Role, *, reachable: bool) -> str:
    """Say what somebody is now; without a private chat with the one thing to do."""
    return lines(
        _("{name} is now: {roles}.").format(name=name, roles=roles_named(roles)),
        role_does(new),
        "" if reachable else no_private_chat(name, new),
    )


def no_private_chat(name: str, role: Role) -> str:
    """Say that somebody has no private chat yet, and how they get one."""
    return _('{name} has no private chat with me yet. "invite {name} as {role}" makes a link.').format(
        name=name, role=role_name(role)
    )


def you_are(roles: Iterable[Role], new: Role, by: str) -> str:
    """Tell somebody what they are now, and who said so."""
    return lines(_("You are now: {roles} (told by {by}).").format(roles=roles_named(roles), by=by), role_does(new))


def no_longer(name: str, role: Role, left: Iterable[Role]) -> str:
    """Say that somebody is something no more, and what they still are."""
    rest = roles_named(left)
    if not rest:
        return _("{name} is not {role} any more.").format(name=name, role=role_name(role))
    return _("{name} is not {role} any more; still: {roles}.").format(name=name, role=role_name(role), roles=rest)


def not_the_owner() -> str:
    """Say that the owner of the program is made by nobody here."""
    return _("The owner is whoever runs this program; that is not changed here.")


def invitation(code: str, link: str | None, role: Role, name: str | None) -> str:
    """Hand out a single-use code or link: for whom, as what, for how long."""
    who = _("For one person") if name is None else _("For {name}").format(name=name)
    head = _("{who}, as {role}, once, for a day:").format(who=who, role=role_name(role))
    if link is not None:
        return lines(f"{head} {link}", _('"cancel invites" makes it useless.'))
    return lines(
        _("{head} join {code}").format(head=head, code=code),
        _('In this terminal no code is needed: slowbell chat --as NAME. "cancel invites" makes it useless.'),
    )


def invites_cancelled() -> str:
    """Say that codes are useless now."""
    return _("Links and codes that nobody has used yet are useless now.")


def left(name: str, without: Iterable[str], next_name: str | None, *, watch: bool) -> str:
    """Say that somebody has gone, what is without an owner, and who has to take the watch."""
    open_now = list(without)
    parts = [_("{name} has left; what {name} had is free again.").format(name=name)]
    if open_now:
        parts.append(_("Without an owner now: {what}. Who takes it?").format(what=", ".join(open_now)))
    if watch and next_name is not None:
        parts.append(_("Nobody has the watch now: {name} is asked to take it.").format(name=next_name))
    elif watch:
        parts.append(_("Nobody has the watch now. While it burns somebody stays awake and near: who?"))
    return lines(*parts)


def nobody_of_that_name(name: str) -> str:
    """Say that nobody of that name is in the crew."""
    return _("Nobody called {name} is in this crew.").format(name=name)


def group_gone(*, alone: bool) -> str:
    """Tell those at the fire that nothing reaches a group any more, and where they hear from the program now."""
    return lines(
        _("I can no longer write into the group: I was taken out, or it is closed."),
        _("What is due comes here now, stops too; the others in the group do not hear me.") if alone else "",
        _("To change that add me to the group again: it is told then how things stand."),
    )


def gone_silent(name: str, without: Iterable[str], *, holds: bool) -> str:
    """Tell whoever leads that somebody closed their chat: what is free, and that the watch needs somebody."""
    free = ", ".join(without)
    return lines(
        _("{name} has closed the chat with me: I cannot reach or wake {name}.").format(name=name),
        _("Free again: {what}.").format(what=free) if free else "",
        _("{name} has the watch on my list. Is somebody at the fire? Tell me like: Bashir has it.").format(name=name)
        if holds
        else "",
    )
