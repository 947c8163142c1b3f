"""Words for each step: what to do, what it is called in a list, and what its buttons say.

Structure and times of steps live in the engine's catalogue; a test holds both lists together.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from bot.messages.words import _


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepWords:
    """One step in words. `do` may use {feel}, {salt}, {pit}, {core}, {minimum}, {wraps}; `name` is for lists."""

    name: str
    do: str
    done: str
    """What the button says when it is done."""
    outcomes: tuple[tuple[str, str], ...] = ()
    """(outcome, button) in order."""


def _words() -> dict[str, StepWords]:
    return {
        "clean_cooker": StepWords(
            name=_("clean the cooker"),
            do=_("Empty cold ash, clear the air holes, wipe the grate. Ash can stay hot for days: make sure it is "
            "cold."),
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
            do=_("Salt the meat: {salt}. Then uncovered on a rack in the fridge."),
            done=_("Salted"),
        ),
        "stage_kit": StepWords(
            name=_("lay out the kit"),
            do=_("Lay out charcoal, wood, gloves, tongs, wrap, spray, box and towels, and an extinguisher or sand."),
            done=_("Kit is out"),
        ),
        "rules_recheck": StepWords(
            name=_("check fire ban and wind"),
            do=_("Before any flame: is there a fire ban, or wind that carries sparks? Local rules decide."),
            done=_("No ban, calm enough"),
            outcomes=(("ok", _("No ban, calm enough")), ("stop", _("Ban or too windy"))),
        ),
        "light": StepWords(
            name=_("light the fire"), do=_("Light the fire, in one or two small spots."), done=_("Lit"),
        ),
        "heat_parts_in": StepWords(
            name=_("deflector, pan, grates in"),
            do=_("Deflector, drip pan and grates in, with gloves."),
            done=_("Parts are in"),
        ),
        "smoke_clean": StepWords(
            name=_("look at the smoke"),
            do=_("Look at the smoke: it should be thin and nearly clear before meat goes on."),
            done=_("Smoke is thin"),
            outcomes=(("thin", _("Smoke: thin")), ("grey", _("Smoke: grey")), ("white", _("Smoke: white"))),
        ),
        "pit_stable": StepWords(
            name=_("read the pit"),
            do=_("Read the pit at grate level: near {pit}, or rising with the vents set? Begin closing them 20 to 25 F"
                 " (11 to 14 C) below."),
            done=_("Pit is there"),
        ),
        "probe_in": StepWords(
            name=_("probe in"),
            do=_("Probe into the middle of the thickest part, off bone and fat."),
            done=_("Probe is in"),
        ),
        "meat_on": StepWords(name=_("meat on"), do=_("When the smoke is thin and the pit is there, or rising with "
        "the vents set: meat on, lid shut."), done=_("Meat is on")),
        "raw_cleanup": StepWords(
            name=_("wash down the raw side"),
            do=_("Wash, then sanitise boards, knives, sink and handles. Then your hands."),
            done=_("Raw side washed"),
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
        "core_read": StepWords(
            name=_("read the meat"), do=_("Read the meat in its thickest part."), done=_("Meat read"),
        ),
        "come_up_check": StepWords(
            name=_("four-hour check"),
            do=_("Four-hour check: read meat and pit. The meat should be above {come_up}, the pit above {pit_floor}."),
            done=_("Both read"),
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
        "wrap_do": StepWords(
            name=_("wrap"),
            do=_("Wrap it: lay the wrap out first, lid open once, tight, probe back in. Mind the steam."),
            done=_("Wrapped"),
            outcomes=(
                ("paper", _("Wrapped in paper")), ("foil", _("Wrapped in foil")), ("boat", _("In a foil boat")),
                ("bare", _("Bare to the end")),
            ),
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
        "pull": StepWords(
            name=_("pull the meat"),
            do=_("Pull it now, onto a clean tray, not the raw one. Hot fat runs: two people for a heavy piece."),
            done=_("It is off"),
        ),
        "vent_meat": StepWords(
            name=_("let it vent"),
            do=_("Let it stand open until the steam dies, about {vent} minutes, so that it stops cooking."),
            done=_("Venting"),
        ),
        "shutdown": StepWords(
            name=_("close the vents"),
            do=_("Close all vents, lid shut. The cooker stays outdoors; keep children and pets off."),
            done=_("Vents closed"),
            outcomes=(("closed", _("Vents closed")), ("keep", _("Keeping it lit"))),
        ),
        "box_meat": StepWords(
            name=_("box the meat"),
            do=_("Wrap it, towels round it, into the box, probe wire out."),
            done=_("Boxed"),
        ),
        "hold_check": StepWords(
            name=_("read the held meat"),
            do=_("Open the box once and read the meat. At {act} or below, act: serve, warm oven, or slice and chill."),
            done=_("Held meat read"),
        ),
        "t_minus": StepWords(
            name=_("go or move dinner"),
            do=_("Go, or move it once?"),
            done=_("Go"),
            outcomes=(("go", _("Dinner: go")), ("slip_30", _("Dinner 30 min later")), ("slip_60", _("Dinner 1 h "
            "later"))),
        ),
        "sides": StepWords(name=_("start the sides"), do=_("Start sides, sauce and buns."), done=_("Sides on")),
        "board_ready": StepWords(
            name=_("board and knife"),
            do=_("Clean board, sharp knife, gloves, warm platter."),
            done=_("Board ready"),
        ),
        "serve_reading": StepWords(
            name=_("read before slicing"),
            do=_("Read the meat as you open it, the coldest of two or three spots."),
            done=_("Read"),
        ),
        "slice": StepWords(
            name=_("slice"),
            do=_("Slice across the grain, only what will be eaten."),
            done=_("Slicing"),
        ),
        "serve": StepWords(name=_("food out"), do=_("Food out. Enjoy it."), done=_("Food is out")),
        "two_hour": StepWords(
            name=_("put the food away"),
            do=_("The food has been out a while. Two hours is the limit, one if it is above 90 F (32 C)."),
            done=_("Put away"),
            outcomes=(("away", _("Put away")), ("on_heat", _("Back on heat")), ("thrown", _("Thrown out"))),
        ),
        "leftovers": StepWords(
            name=_("leftovers"),
            do=_("Leftovers: slice or pull, shallow boxes, lids ajar, into the fridge, with the date on."),
            done=_("Leftovers in the fridge"),
        ),
        "fire_out": StepWords(
            name=_("is the fire going out"),
            do=_("Is the cooker cooling, lid and vents shut?"),
            done=_("Cooling"),
            outcomes=(("cooling", _("Cooling")), ("still_hot", _("Still hot"))),
        ),
        "quick_notes": StepWords(
            name=_("notes for next time"),
            do=_("While it is fresh: how was it, what was late, what would you change? Type it, I keep it."),
            done=_("No notes"),
        ),
        "ash": StepWords(
            name=_("ash out"),
            do=_("Ash, if it is truly cold: metal tin with a lid, wetted, outdoors, away from buildings."),
            done=_("Ash is out, cold"),
            outcomes=(("cold_out", _("Ash is out, cold")), ("still_warm", _("Still warm"))),
        ),
        "leftover_expire": StepWords(
            name=_("last day for leftovers"),
            do=_("Three days in the fridge: eat the leftovers today, freeze or bin them."),
            done=_("Leftovers dealt with"),
            outcomes=(("eaten", _("Eaten")), ("frozen", _("Frozen")), ("binned", _("Binned"))),
        ),
    }  # fmt: skip


_CACHE: dict[str, StepWords] = {}


def step_words(step_id: str) -> StepWords:
    """Return the words of a step."""
    if not _CACHE:
        _CACHE.update(_words())
    return _CACHE[step_id]


def all_step_ids() -> tuple[str, ...]:
    """Return the ids of every step that has words."""
    return tuple(_words())


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
    "two_hour": lambda: _("Two hours out, one when hotter than 90 F (32 C). Then fridge or bin."),
    "chill": lambda: _("Shallow and open cools fast: never a whole hot joint into the fridge."),
    "ash": lambda: _("Ash can burn for days: 48 hours, metal tin with lid, wet, outdoors."),
    "knife": lambda: _("Sharp knife, hot fat: cut away from the hand, cut-resistant glove."),
}
"""Words of each caution, at most twenty; they ride inside the prompt they belong to, once per cook."""
