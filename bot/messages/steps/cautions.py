"""Cautions: short warnings that ride inside the prompt they belong to.

Words only; which step carries one, and where each comes from, stands in the engine's catalogue.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.figures import held_for
from bot.messages.language import number
from bot.messages.words import _
from scheduler.safety import Minimum

CAUTIONS: dict[str, Callable[[], str]] = {
    "co": lambda: _(
        "Outdoors only: charcoal makes carbon monoxide until it is stone cold. No garage, tent, porch or van."
    ),
    "site": lambda: _("3 m (10 ft) from walls, rails and branches; children and pets a good step back."),
    "hot": lambda: _("Hot metal, steam and fat: gloves, long sleeves, two people for anything heavy."),
    "raw": lambda: _("Raw and cooked apart: own board, knife, tray and gloves. Do not rinse meat."),
    "unattended": lambda: _("Somebody stays awake and near while it burns. A lit cooker is never left alone."),
    "burp": lambda: _("Crack the lid a finger wide, wait five seconds, stand aside: a starved fire can jump."),
    "fluid": lambda: _("Never starter fluid on a lit fire or hot coals."),
    "hold": lambda: _("140 F (60 C) is the floor for held meat; act at 145 F (63 C)."),
    "minimum": lambda: _("The lowest spot counts: 145 F (62.8 C) and three minutes, before anyone eats."),
    "two_hour": lambda: _("Two hours is the limit, one if it is above 90 F (32 C). Then fridge or bin."),
    "chill": lambda: _("Shallow and open cools fast: never a whole hot joint into the fridge."),
    "ash": lambda: _("Ash can burn for days: 48 hours, metal tin with lid, wet, outdoors."),
    "knife": lambda: _("Sharp knife, hot fat: cut away from the hand, cut-resistant glove."),
    "ban": lambda: _("Fire ban, or wind that carries sparks? Ask your county: charcoal can be forbidden even at home."),
    "permit": lambda: _(
        "Public or paid meal: ask the health office about a permit, a trained person and where to prepare."
    ),
    "allergy": lambda: _("Ask for allergies; keep mustard, soy, celery, nuts, fish and their tools apart."),
    "at_risk": lambda: _(
        "Pregnant, old, very young or ill guests: nothing below the minimum, and held meat strictly hot."
    ),
    "intact": lambda: _(
        "Tenderised, injected, rolled or ground: never pink in the middle; sausage 160 F (71 C), poultry 165 F (74 C)."
    ),
    "thaw": lambda: _("Fridge or cold water only, never the counter. Never from frozen onto a low fire."),
    "storm": lambda: _("Lightning: leave the cooker. Indoors until 30 minutes after the last thunder."),
    "bristle": lambda: _("Wire bristles end up in food: wipe the grate, or use another tool."),
    "drink_sleep": lambda: _("Tired or drinking: hand over before you work at the fire."),
    "grease": lambda: _("Fat on fire: lid and vents shut. Never water."),
    "burn_aid": lambda: _("Cool the burn now under cool running water, 10 to 20 min. No ice, no butter, no cream."),
    "marinade": lambda: _("A marinade that held raw meat counts as raw: boil it, or pour it away."),
    "danger": lambda: _("Between 40 F (4 C) and 140 F (60 C) the clock runs. Never pause half-cooked meat."),
}
"""Words of each caution, at most twenty; they ride inside the prompt they belong to, once per cook."""

_MINIMUM: dict[str, Callable[[], str]] = {
    "poultry": lambda: _(
        "The lowest spot counts: 165 F (73.9 C) in breast, inner thigh and inner wing, before anyone eats."
    ),
    "ground": lambda: _("The lowest spot counts: 160 F (71.1 C) in the middle of the thickest, before anyone eats."),
    "fish": lambda: _("The lowest spot counts: 145 F (62.8 C) in the thickest part, before anyone eats."),
}
"""The minimum of classes of meat that have another one than whole cuts of beef, pork and lamb."""


def caution_text(name: str, safety_class: str, least: Minimum | None = None) -> str:
    """Return a caution in words; the safe minimum is that of the class of the meat, or the piece's own (`least`)."""
    if name == "minimum" and least is not None and least.because != safety_class:
        return _least_text(least)
    own = _MINIMUM.get(safety_class) if name == "minimum" else None
    return CAUTIONS[name]() if own is None else own()


def _least_text(least: Minimum) -> str:
    """Return the minimum of a piece to which something was done."""
    limit = _("{f} F ({c} C)").format(f=number(least.temp_f), c=number(least.temp_c))
    if least.rest_min <= 0:
        return _("The lowest spot counts: {limit} in the middle, before anyone eats.").format(limit=limit)
    return _("The lowest spot counts: {limit} and {rest} in the middle, before anyone eats.").format(
        limit=limit, rest=held_for(least.rest_min)
    )
