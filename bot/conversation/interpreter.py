"""Turns a typed text into intents, knowing the stage, the open questions and the buttons on the screen.

Pure: no storage, no clock, no words for people. It never raises for what a person typed, and never drops a text: what
is not understood is an intent too.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import (
    AirSaid,
    Ask,
    Discard,
    Done,
    Draft,
    FeelSaid,
    Intent,
    NewCook,
    Nod,
    Note,
    NotYet,
    PutOffFor,
    Report,
    Skip,
    TakeWatch,
    Topic,
    Trouble,
    TroubleOver,
    Unclear,
    WrapSaid,
    chatter,
)
from bot.conversation.context import Context, KnownPiece
from bot.conversation.parsing import times
from bot.conversation.parsing.air import air_words
from bot.conversation.parsing.answers import unsure
from bot.conversation.parsing.apart import goes_away, only_felt, told_apart
from bot.conversation.parsing.asking import as_wish, asked_about
from bot.conversation.parsing.back_on import back_on
from bot.conversation.parsing.care import care_in
from bot.conversation.parsing.changes import plan_changed, whole_plan
from bot.conversation.parsing.commands import command, greets, questions
from bot.conversation.parsing.cookers import about_the_cooker, cooker_words, on_the_dial, reads_the_dial
from bot.conversation.parsing.corrections import corrected_time, correction
from bot.conversation.parsing.crew_words import crew_said, nods
from bot.conversation.parsing.discarding import discarding, waved_off
from bot.conversation.parsing.feeding import how_much
from bot.conversation.parsing.handing_over import handed_over
from bot.conversation.parsing.looked_after import looked_after
from bot.conversation.parsing.manner import manner_said
from bot.conversation.parsing.moves import dinner, is_about_dinner, of_a_wave, pit_moved
from bot.conversation.parsing.offered import begun, chosen
from bot.conversation.parsing.pausing import parks_the_meat
from bot.conversation.parsing.pieces import (
    added,
    all_on,
    also_guests,
    by_piece,
    dropped,
    in_order,
    piece_apart,
    piece_named,
)
from bot.conversation.parsing.replies import replies
from bot.conversation.parsing.respelling import respelled
from bot.conversation.parsing.rules_asked import rule_asked
from bot.conversation.parsing.safety_questions import safety_asked
from bot.conversation.parsing.serving import follows_the_meat
from bot.conversation.parsing.setup import set_up
from bot.conversation.parsing.talking import without_talk
from bot.conversation.parsing.told_of_care import allergy_after_all, told_of_care
from bot.conversation.parsing.troubles import children_near, danger, ended, weather
from bot.conversation.parsing.unattended import leaves_the_fire
from bot.conversation.parsing.vents import vent_marks
from bot.conversation.parsing.wishes import wished
from bot.conversation.parsing.words import LONGEST_READ, clauses, tidy


def read(text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a text means, at least one intent: the buttons on the screen first, then commands, then replies."""
    if nods(text, context):
        return (Nod(),)
    if (intent := chosen(text, context)) is not None:
        return (intent,)
    if (hurt := _danger_first(text, context)) is not None:
        return (hurt,)
    found = _read(text, context)
    if _sets_up(context):
        return found
    if chatter(found) and (mended := respelled(tidy(text))) is not None:
        again = _read(mended, context)
        found = again if all(isinstance(intent, _MAY_BE_MENDED) for intent in again) else found
    return without_talk(found, text, context, read)


def _danger_first(text: str, context: Context) -> Trouble | TroubleOver | None:
    """Return the danger to people that a text tells of, or the end of one, before anything else is read in it.

    "It burns" in German is no alarm while the fire is being lit.
    """
    heard = tidy(text)
    if not text.strip() or len(heard) > LONGEST_READ:
        return None
    if (over := looked_after(heard, text, context)) is not None:
        return TroubleOver(what=over)
    found = danger(heard, text)
    lights = any(step.step in _LIGHTS for step in context.open_steps)
    calm = found is not None and found.what == "danger_unclear" and "brennt" in text.casefold() and "!" not in text
    return None if calm and lights else found


_LIGHTS = frozenset({"light", "relight", "wont_light"})
_MAY_BE_MENDED = (Report, Done, NotYet, Skip, PutOffFor, FeelSaid, WrapSaid, Ask, Trouble, AirSaid)
"""What a text with mended words may mean: nothing that takes back, ends, or throws away."""


def _read(text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a text means that chooses no button."""
    heard = as_wish(tidy(text))
    if (manner := manner_said(heard)) is not None:
        return (manner,)
    if len(heard) <= LONGEST_READ and (stop := _about_a_stop(heard, context)) is not None:
        return (stop,)
    if len(heard) <= LONGEST_READ and (asks := how_much(heard, context.cuts)) is not None:
        return (asks,)
    if danger(heard, text) is None and (crew := crew_said(heard, text, context)) is not None:
        return (crew,)
    if (about := _about_pieces(heard, text, context)) is not None:
        return about
    if (
        danger(heard, text) is None
        and len(heard) <= LONGEST_READ
        and (safe := safety_asked(heard, context)) is not None
    ):
        return _with_the_asker(safe, heard, context)
    if (leaves := leaves_the_fire(heard, context)) is not None:
        return goes_away(leaves, heard, text, context)
    if (felt := only_felt(heard, context)) is not None:
        return felt
    if (pause := _parked(heard, text, context)) is not None:
        return (pause,)
    if isinstance(taken := handed_over(heard, text, context), TakeWatch):
        return (taken,)
    if not _sets_up(context) and (wish := wished(heard, text, context)) is not None:
        return (wish,)
    if not _sets_up(context) and (care := _about_care(heard, text, context)) is not None:
        return care
    readable = bool(heard) and len(heard) <= LONGEST_READ and not _sets_up(context) and danger(heard, text) is None
    if readable and (apart := told_apart(heard, text, context)) is not None:
        return (apart,)
    if not (_sets_up(context) and follows_the_meat(heard)) and (intent := command(text)) is not None:
        return (_in_stage(intent, context),)
    if not heard or len(heard) > LONGEST_READ:
        return (_not_understood(text),)
    return _half_hour(heard, text, context) or _understood(heard, text, context)


def _about_a_stop(heard: str, context: Context) -> Intent | None:
    """Return what is said of a stop: by which rule, what was thrown away, or that it be forgotten."""
    if (rule := rule_asked(heard, context)) is not None:
        return rule
    thrown = discarding(heard, context)
    if isinstance(thrown, Discard):
        return thrown.model_copy(update={"piece": piece_named(heard, context) if context.pieces else None})
    return waved_off(heard, context)


def _about_care(heard: str, text: str, context: Context) -> tuple[Intent, ...] | None:
    """Return what a text tells of guests, meat, rules or a wished core, with readings and deeds beside it; what puts
    people in danger is heard before it.
    """
    if not heard or len(heard) > LONGEST_READ or danger(heard, text) is not None or children_near(heard):
        return None
    return told_of_care(heard, context, lambda rest: _reply(rest, text, context))


def _with_the_asker(safe: Ask, heard: str, context: Context) -> tuple[Intent, ...]:
    """Return a question about safety with who is to eat, where it names guests at risk: both count."""
    own = safe.topic is Topic.SAFE and context.stage != "after" and re.search(r"\b(?:my|our|his|her)\b", heard)
    eater = care_in(heard, context.people) if own else None
    piece = piece_named(heard, context) if context.pieces else None
    asked = safe if piece is None else safe.model_copy(update={"piece": piece})
    return (asked,) if eater is None or not eater.said.at_risk else (eater.said, asked)


def _parked(heard: str, text: str, context: Context) -> Intent | None:
    """Return the wish to park half-cooked meat; what puts people in danger is heard before it."""
    if _sets_up(context) or len(heard) > LONGEST_READ or danger(heard, text) is not None:
        return None
    return parks_the_meat(heard, context)


def asks(text: str) -> bool:
    """Return whether a text asks something, as "is my brisket ok" does."""
    heard = tidy(text)
    return questions(heard) or heard.endswith("?") or bool(_ASKS.match(heard))


_ASKS = re.compile(r"^(?:so |and |hey |ok )?(?:is|are|was|were|does|do|did|has|should|how(?! about)|why|where)\b")
_NEW_COOK = re.compile(
    r"^(?:/?(?:start )?(?:a |one )?(?:new|another|second) cook|also cook|neuer garlauf)\b[ :,-]*(?P<text>.*)$",
    re.IGNORECASE | re.DOTALL,
)


def _about_pieces(heard: str, text: str, context: Context) -> tuple[Intent, ...] | None:
    """Return what a text says of pieces by their names, of one more, of guests or of another cook; None: nothing."""
    if not heard or len(heard) > LONGEST_READ:
        return None
    if context.stage != "none" and (new := _NEW_COOK.match(text.strip())) is not None:
        return (NewCook(text=new["text"].strip()),)
    for found in (dropped(heard, context), added(heard, text, context, set_up)):
        if found is not None:
            return (found,)
    if context.stage != "none" and (who := also_guests(heard)) is not None:
        return (who,)
    if not context.pieces:
        return None
    if row := in_order(heard, context) or all_on(heard, context):
        return row
    if (wave := of_a_wave(heard, context)) is not None:
        return (wave,)
    if (plan := whole_plan(heard, text, context)) is not None:
        return (plan,)
    piece = piece_named(heard, context)
    asked = command(text) if piece is not None else None
    if isinstance(asked, Ask) and piece is not None:
        return (asked.model_copy(update={"piece": piece}),)
    return tuple(_in_own_words(intent, text) for intent in by_piece(heard, context, _plainly)) or None


def _in_own_words(intent: Intent, text: str) -> Intent:
    """Return what is kept as a note with the whole text, not with the words that were left of it without a name."""
    return intent.model_copy(update={"text": text}) if isinstance(intent, Trouble | Note) else intent


def _plainly(words: str, context: Context) -> tuple[Intent, ...]:
    """Return what words say where no piece is named any more."""
    return read(words, dataclasses.replace(context, pieces=(), asked_cores=()))


def _sets_up(context: Context) -> bool:
    return context.stage == "none" or context.setup_slot is not None


def _not_understood(text: str) -> Unclear:
    return Unclear(question="not_understood", text=text)


def _in_stage(intent: Intent, context: Context) -> Intent:
    """Return the command as it is meant now: "/start" begins a cook only while there is none."""
    if isinstance(intent, Draft) and context.stage != "none":
        return Ask(topic=Topic.HELP)
    return intent


def _half_hour(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return the question about "half 7", which is 7:30 to some and 6:30 to others; nothing when it is not there."""
    half = next((when for when in times.find(heard) if when.half_to_or_past), None)
    if half is None or half.hour is None:
        return ()
    hours = [half.hour % times.LAST_HOUR, (half.hour - 1) % times.LAST_HOUR]
    if not half.exact:
        hours = [(hour - 1) % times.NOON + 1 for hour in hours]
    clocks = [f"{hour}:30" for hour in hours]
    ways = [_understood(f"{heard[: half.start]}at {hour}:30{heard[half.end :]}", text, context) for hour in hours]
    near = [way for way in ways if not (isinstance(way[0], PutOffFor) and way[0].minutes > times.LONG_PUT_OFF_MIN)]
    if len(near) == 1:
        return near[0]
    if any(len(way) != 1 or isinstance(way[0], Unclear) for way in ways):
        return ()
    return (
        Unclear(question="which_time", text=text, options=tuple(zip(clocks, (way[0] for way in ways), strict=True))),
    )


def _understood(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    if (hurt := _danger_first(text, context)) is not None:
        return (hurt,)
    found = _setting_up(heard, text, context) if _sets_up(context) else _reply(heard, text, context)
    found = found or _of_the_one(heard, context)
    if _says_nothing_else(found) and (intent := begun(text, context)) is not None:
        return (intent,)
    if not found and (allergy := allergy_after_all(heard, context)) is not None:
        return (allergy,)
    return found or (vent_marks(heard, text, context) or _not_understood(text),)


def _of_the_one(heard: str, context: Context) -> tuple[Intent, ...]:
    """Return what is done with the only piece of a cook, by its name ("chicken on"); nothing for other words."""
    if context.cut is None or context.pieces or context.of_piece or _sets_up(context) or heard.endswith("?"):
        return ()
    alone = KnownPiece(piece="", cut=context.cut, number=None, context=context)
    rest = piece_apart(heard, dataclasses.replace(context, pieces=(alone,)))
    if rest[0] is None or rest[1] not in (
        "on",
        "is on",
        "are on",
        "now on",
        "on now",
        "went on",
        "in",
        "is off",
        "off",
    ):
        return ()
    return _reply(f"it {rest[1]}", heard, context)


def _says_nothing_else(found: tuple[Intent, ...]) -> bool:
    """Return True when a text was not understood, or only as the name of a cut that nobody knows."""
    return all(isinstance(intent, Draft) and intent == Draft(unknown_cut=intent.unknown_cut) for intent in found)


def _setting_up(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    if unsure(heard) or heard.strip(" .!") in ("skip", "skip it", "skip this"):
        return (Skip(),)
    cooker = cooker_words(heard, context)
    found = set_up(cooker.rest, text, context)
    if cooker.cooker is not None or cooker.read_by is not None:
        found = (*found, Draft(cooker=cooker.cooker, read_by=cooker.read_by))
    return found or ((Draft(),) if greets(heard) else ())


def _beside_dinner(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return readings and deeds told in other clauses than the one about dinner ("178, dinner at 7")."""
    others = [heard[start:end] for start, end in clauses(heard) if not is_about_dinner(heard[start:end])]
    if len(others) == len(clauses(heard)):
        return ()
    found = replies(", ".join(others), text, context) if others else ()
    return tuple(intent for intent in found if isinstance(intent, Report | WrapSaid | FeelSaid))


def _about_the_air(heard: str, text: str, context: Context) -> tuple[Intent, ...] | None:
    """Return what a text says of the weather and whatever it tells beside, None when it speaks of no weather.

    While there is no meat on the fire wind is an answer to the question about ban and wind first: it is never read as
    less than that.
    """
    air = air_words(heard, context.unit)
    if not air.said or questions(heard):
        return None
    if any(isinstance(one, Done) and one.step == "rules_recheck" for one in replies(heard, text, context)):
        return None
    rest = _reply(air.rest, text, context) if air.rest else ()
    if air.rest and not rest:
        rest = (Note(text=text),)
    said = AirSaid(temp_c=air.temp_c, word=air.word, wind=air.wind)
    if (bad := weather(heard, text, context)) is not None:
        return (bad, *(one for one in rest if not isinstance(one, Note | Trouble)), said)
    return (*rest, said)


def _about_the_cooker(heard: str, text: str, context: Context) -> tuple[Intent, ...] | None:
    """Return what a text says of cooker, charcoal and reader and whatever it tells beside, None when it says nothing
    of them.
    """
    if questions(heard) or heard.endswith("?"):
        return None
    found, rest = about_the_cooker(heard, context)
    if not found:
        return None
    beside = _reply(rest, text, context) if rest else ()
    return (*beside, *found) if beside or not rest else (*found, Note(text=text))


def _reply(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    if (again := back_on(heard, context)) is not None:
        return (again,)
    if (over := ended(heard, context)) is not None:
        return (over,)
    if (plan := whole_plan(heard, text, context)) is not None:
        return (plan,)
    if (cooker := _about_the_cooker(heard, text, context)) is not None:
        return cooker
    if (beside := _about_the_air(heard, text, context)) is not None:
        return beside
    for reader in (correction,) if reads_the_dial(heard) else (correction, pit_moved):
        if (intent := reader(heard, text, context)) is not None:
            return (intent,)
    if (intent := dinner(heard, context)) is not None:
        return (*_beside_dinner(heard, text, context), intent)
    if (intent := corrected_time(heard, context)) is not None:
        return (intent,)
    if greets(heard):
        return (Ask(topic=Topic.WHAT_NEXT),)
    if questions(heard):
        return ()
    if heard.endswith("?") and (asks := asked_about(replies(heard, text, context), heard, context.stage)):
        return asks
    found = on_the_dial(replies(heard, text, context), heard)
    if not found and (changed := plan_changed(heard, context)) is not None:
        return (changed,)
    return found
