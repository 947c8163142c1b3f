"""Words of steps that differ by the kind of meat: how it comes off, how it is cut, what is laid out for it.

Words only; what stands here replaces the common words of a step, and no caution is dropped.
"""

from __future__ import annotations

from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.cuts import Cut
from scheduler.planning.telling import boxed


def do_of(step_id: str, common: str, situation: Situation) -> str:
    """Return what to do in a step for the meat that the cook is seen from, the common words where it is no other."""
    if step_id == "stage_kit":
        return _kit(situation)
    found = {"pull": _pull, "slice": _slice, "trim": _trim}.get(step_id)
    return common if found is None else found(situation.cut) or common


def _pull(cut: Cut) -> str:
    if cut.species == "fish":
        return _("Pull it now, on its board or with two wide spatulas: it breaks. Clean tray, not the raw one.")
    if cut.species == "poultry":
        return _(
            "Pull it now, onto a clean tray, not the raw one. Hot juice and fat run out of it: two people for a heavy"
            " bird."
        )
    if cut.safety_class == "ground":
        return _("Pull it now, with tongs, onto a clean tray, not the raw one. Do not prick them: hot fat spurts.")
    return ""


def _slice(cut: Cut) -> str:
    if cut.species == "poultry":
        return _("Take it apart at the joints, slice the breast, only what will be eaten.")
    if cut.serve_by == "pull":
        return _("Pull it apart and take out bone and fat, only what will be eaten.")
    return ""


def _trim(cut: Cut) -> str:
    if cut.species == "fish":
        return _("Feel for pin bones and pull them, pat it dry, then weigh it and measure the thickest spot.")
    if cut.species == "poultry":
        return _("Take out neck and giblets, pat it dry, do not rinse it; then weigh each one.")
    return ""


def _kit(situation: Situation) -> str:
    """Return what is laid out: wrap, spray, box and towels only where a piece wants them."""
    views = situation.views
    wanted = (
        (any(view.cut.asks_bark for view in views), _("wrap")),
        (any(view.cut.spritz_every_min is not None for view in views), _("spray")),
        (any(boxed(view.state, view.cut) for view in views), _("box and towels")),
        (not all(boxed(view.state, view.cut) for view in views), _("foil for a tent")),
    )
    things = ", ".join(name for is_wanted, name in wanted if is_wanted)
    return _("Lay out charcoal, wood, gloves, tongs, {things}, and an extinguisher or sand.").format(things=things)
