"""Which open prompt a short answer belongs to: the one it names, the open question, or the question which.

It knows the open steps of the context and nothing of the schedule behind them.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Ask, Done, FeelSaid, Intent, Note, NotYet, PutOffFor, Skip, Unclear, WrapSaid
from bot.conversation.context import Context, OpenStep
from bot.conversation.parsing import steps
from bot.conversation.parsing.words import bare, tidy, word_set

TELLING_WORD = 5
"""Shorter words of a title tell no step from another [letters]."""
OWN_WORDS = word_set("tight almost tender butter paper foil boat bare none wrapped done skip ok")
"""Outcomes that are feels, wraps or answers: they have intents of their own, and "ok" alone chooses nothing."""
SYNONYMS = {
    "thin": word_set("clean clear blue invisible"),
    "grey": word_set("gray greyish grayish"),
    "white": word_set("whitish billowing"),
    "plenty": word_set("lots full loads enough heaps tons"),
    "half": word_set("halfway"),
    "thrown": word_set("binned trashed tossed"),
    "binned": word_set("thrown trashed tossed"),
    "away": word_set("fridge fridged stored"),
    "low": word_set("little empty"),
}
"""Other words for the choices of the catalogue."""
EXPLICIT_STEPS = word_set(
    "handover rules_recheck raw_cleanup come_up_check hold_check shutdown serve_reading two_hour leftovers fire_out "
    "ash leftover_expire thaw_start thaw_check thaw_rescue collect_meat fridge_check rules_site second_spot "
    "cool_check wake reheat reheat_away box_ready box_meat board_ready"
)
"""Steps that a mere nod never closes, those of safety among them: somebody must say that it is done."""
WRAP_STEPS = word_set("wrap_decide bark_check wrap_do")
_NO_FOOD = word_set(
    "ash ashes coal coals charcoal trimmings bones fat skin wrap foil paper water bag packaging rubbish"
)
"""What may be thrown away beside food: it answers no question about food."""
_OF_THE_COOKER = word_set(
    "closed close keep keeping kept open shut down up it its it's all the a vents vent lid air everything cooker "
    "smoker pit grill fire dampers both top bottom and is are now for going on we i i've we've will yes ok okay yep "
    "done just already burning for more cook cooking lit running hot warm tonight another"
)
"""Words that may stand beside a choice about the vents of the cooker; with any other it is about something else."""
_ENOUGH = re.compile(
    r"^(?:yes|yep|yup|yeah|yea|ya|sure|aye|ja|si|oui)(?: (?:i|we|it|that|there|it's|that's|we're|they're|should|will|be"
    r"|is|are|think|so|looks?|all|fine|good|ok|okay|enough|definitely|easily|till|until|the|morning|end|for|night|sure))+$"
)
"""A yes with reassurance beside it, to the question whether the fuel lasts."""
_FUELS = word_set(
    "fuel charcoal coal coals briquettes briqs briquets lump pellets pellet gas propane basket hopper tank bottle bag"
    " kohle glut briketts holzkohle brennstoff gasflasche carbon charbon"
)
_HOW_MUCH = word_set(
    "plenty lots loads heaps tons full enough half halfway low little empty still got have has had there is it it's its"
    " that's there's left looks look looking about around only just now quite a bit of the we we've i i've i'd say yes"
    " yep yup yeah yea ya ja ok okay think so easily for in and go till until night day morning end more than less"
    " pretty nearly almost getting running very really fairly rather good fine to all way maybe roughly bout approx"
    " there's them um ish sure probably seems should be do will last cook long hours hour more side on i'm we're too"
    " or gone down over well under checked check looked reckon guess noch ist voll halb wenig fast viel genug mehr"
    " tonight brim top"
)
"""Words that may stand beside how much fuel is left; with any other it is about something else."""
_NEGATIVES = word_set("not no isn't aren't nor never")


def question(context: Context) -> OpenStep | None:
    """Return the one open question, else the newest open step."""
    asking = next((step for step in context.open_steps if step.is_question), None)
    return asking or (context.open_steps[0] if context.open_steps else None)


def named(words: str, context: Context) -> str | None:
    """Return the step that the words name: an open one by id or title, else any by its usual name."""
    plain = bare(words)
    for step in context.open_steps:
        if re.search(rf"\b{re.escape(step.step.replace('_', ' '))}\b", plain):
            return step.step
    usual = steps.named(words)
    if usual is not None:
        return usual
    said = {word for word in plain.split() if len(word) >= TELLING_WORD}
    titled = [step for step in context.open_steps if said & set(bare(tidy(step.title)).split())]
    return titled[0].step if len(titled) == 1 else None


def answered(words: str, context: Context) -> str | None:
    """Return the id of the step that a short answer is about: the one it names, else the open question."""
    step = question(context)
    return named(words, context) or (step.step if step else None)


def outcome(words: str, context: Context) -> Done | None:
    """Return the choice that a clause makes among the outcomes of an open step, or None."""
    said = set(bare(words).split())
    if said & _NEGATIVES:
        return None
    asking = question(context)
    if asking is not None and asking.step == "fuel_check" and _ENOUGH.match(bare(words)):
        return Done(step="fuel_check", outcome="plenty")
    for step in context.open_steps:
        chosen = [word for word in step.outcomes if _says(word, said)]
        chosen = ["half"] if "half" in chosen else chosen  # "half full", "half empty"
        if chosen and chosen[0] in SYNONYMS["binned"] | SYNONYMS["thrown"] and said & _NO_FOOD:
            continue
        if step.step == "fuel_check" and not _of_the_fuel(said):
            continue  # "half a chimney on" was added, "hands full of grease" is of no fuel
        if step.step == "shutdown" and not said <= _OF_THE_COOKER:
            continue  # "closed the garage"
        if len(chosen) == 1 and chosen[0] not in OWN_WORDS:
            return Done(step=step.step, outcome=chosen[0])
    return None


def _of_the_fuel(said: set[str]) -> bool:
    """Return whether words about how much is left are of the fuel: they name it, or they say nothing else."""
    return "chimney" not in said and (bool(said & _FUELS) or said <= _HOW_MUCH)


def _says(choice: str, said: set[str]) -> bool:
    return set(bare(choice.replace("_", " ")).split()) <= said or bool(SYNONYMS.get(choice, frozenset()) & said)


def done(at: dt.datetime | None, text: str, context: Context, *, weak: bool) -> Intent:
    """Return what "done" or a thumb closes: the one thing that is open, or the question which.

    A step that is only a number is not closed by the word: the number is asked for. A weak yes ("ok", a thumb) closes
    only what wants neither number nor choice and is no step of safety, when that was asked last; else it is kept as a
    note.
    """
    if not context.open_steps:
        return Note(text=text) if weak else Done(at=at)
    if (meant := _yes_to_another(text, context)) is not None:
        return meant if meant is not _NOTHING else Note(text=text)
    shown = _shown(context)
    if weak and set(bare(tidy(text)).split()) <= _THANKS:
        return Note(text=text)  # manners close nothing
    closing = [s for s in context.open_steps if s.step not in steps.READING_STEPS and (not shown or s.step in shown)]
    if weak:
        closing = [step for step in closing if not (step.slots or step.outcomes or step.step in EXPLICIT_STEPS)]
        if context.open_steps[0] not in closing:
            return Note(text=text)
    if not closing:
        return Done(step=context.open_steps[0].step, at=at)  # whoever settles it asks for the number or the choice
    if len(closing) == 1:
        enough = closing[0].step == "fuel_check" and bool(_YES & set(bare(tidy(text)).split()))
        return Done(step=closing[0].step, outcome="plenty" if enough else None, at=at)
    options: list[tuple[str, Intent]] = [(step.title, Done(step=step.step, at=at)) for step in closing]
    return Unclear(question="which_step", text=text, options=(*options, ("every", Done(every=True, at=at))))


_THANKS = word_set("thanks thx ty thank you cheers ta mate chef boss man bro")
_YES = word_set("yes yep yup yeah yea ya yh yess y ja oui si sure")
_NOTHING = Note(text="")


def _yes_to_another(text: str, context: Context) -> Intent | None:
    """Return what "yes" means when the buttons of the newest message answer no open step: its one button that begins
    with a yes, else nothing that could be done; None when those buttons, or none at all, are of an open step.
    """
    lettered = [choice for choice in context.choices if choice.letter and not isinstance(choice.meaning, Ask)]
    opened = {step.step for step in context.open_steps}
    if not lettered or any(_answers(choice.meaning, opened) for choice in lettered):
        return None
    yes = [choice.meaning for choice in lettered if bare(tidy(choice.label)).split()[:1] == ["yes"]]
    return yes[0] if len(yes) == 1 and _YES & set(bare(tidy(text)).split()) else _NOTHING


def _shown(context: Context) -> frozenset[str]:
    """Return the open steps that the buttons of the newest message answer; nothing where it has none."""
    opened = {step.step for step in context.open_steps}
    lettered = [choice.meaning for choice in context.choices if choice.letter]
    return frozenset(one for one in opened if any(_answers(meaning, {one}) for meaning in lettered))


def skip(words: str, text: str, context: Context) -> list[Intent]:
    """Return what "skip" skips: the step it names, the one that is open, or the question which."""
    step = named(words, context)
    if step is not None or len(context.open_steps) <= 1:
        return [Skip(step=step or (context.open_steps[0].step if context.open_steps else None))]
    if re.search(r"\b(?:all|both|everything|them)\b", words):
        return [Skip(step=each.step) for each in context.open_steps]
    asking = question(context)
    if asking is not None and asking.is_question and asking is context.open_steps[0]:
        return [Skip(step=asking.step)]
    options: tuple[tuple[str, Intent], ...] = tuple((each.title, Skip(step=each.step)) for each in context.open_steps)
    return [Unclear(question="skip_which", text=text, options=options)]


def refused(text: str, context: Context) -> Intent:
    """Return what a plain "no" is: not yet for the tick or choice asked last, if its buttons are on the screen.

    After another question ("Call off this cook?") or one for a number, nothing is done and the text is kept.
    """
    newest = context.open_steps[0] if context.open_steps else None
    if newest is None or (newest.slots and not newest.outcomes) or not _answers_what_is_open(context):
        return Note(text=text)
    return NotYet(step=newest.step)


def _answers_what_is_open(context: Context) -> bool:
    """Return True when every lettered button, those of the newest message, answers a step that is open."""
    opened = {step.step for step in context.open_steps}
    return all(_answers(choice.meaning, opened) for choice in context.choices if choice.letter)


def _answers(meaning: Intent, opened: set[str]) -> bool:
    match meaning:
        case Done(every=True):
            return True
        case Done(step=step) | Skip(step=step) | NotYet(step=step) | PutOffFor(step=step):
            return step in opened
        case WrapSaid():
            return bool(WRAP_STEPS & opened)
        case FeelSaid():
            return "tender_test" in opened
        case _:
            return False
