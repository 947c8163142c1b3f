"""What is said when things come late: answers to a backlog, a chat that is back, an outage of the messenger.

One line each; what follows is said elsewhere.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.words import _, n_


def heard_late(count: int, first: dt.datetime, last: dt.datetime, voice: Voice) -> str:
    """Say that messages of an outage are worked on now, with the times at which they were sent."""
    return n_(
        "{count} message came while I was away, sent {first}:",
        "{count} messages came while I was away, sent {first} to {last}:",
        count,
    ).format(count=count, first=voice.clock(first), last=voice.clock(last))


def more_before(count: int) -> str:
    """Say that older answers are left out; what they told is recorded all the same."""
    return n_("{count} more before these, recorded.", "{count} more before these, all recorded.", count).format(
        count=count
    )


def back_again(since: dt.datetime, count: int, voice: Voice) -> str:
    """Say to a chat that is back that what waited for it is not sent any more."""
    return n_(
        "You are back. {count} message since {since} is not sent any more; now:",
        "You are back. {count} messages since {since} are not sent any more; now:",
        count,
    ).format(count=count, since=voice.clock(since))


def could_not_send(since: dt.datetime, at: dt.datetime, voice: Voice) -> str:
    """Say that the messenger could not be reached, and when what follows was so."""
    return _("I could not send from {since} on. As of {at}:").format(since=voice.clock(since), at=voice.clock(at))


def replies_lost(since: dt.datetime, until: dt.datetime, lost_before: dt.datetime, voice: Voice) -> str:
    """Say after more than a day away that what was written early in that time never came."""
    return _(
        "I was away from {since} to {until}. What was written before {lost} may never have come: tell me again what "
        "still counts."
    ).format(since=voice.clock(since), until=voice.clock(until), lost=voice.clock(lost_before))
