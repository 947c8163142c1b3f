"""Whether a correction of a reading can be believed; one that nobody can is refused and the old number stands. Pure."""

from __future__ import annotations

import dataclasses

from scheduler.cook import plausible
from scheduler.cook.changes import Refusal
from scheduler.cook.situation import Situation, assess
from scheduler.facts import Corrected, Fact, Reading, Undone
from scheduler.planning.catalogue import Catalogue


def not_believed(
    corrected: Corrected, target: Fact, before: Situation, facts: tuple[Fact, ...], catalogue: Catalogue
) -> Refusal | None:
    """Return why a core is not corrected to what was told, None when it is.

    It is judged by the forecast that has never heard of the number that it replaces: that one may have been the slip.
    """
    if not (isinstance(corrected.body, Reading) and isinstance(target.body, Reading)):
        return None
    at = corrected.happened_at or target.happened_at
    if not plausible.far_from(target.body, corrected.body, at, before.seen_from(target.piece)):
        return None
    gone = dataclasses.replace(target, id=f"{target.id}.gone", body=Undone(of=target.id), answers=())
    without = assess((*facts, gone), catalogue).seen_from(target.piece)
    expected = plausible.unlikely(corrected.body, at, without)
    if expected is None:
        return None
    piece = target.piece if before.several else None
    return Refusal(
        reason="unlikely_core", at=at, core_c=corrected.body.value_c, expected_c=expected.expected_c, piece=piece
    )
