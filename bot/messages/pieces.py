"""Says how many of what: "whole brisket", "3 racks of spareribs", "20 chicken thighs".

It must not say anything about a cook.
"""

from __future__ import annotations

from bot.messages.words import _
from scheduler.cuts import Cut


def counted(cut: Cut, count: int) -> str:
    """Return so many pieces of a cut in words; one is called by its name."""
    if count == 1:
        return _(cut.name)
    if cut.several:
        return _("{count} {several}").format(count=count, several=_(cut.several))
    several = cut.piece_word + "s"
    return _("{count} {pieces} of {cut}").format(count=count, pieces=_(several), cut=_(cut.name))
