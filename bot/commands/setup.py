"""What is said of a cook to come, or of what belongs to it: meat, pieces, guests, air, another cook.

Values only.
"""

from __future__ import annotations

import datetime as dt
from typing import Literal

from bot.commands.care import CareSaid, SafeBySaid, TargetSaid, TreatedSaid
from bot.commands.intent import Said
from scheduler.facts import Appetite, CookerKind, Detail, Edition, ReadBy, Serving, Wrap


class AirSaid(Said):
    """What the air around the cooker is like: a number [°C] or a word, and the wind. None was not said."""

    kind: Literal["air"] = "air"
    temp_c: float | None = None
    word: Literal["cold", "cool", "warm", "hot"] | None = None
    wind: Literal["calm", "windy"] | None = None


class CookerSaid(Said):
    """The cooker: its kind, and the name of its card when it has one."""

    kind: Literal["cooker"] = "cooker"
    cooker: CookerKind
    card: str | None = None


class FuelSaid(Said):
    """Charcoal put in [kg], or added to what burns."""

    kind: Literal["fuel"] = "fuel"
    kg: float
    added: bool = False


class ReadBySaid(Said):
    """How the core of the meat is read."""

    kind: Literal["read_by"] = "read_by"
    read_by: ReadBy


class PieceDraft(Said):
    """One more piece of a cook as it was said; None is unknown."""

    cut: str
    count: int | None = None
    mass_kg: float | None = None
    pit_low_c: float | None = None
    pit_high_c: float | None = None
    serving: Serving | None = None
    wrap: Wrap | None = None
    treated: TreatedSaid | None = None
    target: TargetSaid | None = None
    safe_by: SafeBySaid | None = None


class VaguePiece(Said):
    """One more piece of a cook whose cut has to be asked: the `words` that may name several ("ribs"), and what was said
    of it.
    """

    words: str
    count: int | None = None
    mass_kg: float | None = None
    wrap: Wrap | None = None


class GuestsSaid(Said):
    """Who eats; None was not said."""

    kind: Literal["guests"] = "guests"
    adults: int | None = None
    children: int | None = None
    appetite: Appetite | None = None
    buns: bool | None = None
    fewest: int | None = None
    """Of "14 to 16" the low end; the high one is planned for."""


class HowMuch(Said):
    """A question about amounts of meat: for these guests, of this cut, or whether so much is enough. None: not said."""

    kind: Literal["how_much"] = "how_much"
    cut: str | None = None
    guests: GuestsSaid | None = None
    mass_kg: float | None = None
    """Mass of one piece that is asked about [kg]."""
    count: int | None = None


class ForCook(Said):
    """The words of an earlier message, meant for this one of several cooks."""

    kind: Literal["for_cook"] = "for_cook"
    cook: str
    text: str
    at: dt.datetime


class Draft(Said):
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
    frozen: bool | None = None
    """True when the meat is bought frozen and has to be thawed."""
    on_at: dt.datetime | None = None
    core_c: float | None = None
    air: AirSaid | None = None
    cooker: CookerSaid | None = None
    read_by: ReadBy | None = None
    confidence: float | None = None
    """Wanted probability of eating on time, as it was said: 0.95 of "95 % sure"."""
    detail: Detail | None = None
    more: tuple[PieceDraft, ...] = ()
    """The other pieces of the same cook."""
    vague: tuple[VaguePiece, ...] = ()
    """Further pieces of which the cut has to be asked."""
    settles: str | None = None
    """The words of the vague piece that is settled by this: it is among `more`, or is left out."""
    guests: GuestsSaid | None = None
    care: CareSaid | None = None
    treated: TreatedSaid | None = None
    target: TargetSaid | None = None
    safe_by: SafeBySaid | None = None
    edition: Edition | None = None
    ignored: tuple[str, ...] = ()
    """Words of this text that were recognised but cannot be used: a second cut, a mass, date or pit that cannot be."""
    walked: bool | None = None
    """True when its cut was tapped: mass and dinner are asked as well, and the whole is shown before it begins."""
    mass_usual: bool | None = None
    """True when the mass was asked and nobody knows it: the usual one of the cut is planned with."""


SetUpSlot = Literal["cut", "mass", "serving", "pit", "wrap", "who"]
"""What of a set-up can be changed by a tap."""


class SetUp(Said):
    """Go about a set-up by taps: begin it, one step back, start over, go on with it, or say one thing of it anew.

    Of a cook that runs: show what can be changed ("change"), or ask for one thing anew.
    """

    kind: Literal["set_up"] = "set_up"
    what: Literal["begin", "back", "over", "go_on", "change"] | SetUpSlot


class LastTime(Said):
    """Set up a cook like an earlier one of this room, by its id; only the date is asked."""

    kind: Literal["last_time"] = "last_time"
    cook: str


class AddPiece(Said):
    """Cook one more piece in the same cook."""

    kind: Literal["add_piece"] = "add_piece"
    more: tuple[PieceDraft, ...]
    ignored: tuple[str, ...] = ()


class DropPiece(Said):
    """A piece is not cooked after all."""

    kind: Literal["drop_piece"] = "drop_piece"
    piece: str


class NewCook(Said):
    """Begin one more cook beside the one that runs; `text` is what was said of it."""

    kind: Literal["new_cook"] = "new_cook"
    text: str


class MoreCuts(Said):
    """Show the other cuts that can be planned: the animals, or all cuts of one."""

    kind: Literal["more_cuts"] = "more_cuts"
    of: Literal["beef", "pork", "lamb", "poultry", "fish", "own"] | None = None
