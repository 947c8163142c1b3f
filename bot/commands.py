"""What can be asked for: what a person wants once their words have been understood, and the right that each needs.

Values only; nothing is read or done here. Every intent can be written as JSON (it is what a button means), so that
a tap and typed words are one.
"""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from bot.crew import Right
from scheduler.facts import CookerKind, Detail, Feel, ReadBy, Serving, Slot, Wrap


class _Intent(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Topic(StrEnum):
    """What can be asked."""

    HOW_LONG = "how_long"
    WHAT_NEXT = "what_next"
    PLAN = "plan"
    PLAN_REST = "plan_rest"
    """The lines of the plan that did not fit."""
    SAFE = "safe"
    STALL = "stall"
    REST = "rest"
    """How long it rests, and how long the box keeps it."""
    WHEN = "when"
    """When it comes off, and what comes next."""
    STEP = "step"
    """When one step is due, or was."""
    WHAT_IF = "what_if"
    """When it comes off with another wrap."""
    PAGE = "page"
    """The plan as one printed page."""
    CALENDAR = "calendar"
    """The plan as a calendar file."""
    LEVERS = "levers"
    """What can be done about a cook that runs late or early."""
    CREW = "crew"
    HELP = "help"


class Value(_Intent):
    """One number as understood: temperatures in °C; `slot` None when nothing told which."""

    value_c: float
    slot: Slot | None = None
    spread_c: float = 0.0
    spot: str | None = None


class Report(_Intent):
    """Readings, at an instant."""

    kind: Literal["report"] = "report"
    values: tuple[Value, ...]
    at: dt.datetime | None = None
    """When it was read (UTC); None: when the message was sent."""
    spot_confirmed: bool = False
    """True when the person answered that the surprising value is real."""


class Done(_Intent):
    """A step is done. Without `step` it answers what is open; `every` closes all ticks of the open trip."""

    kind: Literal["done"] = "done"
    step: str | None = None
    outcome: str | None = None
    at: dt.datetime | None = None
    every: bool = False


class Skip(_Intent):
    """Not this time."""

    kind: Literal["skip"] = "skip"
    step: str | None = None


class NotYet(_Intent):
    """Ask again later, in the step's own rhythm."""

    kind: Literal["not_yet"] = "not_yet"
    step: str | None = None


class PutOffFor(_Intent):
    """Ask again in so many minutes."""

    kind: Literal["put_off"] = "put_off"
    minutes: float
    step: str | None = None


class FeelSaid(_Intent):
    """What the probe or the fingers felt."""

    kind: Literal["feel"] = "feel"
    feel: Feel
    spot: str | None = None


class WrapSaid(_Intent):
    """A wrap: done, or only decided. `wrap` None: wrapped, kind not said."""

    kind: Literal["wrap"] = "wrap"
    wrap: Wrap | None
    done: bool = True
    at: dt.datetime | None = None


class Undo(_Intent):
    """Take back the last thing this person told."""

    kind: Literal["undo"] = "undo"


class Correct(_Intent):
    """The last reading was wrong: take this in its place."""

    kind: Literal["correct"] = "correct"
    value_c: float | None = None
    old_c: float | None = None
    slot: Slot | None = None
    """Given when the value belongs to the other probe."""
    at: dt.datetime | None = None
    """Given when it was another time (UTC): the last dated thing this person told keeps the rest."""


class Ask(_Intent):
    """A question to the program."""

    kind: Literal["ask"] = "ask"
    topic: Topic
    step: str | None = None
    """The step asked about."""
    wrap: Wrap | None = None
    """The wrap asked about."""


class AirSaid(_Intent):
    """What the air around the cooker is like: a number [°C] or a word, and the wind. None was not said."""

    kind: Literal["air"] = "air"
    temp_c: float | None = None
    word: Literal["cold", "cool", "warm", "hot"] | None = None
    wind: Literal["calm", "windy"] | None = None


class CookerSaid(_Intent):
    """The cooker: its kind, and the name of its card when it has one."""

    kind: Literal["cooker"] = "cooker"
    cooker: CookerKind
    card: str | None = None


class FuelSaid(_Intent):
    """Charcoal put in [kg], or added to what burns."""

    kind: Literal["fuel"] = "fuel"
    kg: float
    added: bool = False


class ReadBySaid(_Intent):
    """How the core of the meat is read."""

    kind: Literal["read_by"] = "read_by"
    read_by: ReadBy


class Draft(_Intent):
    """What has been said of a cook so far; None is unknown."""

    kind: Literal["draft"] = "draft"
    cut: str | None = None
    unknown_cut: str | None = None
    """Words that stood where a cut was expected."""
    count: int | None = None
    mass_kg: float | None = None
    pit_low_c: float | None = None
    pit_high_c: float | None = None
    serving: Serving | None = None
    wrap: Wrap | None = None
    on_at: dt.datetime | None = None
    core_c: float | None = None
    air: AirSaid | None = None
    cooker: CookerSaid | None = None
    read_by: ReadBy | None = None
    ignored: tuple[str, ...] = ()
    """Words of this text that were recognised but cannot be used: a second cut, a mass, date or pit that cannot be."""


class MoreCuts(_Intent):
    """Show the other cuts that can be planned: the animals, or all cuts of one."""

    kind: Literal["more_cuts"] = "more_cuts"
    of: Literal["beef", "pork", "lamb", "poultry", "fish", "own"] | None = None


class ChangePlan(_Intent):
    """Other figures for the cook that runs: how many pieces, how heavy each, the unit spoken. None: as it was."""

    kind: Literal["change_plan"] = "change_plan"
    count: int | None = None
    mass_kg: float | None = None
    unit: Literal["C", "F"] | None = None


class MoveDinner(_Intent):
    """Eat at another time: a new serving time, or so many minutes later (earlier when negative)."""

    kind: Literal["move_dinner"] = "move_dinner"
    serving: Serving | None = None
    minutes: float | None = None


class MovePit(_Intent):
    """Run the pit in another band from now on."""

    kind: Literal["move_pit"] = "move_pit"
    pit_low_c: float
    pit_high_c: float


class ChoosePlan(_Intent):
    """Of the plans that were offered, this one: its pit [°C] and its wrap (None: decided at the bark)."""

    kind: Literal["choose_plan"] = "choose_plan"
    pit_low_c: float
    pit_high_c: float
    wrap: Wrap | None = None


class TellMe(_Intent):
    """How much to be told from now on: every step, the usual, only decisions."""

    kind: Literal["tell_me"] = "tell_me"
    detail: Detail


class CallOff(_Intent):
    """End the cook."""

    kind: Literal["call_off"] = "call_off"
    sure: bool = False


class Join(_Intent):
    """Here is my code."""

    kind: Literal["join"] = "join"
    code: str


class Invite(_Intent):
    """Make a single-use code for somebody."""

    kind: Literal["invite"] = "invite"


DANGERS = frozenset({"burn", "co_symptom", "grease_fire", "lightning"})
"""Problems in which people are in danger: anybody may report them at any time, and they are answered first."""


class Trouble(_Intent):
    """A problem reported unasked, by its id in the catalogue: fire_out, pit_hot, probe_bone, burn, ..."""

    kind: Literal["trouble"] = "trouble"
    what: str
    text: str


class TroubleOver(_Intent):
    """A problem is over; without `what` the one that stands."""

    kind: Literal["trouble_over"] = "trouble_over"
    what: str | None = None


class TakeLever(_Intent):
    """One of the offered ways to be on time; "nothing" changes nothing. `piece` None: the one that decides."""

    kind: Literal["take_lever"] = "take_lever"
    lever: str
    piece: str | None = None


class Pause(_Intent):
    """Half-cooked meat is to be paused: asked for, and always refused."""

    kind: Literal["pause"] = "pause"


class Note(_Intent):
    """Words to be kept with the cook."""

    kind: Literal["note"] = "note"
    text: str


class Unclear(_Intent):
    """Understood only in part: one short question decides. `options` are (label key, intent) pairs to choose from.

    `question` is a key that `bot.messages` has words for: unit, slot, typo, which_step, skip_which, was_or_in,
    which_wrap, which_time, impossible, not_understood.

    Label keys: core, pit (slot); celsius, fahrenheit (unit); was, in (was_or_in); paper, foil, boat (which_wrap);
    every (which_step, all at once); yesterday, today (which_time). A label that is no key is shown as it is: the
    title of a step, figures, a time.
    """

    kind: Literal["unclear"] = "unclear"
    question: str
    text: str
    values: tuple[float, ...] = ()
    """Numbers that the words of the question need, as typed."""
    options: tuple[tuple[str, Intent], ...] = ()


Intent = Annotated[
    Report | Done | Skip | NotYet | PutOffFor | FeelSaid | WrapSaid | Undo | Correct | Ask | Draft | MoreCuts
    | ChangePlan | MoveDinner | MovePit | ChoosePlan | AirSaid | CookerSaid | FuelSaid | ReadBySaid | TellMe | CallOff
    | Join | Invite | Trouble | TroubleOver | TakeLever | Pause | Note | Unclear,
    Field(discriminator="kind"),
]  # fmt: skip

Unclear.model_rebuild()

INTENT: TypeAdapter[Intent] = TypeAdapter(Intent)
"""Reads and writes an intent as JSON."""

_NEEDS: dict[str, Right] = {
    "ask": Right.ASK,
    "pause": Right.ASK,
    "take_lever": Right.DECIDE,
    "skip": Right.DECIDE,
    "change_plan": Right.DECIDE,
    "move_dinner": Right.DECIDE,
    "move_pit": Right.DECIDE,
    "choose_plan": Right.DECIDE,
    "tell_me": Right.DECIDE,
    "cooker": Right.DECIDE,
    "read_by": Right.DECIDE,
    "call_off": Right.START,
    "draft": Right.START,
    "more_cuts": Right.START,
    "invite": Right.INVITE,
}


def needs(intent: Intent) -> Right:
    """Return the right that an intent needs; whatever is not named is a report."""
    if isinstance(intent, Trouble) and intent.what in DANGERS:
        return Right.ASK
    return _NEEDS.get(intent.kind, Right.REPORT)


def chatter(wanted: tuple[Intent, ...]) -> bool:
    """Return whether nothing of a text was meant for the program: in a group people talk to one another, too."""
    return all(isinstance(intent, Unclear) and intent.question == "not_understood" for intent in wanted)
