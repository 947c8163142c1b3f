"""What people say about one another: roles, joining and leaving, "mine", the watch handed over, what waits for who
decides, the test of the wake-up. Values only; `commands` puts them among the intents.
"""

from __future__ import annotations

import datetime as dt
from typing import Literal

from bot.commands.intent import Said
from bot.crew import Role


class Invite(Said):
    """Make a single-use code for somebody, who will be this; `name` None: anybody."""

    kind: Literal["invite"] = "invite"
    role: Role = Role.WATCH
    name: str | None = None


class CancelInvites(Said):
    """Make every code useless that nobody has used yet."""

    kind: Literal["cancel_invites"] = "cancel_invites"


class RoleSaid(Said):
    """Somebody is this in the cook, or (`dropped`) no more; `name` "i" is whoever typed it."""

    kind: Literal["role"] = "role"
    name: str
    role: Role
    dropped: bool = False


class LeftSaid(Said):
    """Somebody has gone; "i" is whoever typed it."""

    kind: Literal["left"] = "left"
    name: str


class Claim(Said):
    """Whoever says "mine" does the step; None: what is open."""

    kind: Literal["claim"] = "claim"
    step: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class ClaimBack(Said):
    """Not mine after all; None: whatever they had claimed."""

    kind: Literal["claim_back"] = "claim_back"
    step: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class HandOver(Said):
    """The watch is offered to somebody (None: to the next on the list), who has it once they say so."""

    kind: Literal["hand_over"] = "hand_over"
    to: str | None = None
    until: dt.datetime | None = None


class TakeWatch(Said):
    """I have the watch, until an instant if one was named."""

    kind: Literal["take_watch"] = "take_watch"
    until: dt.datetime | None = None


class CannotWatch(Said):
    """Whoever says so cannot do, or go on with, a watch of theirs, or has to go."""

    kind: Literal["cannot_watch"] = "cannot_watch"
    to: None = None
    """Nobody is named: the next one is asked."""


class CallName(Said):
    """Somebody is to be called to the fire, by sound; None: whoever leads."""

    kind: Literal["call_name"] = "call_name"
    name: str | None = None


class DeclineWatch(Said):
    """I do not take the watch."""

    kind: Literal["decline_watch"] = "decline_watch"


class Nod(Said):
    """A bare "k" to a handover: it takes nothing over."""

    kind: Literal["nod"] = "nod"


class LeverNo(Said):
    """What was asked for is not done."""

    kind: Literal["lever_no"] = "lever_no"
    lever: str


class SafeDefault(Said):
    """The safe thing in place of what nobody decided: keep the pit, wrap, hold."""

    kind: Literal["safe_default"] = "safe_default"
    lever: str


class SoundCheck(Said):
    """Send everybody who has a watch the test of a wake-up now."""

    kind: Literal["sound_check"] = "sound_check"


class HeardIt(Said):
    """I heard the test."""

    kind: Literal["heard_it"] = "heard_it"


class WrongCook(Said):
    """What was told last was meant for another cook."""

    kind: Literal["wrong_cook"] = "wrong_cook"
