"""Words of the safety gate: the least temperature, spots that differ, meat that is not intact, time as it counts."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _


def _minimum_not_measured(told: Told) -> Words:
    finding = told.finding
    low = finding.found_c is None or finding.limit_c is None or round(finding.found_c, 1) < finding.limit_c
    if not low:
        return Words(
            found=_("{found} was read, but its rest is not over").format(found=told.found),
            do=_("Let nobody eat yet: leave it covered{by}").format(
                by=told.by or _(" for the rest that belongs to it")
            ),
            ends=_("The end of that rest ends this"),
        )
    found = _("{found} {spot}, it needs {limit}") if told.read else _("not measured, it needs {limit} {spot}")
    return Words(
        found=found.format(found=told.found, limit=told.limit, spot=told.spot),
        do=_("Let nobody eat; read it now, and under that put it back on the heat"),
        ends=_("That reading, with its rest, ends this, or throwing it away"),
    )


def _pulled_under_minimum(told: Told) -> Words:
    found = (
        _("off the fire at {found} {spot}, it needs {limit}")
        if told.read
        else _("off the fire and not measured, it needs {limit} {spot}")
    )
    return Words(
        found=found.format(found=told.found, limit=told.limit, spot=told.spot),
        do=_('Put it back on now (type "back on"), read that spot again'),
        ends=_("That reading, spot named, ends this, or throwing it away")
        if told.finding.spot
        else _("That reading ends this, or throwing it away"),
    )


def _spots_differ(told: Told) -> Words:
    return Words(
        found=_("two readings differ, and the lower one, {found}, stands against {limit}").format(
            found=told.found, limit=told.limit
        ),
        do=_("Read the coldest spot a third time, off bone and fat"),
        ends=_("A third reading near either one ends this"),
    )


def _not_intact(told: Told) -> Words:
    return Words(
        found=_("{limit} is the minimum here, because this meat is not intact").format(limit=told.limit),
        do=_("Read the middle; what was outside may lie inside"),
        ends=_("It counts until you tell me that the meat is intact"),
    )


def _time_counts(told: Told) -> Words:
    if told.finding.found_min is None:
        found = _("time at a lower temperature counts, by your choice, and none is measured yet")
    else:
        found = _("{lasted} of {most} done at a lower temperature, by your choice").format(
            lasted=told.lasted, most=told.most
        )
    return Words(
        found=found,
        do=_("Keep reading the coldest spot: only read time counts"),
        ends=_("All of it, or a reading of the minimum, ends this"),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "minimum_not_measured": _minimum_not_measured,
    "pulled_under_minimum": _pulled_under_minimum,
    "spots_differ": _spots_differ,
    "not_intact": _not_intact,
    "time_counts": _time_counts,
}
"""Words by rule."""
