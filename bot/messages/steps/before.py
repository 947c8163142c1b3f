"""Words of the steps before the fire: the weeks, days and the day before.

Words only; when each one is due stands in the engine's catalogue.
"""

from __future__ import annotations

from bot.messages.steps.words import StepWords
from bot.messages.words import _


def words() -> dict[str, StepWords]:
    """Return the words of each step, by its id, in the language of this moment."""
    return {
        "headcount": StepWords(
            name=_("guests and eating time"),
            do=_(
                "Who eats, and when? Type it like: 8 adults, 4 kids, 18:00. Ask for allergies and diets, too. Planned: "
                "{buy}."
            ),
            done=_("Guests are known"),
        ),
        "rules_site": StepWords(
            name=_("fire rules and the spot"),
            do=_(
                "May charcoal burn there that day, and is the spot outdoors, level, on bare ground, 10 ft (3 m) from "
                "anything that burns?"
            ),
            done=_("Allowed, spot is fine"),
            outcomes=(("ok", _("Allowed, spot is fine")), ("stop", _("Not allowed"))),
        ),
        "roles": StepWords(
            name=_("who does what"),
            do=_(
                "Who leads the fire, who watches when, who carves? Type the watches like: Wren 22-03, Tomas 03-08. "
                "Quiet hours, too."
            ),
            done=_("Roles are clear"),
        ),
        "order_meat": StepWords(
            name=_("order the meat"),
            do=_(
                "Order or reserve the meat: {buy}. With bone or without, frozen or fresh? Does a label say tenderised "
                "or solution added?"
            ),
            done=_("Meat is ordered"),
        ),
        "shop_fuel": StepWords(
            name=_("buy charcoal and the rest"),
            do=_(
                "Buy charcoal (half as much again as the plan needs), wood, lighters, wrap, gloves and spare "
                "batteries."
            ),
            done=_("Shopping is done"),
        ),
        "collect_meat": StepWords(
            name=_("fetch the meat"),
            do=_(
                "Fetch the meat, {buy}: in a cold bag, home within two hours, lowest shelf of the fridge, in a tray. "
                "What mass stands on the label?"
            ),
            done=_("Meat is home"),
        ),
        "fridge_check": StepWords(
            name=_("read the fridge"),
            do=_("Read the fridge: 40 F (4 C) or colder, with room for the tray. Type it like: fridge 38."),
            done=_("Fridge is cold"),
        ),
        "marinade": StepWords(
            name=_("marinade"),
            do=_("Marinate in the fridge, covered. Used marinade is boiled before it becomes a sauce, or thrown away."),
            done=_("In the marinade"),
        ),
        "raw_out": StepWords(
            name=_("raw meat out of the fridge"),
            do=_("Raw meat may be out of the fridge for two hours in all, one above 90 F (32 C)."),
            done=_("Out of the fridge"),
            outcomes=(
                ("out", _("Out of the fridge")),
                ("back", _("Back in the fridge")),
                ("thawing", _("Thawing on the counter")),
            ),
        ),
        "thaw_start": StepWords(
            name=_("start the thaw"),
            do=_("Move the frozen meat into the fridge now, in a tray: it needs {thaw} there. Never on the counter."),
            done=_("It is in the fridge"),
        ),
        "thaw_check": StepWords(
            name=_("feel for ice"),
            do=_("Feel the thickest part through the bag: soft, still icy, or hard?"),
            done=_("Soft"),
            outcomes=(("soft", _("Soft all through")), ("icy", _("Still icy")), ("hard", _("Still hard"))),
        ),
        "thaw_rescue": StepWords(
            name=_("fresh cold water"),
            do=_(
                "Thaw it in cold water now: sealed bag, fresh cold water every 30 minutes, about {thaw_water} in "
                "all. Then cook at once."
            ),
            done=_("Fresh cold water is in"),
        ),
        "clean_cooker": StepWords(
            name=_("clean the cooker"),
            do=_(
                "Empty cold ash, clear the air holes, look at the gasket, wipe the grate, empty the grease tray. Ash "
                "can stay hot for days: make sure it is cold."
            ),
            done=_("Cooker clean"),
        ),
        "probe_test": StepWords(
            name=_("test the probes"),
            do=_("Test the probes in ice slush: they should read 32 F (0 C), give or take 2 F (1 C)."),
            done=_("Probes tested"),
        ),
        "trim": StepWords(
            name=_("trim and weigh"),
            do=_("Trim, then weigh each piece and measure the thickest spot."),
            done=_("Trimmed"),
        ),
        "dry_brine": StepWords(
            name=_("salt the meat"),
            do=_(
                "Salt the meat: {salt}; half of it if a label says solution added. Then uncovered on a rack in the "
                "fridge."
            ),
            done=_("Salted"),
        ),
        "stage_kit": StepWords(
            name=_("lay out the kit"),
            do=_("Lay out charcoal, wood, gloves, tongs, wrap, spray, box and towels, and an extinguisher or sand."),
            done=_("Kit is out"),
        ),
        "weather": StepWords(
            name=_("look at the weather"),
            do=_("Look at the forecast: wind, rain, cold, lightning. Type the air at the cooker, like: 10 C, windy."),
            done=_("Weather looked at"),
        ),
        "confirm_plan": StepWords(
            name=_("read the plan to the crew"),
            do=_(
                "Read the plan to everybody: lighting, meat on, wrap, pull, dinner, and who watches when. Does each "
                "one agree?"
            ),
            done=_("All agree"),
        ),
    }  # fmt: skip
