"""Words of raw meat: too old, left out, not thawed, a fridge too warm."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _
from scheduler.safety import FindingLevel


def _raw_too_old(told: Told) -> Words:
    return Words(
        found=_("raw meat kept for {lasted}, {most} at most").format(lasted=told.lasted, most=told.most),
        do=_("Look at its date and how cold it was kept; in doubt throw it away, smell is no test"),
        ends=_("Correcting the day ends this, or throwing it away"),
    )


def _raw_left_out(told: Told) -> Words:
    return Words(
        found=_("raw meat out of the cold for {lasted}, {most} at most").format(lasted=told.lasted, most=told.most),
        do=_("Do not cook it; throw it away"),
        ends=_("Throwing it away ends this, or correcting a wrong time"),
    )


def _thaw_counter(told: Told) -> Words:
    return Words(
        found=_("meat thaws on the counter: its outside warms long before its middle"),
        do=_("Put it into the fridge{by}, or sealed into cold water that is changed every 30 minutes").format(
            by=told.by
        ),
        ends=_("Telling me that it is back in the fridge ends this"),
    )


def _thaw_not_done(told: Told) -> Words:
    found = _("{found} in the middle: not thawed") if told.read else _("not measured: nobody felt it soft all through")
    return Words(
        found=found.format(found=told.found),
        do=_("Thaw it through off the fire, in the fridge or in cold water, never on the counter, before it cooks"),
        ends=_("Telling me that it is soft ends this, or a reading of its middle"),
    )


def _fridge_warm(told: Told) -> Words:
    found = _("fridge {at}, above {limit}").format(at=told.at, limit=told.limit)
    if told.finding.level is FindingLevel.STOP:
        lasted = _("more than two hours") if told.finding.found_min is None else told.lasted
        return Words(
            found=_("{found}, for {lasted}").format(found=found, lasted=lasted),
            do=_("Do not cook what lay in it; throw it away"),
            ends=_("Throwing it away ends this, or correcting a wrong reading"),
        )
    if told.finding.unread:
        return Words(
            found=_("{found}: nobody knows for how long, {lasted} at most").format(found=found, lasted=told.lasted),
            do=_("Do not call it safe: two hours over that is for the bin, and no later number shows it"),
            ends=_("Throwing it away ends this, or earlier fridge readings told now"),
        )
    return Words(
        found=found,
        do=_("Turn it colder, put the food on ice and read again; after two hours so warm, throw it away"),
        ends=_("A fridge read at {limit} or colder ends this").format(limit=told.plain_limit),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "raw_too_old": _raw_too_old,
    "raw_left_out": _raw_left_out,
    "thaw_counter": _thaw_counter,
    "thaw_not_done": _thaw_not_done,
    "fridge_warm": _fridge_warm,
}
"""Words by rule."""
