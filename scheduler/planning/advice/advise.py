"""Ranking what can still be done: safe things only, checking first, then chance gained for what it costs.

It proposes; a choice is written down elsewhere, as the facts that an option carries.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Body
from scheduler.planning.advice import changes
from scheduler.planning.advice.conditions import Open, is_open
from scheduler.planning.advice.effects import Effect, effect_of
from scheduler.planning.advice.moment import Lean, Moment, moment
from scheduler.planning.advice.standing import Standing
from scheduler.planning.outlook import ON_TIME, Outlook
from scheduler.planning.remedies import Lever, Remedies
from scheduler.state import CookState

LEAST = dt.timedelta(minutes=5)
"""An effect on the pull that is smaller is not offered: the forecast is not that sharp."""

_HALF_HOUR = dt.timedelta(minutes=30)
_MINUTE = dt.timedelta(minutes=1)
_LEAST_GAIN = 0.05
"""A move of dinner or rest that gains less chance is not offered."""

_KEY_STEPS = 50.0
"""Gains per cost are compared in steps of a fiftieth; within one the trade's order decides."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Option:
    """One thing that can be done: its effect, who decides, from when and until when, and the facts it would write."""

    lever: Lever
    effect: Effect
    from_at: dt.datetime | None
    """When it can be done; None: now."""
    until: dt.datetime | None
    bodies: tuple[Body, ...]
    value: float
    """Chance gained and delay taken back (late), or share of the wait taken up (early), 0 to 1."""

    @property
    def standing(self) -> Standing:
        """Return where dinner stands if it is done."""
        return self.effect.after


@dataclasses.dataclass(frozen=True, kw_only=True)
class Advice:
    """What can be done now about a piece, best first. `calm`: doing nothing is right."""

    at: Moment
    lean: Lean
    calm: bool
    options: tuple[Option, ...]

    def option(self, lever_id: str) -> Option | None:
        """Return the option of a lever, None when it is not open."""
        return next((option for option in self.options if option.lever.id == lever_id), None)

    @property
    def best(self) -> tuple[Option, ...]:
        """Return the best options, one of each kind, three at most; a check counts as one of them."""
        return self.shown(3)

    def shown(self, most: int) -> tuple[Option, ...]:
        """Return so many options at most: the best of each kind, then what is left, both in order."""
        kinds: dict[str, Option] = {}
        for option in self.options:
            kinds.setdefault(_kind(option.lever), option)
        left = [option for option in self.options if option not in kinds.values()]
        return (*kinds.values(), *left)[:most]


def advise(state: CookState, cut: Cut, outlook: Outlook, remedies: Remedies, now: dt.datetime) -> Advice:
    """Return what can be done about a piece at `now` (aware, UTC), ranked; on time it is little, and nothing is right.

    Safe things only. Checking comes first when it is late; then what gains most chance for its cost; then the order in
    which the trade tries things.
    """
    at = moment(state, cut, outlook, now)
    lean = at.lean
    side = "early" if lean is Lean.EARLY else "late"
    found = [option for lever in remedies.levers if lever.when == side and (option := _option(lever, at, lean))]
    ranked = tuple(sorted(found, key=_key))
    return Advice(at=at, lean=lean, calm=_calm(at, lean), options=ranked)


def option_of(
    state: CookState, cut: Cut, outlook: Outlook, remedies: Remedies, lever_id: str, now: dt.datetime
) -> Option | None:
    """Return a lever as an option at `now`, whichever way the piece leans; None when there is none or it is closed."""
    lever = remedies.lever(lever_id)
    if lever is None:
        return None
    at = moment(state, cut, outlook, now)
    opened = is_open(lever, at)
    effect = None if opened is None else effect_of(lever, at)
    return None if opened is None or effect is None else _made(lever, at, opened, effect, 0.0)


def _option(lever: Lever, at: Moment, lean: Lean) -> Option | None:
    opened = is_open(lever, at)
    if opened is None:
        return None
    effect = effect_of(lever, at)
    if effect is None or not _worth_saying(lever, at, lean, effect):
        return None
    value = _taken_up(lever, at, effect) if lean is Lean.EARLY else _won(at, effect)
    return _made(lever, at, opened, effect, value)


def _made(lever: Lever, at: Moment, opened: Open, effect: Effect, value: float) -> Option:
    bodies = changes.facts_of(lever, at)
    return Option(
        lever=lever, effect=effect, from_at=opened.from_at, until=opened.until, bodies=bodies, value=value
    )  # fmt: skip


def _worth_saying(lever: Lever, at: Moment, lean: Lean, effect: Effect) -> bool:
    """Return whether an effect is large enough, points the right way, and is not more than was asked for."""
    if lever.change == "oven" and (at.core_c is None or at.core_c < at.cut.bark_look_c):
        return False  # an oven gives no bark: before it is set it is only a way out
    if effect.of in {"pull", "opening"}:
        earlier = effect.shift <= -LEAST
        return effect.shift >= LEAST if lean is Lean.EARLY else earlier
    if lever.change == "hold":
        return at.waits_min is not None and effect.shift >= at.waits_min * _MINUTE
    if lever.change == "nothing":
        return at.excess_min <= 0 or lean is not Lean.EARLY
    if lever.change == "dinner" and lean is Lean.EARLY:
        return (effect.after.chance or 0.0) >= ON_TIME
    if lever.change in {"dinner", "starter", "rest"}:
        return _gained(effect) > _LEAST_GAIN
    return True


def _gained(effect: Effect) -> float:
    if effect.before.chance is None or effect.after.chance is None:
        return 0.0
    return max(0.0, effect.after.chance - effect.before.chance)


def _won(at: Moment, effect: Effect) -> float:
    """Return what a lever brings a late cook, 0 to 1: half for the chance, half for the share of the delay it takes.

    When a cook is hours late no lever gains much chance, but one that halves the delay is still worth more than one
    that takes ten minutes off it.
    """
    spare = at.outlook.spare
    if effect.of == "rest":
        return 0.0  # what is told of dinner counts on the shortest rest already
    if spare is None or spare >= dt.timedelta() or effect.of == "none":
        return _gained(effect)
    taken = min(1.0, abs(effect.shift) / max(-spare, _HALF_HOUR))
    return 0.5 * _gained(effect) + 0.5 * taken


def _taken_up(lever: Lever, at: Moment, effect: Effect) -> float:
    """Return the share of the wait that is too long which a lever takes up."""
    if lever.change == "hold":
        return 1.0
    if at.excess_min <= 0:
        return 1.0 if lever.change == "nothing" else 0.0
    return min(1.0, abs(effect.shift / _MINUTE) / at.excess_min)


def _calm(at: Moment, lean: Lean) -> bool:
    """Return whether doing nothing is right: it is on time and keeps, or nothing can be gained."""
    if lean is Lean.FINE:
        return True
    return lean is Lean.EARLY and at.excess_min <= 0


def _key(option: Option) -> tuple[bool, bool, int, int, str]:
    lever = option.lever
    if lever.change in {"verify", "fix_pit"}:
        return (False, False, lever.order, 0, lever.id)
    gain = round(_KEY_STEPS * option.value / max(1, lever.cost))
    return (True, gain == 0 and lever.change != "nothing", -gain, lever.order, lever.id)


def _kind(lever: Lever) -> str:
    return {"wrap": "wrap", "bare": "wrap", "dinner": "dinner", "starter": "dinner", "plan_b": "dinner"}.get(
        lever.change, lever.change
    )
