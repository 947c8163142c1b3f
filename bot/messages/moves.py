"""What moved, by how much and why: told from thirty minutes on, or when the verdict on dinner turns."""

from __future__ import annotations

from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice, span, to_five
from bot.messages.message import lines
from bot.messages.naming import piece_name
from bot.messages.words import _
from scheduler.cook import Changes, Shifted, Situation, Taken, Undid
from scheduler.facts import AirTold, Corrected, PitMoved, Reading, ServingMoved, StepDone, Wrapped
from scheduler.planning.replanning import Move

_MILESTONES = {
    "meat_on": lambda: _("meat on"),
    "bark_check": lambda: _("look at the bark"),
    "tender_test": lambda: _("first feel"),
    "pull": lambda: _("pull"),
    "plate": lambda: _("plate"),
}


def shift_text(event: Shifted, changes: Changes, voice: Voice) -> str:
    """Return what moved, by how much and why, and how dinner stands, in one go."""
    shift = event.shift
    moved = [m for m in shift.moves if m.milestone in _MILESTONES and not _told_by_itself(m, changes)]
    moves = [
        _("{what} now {after}, was {before} ({sign}{by})").format(
            what=_what(m, changes.after),
            before=voice.about(m.before),
            after=voice.about(m.after),
            sign="+" if m.after > m.before else "-",
            by=span(to_five(m.after) - to_five(m.before)),
        )
        for m in moved
    ]
    dinner = dinner_line(changes.after, voice)
    if not moves:
        return dinner
    return lines(_("{why}: {moves}.").format(why=_why(changes), moves=", ".join(moves)), dinner)


def _told_by_itself(move: Move, changes: Changes) -> bool:
    """Return whether a move is just what was reported: dinner moved, and so the plate."""
    dinner = any(isinstance(e, Taken) and isinstance(e.body, ServingMoved) for e in changes.events)
    return dinner and move.milestone == "plate"


def _what(move: Move, situation: Situation) -> str:
    """Return what moved: of several pieces with the name of the one."""
    what = _MILESTONES[move.milestone]()
    if not situation.several:
        return what
    return _("{piece}: {what}").format(piece=piece_name(situation.view(move.piece)), what=what)


def _why(changes: Changes) -> str:
    """Return the reason of a move: what was just reported, or that time has passed."""
    bodies = [e.body for e in changes.events if isinstance(e, Taken)]
    kinds = {type(body.body) if isinstance(body, Corrected) else type(body) for body in bodies}
    undone = any(isinstance(e, Undid) for e in changes.events)
    if undone:
        return _("Without it the plan moves")
    for kind, text in (
        (ServingMoved, _("Dinner moved, and with it")),
        (PitMoved, _("With the pit elsewhere")),
        (Wrapped, _("With the wrap as it is now")),
        (AirTold, _("With the air as it is")),
    ):
        if kind in kinds:
            return text
    pull = changes.after.deciding.outlook.pull.likely
    shifts = [e.shift for e in changes.events if isinstance(e, Shifted)]
    later = any(m.after > m.before for s in shifts for m in s.moves)
    if Reading in kinds and pull is not None:
        return _("The meat runs slower than I said") if later else _("The meat runs faster than I said")
    if StepDone in kinds:
        return _("Counted from that")
    return _("With that") if kinds else _("As time goes on without news")
