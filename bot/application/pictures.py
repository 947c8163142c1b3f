"""The cook as a picture: given to whoever asks, and with the message that tells a decision.

At most one picture goes with a message, never a message more because of it. Nothing is drawn here: pictures come
through the port.
"""

from __future__ import annotations

import logging
from collections.abc import Callable

from bot.application.boards import PAPER
from bot.application.visit import House, Visit, Work
from bot.chat import Address, Document
from bot.messages import chart as words
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Shifted, Situation, TripDue, assess
from scheduler.facts import Fact
from scheduler.planning.prompts import Prompt

log = logging.getLogger(__name__)

DECISIONS = frozenset({"bark_check", "wrap_decide", "pull", "t_minus"})
"""Steps at which people decide (a bark that is set is the decision about the wrap), and look at how the cook stands."""

MOST_CAPTION_UNITS = 1024
"""A longer text is no caption (Bot API, sendPhoto: 0 to 1024 characters; counted here in UTF-16, the stricter way)."""


def show(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, *, dark: bool | None, number: int = 0
) -> None:
    """Send the picture to whoever asked, with what it says in words; `number` counts several cooks."""
    voice = visit.voice(situation)
    key = f"answer:{visit.row_id}" + (f".{number}" if number else "")
    document = visit.house.charts(situation, log=snapshot.facts, voice=voice, dark=dark)
    text = Message(text=words.caption(situation, voice))
    work.say(text, to=visit.address, key=key, cook=snapshot.id, document=document)


def show_last(visit: Visit, work: Work, *, dark: bool | None) -> bool:
    """Send the picture of the newest cook that a room followed, also of one that is over; False: there is none."""
    for cook in visit.house.store.recent_cooks(visit.address, 1):
        snapshot = visit.house.store.cook(cook)
        if snapshot is not None:
            situation = assess(snapshot.facts, visit.house.catalogue, visit.now)
            show(visit, work, snapshot, situation, dark=dark)
            return True
    return False


def decides(*changes: Changes) -> bool:
    """Return whether people decide about dinner now, its verdict turns, or the last piece is served."""
    return any(_decides(one) for one in changes)


def _decides(changes: Changes) -> bool:
    for event in changes.events:
        if isinstance(event, TripDue) and any(_is_new(prompt) for prompt in event.trip.prompts):
            return True
        if isinstance(event, Shifted) and event.shift.turned:
            return True
    ended = changes.before is not None and not changes.before.ended and changes.after.ended
    return ended and any(view.state.did("serve") for view in changes.after.views)


def _is_new(prompt: Prompt) -> bool:
    """Return whether a decision is asked for the first time: what is still open was shown then."""
    return prompt.step.id in DECISIONS and prompt.asked == 0


def riding_picture(
    house: House,
    facts: tuple[Fact, ...],
    changes: tuple[Changes, ...],
    *,
    voice: Voice,
    room: Address,
    message: Message,
    urgent: bool,
) -> Document | None:
    """Return the picture that goes with a message about these changes to a room; None for most messages.

    `facts` is the whole log after them. None is added before meat is on, when hands are busy with the fire, nor to what
    must be read at once or to words too long for a caption. One that cannot be drawn holds nothing back: the words go
    without it.
    """
    after = changes[-1].after
    if room.transport in PAPER or urgent or not decides(*changes) or not message.text:
        return None
    if not any(view.state.did("meat_on") for view in after.views):
        return None
    stopped = any(after.stops_of(view.piece, voice.now) for view in after.views)
    if stopped or not is_caption(message.text):
        return None
    try:
        return house.charts(after, log=facts, voice=voice, dark=None)
    except (ArithmeticError, LookupError, OSError, ValueError):
        log.exception("a chart could not be drawn; its message goes without it")
        return None


_TITLE_UNITS = 64
"""Room for what a message begins with where several cooks run in one room."""


def is_caption(text: str) -> bool:
    """Return whether a text is short enough to stand under a picture, counted in UTF-16 units."""
    return _units(text) <= MOST_CAPTION_UNITS - _TITLE_UNITS


def below_a_picture(question: str, answered: Callable[[str], str]) -> str:
    """Return a caption with what was added to it; lines at the end of the question make room for that at need."""
    kept = question.split("\n")
    while len(kept) > 1 and _units(answered("\n".join(kept))) > MOST_CAPTION_UNITS:
        kept.pop()
    return answered("\n".join(kept))


def _units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2
