"""Words about several like pieces of which each is read: birds, sausages, burgers. They promise nothing of others."""

from __future__ import annotations

from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.safety.each import needed


def of_each(situation: Situation) -> str:
    """Return that each of several like pieces is read; nothing where one reading is enough."""
    many = needed(situation.state, situation.cut)
    if many == 1:
        return ""
    if many < situation.state.planned.count:
        return _("Read {many} of them, the biggest first, and type all the numbers in a row.").format(many=many)
    return _("Read each of the {many} and type all {many} numbers in a row.").format(many=many)
