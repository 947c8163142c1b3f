"""Words of the steps while the meat is on the fire.

Words only; when each one is due stands in the engine's catalogue.
"""

from __future__ import annotations

from bot.messages.steps.words import StepWords
from bot.messages.words import _


def words() -> dict[str, StepWords]:
    """Return the words of each step, by its id, in the language of this moment."""
    return {
        "raw_cleanup": StepWords(
            name=_("wash down the raw side"),
            do=_("Wash, then sanitise boards, knives, sink and handles. Then your hands."),
            done=_("Raw side washed"),
        ),
        "pit_recover": StepWords(
            name=_("pit back after loading"),
            do=_("Read the pit: half an hour after the meat went on it should be back near {pit}."),
            done=_("Pit read"),
        ),
        "pit_check": StepWords(
            name=_("read the pit"), do=_("Read the pit (should hold {pit})."), done=_("Pit read"),
        ),
        "fuel_check": StepWords(
            name=_("look at the fuel"),
            do=_("How much fuel is left?"),
            done=_("Fuel looked at"),
            outcomes=(("plenty", _("Fuel: plenty")), ("half", _("Fuel: half")), ("low", _("Fuel: low"))),
        ),
        "refuel": StepWords(
            name=_("add charcoal"),
            do=_("Add charcoal now, lit if you can. A pit without fuel falls within half an hour."),
            done=_("Charcoal added"),
        ),
        "first_look": StepWords(
            name=_("first look"), do=_("First look under the lid: dry spots, colour, the hot side."), done=_("Looked"),
        ),
        "spritz": StepWords(
            name=_("spritz"), do=_("Spritz lightly where it looks dry."), done=_("Spritzed"),
        ),
        "wood_add": StepWords(name=_("add wood"), do=_("Add a chunk of wood."), done=_("Wood added")),
        "water_pan": StepWords(
            name=_("top up the water pan"),
            do=_("Top up the water pan with hot water. Never pour water onto burning fat."),
            done=_("Water is topped up"),
        ),
        "core_read": StepWords(
            name=_("read the meat"), do=_("Read the meat in its thickest part."), done=_("Meat read"),
        ),
        "come_up_check": StepWords(
            name=_("four-hour check"),
            do=_("Four-hour check: read meat and pit. The meat should be above {come_up}, the pit above {pit_floor}."),
            done=_("Both read"),
        ),
        "rotate": StepWords(
            name=_("swap the places"),
            do=_("Swap the pieces round, hot side and cool side, with gloves."),
            done=_("Swapped"),
        ),
        "stall_notice": StepWords(
            name=_("the stall has begun"),
            do=_("The stall has begun: look at pit, fuel and probe first, and leave the vents alone."),
            done=_("Seen"),
        ),
        "bark_check": StepWords(
            name=_("look at the bark"),
            do=_("Look at the bark: scratch it with a nail. If it does not smear it is set, and you may wrap."),
            done=_("Bark looked at"),
            outcomes=(
                ("paper", _("Wrapped in paper")), ("foil", _("Wrapped in foil")), ("boat", _("In a foil boat")),
                ("bare", _("Bare to the end")), ("not_yet", _("Bark: not yet")),
            ),
        ),
        "wrap_decide": StepWords(
            name=_("bare or wrapped"),
            do=_("Decide: bare to the end, paper, foil or a boat."),
            done=_("Decided"),
        ),
        "wrap_do": StepWords(
            name=_("wrap"),
            do=_("Wrap it: lay the wrap out first, lid open once, tight, probe back in. Mind the steam."),
            done=_("Wrapped"),
            outcomes=(
                ("paper", _("Wrapped in paper")), ("foil", _("Wrapped in foil")), ("boat", _("In a foil boat")),
                ("bare", _("Bare to the end")),
            ),
        ),
        "handover": StepWords(
            name=_("hand over the watch"),
            do=_(
                "Hand over the watch: {watch}. Say pit, meat, fuel, what was done last and what is due, and whom to "
                "wake."
            ),
            done=_("I have the watch"),
        ),
        "eta_note": StepWords(
            name=_("tell the host"),
            do=_("Tell the host when the meat comes off and when it can be on the table."),
            done=_("Host knows"),
        ),
        "box_ready": StepWords(
            name=_("warm the box"),
            do=_("Warm the box: hot water for 15 to 30 minutes, then dry, towels in. Careful with the hot water."),
            done=_("Box is warm"),
        ),
        "tender_test": StepWords(
            name=_("feel for tenderness"),
            do=_("Feel for tenderness in three spots and read the coldest. Done means: {feel}."),
            done=_("Felt"),
            outcomes=(
                ("tight", _("Still tight")), ("almost", _("Almost")), ("tender", _("Slides in")),
            ),
        ),
        "second_spot": StepWords(
            name=_("read the coldest spot"),
            do=_("Read two or three spots with a clean hand reader and type the lowest: it needs {done_at}."),
            done=_("Spots read"),
        ),
    }  # fmt: skip
