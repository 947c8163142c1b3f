"""Words of food off the fire: held, served, left out."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _


def _held_under_floor(told: Told) -> Words:
    found = _("held meat {at}, under {limit} since {since}").format(
        at=told.at, limit=told.floor_limit, since=told.since
    )
    return _under_floor(told, found)


def _served_under_floor(told: Told) -> Words:
    return _under_floor(
        told, _("last read {at} before it was served, under {limit}").format(at=told.at, limit=told.floor_limit)
    )


def _under_floor(told: Told, found: str) -> Words:
    """Return the words of food under its floor: reheated in time, counted from when it was last known hot; then no
    more.
    """
    lasted, most = told.finding.found_min, told.finding.limit_min
    if told.finding.known_at is not None:
        found = _("{found}, last known hot at {time}").format(found=found, time=told.voice.clock(told.finding.known_at))
    if lasted is not None and most is not None and lasted > most:
        return Words(
            found=found,
            do=_("Do not eat it; bin it"),
            ends=_("Throwing it away ends this, or an earlier reading told now"),
        )
    return Words(
        found=found,
        do=_("Reheat it covered to 165 F (74 C){by}; later, bin it").format(by=told.by),
        ends=_("165 F (74 C) by then ends this, or throwing it away"),
    )


def _held_act_now(told: Told) -> Words:
    return Words(
        found=_("held meat {at}, near its floor of {floor}").format(at=told.at, floor=told.floor),
        do=_("Act now: serve, a warm oven, or slice and chill"),
        ends=_("A reading above {limit} ends this (a house rule)").format(limit=told.plain_limit),
    )


def _held_not_read(told: Told) -> Words:
    return Words(
        found=_("not measured since it left the fire: I cannot say that it stayed hot"),
        do=_("Read it now; under {limit} it goes back on the heat, to 165 F (74 C)").format(limit=told.floor_limit),
        ends=_("A reading above that ends this"),
    )


def _two_hours_out(told: Told) -> Words:
    if told.finding.unread:
        return Words(
            found=_("back on heat and not read since {since}, more than {most}").format(
                since=told.since, most=_("two hours") if told.finding.limit_min is None else told.most
            ),
            do=_("Let nobody eat; read its coldest spot now"),
            ends=_("{limit} or hotter ends this, or throwing it away").format(limit=told.plain_limit),
        )
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
