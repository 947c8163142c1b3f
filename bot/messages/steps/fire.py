"""Words of the steps from waking up to the meat on the grate.

Words only; when each one is due stands in the engine's catalogue.
"""

from __future__ import annotations

from bot.messages.steps.words import StepWords
from bot.messages.words import _


def words() -> dict[str, StepWords]:
    """Return the words of each step, by its id, in the language of this moment."""
    return {
        "wake": StepWords(
            name=_("wake up"),
            do=_("Time to get up for the fire. Are you up?"),
            done=_("I am up"),
        ),
        "rules_recheck": StepWords(
            name=_("check fire ban and wind"),
            do=_("Before any flame: is there a fire ban, or wind that carries sparks? Local rules decide."),
            done=_("No ban, calm enough"),
            outcomes=(("ok", _("No ban, calm enough")), ("stop", _("Ban or too windy"))),
        ),
        "fuel_load": StepWords(
            name=_("fill in the charcoal"),
            do=_(
                "Fill in the charcoal, with the wood layered in so that some burns early and some late. Untreated "
                "hardwood only."
            ),
            done=_("Charcoal is in"),
        ),
        "light": StepWords(
            name=_("light the fire"),
            do=_("Light the fire, in one or two small spots. Starter fluid only before the flame, never after."),
            done=_("Lit"),
        ),
        "heat_parts_in": StepWords(
            name=_("deflector, pan, grates in"),
            do=_("Deflector, drip pan and grates in, with gloves."),
            done=_("Parts are in"),
        ),
        "pit_rising": StepWords(
            name=_("read the rising pit"),
            do=_("Read the pit on its way up: two or three numbers tell me when it will get there."),
            done=_("Pit read"),
        ),
        "vents_early": StepWords(
            name=_("begin to close the vents"),
            do=_(
                "Begin to close the vents now, in small moves: the pit should pass {trip_low} to {trip_high} and "
                "still rise."
            ),
            done=_("Vents are set"),
        ),
        "smoke_clean": StepWords(
            name=_("look at the smoke"),
            do=_("Look at the smoke: it should be thin and nearly clear before meat goes on."),
            done=_("Smoke is thin"),
            outcomes=(("thin", _("Smoke: thin")), ("grey", _("Smoke: grey")), ("white", _("Smoke: white"))),
        ),
        "pit_stable": StepWords(
            name=_("read the pit"),
            do=_("Read the pit at grate level: near {pit}, or rising with the vents set?"),
            done=_("Pit is there"),
        ),
        "rub_binder": StepWords(
            name=_("rub the meat"),
            do=_("Binder and rub on, with gloves, the shaker kept clean of raw hands. Mustard is an allergen."),
            done=_("Rub is on"),
        ),
        "probe_in": StepWords(
            name=_("probe in"),
            do=_("Probe into the middle of the thickest part, off bone and fat."),
            done=_("Probe is in"),
        ),
        "pit_change": StepWords(
            name=_("pit for the next piece"), do=_("Fire up or down: {new_pit}."), done=_("Pit is on its way"),
        ),
        "meat_on": StepWords(name=_("meat on"), do=_("When the smoke is thin and the pit is there, or rising with "
        "the vents set: meat on, lid shut."), done=_("Meat is on")),
    }  # fmt: skip
