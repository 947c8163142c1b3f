"""What can be asked for: what a person wants once their words have been understood, and the right that each needs.

Values only; nothing is read or done here. Every intent can be written as JSON (it is what a button means), so that
a tap and typed words are one.
"""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from bot.commands.asking import Ask, Topic
from bot.commands.care import UNNAMED, CareSaid, Doneness, EditionSaid, SafeBySaid, TargetSaid, TreatedSaid
from bot.commands.crew import (
    CallName,
    CancelInvites,
    CannotWatch,
    Claim,
    ClaimBack,
    DeclineWatch,
    HandOver,
    HeardIt,
    Invite,
    LeftSaid,
    LeverNo,
    Nod,
    RoleSaid,
    SafeDefault,
    SoundCheck,
    TakeWatch,
    WrongCook,
)
from bot.commands.dispute import TwoSpots
from bot.commands.intent import Said
from bot.commands.manner import MannerSaid
from bot.commands.readings import OtherNumber, Report, Value
from bot.commands.rights import needs
from bot.commands.safety import BackOn, Discard, ReadAgain, WaveOff
from bot.commands.setup import (
    AddPiece,
    AirSaid,
    CookerSaid,
    Draft,
    DropPiece,
    ForCook,
    FuelSaid,
    GuestsSaid,
    HowMuch,
    LastTime,
    MoreCuts,
    NewCook,
    PieceDraft,
    ReadBySaid,
    SetUp,
    SetUpSlot,
    VaguePiece,
)
from bot.commands.trouble import DANGERS, OF_FLAMES, OF_PEOPLE, Pause, TakeLever, Trouble, TroubleOver
from bot.commands.wishes import KindSaid, RestSaid, Suppose, SureSaid, WatchesSaid, WatchSpan
from scheduler.facts import Detail, Feel, Serving, Slot, Wrap

__all__ = [
    "DANGERS",
    "INTENT",
    "OF_FLAMES",
    "OF_PEOPLE",
    "UNNAMED",
    "AddPiece",
    "Agreed",
    "AirSaid",
    "Ask",
    "BackOn",
    "CallName",
    "CallOff",
    "CancelInvites",
    "CannotWatch",
    "CareSaid",
    "ChangePlan",
    "ChoosePlan",
    "Claim",
    "ClaimBack",
    "CookerSaid",
    "Correct",
    "DeclineWatch",
    "Discard",
    "Done",
    "Doneness",
    "Draft",
    "DropPiece",
    "EditionSaid",
    "FeelSaid",
    "ForCook",
    "FuelSaid",
    "GuestsSaid",
    "HandOver",
    "HeardIt",
    "HowMuch",
    "Intent",
    "Invite",
    "Join",
    "KindSaid",
    "LastTime",
    "LeftSaid",
    "LeverNo",
    "MannerSaid",
    "MoreCuts",
    "MoveDinner",
    "MovePit",
    "NewCook",
    "Nod",
    "NotYet",
    "Note",
    "OtherNumber",
    "Pause",
    "PieceDraft",
    "PutOffFor",
    "ReadAgain",
    "ReadBySaid",
    "Report",
    "RestSaid",
    "RoleSaid",
    "SafeBySaid",
    "SafeDefault",
    "SetUp",
    "SetUpSlot",
    "Skip",
    "SoundCheck",
    "Suppose",
    "SureSaid",
    "TakeLever",
    "TakeWatch",
    "TargetSaid",
    "TellMe",
    "Topic",
    "TreatedSaid",
    "Trouble",
    "TroubleOver",
    "TwoSpots",
    "Unclear",
    "Undo",
    "VaguePiece",
    "Value",
    "WatchSpan",
    "WatchesSaid",
    "WaveOff",
    "WrapSaid",
    "WrongCook",
    "chatter",
    "needs",
    "stamped",
]


class Done(Said):
    """A step is done. Without `step` it answers what is open; `every` closes all ticks of the open trip."""

    kind: Literal["done"] = "done"
    step: str | None = None
    outcome: str | None = None
    at: dt.datetime | None = None
    every: bool = False
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""
    sure: bool = False
    """True once somebody answered that it was so long ago."""


class Skip(Said):
    """Not this time."""

    kind: Literal["skip"] = "skip"
    step: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class NotYet(Said):
    """Ask again later, in the step's own rhythm."""

    kind: Literal["not_yet"] = "not_yet"
    step: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class PutOffFor(Said):
    """Ask again in so many minutes."""

    kind: Literal["put_off"] = "put_off"
    minutes: float
    step: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class FeelSaid(Said):
    """What the probe or the fingers felt."""

    kind: Literal["feel"] = "feel"
    feel: Feel
    spot: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class WrapSaid(Said):
    """A wrap: done, or only decided. `wrap` None: wrapped, kind not said."""

    kind: Literal["wrap"] = "wrap"
    wrap: Wrap | None
    done: bool = True
    at: dt.datetime | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class Undo(Said):
    """Take back the last thing this person told."""

    kind: Literal["undo"] = "undo"


class Correct(Said):
    """The last reading was wrong: take this in its place."""

    kind: Literal["correct"] = "correct"
    value_c: float | None = None
    old_c: float | None = None
    slot: Slot | None = None
    """Given when the value belongs to the other probe."""
    at: dt.datetime | None = None
    """Given when it was another time (UTC): the last dated thing this person told keeps the rest."""


class ChangePlan(Said):
    """Other figures for the cook that runs: how many pieces, how heavy each, the unit spoken. None: as it was."""

    kind: Literal["change_plan"] = "change_plan"
    count: int | None = None
    mass_kg: float | None = None
    unit: Literal["C", "F"] | None = None
    cut: str | None = None
    """Another cut, as long as the meat is not on."""
    piece: str | None = None


class MoveDinner(Said):
    """Eat at another time: a new serving time, or so many minutes later (earlier when negative)."""

    kind: Literal["move_dinner"] = "move_dinner"
    serving: Serving | None = None
    minutes: float | None = None
    piece: str | None = None


class MovePit(Said):
    """Run the pit in another band from now on."""

    kind: Literal["move_pit"] = "move_pit"
    pit_low_c: float
    pit_high_c: float


class ChoosePlan(Said):
    """Of the plans that were offered, this one: its pit [°C] and its wrap (None: decided at the bark)."""

    kind: Literal["choose_plan"] = "choose_plan"
    pit_low_c: float
    pit_high_c: float
    wrap: Wrap | None = None


class TellMe(Said):
    """How much to be told from now on: every step, the usual, only decisions."""

    kind: Literal["tell_me"] = "tell_me"
    detail: Detail


class CallOff(Said):
    """End the cook."""

    kind: Literal["call_off"] = "call_off"
    sure: bool = False


class Join(Said):
    """Here is my code."""

    kind: Literal["join"] = "join"
    code: str


class Agreed(Said):
    """Whoever decides says yes to what was asked for under this name; what was asked for goes with it."""

    kind: Literal["agreed"] = "agreed"
    lever: str
    wanted: Intent


class Note(Said):
    """Words to be kept with the cook."""

    kind: Literal["note"] = "note"
    text: str


class Unclear(Said):
    """Understood only in part: one short question decides. `options` are (label key, intent) pairs to choose from.

    `question` is a key that `bot.messages` has words for: unit, slot, typo, which_step, skip_which, was_or_in,
    which_wrap, is_dinner, which_day, which_time, not_come, which_piece, which_cook, impossible, out_of_range,
    guests_or_time, not_understood.

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
    Report | OtherNumber | GuestsSaid | AddPiece | DropPiece | NewCook | ForCook | Done | Skip | NotYet | PutOffFor
    | FeelSaid | WrapSaid | Undo | Correct | Ask | Draft | SetUp | LastTime | MoreCuts | ChangePlan | MoveDinner
    | MovePit | ChoosePlan | AirSaid
    | CookerSaid | FuelSaid | ReadBySaid | TellMe | WatchesSaid | KindSaid | SureSaid | RestSaid | Suppose
    | BackOn | Discard | ReadAgain | WaveOff | TwoSpots
    | CareSaid | TreatedSaid | SafeBySaid | TargetSaid | EditionSaid
    | CallOff | Join | Invite | Trouble | TroubleOver | TakeLever | Pause
    | CancelInvites | RoleSaid | LeftSaid | Claim | ClaimBack | HandOver | TakeWatch | DeclineWatch | Nod
    | CannotWatch | CallName
    | LeverNo | SafeDefault | SoundCheck | HeardIt | Agreed | WrongCook
    | HowMuch | MannerSaid | Note | Unclear,
    Field(discriminator="kind"),
]  # fmt: skip

Agreed.model_rebuild()
Unclear.model_rebuild()

INTENT: TypeAdapter[Intent] = TypeAdapter(Intent)
"""Reads and writes an intent as JSON."""


def stamped(intent: Intent, piece: str) -> Intent:
    """Return an intent that is about a piece: the options of a question, too, and the cores of a report."""
    if isinstance(intent, Unclear):
        options = tuple((label, stamped(meaning, piece)) for label, meaning in intent.options)
        return intent.model_copy(update={"options": options})
    if isinstance(intent, Report):
        values = tuple(
            value if value.slot is Slot.PIT or value.piece else value.model_copy(update={"piece": piece})
            for value in intent.values
        )
        return intent.model_copy(update={"values": values})
    if "piece" in type(intent).model_fields and getattr(intent, "piece", None) is None:
        return intent.model_copy(update={"piece": piece})
    return intent


def chatter(wanted: tuple[Intent, ...]) -> bool:
    """Return whether nothing of a text was meant for the program: in a group people talk to one another, too."""
    return all(_says_nothing(intent) for intent in wanted)


def _says_nothing(intent: Intent) -> bool:
    """Return whether an intent is nothing understood, or a time by itself that answers no question."""
    if isinstance(intent, Unclear):
        meanings = [meaning for _, meaning in intent.options]
        times = bool(meanings) and all(isinstance(one, Done | PutOffFor) and one.step is None for one in meanings)
        return intent.question == "not_understood" or times
    return isinstance(intent, Done) and intent.step is None and intent.at is not None
