"""Words of the steps after dinner: the food, the fire, and the next time.

Words only; when each one is due stands in the engine's catalogue.
"""

from __future__ import annotations

from bot.messages.steps.cautions import CAUTIONS
from bot.messages.steps.words import StepWords
from bot.messages.words import _


def words() -> dict[str, StepWords]:
    """Return the words of each step, by its id, in the language of this moment."""
    return {
        "two_hour": StepWords(
            name=_("put the food away"),
            do=_("The food has been out a while. {limit}").replace("{limit}", CAUTIONS["two_hour"]()),
            done=_("Put away"),
            outcomes=(("away", _("Put away")), ("on_heat", _("Back on heat")), ("thrown", _("Thrown out"))),
        ),
        "leftovers": StepWords(
            name=_("leftovers"),
            do=_(
                "Leftovers: slice or pull, shallow boxes, lids ajar, into the fridge, with the date on. Reheat to "
                "165 F (74 C)."
            ),
            done=_("Leftovers in the fridge"),
        ),
        "cool_check": StepWords(
            name=_("read the cooling food"),
            do=_(
                "Read the middle of the thickest box: 70 F (21 C) within two hours of being hot, 41 F (5 C) within six "
                "in all. Type it like: leftovers 68."
            ),
            done=_("Cooling read"),
        ),
        "fire_out": StepWords(
            name=_("is the fire going out"),
            do=_("Is the cooker cooling, lid and vents shut?"),
            done=_("Cooling"),
            outcomes=(("cooling", _("Cooling")), ("still_hot", _("Still hot"))),
        ),
        "wash_up": StepWords(
            name=_("wash up"),
            do=_(
                "Wash grates, pans, boards, knives, probes and box, then sanitise. Hot fat into a tin, not down the "
                "drain."
            ),
            done=_("Washed up"),
        ),
        "quick_notes": StepWords(
            name=_("notes for next time"),
            do=_("While it is fresh: how was it, what was late, what would you change? Type it, I keep it."),
            done=_("No notes"),
        ),
        "grease_clean": StepWords(
            name=_("empty the drip tray"),
            do=_("Empty drip tray and water pan, when they are cold."),
            done=_("Tray is empty"),
        ),
        "reheat": StepWords(
            name=_("reheat leftovers"),
            do=_(
                "Reheating leftovers: covered, with a little juice, in oven or pan, to 165 F (74 C) in the middle "
                "within two hours. Type it like: leftovers 165."
            ),
            done=_("Reheated"),
        ),
        "reheat_on": StepWords(
            name=_("leftovers on the heat"),
            do=_("Put the leftovers on the heat, covered: 165 F (74 C) in the middle within two hours."),
            done=_("Leftovers are on the heat"),
        ),
        "reheat_away": StepWords(
            name=_("reheated food"),
            do=_(
                "What became of the reheated food? Two hours is the limit again, one if it is above 90 F (32 C). "
                "Better not reheat it twice."
            ),
            done=_("Eaten"),
            outcomes=(("eaten", _("Eaten")), ("away", _("Back in the fridge")), ("thrown", _("Thrown out"))),
        ),
        "ash": StepWords(
            name=_("ash out"),
            do=_("Ash, if it is truly cold: metal tin with a lid, wetted, outdoors, away from buildings."),
            done=_("Ash is out, cold"),
            outcomes=(("cold_out", _("Ash is out, cold")), ("still_warm", _("Still warm"))),
        ),
        "restock": StepWords(
            name=_("buy charcoal for next time"),
            do=_("How much charcoal did it take? Buy it back, with foil and paper."),
            done=_("Bought back"),
        ),
        "leftover_expire": StepWords(
            name=_("last day for leftovers"),
            do=_("Leftovers keep three to four days in the fridge: eat, freeze or bin them by {eat_by}."),
            done=_("Leftovers dealt with"),
            outcomes=(("eaten", _("Eaten")), ("frozen", _("Frozen")), ("binned", _("Binned"))),
        ),
    }  # fmt: skip
