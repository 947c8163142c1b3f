"""Words of leftovers: cooled too slowly, reheated too little or too slowly, kept too long."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _
from scheduler.safety import FindingLevel


def _cooled_late(told: Told, first: str) -> str:
    """Return what was found of cooling: how warm after how long, and what it should have been."""
    found = _("{found} after {lasted} of cooling, it needs {limit} within {most}")
    unread = _("not measured after {lasted} of cooling, it needs {limit} within {most}")
    return (found if told.read else unread).format(
        found=told.found,
        lasted=told.lasted,
        limit=told.limit,
        most=first if told.finding.limit_min is None else told.most,
    )


def _not_cold_yet(told: Told, first: str) -> Words:
    """Return what can still be done while the time of a stage is not over."""
    return Words(
        found=_cooled_late(told, first),
        do=_("Put it on ice{by}, or reheat it now to 165 F (74 C) and cool anew").format(by=told.by),
        ends=_("Either reading in time ends this"),
    )


def _cool_slow(told: Told) -> Words:
    if told.finding.level is not FindingLevel.STOP:
        return _not_cold_yet(told, _("2 h"))
    return Words(
        found=_cooled_late(told, _("2 h")),
        do=_("Throw it away; it is too late to reheat it"),
        ends=_("Throwing it away ends this, or correcting a wrong number"),
    )


def _cool_too_long(told: Told) -> Words:
    if told.finding.level is not FindingLevel.STOP:
        return _not_cold_yet(told, _("6 h"))
    return Words(
        found=_cooled_late(told, _("6 h")),
        do=_("Throw it away; reheating does not save it"),
        ends=_("Throwing it away ends this, or correcting a wrong number"),
    )


def _cool_not_read(told: Told) -> Words:
    return Words(
        found=_("not measured while it cools: it needs {limit} within {most}").format(
            limit=told.limit, most=_("2 h") if told.finding.limit_min is None else told.most
        ),
        do=_("Read the middle of the thickest portion now"),
        ends=_("Throwing it away ends this, or an earlier reading"),
    )


def _reheat_under(told: Told) -> Words:
    found = _("reheated to {found}, it needs {limit}") if told.read else _("reheated, not measured; it needs {limit}")
    return Words(
        found=found.format(found=told.found, limit=told.limit),
        do=_("Heat it on, covered, and read the middle before anyone eats"),
        ends=_("That reading ends this, or throwing it away"),
    )


def _reheat_slow(told: Told) -> Words:
    if told.finding.level is not FindingLevel.STOP:
        return Words(
            found=_("{lasted} of reheating, not measured; it needs {limit}").format(
                lasted=told.lasted, limit=told.limit
            ),
            do=_("Read the middle now; under that after two hours, throw it away"),
            ends=_("Telling me that it was eaten, put away or thrown away ends this"),
        )
    return Words(
        found=_("{lasted} of reheating, {most} at most").format(
            lasted=told.lasted, most=_("2 h") if told.finding.limit_min is None else told.most
        ),
        do=_("Do not serve it; throw it away"),
        ends=_("Throwing it away ends this, or correcting a wrong number"),
    )


def _leftovers_old(told: Told) -> Words:
    if told.finding.level is FindingLevel.STOP:
        return Words(
            found=_("leftovers kept for {lasted}, {most} at most").format(lasted=told.lasted, most=told.most),
            do=_("Do not eat them; throw them away"),
            ends=_("Throwing them away ends this, or telling me that they were eaten or frozen in time"),
        )
    return Words(
        found=_("leftovers kept for {lasted}, {most} at most").format(lasted=told.lasted, most=told.most),
        do=_("Eat them{by} at 165 F (74 C), freeze them or throw them away").format(by=told.by),
        ends=_("Telling me that they were eaten, frozen or thrown away ends this"),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "cool_slow": _cool_slow,
    "cool_too_long": _cool_too_long,
    "cool_not_read": _cool_not_read,
    "reheat_under": _reheat_under,
    "reheat_slow": _reheat_slow,
    "leftovers_old": _leftovers_old,
}
"""Words by rule."""
