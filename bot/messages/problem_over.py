"""The end of a problem in words: what is so now, never the problem's name alone, which would read as its opposite.

Words only; whether a problem is over is told by people.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.words import _

OVER: dict[str, Callable[[], str]] = {
    "burn": lambda: _("The burn is looked after"),
    "co_symptom": lambda: _("Everybody is out and well"),
    "cooker_indoors": lambda: _("Everybody is out of there"),
    "allergic_reaction": lambda: _("Help was there for the allergic reaction"),
    "choking": lambda: _("They breathe again"),
    "guest_ill": lambda: _("The guest who was ill is looked after"),
    "grease_fire": lambda: _("The fat does not burn any more"),
    "fire_spreads": lambda: _("Nothing else burns any more"),
    "fluid_on_fire": lambda: _("The starter fluid has burned off"),
    "sparks": lambda: _("No more sparks"),
    "hot_ash": lambda: _("The ash is outdoors and wet"),
    "cooker_fell": lambda: _("The coals on the ground are out"),
    "lightning": lambda: _("The storm is over"),
    "burn_severe": lambda: _("Whoever was burned is looked after"),
    "collapsed": lambda: _("Whoever collapsed is looked after"),
    "cut": lambda: _("The cut is looked after"),
    "gas_smell": lambda: _("No smell of gas any more"),
    "building_fire": lambda: _("No building burns any more"),
    "cooker_moving": lambda: _("The cooker stays outdoors"),
    "danger_unclear": lambda: _("Nobody is in danger any more"),
    "left_out": lambda: _("The food that was left out is settled"),
    "children_near": lambda: _("The children are away from the cooker"),
    "fire_out": lambda: _("The fire burns again"),
    "fuel_out": lambda: _("There is fuel again"),
    "wont_light": lambda: _("It burns now"),
    "yo_yo": lambda: _("The pit is steady again"),
    "pit_hot": lambda: _("The pit is not too hot any more"),
    "pit_cold": lambda: _("The pit is not too cold any more"),
    "lid_open": lambda: _("The lid is shut again"),
    "dirty_smoke": lambda: _("The smoke is thin again"),
    "flare_up": lambda: _("Nothing flares any more"),
    "wind": lambda: _("The wind is over"),
    "rain": lambda: _("The rain is over"),
    "cold": lambda: _("The hard cold is over"),
    "heat": lambda: _("The great heat is over"),
    "stall_long": lambda: _("The stall is over"),
    "probe_bone": lambda: _("The probe sits clear of bone"),
    "probe_air_fat": lambda: _("The probe sits in lean meat"),
    "probe_dead": lambda: _("There is a probe again"),
    "reader_wrong": lambda: _("The thermometer is right: its numbers count again"),
    "reader_other": str,
    "pit_gauge_wrong": lambda: _("The dial is right again"),
    "probe_wire_fire": lambda: _("The wire is clear of the fire"),
    "phone_dead": lambda: _("Phone and power are back"),
    "bot_silent": lambda: _("I am heard again"),
    "dry_flat": lambda: _("The meat is moist enough"),
    "bark_soft": lambda: _("The bark is firm again"),
    "bark_dark": lambda: _("The bark is fine"),
    "pink_inside": lambda: _("The pink inside is settled"),
    "skin_rubbery": lambda: _("The skin is crisp"),
    "too_tough_at_dinner": lambda: _("It is tender now"),
    "over_tender": lambda: _("It holds together"),
    "guests_late": lambda: _("The guests are there"),
    "guests_early": lambda: _("The early guests are looked after"),
    "hold_low": lambda: _("The held meat is hot again"),
    "frozen_middle": lambda: _("It is thawed through"),
    "over_salted": lambda: _("The salt is settled"),
    "no_salt": lambda: _("It is salted now"),
    "helper_missing": lambda: _("The next watch is there"),
    "two_bosses": lambda: _("It is decided"),
    "dropped": str,
    "dropped_raw": lambda: _("The raw meat is clean again"),
    "dropped_done": lambda: _("It did not fall down"),
    "cross_contamination": lambda: _("Nothing raw touched it"),
    "eaten": lambda: _("What is left is settled"),
    "fire_ban_now": lambda: _("The fire ban is lifted"),
}
"""What is so once each problem is over; nothing of those that another word answers."""


def over_words(problem: str) -> str:
    """Return what is so now that a problem is over."""
    return OVER[problem]() if problem in OVER else _("Over: {what}").format(what=problem)
