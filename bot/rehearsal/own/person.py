"""Whoever stands at the cooker in a rehearsed plan: does what is asked, a few minutes later, and says so.

It reads the open prompts as the program offers them, with the words of their buttons; it decides nothing of the plan.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import Done, FeelSaid, WrapSaid
from bot.messages.naming import piece_name
from bot.messages.trip import choices_for
from bot.rehearsal.own.meat import SMOKE_GREY_FOR, Pace, Piece, pit_c
from scheduler.cook import Situation
from scheduler.facts import Feel, Slot, Wrap
from scheduler.planning.outlook import known, question_of
from scheduler.planning.prompts import Prompt
from scheduler.units import f_from_c

BETWEEN = dt.timedelta(minutes=3)
"""From a message to its answer; common practice, no source."""

HOPED_FOR = {
    "rules_recheck": "ok",
    "fuel_check": "half",
    "t_minus": "go",
    "shutdown": "closed",
    "two_hour": "away",
    "fire_out": "cooling",
    "reheat_away": "eaten",
}
"""What is answered where the cook itself does not say."""


_FRIDGE_C, _REHEATED_C = 3.3, 76.7
"""What a fridge and reheated food read in a rehearsal [°C]: 38 and 170 F."""


class Person:
    """Hands and eyes for every piece of one cook."""

    def __init__(self, pace: Pace) -> None:
        """Stand there with a piece of this pace."""
        self.pace = pace
        self.pieces: dict[str, Piece] = {}

    def answer(self, prompt: Prompt, situation: Situation, at: dt.datetime) -> str | None:
        """Return the line typed for a prompt, None while it has to wait."""
        situation = situation.seen_from(prompt.piece)
        if prompt.step.id == "meat_on" and not self._smoke_is_thin(situation, at):
            return None
        if prompt.step.id == "serve" and not self._is_dinner_time(situation, at):
            return None
        numbers = " ".join(self._number(slot, prompt, situation, at) for slot in prompt.step.slots)
        if numbers and situation.several and Slot.CORE in prompt.step.slots:
            numbers = f"{piece_name(situation.view(prompt.piece))} {numbers}"
        if prompt.step.id == "tender_test":
            return f"{numbers}, {self._choice(prompt, situation, at)}"
        return numbers or self._choice(prompt, situation, at)

    def done(self, prompt: Prompt, situation: Situation, at: dt.datetime) -> None:
        """Do with the hands what was just told to be done."""
        piece = self.pieces.get(prompt.piece)
        situation = situation.seen_from(prompt.piece)
        if prompt.step.id == "meat_on":
            self._put_on(prompt.piece, situation)
        elif prompt.step.id in {"bark_check", "wrap_do"} and situation.state.wraps and piece is not None:
            piece.wrapped(situation.state.wraps[-1][1].wrap)
        elif prompt.step.id == "pull" and piece is not None:
            piece.pull(at, situation.state.serving.starts_at())

    def _put_on(self, piece: str, situation: Situation) -> None:
        state = situation.state
        on_at = state.at("meat_on")
        if on_at is None:
            return
        self.pieces[piece] = Piece(
            cut=situation.cut,
            pace=self.pace,
            course=known(question_of(state, situation.cut, on_at)),
            on_at=on_at,
            pit_c=state.pit_c,
            mass_kg=state.planned.mass_kg,
            thickness_m=state.planned.thickness_m,
        )

    def _smoke_is_thin(self, situation: Situation, at: dt.datetime) -> bool:
        lit_at = situation.state.at("light")
        return lit_at is None or at - lit_at >= SMOKE_GREY_FOR

    def _is_dinner_time(self, situation: Situation, at: dt.datetime) -> bool:
        serve_at = situation.state.serving.starts_at()
        return serve_at is None or at >= serve_at

    def _number(self, slot: Slot, prompt: Prompt, situation: Situation, at: dt.datetime) -> str:
        state = situation.state
        if slot is Slot.PIT:
            return f"pit {_shown(pit_c(state.pit_c, state.at('light'), at), state.planned.unit)}"
        if slot is Slot.FRIDGE:
            return f"fridge {_shown(_FRIDGE_C, state.planned.unit)}"
        if slot is Slot.LEFTOVERS:
            left_c = _REHEATED_C if prompt.step.id == "reheat" else _FRIDGE_C
            return f"leftovers {_shown(left_c, state.planned.unit)}"
        piece = self.pieces.get(prompt.piece)
        core_c = 4.0 if piece is None else piece.core_c(at)
        value = _shown(core_c, state.planned.unit)
        return f"meat {value}" if len(prompt.step.slots) > 1 else value

    def _choice(self, prompt: Prompt, situation: Situation, at: dt.datetime) -> str:
        """Return the words of the button that fits what is so."""
        options = [option for row in choices_for((prompt,), situation) for option in row]
        wanted = self._wanted(prompt, situation, at)
        for label, meaning in options:
            match meaning:
                case Done(outcome=outcome) if outcome is not None and outcome == wanted:
                    return label
                case WrapSaid(wrap=wrap) if wrap is not None and wrap.value == wanted:
                    return label
                case FeelSaid(feel=feel) if feel.value == wanted:
                    return label
                case _:
                    pass
        return options[0][0]

    def _wanted(self, prompt: Prompt, situation: Situation, at: dt.datetime) -> str | None:
        piece = self.pieces.get(prompt.piece)
        match prompt.step.id:
            case "tender_test":
                return (Feel.TIGHT if piece is None else piece.feel(at)).value
            case "bark_check" | "wrap_do":
                return (situation.state.planned.wrap or situation.cut.usual_wrap or Wrap.NONE).value
            case "smoke_clean":
                return "thin" if self._smoke_is_thin(situation, at) else "grey"
            case _:
                return HOPED_FOR.get(prompt.step.id)


def _shown(temp_c: float, unit: str) -> str:
    return f"{f_from_c(temp_c) if unit == 'F' else temp_c:.0f}"
