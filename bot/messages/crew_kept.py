"""What a cook that begins as last time keeps of its crew: who is what, and who watches when.

It decides nothing.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.crew import Role
from bot.messages.crew import roles_named
from bot.messages.message import Message
from bot.messages.watches import watches_told
from bot.messages.words import _
from scheduler.facts import CrewRole, WatchesTold


def crew_kept(crew: Mapping[str, frozenset[CrewRole]], watches: WatchesTold | None) -> Message:
    """Say which roles and watches were taken over from the last cook; nothing when none were."""
    said = [
        _("{name} ({roles})").format(name=name, roles=roles_named(Role(role.value) for role in sorted(roles)))
        for name, roles in sorted(crew.items())
    ]
    if not said and watches is None:
        return Message(text="")
    kept = _("Crew as last time: {names}.").format(names=", ".join(said)) if said else _("Watches as last time.")
    return Message(text=kept if watches is None else f"{kept} {watches_told(watches)}.")
