"""Words of food off the fire: held, served, left out."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _


def _held_under_floor(told: Told) -> Words:
    return Words(
        found=_("held meat {at}, under {limit} since {since}, last known hot {known}").format(
            at=told.at, limit=told.limit, since=told.since, known=told.known
        ),
        do=_reheat(told),
        ends=_reheat_ends(told),
    )


def _served_under_floor(told: Told) -> Words:
    return Words(
        found=_("last read {at} before it was served, under {limit}, last known hot {known}").format(
            at=told.at, limit=told.limit, known=told.known
        ),
        do=_reheat(told),
        ends=_reheat_ends(told),
    )


def _too_late(told: Told) -> bool:
    """Return whether the time in which reheating mends it is over."""
    found, limit = told.finding.found_min, told.finding.limit_min
    return found is not None and limit is not None and found > limit


def _reheat(told: Told) -> str:
    """Return what to do with food under its floor: reheat it while its time is not over."""
    if _too_late(told):
        return _("Do not eat it; bin it: nobody knows that it was hot for {lasted}, {most} at most").format(
            lasted=told.lasted, most=told.most
        )
    return _("Reheat it covered to 165 F (74 C){by}, counted from when it was last known hot; later, bin it").format(
        by=told.by
    )


def _reheat_ends(told: Told) -> str:
    """Return what ends it: 165 F in time, and after that only throwing it away or a reading that nobody told."""
    if _too_late(told):
        return _("Throwing it away ends this, or telling me a reading from before")
    return _("165 F (74 C) in that time ends this, or throwing it away")


def _held_act_now(told: Told) -> Words:
    return Words(
        found=_("held meat {at}, near its floor of {floor}").format(at=told.at, floor=told.floor),
        do=_("Act now: serve, a warm oven, or slice and chill"),
        ends=_("A reading above {limit} ends this (a house rule)").format(limit=told.plain_limit),
    )


def _held_not_read(told: Told) -> Words:
    return Words(
        found=_("not measured since it left the fire: I cannot say that it stayed hot"),
        do=_("Read it now; under {limit} it goes back on the heat, to 165 F (74 C)").format(limit=told.limit),
        ends=_("A reading above that ends this"),
    )


def _two_hours_out(told: Told) -> Words:
    return Words(
        found=_("the food has been out since {since}, more than {most}").format(
            since=told.since, most=_("two hours") if told.finding.limit_min is None else told.most
        ),
        do=_("Do not eat it; bin it"),
        ends=_("Throwing it away ends this, or telling me when it was put away in time"),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "held_under_floor": _held_under_floor,
    "served_under_floor": _served_under_floor,
    "held_act_now": _held_act_now,
    "held_not_read": _held_not_read,
    "two_hours_out": _two_hours_out,
}
"""Words by rule."""
