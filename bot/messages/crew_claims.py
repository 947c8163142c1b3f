"""Claims in words ("mine"): whose a step is until when, that it is free again, that somebody else has it.

Sentences only; when a claim lapses is decided in `scheduler.state.crew`.
"""

from __future__ import annotations

from bot.commands import Claim
from bot.messages.figures import Voice
from bot.messages.message import Message, Option
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.prompts import Prompt
from scheduler.state.crew import Claim as Held

_MOST = 3
"""So many buttons "mine" stand below a message."""


def yours(step: str, held: Held, voice: Voice) -> str:
    """Confirm a claim: until when, and what then."""
    return _('Yours until {time}: {what}. Say "done" when it is; after that anybody may take it.').format(
        time=voice.clock(held.lapses_at), what=step_words(step).name
    )


def has_it(name: str, step: str, held: Held, voice: Voice) -> str:
    """Tell the others who has a step, and until when."""
    return _("{name} has it until {time}: {what}.").format(
        name=name, time=voice.clock(held.lapses_at), what=step_words(step).name
    )


def free_again(step: str, name: str) -> str:
    """Say that nobody has a step any more."""
    return _("{name} does not do it after all: {what}. Who does?").format(name=name, what=step_words(step).name)


def nothing_claimed() -> str:
    """Say to somebody who gives a claim back that there is none."""
    return _("You have nothing claimed.")


def which(prompts: tuple[Prompt, ...]) -> Message:
    """Ask which of the open steps somebody takes."""
    return Message(
        text=_("Which one is yours?"),
        choices=tuple(((step_words(one.step.id).name, Claim(step=one.step.id, piece=one.piece)),) for one in prompts),
    )


def mine_rows(prompts: tuple[Prompt, ...], situation: Situation) -> tuple[tuple[Option, ...], ...]:
    """Return the buttons by which somebody of several people takes a step, those of ticks only."""
    ticks = [one for one in prompts if not one.step.slots and not one.step.outcomes and one.step.id != "handover"]
    alone = len(ticks) == 1
    rows: list[tuple[Option, ...]] = []
    for one in ticks[:_MOST]:
        if one.step.id in situation.view(one.piece).state.claims:
            continue
        label = _("Mine") if alone else _("Mine: {what}").format(what=step_words(one.step.id).name)
        piece = one.piece if situation.several and one.step.scope == "piece" else None
        rows.append(((label, Claim(step=one.step.id, piece=piece)),))
    return tuple(rows)
