"""Replanning: what has moved since people were last told, and whether it is worth a word.

Pure. Due times always follow the newest schedule; this room decides only what is announced.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Told
from scheduler.planning.outlook import Outlook, Verdict
from scheduler.planning.prompts import Prompt
from scheduler.planning.trips import next_at
from scheduler.planning.views import PieceView, worst
from scheduler.state import FIRST, CookState

WORTH_TELLING = dt.timedelta(minutes=30)
"""Smaller moves are not announced; common practice, no source."""

LATE_AGAIN = dt.timedelta(minutes=15)
"""A dinner that is called late is called so again, unasked, once it has moved by this: house rule."""

HALF_HOUR = dt.timedelta(minutes=30)

_WAIT_FOR_THE_MEAT = ("bark_check", "tender_test")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Move:
    """A milestone that moved, from what was told to what is expected now. `name` may begin with its piece."""

    name: str
    before: dt.datetime
    after: dt.datetime

    @property
    def piece(self) -> str:
        """Return the piece that it belongs to."""
        return self.name.split("/")[0] if "/" in self.name else FIRST

    @property
    def milestone(self) -> str:
        """Return the plain name."""
        return self.name.split("/")[-1]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Shift:
    """What is worth announcing: milestones that moved by thirty minutes, or another verdict on dinner."""

    moves: tuple[Move, ...]
    verdict_before: Verdict | None
    verdict_after: Verdict

    @property
    def turned(self) -> bool:
        """Return whether the verdict on dinner is another one: told by itself, even when nothing else is due."""
        return _turned(self.verdict_before, self.verdict_after)


def milestones(views: tuple[PieceView, ...], prompts: tuple[Prompt, ...]) -> tuple[tuple[str, dt.datetime], ...]:
    """Return (name, instant) of what people plan by and that has not happened yet.

    Milestones of the first piece have plain names; those of the others begin with their piece (`p2/pull`).
    """
    found: list[tuple[str, dt.datetime]] = []
    for view in views:
        own = [p for p in prompts if p.piece == view.piece and p.step.scope == "piece"]
        found += [(_named(view.piece, name), at) for name, at in _of_piece(view.state, view.outlook, own)]
    return tuple(found)


def _named(piece: str, name: str) -> str:
    return name if piece == FIRST else f"{piece}/{name}"


def _of_piece(state: CookState, outlook: Outlook, prompts: list[Prompt]) -> list[tuple[str, dt.datetime]]:
    found: list[tuple[str, dt.datetime]] = []
    if state.discarded:
        return found
    if not state.did("meat_on"):
        found.append(("meat_on", outlook.on_at))
    found += [
        (p.step.id, p.due_at)
        for p in prompts
        if p.step.id in _WAIT_FOR_THE_MEAT and p.asked == 0 and p.why.kind == "core"
    ]
    if not state.did("pull") and outlook.pull.likely is not None:
        found.append(("pull", outlook.pull.likely))
    if not state.did("serve") and outlook.plate_at is not None:
        found.append(("plate", outlook.plate_at))
    return found


def shift(views: tuple[PieceView, ...], prompts: tuple[Prompt, ...]) -> Shift | None:
    """Return what moved enough to be announced since milestones were last told, None when nothing did.

    The verdict on dinner is that of the worst piece.
    """
    last = views[0].state.told_milestones
    deciding = worst(views)
    if last is None or not deciding.to_come:
        return None
    told = dict(last.milestones)
    moves = tuple(
        Move(name=name, before=told[name], after=at)
        for name, at in milestones(views, prompts)
        if name in told and abs(at - told[name]) >= WORTH_TELLING
    )
    before = None if last.verdict is None else Verdict(last.verdict)
    verdict = deciding.outlook.verdict
    found = Shift(moves=moves, verdict_before=before, verdict_after=verdict)
    return found if moves or found.turned else None


def late_as_told(views: tuple[PieceView, ...]) -> bool:
    """Return whether dinner is late as people know already: the plate has moved by less than `LATE_AGAIN` since."""
    last, deciding = views[0].state.told_milestones, worst(views)
    plate_at = deciding.outlook.plate_at
    late = deciding.to_come and deciding.outlook.verdict is Verdict.LATE
    if last is None or not late or last.verdict != Verdict.LATE.value:
        return False
    told_at = dict(last.milestones).get(_named(deciding.piece, "plate"))
    return told_at is not None and plate_at is not None and abs(plate_at - told_at) < LATE_AGAIN


def with_plates(told: Told, views: tuple[PieceView, ...], prompts: tuple[Prompt, ...]) -> Told:
    """Return what was told once people have heard when the plate is; all other milestones stay as they were told."""
    last = views[0].state.told_milestones
    if told.milestones:
        return told
    if last is None:  # nobody has heard any yet: what is said of dinner now is the first
        first = milestones(views, prompts)
        return dataclasses.replace(told, verdict=worst(views).outlook.verdict, milestones=first)
    plates = {name: at for name, at in milestones(views, prompts) if name.split("/")[-1] == "plate"}
    return dataclasses.replace(told, verdict=last.verdict, milestones=tuple((dict(last.milestones) | plates).items()))


def _turned(before: Verdict | None, after: Verdict) -> bool:
    """Return whether dinner stands otherwise than was told: that a cut planned on its usual time is on the fire and
    may be a little late is no news.
    """
    if before is Verdict.USUAL and after in {Verdict.ON_TIME, Verdict.CLOSE}:
        return False
    return before is not None and before is not after


def look_again_at(state: CookState, outlook: Outlook) -> dt.datetime | None:
    """Return when a cook is to be looked at although nothing is due: whole half hours from lighting time to dinner.

    Time alone can turn the verdict (the fire is not lit, nobody answers); half hours of the clock, so that it does not
    depend on when anybody looked before. None once dinner is called late, served, or follows the meat.
    """
    last = state.told_milestones
    called_late = last is not None and last.verdict == Verdict.LATE.value
    if (
        outlook.serve_end is None
        or state.did("pull")
        or state.did("serve")
        or state.discarded
        or called_late
        or state.over
    ):
        return None
    return last_half_hour(max(state.as_of, min(outlook.light_at, outlook.serve_end))) + HALF_HOUR


def last_half_hour(now: dt.datetime) -> dt.datetime:
    """Return the newest whole half hour of the clock that is not later than `now`."""
    midnight = now.replace(hour=0, minute=0, second=0, microsecond=0)
    return midnight + (now - midnight) // HALF_HOUR * HALF_HOUR


def told(views: tuple[PieceView, ...], prompts: tuple[Prompt, ...], *, all_of_it: bool) -> Told:
    """Return the fact of what a message tells: when the next one comes and, with `all_of_it`, the milestones."""
    coming = next_at(prompts)
    return Told(
        next_at=None if coming is None else max(coming[0], views[0].state.as_of),
        next_step=None if coming is None else coming[1].step.id,
        verdict=worst(views).outlook.verdict if all_of_it else None,
        milestones=milestones(views, prompts) if all_of_it else (),
    )
