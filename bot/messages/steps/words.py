"""What the words of a step are made of.

A value only; the words themselves stand in the rooms of the phases.
"""

from __future__ import annotations

import dataclasses


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepWords:
    """One step in words: `name` is its title in lists, `do` what to do or the question.

    `do` may use {feel}, {salt}, {pit}, {vent}, {act}, {come_up}, {pit_floor}, {thaw}, {thaw_water}, {trip_low},
    {trip_high}, {done_at}, {watch}, {buy}, {new_pit}, {eat_by}.
    """

    name: str
    do: str
    done: str
    """What the button says when it is done."""
    outcomes: tuple[tuple[str, str], ...] = ()
    """(outcome, button) in order."""
