"""What is said when something cannot be, or was understood only in part: clear, kind, and what would work."""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Intent, Unclear
from bot.messages.figures import Voice, span
from bot.messages.message import Message, Option
from bot.messages.plans import would_meet
from bot.messages.steps import all_step_ids, step_words
from bot.messages.too_low import WHY, too_low
from bot.messages.words import _, written
from scheduler.cook import Refusal

_LONGEST = 60
_HUNDRED = 100
"""Typed words are quoted back up to this length."""

_PARTS = {
    "light": lambda: _("fire {span}"),
    "cook": lambda: _("cooking about {span}"),
    "vent": lambda: _("venting {span}"),
    "rest": lambda: _("the shortest rest {span}"),
    "slice": lambda: _("slicing {span}"),
}


def _unlikely(refusal: Refusal, voice: Voice) -> str:
    """Say that a correction is not believed, what was expected, and how to tell the number all the same."""
    if refusal.core_c is None or refusal.expected_c is None or refusal.at is None:
        return _("That would surprise me, so the number of before stays. Read a second spot, off bone and fat.")
    return _(
        "{core} at {time} would surprise me: I expected {expected} then. The number of before stays. Read a second "
        "spot, off bone and fat, and type what it says now."
    ).format(core=voice.temp(refusal.core_c), time=voice.clock(refusal.at), expected=voice.band(*refusal.expected_c))


def refusal_text(refusal: Refusal, voice: Voice) -> str:
    """Return why it cannot be and what would work instead."""
    at = "" if refusal.at is None else voice.clock(refusal.at)
    step = "" if refusal.step is None else step_words(refusal.step).name
    other = "" if refusal.other is None else step_words(refusal.other).name
    texts = {
        "serving_past": _(
            "That time has passed. The earliest plate from now is about {at}: {parts}. {more}When shall we eat?"
        ),
        "serving_too_soon": _("That is too soon. The earliest plate is about {at}: {parts}. {more}When shall we eat?"),
        "future": _('{at} has not come yet. Tell me when it has happened, or say "in 20" to be asked again.'),
        "not_on_yet": _("As far as I know the meat is not on yet. When did it go on? For example: on at 11:20."),
        "out_of_order": _('That cannot be: I have "{other}" at {at}. Correct one of the two, or type undo.'),
        "nothing_to_undo": _("There is nothing of yours to take back."),
        "nothing_to_correct": _("I have no reading of yours to correct. Type the number by itself."),
        "over": _("This cook is over. Tell me what is cooking and I start a new one."),
        "half_cooked": _(
            "No: half-cooked meat cannot wait. It has to go on until it is safe, on the fire or in an oven. Stopping"
            " halfway is for kitchens with a written plan alone (FDA Food Code 3-401.14)."
        ),
        "last_piece": _("That is the only piece of this cook. To end it, type: call it off."),
        "stop_stands": _(
            "Not while a stop stands on it: that meat is there and somebody may eat it. Throw it away and tell me:"
            " thrown away. Or do what the stop asks for."
        ),
        "not_off": _("As far as I know it is not off the heat, or it was served: there is nothing to put back on."),
        "was_off": _(
            "A number read since shows that it was off the heat, so the pull stays. If it is back on, type: back on. If"
            " that number is wrong, take it back first."
        ),
        "unlikely_core": _unlikely(refusal, voice),
        "no_such_step": _("I have no such step in this cook."),
        "undercooked": _("That is under the minimum of this meat.")
        if refusal.under is None
        else too_low(refusal.under, ""),
        "not_by_time": _not_by_time(refusal),
        "done_by_feel": _("That cut is done by feel, whatever the core: I ask you to feel it when it may be tender."),
    }
    more = "".join(f"{part} " for part in (_sure(refusal, voice), would_meet(refusal.instead, voice)) if part)
    known = texts[refusal.reason]
    if refusal.reason == "serving_too_soon" and refusal.at is None:
        known = _("In this pit it is not ready within 30 h, so dinner would be late. {more}Another pit or dinner?")
    return known.format(at=at, step=step, other=other, parts=_sum(refusal), more=more)


def _not_by_time(refusal: Refusal) -> str:
    """Return why time at a lower temperature does not count for a piece."""
    if refusal.not_by_time is None:
        return _("Time at a lower temperature does not count for this piece: its minimum does.")
    text = _("Time at a lower temperature does not count here: {why}. Its minimum does.")
    return text.format(why=WHY[refusal.not_by_time]())


def _sure(refusal: Refusal, voice: Voice) -> str:
    """Return the earliest dinner with the wanted confidence, nothing where it says no more."""
    if refusal.sure_at is None or refusal.confidence is None:
        return ""
    share = round(100 * refusal.confidence)
    return _("With {share} % by {time}.").format(share=share, time=voice.about(refusal.sure_at))


def _sum(refusal: Refusal) -> str:
    return ", ".join(
        _PARTS[name]().format(span=span(dt.timedelta(minutes=minutes))) for name, minutes in refusal.minutes
    )


def question(unclear: Unclear, voice: Voice) -> Message:
    """Return the one short question that decides what was meant; the text itself is kept."""
    said = unclear.text.strip()
    said = said if len(said) <= _LONGEST else said[: _LONGEST - 3] + "..."
    number = written(f"{unclear.values[0]:g}") if unclear.values else said
    if unclear.question == "put_away_then":
        number = unclear.text
    texts = {
        "unit": _("{number}: Celsius or Fahrenheit?"),
        "slot": _("{number}: the meat or the pit?"),
        "typo": _typo(unclear),
        "which_step": _("Done with which one?"),
        "skip_which": _("Skip which one?"),
        "was_or_in": _('"{said}": was it then, or shall I ask again then?'),
        "which_wrap": _("Wrapped in what?"),
        "impossible": _(
            "{number} is not a temperature I can believe. Meat lies between {core}, a pit under {pit}. What is it?"
        ),
        "is_dinner": _('"{said}": is that when people eat?'),
        "which_day": _("The weekday and the date are two days. Which one is it?"),
        "not_come": _("{time} has not come yet. Say the time it was read, or just {number}."),
        "under_five": _("Is a child under five among them?"),
        "public_or_paid": _("Is it a public meal, or do people pay for it?"),
        "put_away_then": _("At {number}, long before now, and before anybody ate of it? A yes ends what stands."),
        "treated_how": _('"{said}": was the meat pierced by needles, blades or a fork, injected, rolled or stuffed?'),
        "out_of_range": _(
            '"{said}" is no temperature: the reader is out of its range. Is it just on? Wait a minute, then read again.'
        ),
        "guests_or_time": _("{number}: so many guests, or dinner at that time?"),
        "which_time": _which_time(unclear, voice),
        "not_understood": _(
            'I did not get "{said}". I kept it as a note. A number is a reading; "help" shows what I know.'
        ),
    }
    known = texts.get(unclear.question, texts["not_understood"])
    core = _("{low} and {high}").format(low=voice.temp(-5), high=voice.temp(100))
    time = "" if unclear.question != "not_come" else "{:02.0f}:{:02.0f}".format(*unclear.values[1:])
    text = known.format(said=said, number=number, core=core, pit=voice.temp(400), time=time)
    return Message(text=text, choices=tuple((_option(key, meaning, voice),) for key, meaning in unclear.options))


def _typo(unclear: Unclear) -> str:
    """Return the question for a number with a key too many or too few: the number that is likely, where one is."""
    labels = [label for label, _meaning in unclear.options]
    if labels:
        return _("Did you mean {numbers}?").format(numbers=_(" or ").join(labels))
    value = unclear.values[0] if unclear.values else 0.0
    if 0 < value < _HUNDRED:
        return _('"{said}" cannot be. Did you mean {tens}-something? Type it once more.').format(
            said="{said}", tens=f"{10 * value:g}"
        )
    return _('Did you mean another number than "{said}"? Type it once more.')


def _which_time(unclear: Unclear, voice: Voice) -> str:
    """Return the question for a time that can be several, with these."""
    if not unclear.options:
        return _("Which time do you mean? Type it like 18:30.")
    labels = [_option(key, meaning, voice)[0] for key, meaning in unclear.options]
    return _("Which time do you mean: {times}?").format(times=_(" or ").join(labels))


def _option(key: str, meaning: Intent, voice: Voice) -> Option:
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", key):
        return (voice.day(dt.date.fromisoformat(key)), meaning)
    labels = {
        "celsius": _("Celsius"),
        "fahrenheit": _("Fahrenheit"),
        "c": _("Celsius"),
        "f": _("Fahrenheit"),
        "guests": _("Guests"),
        "dinner": _("Dinner"),
        "core": _("The meat"),
        "pit": _("The pit"),
        "yesterday": _("Yesterday"),
        "today": _("Today"),
        "was": _("It was then"),
        "in": _("Ask me then"),
        "need": _("Ask me then"),
        "yes": _("Yes"),
        "no": _("No"),
        "paper": _("Paper"),
        "foil": _("Foil"),
        "boat": _("Foil boat"),
        "none": _("Bare"),
        "every": _("All of them"),
        "needles": _("Pierced"),
        "injected": _("Injected"),
        "rolled": _("Rolled or stuffed"),
        "none_of_these": _("None of these"),
    }
    if key in all_step_ids():
        return (step_words(key).done, meaning)
    return (labels.get(key, key), meaning)
