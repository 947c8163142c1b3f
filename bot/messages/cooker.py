"""Words about the cooker: its card, vents, wood, the dial in its lid, charcoal to buy and charcoal that is left.

Words only; heat and charcoal are computed by the engine.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import CookerSaid
from bot.messages.capacity import capacity_note
from bot.messages.figures import Voice, charcoal, half_kilos, kilograms
from bot.messages.message import Message, Option, lines
from bot.messages.words import _
from scheduler.cook import Changes, Situation, Taken
from scheduler.facts import CookerKind, CookerTold, FuelTold, ReadBy, StepDone, VentMark
from scheduler.planning.asking import Window
from scheduler.planning.embers import FuelLeft, fuel_left, meat_of
from scheduler.planning.fuel import FuelNeed, Setting, need, wood_pieces
from scheduler.planning.surroundings import air_of
from scheduler.state import CookState, Stage

_SEEN = frozenset({"fuel_check", "refuel"})
_NEAR_C = 6.0
"""A vent mark this far from the pit is still told [°C]: house rule."""
_PLENTY = dt.timedelta(minutes=30)
"""Fuel that carries the pit this long past the latest pull is enough: house rule."""

_KINDS = {
    CookerKind.CERAMIC: lambda: _("ceramic cooker"),
    CookerKind.KETTLE: lambda: _("kettle"),
    CookerKind.OFFSET: lambda: _("offset"),
    CookerKind.DRUM: lambda: _("drum"),
    CookerKind.CABINET: lambda: _("cabinet"),
}
_READ_BY = {
    ReadBy.WIRE: lambda: _("The wire stays in the meat"),
    ReadBy.HAND: lambda: _("The meat is read by hand: I ask only for numbers that decide something"),
    ReadBy.NONE: lambda: _("No thermometer: I ask for no numbers on the way"),
}


def cooker_name(told: CookerTold | CookerSaid) -> str:
    """Return what a cooker is called: the name of its card, or its kind."""
    name = told.card if isinstance(told, CookerSaid) else told.name
    return name if name is not None else _("the {kind}").format(kind=_KINDS[told.cooker]())


def cooker_text(told: CookerTold) -> str:
    """Return what was written of a cooker, beginning with a capital."""
    return _("On {cooker}").format(cooker=cooker_name(told))


def fuel_text(told: FuelTold) -> str:
    """Return what was written of charcoal, beginning with a capital."""
    text = _("{mass} more in the fire") if told.added else _("Charcoal in: {mass}")
    return text.format(mass=kilograms(told.kg))


def read_by_text(read_by: ReadBy) -> str:
    """Return how the meat is read, beginning with a capital."""
    return _READ_BY[read_by]()


def read_note(situation: Situation) -> str:
    """Return how the meat of a plan is read, or how to tell it: it decides what is asked on the way."""
    read_by = situation.state.read_by
    if read_by is None:
        return _("How the meat is read is not told: say wire, hand thermometer, or no thermometer.")
    return f"{read_by_text(read_by)}."


def no_thermometer(situation: Situation, voice: Voice) -> str:
    """Say kindly that safe to eat needs a thermometer; nothing when there is one."""
    if situation.state.read_by is not ReadBy.NONE:
        return ""
    minimum_c = situation.gate.minimum_c
    return _(
        "One number I must ask for: before anyone eats, the coldest spot needs {minimum}. Feel cannot tell that, so"
        " please borrow a thermometer for that minute."
    ).format(minimum=voice.limit(minimum_c))


# --- vents, wood, dial ------------------------------------------------------------------------------------------------


def vent_words(state: CookState, voice: Voice) -> str:
    """Return where the owner's vents stand for the pit that is wanted, nothing when the card does not say."""
    mark = _mark(state)
    if mark is None:
        return ""
    return _("Your mark for {band}: {words}.").format(band=voice.band(mark.low_c, mark.high_c), words=mark.words)


def _mark(state: CookState) -> VentMark | None:
    """Return the vent mark whose band holds the pit, or lies nearest to it."""
    if state.cooker is None or not state.cooker.vents:
        return None
    pit_c = state.pit_c

    def away_c(mark: VentMark) -> float:
        return max(mark.low_c - pit_c, pit_c - mark.high_c, 0.0)

    nearest = min(state.cooker.vents, key=away_c)
    return nearest if away_c(nearest) <= _NEAR_C else None


def wood_words(state: CookState) -> str:
    """Return how a piece of wood gets in while cooking; nothing when it only lies in the charcoal from the start."""
    by = None if state.cooker is None else state.cooker.wood_by
    match by:
        case "lid":
            return _("Add a chunk of wood: lid up once and short.")
        case "door":
            return _("Add a chunk of wood through the door, once and short.")
        case "firebox":
            return _("Add a piece of wood through the firebox door; the chamber stays shut.")
        case "before":
            return ""
        case None:
            return _("Add a chunk of wood.")


def dial_words(state: CookState, voice: Voice) -> str:
    """Return what the dial in the lid shows when the grate is right, nothing when nobody knows its offset."""
    if state.cooker is None or state.cooker.dial_offset_c is None:
        return ""
    band, offset_c = state.pit[-1], state.cooker.dial_offset_c
    return _("The dial in the lid then shows about {dial}.").format(
        dial=voice.band(band.low_c - offset_c, band.high_c - offset_c)
    )


def at_this_cooker(step_id: str, text: str, state: CookState, voice: Voice) -> str:
    """Return the words of a step as they are at this cooker: vents by the owner's marks, how wood gets in, the dial."""
    match step_id:
        case "wood_add":
            return wood_words(state) or text
        case "vents_early":
            return _joined(text, vent_words(state, voice))
        case "pit_stable":
            return _joined(text, vent_words(state, voice), dial_words(state, voice))
        case "pit_check":
            return _joined(text, dial_words(state, voice))
        case "first_look" if state.cooker is not None and state.cooker.wood_by == "door":
            return text.replace(_("under the lid"), _("through the door"))
        case _:
            return text


def _joined(*parts: str) -> str:
    return " ".join(part for part in parts if part)


# --- charcoal ---------------------------------------------------------------------------------------------------------


def fuel_line(situation: Situation, voice: Voice) -> str:
    """Return until when the charcoal carries the pit, nothing when nobody knows or it no longer matters."""
    left = fuel_of(situation, voice.now)
    if left is None or situation.state.stage not in {Stage.FIRE, Stage.COOKING}:
        return ""
    early, likely = left.until.early, left.until.likely
    assert early is not None
    assert likely is not None
    if likely <= voice.now:
        return _("Fuel: likely low by now, please look.")
    pull = situation.outlook.pull.late
    if pull is not None and early > pull + _PLENTY:
        return _("Fuel: enough for this cook.")
    return _("Fuel until about {time} (from {early} on it may sink).").format(
        time=voice.about(likely), early=voice.about(max(early, voice.now))
    )


def fuel_of(situation: Situation, now: dt.datetime) -> FuelLeft | None:
    """Return what is left in the fire of a cook, None when nothing is known of it."""
    meat_kg = sum(meat_of(view.state, view.cut) for view in situation.views if not view.state.did("pull"))
    return fuel_left(situation.state, situation.cut, situation.catalogue.cookers, now, meat_kg=meat_kg)


def fuel_need(situation: Situation) -> FuelNeed:
    """Return the charcoal that a cook takes, all its meat together."""
    state, outlook, cut = situation.state, situation.outlook, situation.cut
    usual = cut.duration_h.typical
    setting = Setting(
        pit_c=state.pit_c,
        air=air_of(state),
        meat_kg=sum(meat_of(view.state, view.cut) for view in situation.views),
        cooked_share=cut.cooked_share.typical,
        hours=usual,
    )
    pull = Window(early=outlook.pull.early, likely=outlook.pull.likely, late=outlook.pull.late)
    return need(state.cooker, setting, pull, outlook.on_at, situation.catalogue.cookers)


def need_line(situation: Situation) -> str:
    """Return how much charcoal and wood a cook takes and what to have in the house."""
    told = situation.state.cooker
    if told is None:
        return ""
    amount, (few, many) = fuel_need(situation), wood_pieces(situation.cut, told)
    refuel = amount.refuels
    text = _("Charcoal: about {kg} ({range}), have {buy}. Wood: {few} to {many} fist-sized pieces.").format(
        kg=half_kilos(amount.kg.typical),
        range=charcoal(amount.kg.low, amount.kg.high),
        buy=half_kilos(amount.buy_kg),
        few=few,
        many=many,
    )
    return text if refuel == 0 else _("{text} One filling is not enough.").format(text=text)


def after_the_cooker(changes: Changes, voice: Voice) -> list[str]:
    """Return what follows from a cooker, charcoal or a reader that was told: lighting, charcoal, how long it lasts."""
    before, after = changes.before, changes.after
    taken = [event.body for event in changes.events if isinstance(event, Taken)]
    told = []
    if any(isinstance(body, CookerTold) for body in taken):
        if after.state.stage is Stage.BEFORE:
            told.append(_("Light at {time}.").format(time=voice.clock(after.outlook.light_at)))
        told += [vent_words(after.state, voice), need_line(after), capacity_note(after)]
    if any(isinstance(b, FuelTold) or (isinstance(b, StepDone) and b.step in _SEEN) for b in taken):
        told.append(fuel_line(after, voice))
    if before is not None and before.state.read_by is not after.state.read_by and after.state.read_by is not None:
        told += [f"{read_by_text(after.state.read_by)}.", no_thermometer(after, voice)]
    return told


# --- choosing ---------------------------------------------------------------------------------------------------------


def with_cooker(shown: Message, situation: Situation, voice: Voice, offered: Message) -> Message:
    """Return a plan with what its cooker asks for, and cookers to choose from; what comes next stays the last line."""
    known, _line, coming = shown.text.rpartition("\n")
    more = lines(need_line(situation), no_thermometer(situation, voice), offered.text)
    if not more:
        return shown
    return Message(text=lines(known, more, coming), choices=(*shown.choices, *offered.choices))


def offer(cookers: tuple[CookerSaid, ...]) -> Message:
    """Offer the cookers that are known for a new cook; nothing when there are none."""
    if not cookers:
        return Message(text="")
    rows: list[tuple[Option, ...]] = [((cooker_text_of(one), one),) for one in cookers]
    return Message(text=_("Which cooker? It sets when to light and how much charcoal."), choices=tuple(rows))


def cooker_text_of(said: CookerSaid) -> str:
    """Return what a button says that chooses a cooker."""
    return _("On {cooker}").format(cooker=cooker_name(said))
