"""Says when the pieces are more than a cooker usually holds. A note only; nothing is planned differently for it."""

from __future__ import annotations

from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.capacity import crowded
from scheduler.state import Stage


def capacity_note(situation: Situation) -> str:
    """Return that the meat is more than the cooker usually holds; nothing when it fits or lies on the fire already."""
    found = crowded(situation.views, situation.catalogue.cookers) if situation.stage is Stage.BEFORE else None
    if found is None:
        return ""
    return _("More than one {cooker} usually holds ({fits}): use two levels or two cookers.").format(
        cooker=_(found.cooker.name), fits=_(found.cooker.fits)
    )
