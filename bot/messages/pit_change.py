"""Words of a pit that a later piece brings: what to set, and for whom it runs hotter or too hot.

Words only; when it changes is computed by the engine.
"""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.language import capital
from bot.messages.naming import names_of, piece_name
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.pit_change import PitChange, pit_change, pit_changes


def change_text(situation: Situation, voice: Voice) -> str:
    """Return what to do about the pit for the piece that the cook is seen from: the band, and what the others get."""
    view = situation.view(situation.focus)
    found = pit_change(view, situation.views)
    pit = voice.band(view.state.pit[-1].low_c, view.state.pit[-1].high_c)
    if found is None:
        return _("pit to {pit} now, for the {piece}.").format(pit=pit, piece=piece_name(view))
    hotter = found.band.high_c > found.before.high_c
    others = names_of(situation, found.others)
    text = _("pit to {pit} now, for the {piece}: {others} will run hotter.") if hotter else _(
        "Pit to {pit} now, for the {piece}: {others} will run cooler and slower."
    )  # fmt: skip
    said = text.format(pit=pit, piece=piece_name(view), others=others)
    return " ".join((said, *_too_hot(found, situation, voice)))


def pit_snags(situation: Situation, voice: Voice) -> tuple[str, ...]:
    """Return what of a plan is on the fire while another piece brings a pit that is too hot for it."""
    return tuple(
        _("{piece} brings the pit to {pit} at {time}. {too_hot}").format(
            piece=capital(piece_name(situation.view(change.piece))),
            pit=voice.band(change.band.low_c, change.band.high_c),
            time=voice.about(change.at),
            too_hot=" ".join(_too_hot(change, situation, voice)),
        )
        for change in pit_changes(situation.views)
        if change.over
    )


def _too_hot(change: PitChange, situation: Situation, voice: Voice) -> tuple[str, ...]:
    return tuple(
        _("Too hot for the {piece}, {limit} at most: look sooner, or take it off first.").format(
            piece=piece_name(situation.view(piece)), limit=voice.temp(limit_c)
        )
        for piece, limit_c in change.over
    )
