"""What each lever is called, what it costs and how it is done: the words of the catalogue's levers.

Words only; effects and times are put around them in `bot.messages.advice`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from bot.messages.words import _

Words = Callable[[], str]


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverWords:
    """Name on the button, what it costs, and what to do once it was chosen; empty where there is nothing to say."""

    name: Words
    cost: Words
    do: Words


def _nothing() -> str:
    return ""


def _lever(name: Words, cost: Words = _nothing, do: Words = _nothing) -> LeverWords:
    return LeverWords(name=name, cost=cost, do=do)


NOTHING = "nothing"
"""The choice to change nothing, which stands among the others when it is right."""

LEVERS: dict[str, LeverWords] = {
    NOTHING: _lever(lambda: _("Do nothing"), do=lambda: _("Good: nothing is changed. I keep looking.")),
    "late_verify": _lever(
        lambda: _("Check it is real"),
        lambda: _("one open lid"),
        lambda: _(
            "Read the meat in two spots, the pit at the grate beside it, and look at the fuel. What do they read?"
        ),
    ),
    "late_fix_pit": _lever(
        lambda: _("Bring the pit back"),
        lambda: _("do not overshoot"),
        lambda: _("Clear the ash, open the bottom a little, look at the fuel. Read the pit again in 15 min."),
    ),
    "late_stop_opening": _lever(
        lambda: _("Keep the lid shut"),
        lambda: _("paler edges"),
        lambda: _("No spritz, no photos, no looking until the wrap or the first feel."),
    ),
    "late_move_dinner": _lever(lambda: _("Dinner 30 min later"), lambda: _("tell everybody once")),
    "late_move_dinner_60": _lever(lambda: _("Dinner an hour later"), lambda: _("tell everybody once")),
    "late_pit_up_14": _lever(
        lambda: _("Pit up a step"),
        lambda: _("darker bark, more fuel"),
        lambda: _(
            "Open the bottom a little; it takes 15 to 30 min to arrive. Sugar in the rub burns if it gets hotter."
        ),
    ),
    "late_pit_up_28": _lever(
        lambda: _("Pit up two steps"),
        lambda: _("dark bark, dry edges"),
        lambda: _("Open the bottom, one move at a time; no second rise within half an hour."),
    ),
    "late_short_rest": _lever(
        lambda: _("Shortest rest"),
        lambda: _("a wetter board, firmer slices"),
        lambda: _("Vent and rest only as long as it must; the 3 min that belong to the minimum stay."),
    ),
    "late_wrap_paper": _lever(
        lambda: _("Wrap in paper"),
        lambda: _("bark a little softer"),
        lambda: _("Paper on once the bark holds a scratch. Tell me when it is wrapped."),
    ),
    "late_wrap_foil": _lever(
        lambda: _("Wrap in foil"),
        lambda: _("bark goes soft, probe often at the end"),
        lambda: _(
            "Foil tight once the colour is right; careful, steam burns when you open it. Tell me when it is wrapped."
        ),
    ),
    "late_boat": _lever(
        lambda: _("Foil boat"),
        lambda: _("the top can still dry"),
        lambda: _("Foil up the sides, top open. Hot fat pools in it: lift it level. Tell me when it is done."),
    ),
    "late_accept_low": _lever(
        lambda: _("Pull at the first good feel"),
        lambda: _("firmer slices"),
        lambda: _("Feel in three spots; when all are nearly there, take it off: the rest finishes it."),
    ),
    "late_hot_side": _lever(
        lambda: _("Thick end to the heat"),
        lambda: _("can scorch"),
        lambda: _("Turn the thick end toward the heat, once, and shut the lid."),
    ),
    "late_starter": _lever(
        lambda: _("Serve something first"),
        lambda: _("buys patience only"),
        lambda: _("Say so early. Whatever is cooked to bridge it has a safe minimum of its own."),
    ),
    "late_drop_water": _lever(
        lambda: _("Let the water pan run dry"),
        lambda: _("drier surface"),
        lambda: _("Line the dry pan with foil so that fat cannot light. Never water on burning fat."),
    ),
    "late_oven": _lever(
        lambda: _("Finish in the oven"),
        lambda: _("no more smoke"),
        lambda: _(
            "Wrapped in foil, on a clean tray with a rim, into the oven at {oven}. Hot fat: carry it level, path clear."
        ),
    ),
    "late_split_point_flat": _lever(
        lambda: _("Part point and flat"),
        lambda: _("loses juice, no way back"),
        lambda: _(
            "Clean knife and board, along the fat seam; the done half rests, the other goes back. One probe each."
        ),
    ),
    "late_cut_butt": _lever(
        lambda: _("Cut it in two"),
        lambda: _("drier, plainer, no way back"),
        lambda: _("Clean knife, two even pieces, each in foil, back on. The new faces must reach the target as well."),
    ),
    "late_cut_butt_3": _lever(
        lambda: _("Cut it in three"),
        lambda: _("drier, plainer, no way back"),
        lambda: _(
            "Clean knife, three even pieces, each in foil, back on. The new faces must reach the target as well."
        ),
    ),
    "late_slice_thin": _lever(
        lambda: _("Slice thin or chop"),
        lambda: _("not the show plate"),
        lambda: _("Thin across the grain, or chopped with sauce."),
    ),
    "late_plan_b": _lever(
        lambda: _("Plan B for tonight"),
        lambda: _("the big piece is for tomorrow"),
        lambda: _(
            "Feed people something fast. The meat cooks on until it is done, then chill it fast, reheat to {reheat}."
        ),
    ),
    "early_nothing": _lever(lambda: _("Do nothing"), lambda: _("the box takes it")),
    "early_delay_on": _lever(
        lambda: _("Meat on later"),
        lambda: _("some fuel"),
        lambda: _("Meat stays in the fridge at {fridge} or below; keep the fire small or light it later."),
    ),
    "early_pit_down_14": _lever(
        lambda: _("Pit down a step"),
        lambda: _("a longer stall"),
        lambda: _("Close the bottom a little; a thick cooker takes 30 to 60 min. Not under {floor}."),
    ),
    "early_no_wrap": _lever(lambda: _("Leave it bare"), lambda: _("lean meat dries")),
    "early_dinner": _lever(lambda: _("Dinner 30 min earlier"), lambda: _("are the guests there?")),
    "early_box": _lever(
        lambda: _("Hold it in a box"),
        lambda: _("bark softens"),
        lambda: _("Vent, wrap, into a warm box with towels. Out at {act}."),
    ),
    "early_oven_hold": _lever(
        lambda: _("Hold it in a warm oven"),
        lambda: _("softer the longer it waits"),
        lambda: _("Wrapped, oven at {hold}; check what the oven really holds. The core stays above {floor60}."),
    ),
    "early_cooker_hold": _lever(
        lambda: _("Hold it in the cooker"),
        lambda: _("uneven, must be watched"),
        lambda: _("Vents shut, pit under 95 C (203 F), probe stays in. Out at {act}, whatever the clock says."),
    ),
    "early_unwrap": _lever(
        lambda: _("Open the wrap 30 min"),
        lambda: _("loses moisture, firms the bark"),
        lambda: _("Careful, steam. In 30 min close it again and tell me that it is wrapped."),
    ),
    "early_spritz": _lever(
        lambda: _("Spritz twice more"),
        lambda: _("bark softens"),
        lambda: _("Lid open for a moment, and tell me each time."),
    ),
    "early_chill": _lever(
        lambda: _("Chill and reheat"),
        lambda: _("not as good as the same day"),
        lambda: _(
            "Pull or slice it when it is done, shallow trays: to {warm} in 2 h, to {cold} in 6 h in all. Reheat "
            "covered to {reheat}."
        ),
    ),
}
"""Words by lever."""
