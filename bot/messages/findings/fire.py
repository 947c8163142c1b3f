"""Words of meat on the fire: a pit too cold, a core that comes up too slowly or is not read."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _
from scheduler.safety import FindingLevel


def _pit_cold(told: Told) -> Words:
    return Words(
        found=_("pit {found}, under {limit}, with the meat in the danger zone").format(
            found=told.found, limit=told.limit
        ),
        do=_("Get the pit up now: air, ash, lit fuel; not up in half an hour: a hot oven, never paused"),
        ends=_("A pit above that ends this"),
    )


def _pit_dead(told: Told) -> Words:
    lasted = _("more than two hours") if told.finding.found_min is None else told.lasted
    if told.finding.unread:
        return Words(
            found=_("pit {found}, under {limit}, and the meat may have been so for {lasted}, not read").format(
                found=told.found, limit=told.limit, lasted=lasted
            ),
            do=_("Let nobody eat; read its coldest spot before any heat"),
            ends=_("Still above that, no hotter than last, ends this, or throwing it away"),
        )
    return Words(
        found=_("pit {found}, under {limit} for {lasted}, the meat not read above it").format(
            found=told.found, limit=told.limit, lasted=lasted
        ),
        do=_("Throw it away: so long without heat is not safe"),
        ends=_("Throwing it away ends this, or correcting a wrong pit reading"),
    )


def _pit_dead_unread(told: Told) -> Words:
    return Words(
        found=_("pit {found}, under {limit}; the meat, not read since, may be, too").format(
            found=told.found, limit=told.limit
        ),
        do=_("Read its coldest spot now; hot pit or oven{by}").format(by=told.by),
        ends=_("A hotter pit ends this, a warm reading for a while"),
    )


def _pit_unread(told: Told) -> Words:
    lasted = _("two hours") if told.finding.found_min is None else told.lasted
    return Words(
        found=_("fire out since {since}, pit not measured for {lasted}: nobody can say that it kept {limit}").format(
            since=told.since, lasted=lasted, limit=told.limit
        ),
        do=_("Read pit and meat now"),
        ends=_("Throwing it away ends this, or earlier pit readings told now"),
    )


def _come_up_slow(told: Told) -> Words:
    return Words(
        found=_("meat {found} after hours on the fire, a house rule wants {limit} by now").format(
            found=told.found, limit=told.limit
        ),
        do=_("Get the pit up, look at fuel and probe; injected, rolled or tenderised meat has less time"),
        ends=_("Meat above that ends this"),
    )


def _come_up_over(told: Told) -> Words:
    found = _("meat {found}: more than {most} on the way to {limit}").format(
        found=told.found, most=_("6 h") if told.finding.limit_min is None else told.most, limit=told.limit
    )
    if told.finding.level is FindingLevel.STOP:
        return Words(
            found=found,
            do=_("Do not serve it: nobody can say what grew inside, and heat may not undo it"),
            ends=_("Throwing it away ends this, or correcting a wrong number"),
        )
    return Words(
        found=found,
        do=_("Get the pit up now, or move the meat to a hot oven"),
        ends=_("Meat above that ends this"),
    )


def _come_up_unknown(told: Told) -> Words:
    return Words(
        found=_("not measured: nobody can say that the meat passed {limit} within {most}").format(
            limit=told.limit, most=_("6 h") if told.finding.limit_min is None else told.most
        ),
        do=_("Do not call it safe: no later number shows it"),
        ends=_("Throwing it away ends this, or an earlier reading told now"),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "pit_cold": _pit_cold,
    "pit_dead": _pit_dead,
    "pit_dead_unread": _pit_dead_unread,
    "pit_unread": _pit_unread,
    "come_up_slow": _come_up_slow,
    "come_up_over": _come_up_over,
    "come_up_unknown": _come_up_unknown,
}
"""Words by rule."""
