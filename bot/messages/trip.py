"""The message of a trip: what to do in the order of an open lid, one question, one caution, and when the next one
comes.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import Done, FeelSaid, Intent, NotYet, WrapSaid, stamped
from bot.messages.allergies import allergies_line
from bot.messages.bin_stops import orders_bin
from bot.messages.cooker import at_this_cooker
from bot.messages.crew_watch import take_rows
from bot.messages.dinner import dinner_line
from bot.messages.each import of_each
from bot.messages.figures import Voice
from bot.messages.gates import waiting_line
from bot.messages.handover import card_again, handover_card
from bot.messages.language import capital, number
from bot.messages.message import Message, Option, lines
from bot.messages.naming import named, names_of, piece_name
from bot.messages.number_buttons import FEWEST, NUMBERS, cannot_row, guest_rows, number_rows
from bot.messages.pit_change import change_text
from bot.messages.steps import caution_text, step_words
from bot.messages.steps.by_cut import do_of
from bot.messages.steps.figures import figures_of
from bot.messages.waves import for_its_wave
from bot.messages.words import _
from bot.messages.wraps import to_decide_from
from scheduler.cook import Situation
from scheduler.facts import Feel, Slot, Wrap
from scheduler.planning.backward import warm_oven
from scheduler.planning.escalation import whom
from scheduler.planning.prompts import Prompt
from scheduler.planning.quantities import salt_for, trimmed_kg
from scheduler.planning.telling import boxed
from scheduler.planning.trips import JOIN, Trip
from scheduler.safety import ACT_C, Finding
from scheduler.safety.fire import PIT_COLD_C
from scheduler.safety.stops import again_at

_COME_UP_C = 50.0
"""Core that a big cut should have passed after four hours [°C]; house rule, as the catalogue's step says."""

_TO_THE_TABLE = frozenset({"slice", "serve"})
"""Steps by which food comes to the table."""

_PLAIN_READINGS = ("pit_check", "core_read")

_NAMED, _PASSED = 2, 4
"""How many things are named before "and more": in the last line, and of what passed unasked."""

MOST_ROWS = 10
"""So many rows of buttons a phone held upright shows below a message; numbers give way to others (own choice)."""

_ROW_LETTERS = 36
"""About as many letters of buttons as fit side by side on a phone held upright; common practice, no source."""


def trip_message(trip: Trip, situation: Situation, voice: Voice, lapsed: tuple[str, ...] = ()) -> Message:
    """Return a trip in words. `situation` is the one after it was asked; `lapsed` are steps that passed unasked."""
    caution = [_("Careful: {text}").format(text=_caution(name, situation)) for name in trip.cautions]
    changing = any(p.step.id == "handover" for p in trip.prompts)
    card = [card_again() if trip.brief else handover_card(situation, voice)] if changing else []
    return Message(
        text=lines(
            _opening(trip, lapsed, voice),
            *_items(trip, situation, voice),
            allergies_line(trip, situation),
            *card,
            *caution,
        ),
        choices=choices_for(trip.prompts, situation, voice),
    )


def _caution(name: str, situation: Situation) -> str:
    """Return a caution; that of the minimum is of the piece that needs most."""
    seen = max((situation.seen_from(view.piece) for view in situation.views), key=lambda s: s.gate.minimum.temp_f)
    return caution_text(name, seen.cut.safety_class, seen.gate.minimum)


def woken_by(trip: Trip, situation: Situation) -> tuple[str, ...]:
    """Return the names of those that a trip is to wake, the first one first; who is alone is not named."""
    state = situation.state
    crew = state.people | {watch.name for watch in (state.watches.watches if state.watches else ())}
    if len(crew) < 2:  # noqa: PLR2004 - one person knows who is meant
        return ()
    return tuple(dict.fromkeys(name for prompt in trip.prompts for name in prompt.wakes))


def wake_line(names: tuple[str, ...]) -> str:
    """Return the line that stands first when a message is to wake somebody; nothing when it wakes nobody."""
    return _("{names}:").format(names=", ".join(names)) if names else ""


def next_line(situation: Situation, voice: Voice, *, owner: bool = False) -> str:
    """Return the last line of every message: when the next one comes by itself, and what it will be about.

    `owner` names whose it is: who took it, who has the watch, or whoever leads the cook.
    """
    coming, again = situation.coming, _stop_again(situation, voice)
    if again is not None and (coming is None or again <= coming[0]):
        return _("Next: {time}, this stop again.").format(time=voice.clock(again))
    if coming is None:
        return _("Next: I wait for your answer.") if situation.waiting else _("That was the last from me.")
    at, first = coming
    joining = [first]
    for prompt in situation.prompts:
        near = prompt.wake_at is not None and at < prompt.wake_at <= at + JOIN and prompt.early_from <= at
        if prompt.key != first.key and (near or prompt.wake_at == at):
            joining.append(prompt)
    unique = step_names(tuple(joining), situation)
    shown = ", ".join(unique[:_NAMED]) + (_(" and more") if len(unique) > _NAMED else "")
    names = [name for one in joining if owner for name in whom(one, situation.view(one.piece).state, at)]
    if names:
        shown = _("{what} ({name})").format(what=shown, name=", ".join(dict.fromkeys(names)))
    if at <= voice.now:
        return _("Next: {what}, now.").format(what=shown)
    return _("Next: {time}, {what}.").format(time=voice.clock(at), what=shown)


def _stop_again(situation: Situation, voice: Voice) -> dt.datetime | None:
    """Return when a stop that stands is told again, None when none is."""
    times = [again_at(view.state, one) for view in situation.views for one in situation.stops_of(view.piece, voice.now)]
    return min((at for at in times if at is not None and at > voice.now), default=None)


def step_names(prompts: tuple[Prompt, ...], situation: Situation) -> list[str]:
    """Return the names of steps, each once; of several pieces those that it is done to, unless it is done to all."""
    pieces: dict[str, list[str]] = {}
    for prompt in prompts:
        name = step_words(prompt.step.id).name
        pieces.setdefault(name, [])
        if prompt.step.scope == "piece" and prompt.piece not in pieces[name]:
            pieces[name].append(prompt.piece)
    if not situation.several or situation.focus is not None:
        return list(pieces)
    return [
        name
        if not whose or len(whose) == len(situation.views)
        else _("{step} ({pieces})").format(step=name, pieces=names_of(situation, tuple(whose)))
        for name, whose in pieces.items()
    ]


def _opening(trip: Trip, lapsed: tuple[str, ...], voice: Voice) -> str:
    """Return what stands before the items: a change of the told time, what passed unasked, or that it was asked
    before.
    """
    told_at = trip.told_at
    if told_at is not None and voice.now < told_at:
        return _("Earlier than I said ({time}).").format(time=voice.clock(told_at))
    if told_at is not None and not trip.again:
        return lines(_("Later than I said ({time}).").format(time=voice.clock(told_at)), passed(lapsed))
    if trip.again:
        late = "" if told_at is None else _("Later than I said ({time}).").format(time=voice.clock(told_at))
        return lines(late, passed(lapsed), _("Still open:"))
    since = min((prompt.due_at for prompt in trip.late if prompt.why.kind != "core"), default=None)
    return (
        "" if since is None else lines(_("This was due from {time}.").format(time=voice.clock(since)), passed(lapsed))
    )


def passed(lapsed: tuple[str, ...]) -> str:
    """Return what passed unasked while the program was away."""
    names = list(dict.fromkeys(step_words(step).name for step in lapsed))
    if not names:
        return ""
    shown = ", ".join(names[:_PASSED]) + (_(" and more") if len(names) > _PASSED else "")
    return _("Passed unasked: {names}.").format(names=shown)


def over() -> Message:
    """Say that a cook is over."""
    return Message(text=_("That was this cook. Everything is kept for the next one."))


def away(since: dt.datetime, lapsed: tuple[str, ...], voice: Voice) -> Message:
    """Return the summary after an outage in which nothing that still matters was missed."""
    return Message(text=lines(_("I was away from {time}.").format(time=voice.clock(since)), passed(lapsed)))


def _items(trip: Trip, situation: Situation, voice: Voice) -> list[str]:
    """Return one line for each thing to do; plain readings of pit and meat share one."""
    plain = [p for p in trip.prompts if p.step.id in _PLAIN_READINGS]
    one_reading = any(p.step.id == "serve_reading" for p in trip.prompts)
    others = [p for p in trip.prompts if p not in plain and not (one_reading and p.step.id == "hold_check")]
    texts = _each(others, situation, voice)  # opening the box to serve is the reading of held meat
    if plain:
        texts.append(_reading(plain, situation, voice))
    return texts if len(texts) == 1 else [f"- {text}" for text in texts]


def _each(prompts: list[Prompt], situation: Situation, voice: Voice) -> list[str]:
    """Return one line for each thing to do; what is the same for several pieces stands once, with their names."""
    if not situation.several:
        return [_item(p, situation, voice) for p in prompts]
    grouped: dict[tuple[str, str], list[str]] = {}
    for prompt in prompts:
        own = prompt.step.scope == "piece"
        text = _item(prompt, situation.seen_from(prompt.piece) if own else situation, voice)
        whose = grouped.setdefault((prompt.step.id, text), [])
        if prompt.step.scope == "piece":
            whose.append(prompt.piece)
    return [
        _("{pieces}: {text}").format(pieces=capital(names_of(situation, tuple(whose))), text=text) if whose else text
        for (_step, text), whose in grouped.items()
    ]


def _cores(cores: list[Prompt], situation: Situation, *, pit: str | None, voice: Voice) -> str:
    """Return one question for the cores of several pieces, in the order in which they are answered."""
    names = [piece_name(situation.view(prompt.piece)) for prompt in cores]
    examples = ("250", "171", "188", "165") if voice.unit == "F" else ("121", "77", "87", "74")
    if pit is None:
        example = " ".join(examples[1 : 1 + len(names)])
        return _("Core of {first}, then {others}? Like {example}.").format(
            first=names[0], others=_(", then ").join(names[1:]), example=example
        )
    example = " ".join(examples[: 1 + len(names)])
    return _("Read the pit, then the core of {names}, like {example} (the pit should hold {pit}).").format(
        names=_(", then ").join(names), example=example, pit=pit
    )


def _reading(plain: list[Prompt], situation: Situation, voice: Voice) -> str:
    situation = situation.at_the_fire if situation.focus is None else situation
    band = situation.state.pit[-1]
    pit = voice.band(band.low_c, band.high_c)
    slots = {slot for prompt in plain for slot in prompt.step.slots}
    order = [view.piece for view in situation.views]
    cores = sorted((p for p in plain if Slot.CORE in p.step.slots), key=lambda p: order.index(p.piece))
    if situation.several and (len(cores) > 1 or (cores and Slot.PIT in slots)):
        return _cores(cores, situation, pit=pit if Slot.PIT in slots else None, voice=voice)
    if situation.several and cores:
        return named(situation, cores[0].piece, _item(cores[0], situation.seen_from(cores[0].piece), voice))
    if slots == {Slot.PIT, Slot.CORE}:
        example = "250/171" if voice.unit == "F" else "121/77"
        return _("Read pit and meat, like {example} (the pit should hold {pit}).").format(example=example, pit=pit)
    return _item(plain[0], situation, voice)


def _item(prompt: Prompt, situation: Situation, voice: Voice) -> str:
    cut, band = situation.cut, situation.state.pit[-1]
    planned = situation.state.planned
    out_too_long = any(rule == "two_hours_out" for rule, _since in situation.state.warned)
    if prompt.step.id == "two_hour" and out_too_long:
        return _("What became of the food: put away in time, kept hot, or thrown out?")
    if prompt.step.id == "hold_check" and any(orders_bin(one) for one in _stops(situation, voice)):
        return _("Not to the table: a stop says to throw it away.")
    if prompt.step.id == "hold_check" and _stops(situation, voice):
        return _("Open the box once and read the meat; what the stop says to do counts now.")
    if prompt.step.id in _TO_THE_TABLE and (stopped := _not_to_the_table(situation, voice)):
        return stopped
    text = do_of(prompt.step.id, step_words(prompt.step.id).do, situation).format(
        pit=voice.band(band.low_c, band.high_c),
        feel=_(cut.feel_words),
        salt=_salt(situation),
        vent=number(cut.vent_min),
        act=voice.temp(ACT_C),
        come_up=voice.temp(_COME_UP_C),
        pit_floor=voice.temp(PIT_COLD_C),
        new_pit=change_text(situation, voice).removesuffix(".") if prompt.step.id == "pit_change" else "",
        **figures_of(prompt, situation, voice),
    )
    if prompt.why.kind == "core" and prompt.why.core_c is not None and not situation.state.feels:
        text = _("{text} I expect the meat near {core}.").format(text=text, core=voice.temp(prompt.why.core_c))
    text = at_this_cooker(prompt.step.id, text, situation.state, voice)
    if prompt.step.id == "bark_check":
        text = " ".join(part for part in (text, to_decide_from(situation, voice)) if part)
    if prompt.step.id == "meat_on" and situation.several:
        text = _goes_on(situation, text, voice)
    text = for_its_wave(prompt.step.id, text, situation)
    if prompt.step.id in {"second_spot", "serve_reading"}:
        text = " ".join(part for part in (text, of_each(situation)) if part)
    if prompt.step.id == "meat_on":
        text = " ".join(part for part in (text, waiting_line(situation, voice)) if part)
    if prompt.step.id == "pull" and not boxed(situation.state, cut):
        low, high = cut.rest_ideal_min
        text = _("{text} Then it rests {low:g} to {high:g} minutes under loose foil, not in a box.").format(
            text=text, low=low, high=high
        )
    if prompt.step.id == "pull" and situation.gate.open_at is None:
        text = _("{text} Read the coldest spot as it comes off: nothing was measured as safe yet.").format(text=text)
    if prompt.step.id == "box_meat" and warm_oven(situation.state):
        text = _("Into the warm oven, wrapped, a probe in the middle.")
    if prompt.step.id == "t_minus":
        text = f"{dinner_line(situation, voice)} {text}"
    if prompt.step.id == "core_read" and planned.count > 1:
        text = _("{text} The biggest of the {count}.").format(text=text, count=planned.count)
    return text


def _stops(situation: Situation, voice: Voice) -> tuple[Finding, ...]:
    return situation.stops_of(situation.state.piece, voice.now)


def _not_to_the_table(situation: Situation, voice: Voice) -> str:
    """Return what is said in place of slicing and serving while a stop stands; nothing when none does."""
    stops = _stops(situation, voice)
    if any(orders_bin(one) for one in stops):
        return _("Not to the table: a stop says to throw it away.")
    return _("Not to the table yet: a stop stands.") if stops else ""


def _goes_on(situation: Situation, text: str, voice: Voice) -> str:
    """Return what to do with a piece that joins others on the fire, and the pit that it brings."""
    others = [view for view in situation.views if view.state.did("meat_on") and view.piece != situation.focus]
    if not others:
        return text
    own, held = situation.state.pit[-1], others[0].state.pit[-1]
    if (own.low_c, own.high_c) == (held.low_c, held.high_c):
        return _("Meat on, lid shut.")
    return _("Meat on, lid shut. Pit to {pit} from then on.").format(pit=voice.band(own.low_c, own.high_c))


def _salt(situation: Situation) -> str:
    """Return how much salt: for the trimmed mass when the mass is known, else per kilogram."""
    cut, mass_kg = situation.cut, situation.state.planned.mass_kg
    if mass_kg is None:
        return _("{grams:.0f} g for each kilogram after trimming").format(grams=salt_for(cut, 1.0).grams)
    salt = salt_for(cut, trimmed_kg(cut, mass_kg))
    return _("{grams:.0f} g for each {piece}").format(grams=salt.grams, piece=_(cut.piece_word))


def choices_for(
    prompts: tuple[Prompt, ...], situation: Situation, voice: Voice | None = None
) -> tuple[tuple[Option, ...], ...]:
    """Return the rows of buttons for prompts: ticks, choices, a way to put a number off; with a voice numbers, too."""
    rows: list[tuple[Option, ...]] = []
    ticks = [p for p in prompts if not p.step.outcomes and not p.step.slots and p.step.id != "handover"]
    if any(p.step.id == "handover" for p in prompts):
        rows += take_rows(situation.state.handover.until if situation.state.handover is not None else None)
    if len(ticks) > 1:
        rows.append(((_("All done"), Done(every=True)),))
    rows += [
        ((_label(p, step_words(p.step.id).done, situation), Done(step=p.step.id, piece=whose(p, situation))),)
        for p in ticks
    ]
    for prompt in prompts:
        rows += _narrow(outcome_row(prompt, situation))
    question = next((p for p in prompts if p.step.slots), None)
    if voice is not None and any(p.step.id == "headcount" for p in ticks):
        rows += guest_rows()
    if question is not None:
        rows += () if voice is None else number_rows(prompts, situation, voice, most=_numbers_beside(rows))
        rows.append(cannot_row(question, situation))
    return tuple(rows)


def _numbers_beside(rows: list[tuple[Option, ...]]) -> int:
    """Return how many numbers fit below other buttons, above "another number" and "cannot read it": an odd number, so
    that as many lie below what is expected as above it.
    """
    left = MOST_ROWS - len(rows) - 2
    return min(NUMBERS, max(FEWEST, left - (left + 1) % 2))


def _narrow(row: tuple[Option, ...]) -> list[tuple[Option, ...]]:
    """Break a row of buttons that a phone could not show side by side."""
    wide = sum(len(label) for label, _meaning in row) > _ROW_LETTERS
    return [(option,) for option in row] if wide else [row] if row else []


def outcome_row(prompt: Prompt, situation: Situation) -> tuple[Option, ...]:
    """Return the buttons of a step that offers a choice."""
    row: list[Option] = []
    cut = situation.view(prompt.piece).cut if situation.several else situation.cut
    for outcome, label in step_words(prompt.step.id).outcomes:
        if outcome in {"paper", "foil", "boat"} and Wrap(outcome) not in cut.wraps:
            continue
        meant = meaning(prompt.step.id, outcome)
        piece = whose(prompt, situation)
        row.append((_label(prompt, label, situation), meant if piece is None else stamped(meant, piece)))
    return tuple(row)


def whose(prompt: Prompt, situation: Situation) -> str | None:
    """Return the piece that a button of a prompt is about, None where there is no choice."""
    return prompt.piece if situation.several and prompt.step.scope == "piece" else None


def _label(prompt: Prompt, label: str, situation: Situation) -> str:
    """Return the label of a button, with the name of its piece where there are several."""
    return named(situation, whose(prompt, situation), label)


def meaning(step_id: str, outcome: str) -> Intent:
    """Return what choosing an outcome means."""
    if step_id in {"bark_check", "wrap_do"}:
        if outcome == "not_yet":
            return NotYet(step=step_id)
        return WrapSaid(wrap=Wrap.NONE if outcome == "bare" else Wrap(outcome))
    if step_id == "tender_test":
        return FeelSaid(feel=Feel(outcome))
    return Done(step=step_id, outcome=outcome)
