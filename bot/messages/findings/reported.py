"""Words of what was reported: food on the ground, raw juices on cooked food, a thermometer that is wrong."""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.findings.told import Told, Words
from bot.messages.words import _
from scheduler.safety import FindingLevel


def _food_spoiled(told: Told) -> Words:
    if told.finding.level is FindingLevel.STOP:
        return Words(
            found=_("it fell down cooked, at {since}").format(since=told.since),
            do=_("Let nobody eat it: bin the whole piece"),
            ends=_("Throwing it away ends this, or taking the word back"),
        )
    return Words(
        found=_("it fell down at {since}, and nobody said whether raw or done").format(since=told.since),
        do=_('Let nobody eat it; type "raw" or "done", in doubt bin it'),
        ends=_("Either word ends this"),
    )


def _raw_touched(told: Told) -> Words:
    return Words(
        found=_("raw meat or juices touched it at {since}").format(since=told.since)
        if not told.read
        else _("raw meat or juices touched it at {since}, and it reads {found} since").format(
            since=told.since, found=told.found
        ),
        do=_("Let nobody eat it: cook on, covered, until {limit} at the coldest spot, or bin it").format(
            limit=told.plain_limit
        ),
        ends=_("That reading or throwing it away ends this"),
    )


def _reader_doubted(told: Told) -> Words:
    return Words(
        found=_("the thermometer is said to be wrong since {since}").format(since=told.since),
        do=_('Read the coldest spot with another one: type "another thermometer", then the number'),
        ends=_('{limit} read with it ends this, or "the thermometer is right"').format(limit=told.limit),
    )


WORDS: dict[str, Callable[[Told], Words]] = {
    "food_spoiled": _food_spoiled,
    "raw_touched": _raw_touched,
    "reader_doubted": _reader_doubted,
}
"""Words by rule."""
