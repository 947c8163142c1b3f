"""The wrap as a condition in words: when the meat is pulled if it gets one, and which one is counted on.

Sentences only; the times are those of `scheduler.planning.wraps`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from bot.messages.figures import Voice
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Wrap
from scheduler.planning.outlook import decided_bare, felt_tender
from scheduler.planning.wraps import PullIf, counted_on, pulls_if, spread
from scheduler.state import Stage

_PHRASES: dict[Wrap, Callable[[], str]] = {
    Wrap.NONE: lambda: _("bare"),
    Wrap.PAPER: lambda: _("in paper"),
    Wrap.FOIL: lambda: _("in foil"),
    Wrap.BOAT: lambda: _("in a foil boat"),
}
_NOUNS: dict[Wrap, Callable[[], str]] = {
    Wrap.PAPER: lambda: _("paper"),
    Wrap.FOIL: lambda: _("foil"),
    Wrap.BOAT: lambda: _("a foil boat"),
}

_APART = dt.timedelta(minutes=15)
"""Wraps that make less difference are no news but where the wrap is decided."""


def if_wrapped(situation: Situation, voice: Voice) -> str:
    """Return both numbers while the wrap is open: with the likeliest wrap and bare; nothing when it is decided."""
    found = pulls_if(situation.state, situation.outlook)
    apart = spread(found)
    if not found or (apart is not None and apart < _APART):
        return ""
    first, bare = found[0], found[-1]
    if not bark_asked(situation):
        return _("If you wrap {wrap}: pull near {wrapped}; {bare}: {naked}.").format(
            wrap=_PHRASES[first.wrap](), wrapped=_near(first, voice), bare=_PHRASES[bare.wrap](),
            naked=_near(bare, voice),
        )  # fmt: skip
    return _("If wrapped {wrap} at the bark look: pull near {wrapped}; {bare}: {naked}.").format(
        wrap=_PHRASES[first.wrap](), wrapped=_near(first, voice), bare=_PHRASES[bare.wrap](), naked=_near(bare, voice)
    )


def to_decide_from(situation: Situation, voice: Voice) -> str:
    """Return the pull for every wrap that may still come, for the moment at which it is decided."""
    found = pulls_if(situation.state, situation.outlook)
    if not found:
        return ""
    each = [_("{wrap} {time}").format(wrap=_PHRASES[one.wrap](), time=_near(one, voice)) for one in found]
    return _("Pull near: {each}.").format(each=", ".join(each))


def counting_on(situation: Situation) -> str:
    """Return the wrap that was decided and is still to come, as a condition; nothing when there is none."""
    wrap = counted_on(situation.state, situation.outlook)
    if wrap is None:
        return ""
    if any(done.outcome == "set" for done in situation.state.done.get("bark_check", ())):
        return _("counting on {wrap}, not wrapped yet").format(wrap=_NOUNS[wrap]())
    if not bark_asked(situation):
        return _("counting on {wrap} once you wrap").format(wrap=_NOUNS[wrap]())
    return _("counting on {wrap} at the bark look").format(wrap=_NOUNS[wrap]())


def bark_asked(situation: Situation) -> bool:
    """Return whether the bark is still going to be asked about."""
    return situation.state.stage is not Stage.COOKING or situation.prompt("bark_check") is not None


def bark_left(situation: Situation) -> str:
    """Return that nobody is asked about the bark any more although the wrap is open; else nothing."""
    state = situation.state
    open_wrap = situation.cut.asks_bark and not state.wraps and not decided_bare(state) and not felt_tender(state)
    if bark_asked(situation) or not open_wrap:
        return ""
    return _("I do not ask about the bark again; say bark set when it is.")


def in_wrap(wrap: Wrap) -> str:
    """Return a wrap as a condition: "in foil", "bare"."""
    return _PHRASES[wrap]()


def _near(one: PullIf, voice: Voice) -> str:
    return _("beyond 30 h") if one.pull.likely is None else voice.about(one.pull.likely)
