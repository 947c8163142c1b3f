"""Allergies said again by name: once where food is prepared, once before it is served, as was promised.

Words only; who is allergic to what stands as people told it.
"""

from __future__ import annotations

from bot.commands import DANGERS
from bot.messages.care import allergy_names
from bot.messages.problems import CARDS
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.prompts import step_of
from scheduler.planning.trips import Trip

_PLACES = (("headcount", "sides"), ("serve_reading", "slice", "serve"))
"""Steps that name the allergies: of each place the first that is asked."""


def allergies_line(trip: Trip, situation: Situation) -> str:
    """Return the allergies that were told, by name, where a trip is the first of its place; nothing otherwise."""
    told = situation.state.care.allergies
    if not told or trip.again:
        return ""
    asked = {step_of(key) for view in situation.views for key in view.state.asked if key not in trip.keys}
    steps = {prompt.step.id for prompt in trip.prompts}
    if not any(steps & set(place) and not asked & set(place) for place in _PLACES):
        return ""
    return _("Allergies: {what}. Own board, knife and plate; nothing of it in rub, sauce or sides.").format(
        what=", ".join(allergy_names(told))
    )


def standing_care(situation: Situation) -> list[str]:
    """Return who is in danger still, what nobody may be served, and that guests are at risk: for whoever takes over."""
    found = []
    hurt = [CARDS[one].name() for one in situation.deciding.state.troubles if one in DANGERS]
    if hurt:
        found.append(_("Danger told and not over: {what}.").format(what=", ".join(hurt)))
    if situation.state.care.allergies:
        found.append(_("Allergies: {what}.").format(what=", ".join(allergy_names(situation.state.care.allergies))))
    if situation.state.care.at_risk:
        found.append(_("Guests at risk eat here."))
    return found
