"""What is said when something goes wrong: a problem, its end, a way out, meat that is to be paused. Values only."""

from __future__ import annotations

from typing import Literal

from bot.commands.intent import Said

DANGERS = frozenset({
    "burn", "co_symptom", "grease_fire", "lightning", "cooker_indoors", "allergic_reaction", "choking", "guest_ill",
    "fluid_on_fire", "fire_spreads", "sparks", "hot_ash", "cooker_fell", "burn_severe", "collapsed", "cut",
    "gas_smell", "building_fire", "cooker_moving", "children_near", "danger_unclear",
})  # fmt: skip
"""Problems in which people are in danger: anybody may report them at any time, and they are answered first."""

OF_PEOPLE = frozenset({
    "burn", "burn_severe", "co_symptom", "allergic_reaction", "choking", "guest_ill", "collapsed", "cut",
    "cooker_indoors", "danger_unclear",
})  # fmt: skip
"""Dangers about somebody: they end by words about that, by name, and by none like "fine" or "the fire is out"."""

BY_ANYBODY = DANGERS | {"left_out"}
"""What anybody may report, a guest too: it makes nothing less strict."""

OF_FLAMES = frozenset({"grease_fire", "fire_spreads", "building_fire", "fluid_on_fire", "flare_up"})
"""What "the fire is out" ends, while it stands."""


class Trouble(Said):
    """A problem reported unasked, by its id in the catalogue: fire_out, pit_hot, probe_bone, burn, ..."""

    kind: Literal["trouble"] = "trouble"
    what: str
    text: str
    piece: str | None = None


class TroubleOver(Said):
    """A problem is over; without `what` the one that stands."""

    kind: Literal["trouble_over"] = "trouble_over"
    what: str | None = None
    piece: str | None = None


class TakeLever(Said):
    """One of the offered ways to be on time; "nothing" changes nothing. `piece` None: the one that decides."""

    kind: Literal["take_lever"] = "take_lever"
    lever: str
    piece: str | None = None


class Pause(Said):
    """Half-cooked meat is to be paused: asked for, and always refused."""

    kind: Literal["pause"] = "pause"
    piece: str | None = None
