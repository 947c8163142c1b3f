"""What each kind of fact says, in a few words: for receipts, echoes and undo."""

from __future__ import annotations

from bot.messages.advice_words import LEVERS
from bot.messages.care import care_text
from bot.messages.cooker import cooker_text, fuel_text
from bot.messages.figures import Voice, both, kilograms
from bot.messages.language import capital, in_series, small
from bot.messages.problem_over import over_words
from bot.messages.steps import step_words
from bot.messages.watches import watches_told
from bot.messages.words import _, n_
from scheduler.facts import (
    AirTold,
    Appetite,
    Body,
    CareTold,
    Closed,
    CookerTold,
    Detail,
    DetailTold,
    Discarded,
    Divided,
    EditionTold,
    Fact,
    Feel,
    Felt,
    FuelTold,
    GuestsTold,
    KindTold,
    LeverTaken,
    MovedToOven,
    Noted,
    PhotoKept,
    PieceAdded,
    PieceDropped,
    PitMoved,
    Planned,
    PutBack,
    PutOff,
    Reading,
    RestPlace,
    RestTold,
    SafeByTold,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    TargetTold,
    TreatedTold,
    Troubled,
    WatchesTold,
    Wrap,
    Wrapped,
    WrapPlanned,
)

_LONGEST = 60
"""Somebody's own words are quoted up to this length."""

_WRAPPED = {
    Wrap.NONE: lambda: _("Bare to the end"),
    Wrap.PAPER: lambda: _("Wrapped in paper"),
    Wrap.FOIL: lambda: _("Wrapped in foil"),
    Wrap.BOAT: lambda: _("In a foil boat"),
}


_PLANNED_WRAP = {
    Wrap.NONE: lambda: _("Counting on no wrap from now on"),
    Wrap.PAPER: lambda: _("Counting on paper from now on"),
    Wrap.FOIL: lambda: _("Counting on foil from now on"),
    Wrap.BOAT: lambda: _("Counting on a foil boat from now on"),
}


_REST_PLACES = {
    RestPlace.BOX: lambda: _("To be held in a box"),
    RestPlace.OVEN: lambda: _("To be held in a warm oven"),
    RestPlace.COOKER: lambda: _("To be held in the cooker"),
    RestPlace.BOARD: lambda: _("To rest on the board"),
}


_FELT = {
    Feel.TIGHT: lambda: _("Still tight"),
    Feel.ALMOST: lambda: _("Almost there"),
    Feel.TENDER: lambda: _("Slides in"),
}


_WARMTH = {"cold": lambda: _("cold"), "cool": lambda: _("cool"), "warm": lambda: _("warm"), "hot": lambda: _("hot")}
_WIND = {"calm": lambda: _("calm"), "windy": lambda: _("windy")}


_TOLD = {
    Detail.EVERY: lambda: _("I tell every step"),
    Detail.USUAL: lambda: _("I tell the usual steps"),
    Detail.DECISIONS: lambda: _("I tell only decisions, and whatever is about safety"),
}


def body_text(body: Body, voice: Voice) -> str:
    """Return what a fact says, beginning with a capital and without its time; nothing for what is not told."""
    match body:
        case Reading():
            return _reading_text(body, voice)
        case StepDone():
            return _done_text(body)
        case StepSkipped():
            return _("Skipped: {what}").format(what=step_words(body.step).name)
        case PutOff():
            return _("To be asked again at {time}: {what}").format(
                time=voice.clock(body.until), what=step_words(body.step).name
            )
        case Wrapped():
            return _WRAPPED[body.wrap]()
        case Felt():
            spot = "" if body.spot is None else f" ({body.spot})"
            return _FELT[body.feel]() + spot
        case ServingMoved():
            start = body.serving.starts_at()
            return _("Dinner moved to {time}").format(time=_("when ready") if start is None else voice.clock(start))
        case PitMoved():
            return _("Pit to {pit} from now").format(pit=voice.band(body.pit_low_c, body.pit_high_c))
        case AirTold():
            return _("Air noted: {air}").format(air=air_text(body, voice))
        case CookerTold():
            return cooker_text(body)
        case FuelTold():
            return fuel_text(body)
        case Noted():
            return _("Noted: {text}").format(text=_shortened(body.text)) if body.understood else ""
        case Planned():
            return _planned_text(body)
        case LeverTaken():
            return _("Chosen: {what}").format(what=_lower(LEVERS[body.lever].name())) if body.lever in LEVERS else ""
        case WrapPlanned():
            return _PLANNED_WRAP[body.wrap]()
        case MovedToOven():
            return _("In the oven at {temp}").format(temp=voice.temp(body.oven_c))
        case Divided():
            return _("In {parts} parts").format(parts=body.parts)
        case RestTold():
            return _rest_told(body, voice)
        case Troubled():
            return over_words(body.problem) if body.over else ""
        case PieceAdded():
            return _added_text(body, voice)
        case PutBack():
            return _("Back on the heat")
        case PieceDropped():
            return _("Not cooked after all")
        case GuestsTold():
            return _guests_text(body)
        case WatchesTold():
            return watches_told(body)
        case KindTold():
            told = _("Told from now on: {what}") if body.wanted else _("Not told any more: {what}")
            return told.format(what=step_words(body.step).name)
        case DetailTold():
            return _TOLD[body.detail]()
        case TargetTold():
            return _("Off the fire at {core}").format(core=both(body.core_c))
        case CareTold() | TreatedTold() | SafeByTold() | EditionTold() | Discarded():
            return care_text(body)
        case PhotoKept(step=None):
            return _("Picture kept")
        case PhotoKept(step=str(step)):
            return _("Picture kept with: {what}").format(what=step_words(step).name)
        case Closed():
            return _("The cook is called off; everything stays in the log")
        case _:
            return ""


def _rest_told(rest: RestTold, voice: Voice) -> str:
    """Return how the meat is to rest: where, and how long from the pull to the knife."""
    place = "" if rest.place is None else _REST_PLACES[rest.place]()
    if rest.place is RestPlace.OVEN and rest.oven_c is not None:
        place = _("{place} at {temp}").format(place=place, temp=voice.temp(rest.oven_c))
    if rest.minutes is None:
        return place
    minutes = _("{minutes:g} min from pull to knife").format(minutes=rest.minutes)
    return f"{place}, {minutes}" if place else minutes


def _lower(text: str) -> str:
    return small(text)


def air_text(air: AirTold, voice: Voice) -> str:
    """Return what is known of the air, such as "cold, windy" or "41 F"; nothing when nothing is."""
    warmth = voice.temp(air.temp_c) if air.temp_c is not None else _WARMTH[air.word]() if air.word else ""
    wind = _WIND[air.wind]() if air.wind else ""
    return ", ".join(part for part in (warmth, wind) if part)


def _planned_text(planned: Planned) -> str:
    """Return the plan as it is now: pieces, mass, the wrap that is meant, how much is told."""
    told = _TOLD[planned.detail]()
    meant = {None: _("wrap decided at the bark"), Wrap.NONE: _("bare")}
    wrap = meant.get(planned.wrap, _("wrap: {wrap}").format(wrap=planned.wrap))
    mass = "" if planned.mass_kg is None else _(" of {mass}").format(mass=kilograms(planned.mass_kg))
    pieces = _("{count} pieces").format(count=planned.count) if planned.count > 1 else _("one piece")
    return _("Plan: {pieces}{mass}, {wrap}. {told}").format(pieces=pieces, mass=mass, wrap=wrap, told=told)


def amount_text(count: int | None, mass_kg: float | None) -> str:
    """Return how many pieces of what mass each, as far as that is known."""
    mass = "" if mass_kg is None else kilograms(mass_kg)
    if count is None or (count == 1 and mass):
        return mass
    pieces = _("{count} pieces").format(count=count) if count > 1 else _("one piece")
    return _("{pieces} of {mass}").format(pieces=pieces, mass=mass) if mass else pieces


def _added_text(added: PieceAdded, voice: Voice) -> str:
    """Return what a further piece was added with."""
    parts = [_("added")]
    if added.count > 1:
        parts.append(_("{count} pieces").format(count=added.count))
    if added.mass_kg is not None:
        parts.append(kilograms(added.mass_kg))
    if added.pit_low_c is not None:
        pit = voice.band(added.pit_low_c, added.pit_low_c if added.pit_high_c is None else added.pit_high_c)
        parts.append(_("pit {pit}").format(pit=pit))
    start = None if added.serving is None else added.serving.starts_at()
    if start is not None:
        parts.append(_("to the table at {time}").format(time=voice.clock(start)))
    text = ", ".join(parts)
    return capital(text)


def _guests_text(told: GuestsTold) -> str:
    """Return who eats."""
    grown = told.adults or 0
    apart = (
        n_("{count} adult", "{count} adults", grown) if told.children else n_("{count} person", "{count} people", grown)
    )
    parts = [] if told.adults is None else [apart.format(count=grown)]
    if told.children:
        parts.append(n_("{count} child", "{count} children", told.children).format(count=told.children))
    how = {Appetite.LIGHT: _(", light eaters"), Appetite.HEARTY: _(", hearty eaters")}.get(told.appetite, "")
    how += _(", in buns") if told.buns else ""
    return _("Guests: {guests}{how}").format(guests=in_series(parts), how=how)


def _reading_text(reading: Reading, voice: Voice) -> str:
    name = {
        Slot.CORE: _("Meat"),
        Slot.PIT: _("Pit"),
        Slot.FRIDGE: _("Fridge"),
        Slot.LEFTOVERS: _("Leftovers"),
    }[reading.slot]
    spot = "" if reading.spot is None else _(", {spot}").format(spot=reading.spot)
    if reading.spread_c > 0 and not voice.is_round(reading.value_c):
        low, high = reading.value_c - reading.spread_c, reading.value_c + reading.spread_c
        return f"{name} {voice.between(low, high)}{spot}"
    about = _("about ") if reading.spread_c > 0 else ""
    return f"{name} {about}{voice.read(reading.value_c)}{spot}"


def _done_text(done: StepDone) -> str:
    words = step_words(done.step)
    return dict(words.outcomes).get(done.outcome or "", words.done)


def _shortened(text: str) -> str:
    """Return somebody's own words in quotation marks, in one line of bearable length, without a full stop."""
    said = " ".join(text.split()).rstrip(".")
    return f'"{said}"' if len(said) <= _LONGEST else f'"{said[: _LONGEST - 3]}..."'


def fact_text(fact: Fact, voice: Voice) -> str:
    """Return what a fact said, for undo."""
    text = body_text(fact.body, voice)
    if isinstance(fact.body, Noted):
        return _("the note {text}").format(text=repr(fact.body.text[:40]))
    return uncapital(text) if text else _("a note")


def uncapital(text: str) -> str:
    """Return a text that goes on in a sentence: its first letter small, but for the word "I"."""
    return text if text[:2] == "I " else small(text)
