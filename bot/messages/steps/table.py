"""Words of the steps from the pull to the plate.

Words only; when each one is due stands in the engine's catalogue.
"""

from __future__ import annotations

from bot.messages.steps.words import StepWords
from bot.messages.words import _


def words() -> dict[str, StepWords]:
    """Return the words of each step, by its id, in the language of this moment."""
    return {
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
    }  # fmt: skip
