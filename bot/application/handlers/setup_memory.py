"""A half-finished set-up: what is remembered of it between two messages, and the voice in which it is spoken of."""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from bot import commands as say
from bot.application.visit import Visit, Work
from bot.application.voices import DEFAULT_UNIT
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.ports import Json, SessionWrite

_SAME_C = 0.01
"""Two temperatures nearer than this are the same number [°C]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Setup:
    """A half-finished set-up as it is remembered: what was said, the open question, the unit people use."""

    draft: say.Draft = dataclasses.field(default_factory=say.Draft)
    slot: str | None = None
    unit: str | None = None
    asked_at: dt.datetime | None = None
    """When its question was asked, for one more cook beside another that runs."""
    like: str | None = None
    """The id of the earlier cook that it is to be like."""
    was: say.Draft | None = None
    """What was said before one thing of it was to be said anew: the way back."""

    def as_json(self) -> Json:
        """Return it as JSON."""
        asked = None if self.asked_at is None else self.asked_at.isoformat()
        said = self.draft.model_dump(mode="json")
        was = None if self.was is None else self.was.model_dump(mode="json")
        return {"draft": said, "slot": self.slot, "unit": self.unit, "asked_at": asked, "like": self.like, "was": was}


def remembered(data: Json | None) -> Setup | None:
    """Return the set-up from JSON, None when there is none."""
    if data is None or "draft" not in data:
        return None
    slot, unit, asked, like = (data.get(name) for name in ("slot", "unit", "asked_at", "like"))
    return Setup(
        draft=say.Draft.model_validate(data["draft"]),
        slot=slot if isinstance(slot, str) else None,
        unit=unit if isinstance(unit, str) else None,
        asked_at=dt.datetime.fromisoformat(asked) if isinstance(asked, str) else None,
        like=like if isinstance(like, str) else None,
        was=None if data.get("was") is None else say.Draft.model_validate(data["was"]),
    )


def unit_used(text: str, drafts: list[say.Draft]) -> str | None:
    """Return the unit that a person used for a temperature, None when the text shows none.

    A letter decides; without one a number that stands in the text as it was understood in Celsius is Celsius.
    """
    letters = re.findall(r"\d\s*(?:°|º|deg(?:rees)?)?\s*([cf])\b", text.casefold())
    if letters:
        return str(letters[-1]).upper()
    temps = [t for d in drafts for t in (d.pit_low_c, d.pit_high_c, d.core_c) if t is not None]
    numbers = {float(n) for n in re.findall(r"\d+(?:\.\d+)?", text.replace(",", "."))}
    if not temps or not numbers:
        return None
    return "C" if any(abs(n - t) < _SAME_C for n in numbers for t in temps) else "F"


def setup_voice(visit: Visit, unit: str | None) -> Voice:
    """Return the voice in which a set-up is spoken of: the unit of its room, else the one that was used in it."""
    return Voice(
        zone=visit.house.zone,
        unit=visit.manner.unit or unit or DEFAULT_UNIT,
        now=visit.now,
        language=visit.manner.language,
    )


def remember(visit: Visit, work: Work, known: Setup) -> None:
    """Write what is to be remembered of a set-up."""
    kept = dataclasses.replace(known, asked_at=visit.now if visit.beside else None)
    work.sessions.append(SessionWrite(address=visit.address, person=visit.sets_up, data=kept.as_json()))


def forget(visit: Visit, work: Work) -> None:
    """Forget the set-up of this person in this room."""
    work.sessions.append(SessionWrite(address=visit.address, person=visit.sets_up, data=None))


def say_here(visit: Visit, work: Work, message: Message) -> None:
    """Write the answer for whoever sets up."""
    work.say(message, to=visit.address, key=f"answer:{visit.row_id}")
