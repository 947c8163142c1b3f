"""What of a plan holds again when a change of it was taken back: amounts, certainty, how the meat is read, the wrap.

Only what differs is named; what moved in time is told elsewhere.
"""

from __future__ import annotations

from bot.messages.bodies import amount_text, body_text, uncapital
from bot.messages.cooker import read_by_text
from bot.messages.figures import Voice
from bot.messages.naming import piece_name
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Wrap, WrapPlanned
from scheduler.planning.backward import wanted_confidence
from scheduler.state import FIRST


def plan_back(before: Situation, after: Situation, voice: Voice) -> str:
    """Return what a plan says again, such as "Back to: 5 kg."; nothing when nothing that is told differs."""
    parts = _parts(before, after, voice)
    return _("Back to: {what}.").format(what=", ".join(parts)) if parts else ""


def amount_back(after: Situation, piece: str | None) -> str:
    """Return the count and mass that a piece has again."""
    planned = after.view(piece).state.planned
    amount = amount_text(planned.count, planned.mass_kg) or _("mass not told")
    return _("Back to: {what}.").format(what=amount)


def _parts(before: Situation, after: Situation, voice: Voice) -> list[str]:
    seen, state = before.view(FIRST).state, after.view(FIRST).state
    old, new = seen.planned, state.planned
    parts = []
    if (old.count, old.mass_kg) != (new.count, new.mass_kg):
        amount = amount_text(new.count, new.mass_kg) or _("mass not told")
        name = piece_name(after.view(FIRST))
        parts.append(_("{piece} {amount}").format(piece=name, amount=amount) if after.several else amount)
    if wanted_confidence(seen) != wanted_confidence(state):
        parts.append(_("{share} % sure").format(share=round(100 * wanted_confidence(state))))
    if old.read_by is not new.read_by:
        parts.append(
            _("not told how the meat is read") if new.read_by is None else uncapital(read_by_text(new.read_by))
        )
    if old.wrap is not new.wrap:
        planned = None if new.wrap is None else body_text(WrapPlanned(wrap=Wrap(new.wrap)), voice)
        parts.append(uncapital(planned) if planned else _("wrap decided at the bark"))
    if old.unit != new.unit and new.unit is not None:
        parts.append(_("degrees {unit}").format(unit=new.unit))
    return parts
