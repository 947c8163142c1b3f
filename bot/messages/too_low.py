"""A wished core that is under the minimum: why it is not planned, in one sentence. Never softened."""

from __future__ import annotations

from bot.messages.figures import both, exactly
from bot.messages.words import _
from scheduler.safety import NotByTime, Undercooked

WHY = {
    NotByTime.POULTRY: lambda: _("poultry is never planned under it"),
    NotByTime.GROUND: lambda: _("in sausages and minced meat the outside is all through it: no pink by choice"),
    NotByTime.FISH: lambda: _("no published table of time and temperature is of fish"),
    NotByTime.TREATED: lambda: _("what was done to it brought the outside in: no pink centre by choice"),
    NotByTime.AT_RISK: lambda: _("guests at risk eat with you"),
    NotByTime.UNTOLD: lambda: _("nobody said yet that it is as cut, nothing injected or tenderised"),
    NotByTime.RISK_UNTOLD: lambda: _("nobody said yet whether guests at risk eat with you"),
}

OPEN = (None, NotByTime.UNTOLD, NotByTime.RISK_UNTOLD)
"""Time at temperature may still be chosen: nothing is against it, or a word is missing."""


def too_low(under: Undercooked, name: str) -> str:
    """Return why a wished core is not planned, the minimum first."""
    least = _("{cut}: at least {minimum} in the coldest spot") if name else _("At least {minimum} in the coldest spot")
    least = least.format(cut=name[:1].upper() + name[1:], minimum=both(under.minimum_c))
    text = _("Not at {wished}. {least}").format(wished=exactly(under.wished_c), least=least)
    if under.why in OPEN:
        return _("{text}.").format(text=text)
    return _("{text}; {why}.").format(text=text, why=WHY[under.why]())
