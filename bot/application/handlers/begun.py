"""What is shown of a cook that has just begun: its plan, and what is still asked. Decides nothing."""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.cookers import offered_cookers
from bot.application.visit import Visit
from bot.messages import care_asked, cooker, setup, setup_taps
from bot.messages.crew_kept import crew_kept
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.setup_core import before_next, care_said
from bot.messages.wishes import kept_level
from scheduler.cook import Situation


def begun_words(visit: Visit, draft: say.Draft, after: Situation, voice: Voice) -> Message:
    """Return the plan of a cook that has just begun, in the voice of a room, with what is still asked."""
    offer = cooker.offer(() if after.state.cooker is not None else offered_cookers(visit))
    kept = Message(text="") if draft.detail is not None else kept_level(after.state.detail)
    shown = before_next(setup.begun(after, voice, offer, kept), care_said(draft, after))
    shown = before_next(shown, crew_kept(after.state.crew, after.state.watches))
    shown = dataclasses.replace(shown, choices=(*shown.choices, (setup_taps.change_button(),)))
    on = draft.on_at is not None
    return shown if on else before_next(shown, care_asked.ask(after.state.care, begun=on))
