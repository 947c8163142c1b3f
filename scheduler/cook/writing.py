"""Writing facts: ids, instants and authors in one place, and what a change overtakes."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook.situation import Situation, assess
from scheduler.facts import Body, Fact, Withdrawn
from scheduler.planning.catalogue import Catalogue
from scheduler.state import OVERTAKEN


@dataclasses.dataclass
class Pen:
    """Appends facts to a log. Ids are `seed.number`, so that the same decision taken again writes the same ids."""

    log: tuple[Fact, ...]
    cook: str
    piece: str
    seed: str
    now: dt.datetime
    written: tuple[Fact, ...] = ()

    def write(
        self,
        body: Body,
        *,
        at: dt.datetime | None = None,
        by: str | None = None,
        answers: tuple[str, ...] = (),
        message: str | None = None,
        piece: str | None = None,
    ) -> Fact:
        """Append one fact and return it; `piece` None is the piece of the pen."""
        fact = Fact(
            id=f"{self.seed}.{len(self.written)}",
            cook=self.cook,
            piece=piece or self.piece,
            happened_at=at or self.now,
            recorded_at=self.now,
            by=by,
            body=body,
            answers=answers,
            message=message,
        )
        self.written = (*self.written, fact)
        return fact

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Return the log with what was written."""
        return (*self.log, *self.written)

    def settle(self, before: Situation | None, catalogue: Catalogue) -> Situation:
        """Return the situation after what was written, having withdrawn the prompts that it overtook.

        A prompt that was asked, or whose time had come, and that the new schedule no longer holds, is withdrawn: also
        one that only time has overtaken since the newest fact (the feel is so near by now that it asks for the number).
        """
        after = assess(self.facts, catalogue, self.now)
        if before is None:
            return after
        kept = {p.key for p in after.prompts} | after.closed
        promised = {p.key: p for p in assess(self.log, catalogue).prompts} | {p.key: p for p in before.prompts}
        for prompt in promised.values():
            known = prompt.asked > 0 or prompt.due_at <= self.now
            if known and prompt.key not in kept and prompt.key not in after.withdrawn:
                self.write(Withdrawn(prompt=prompt.key, reason=OVERTAKEN))
        return assess(self.facts, catalogue, self.now) if len(self.facts) > len(self.log) else after
