"""The watch handed over or taken: "Bashir has it", "over to Wren", "i got it till 4".

Only in so many words: a nod is no takeover. Who has the watch then is decided by the engine, when it is taken.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import HandOver, Intent, TakeWatch
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.words import cut_out, phrases, tidy, word_set

_WATCH = r"(?:the |my |our )?(?:watch|fire|pit|night shift|shift|night)"
_LEAD = (
    r"(?:(?:ok|okay|k|got it|right|alright|yes|yep|yeah|sure|so|and|boss|chef|hey|hi|thanks|thx|cool|great|now|well"
    r"|fine"
    r"|no worries|morning|evening|done sleeping|i'm up|im up|i am up|awake)[ ,.!:-]+)*"
)
_END = (
    r"(?: (?:now|from now(?: on)?|from here|then|tonight|for now|thanks|thx|mate|boss|all|everyone|go to bed"
    r"|sleep well))*"
)
_TAKES_IT = phrases(
    rf"^{_LEAD}(?:i|we)(?:'ve| have|'ll| will)? ?(?:got|have|take|had|own|am taking) {_WATCH}{_END}$",
    rf"^{_LEAD}(?:i|we)(?:'m| am|'re| are| will be|'ll be)? (?:on|having|taking|doing) {_WATCH}{_END}$",
    rf"^{_LEAD}(?:i(?:'m| am|'ll| will)? )?(?:take|taking|taken|took) (?:it )?over(?: {_WATCH})?{_END}$",
    rf"^{_LEAD}(?:i(?:'ve| have)? )?(?:got|have|taking|taken|took) {_WATCH}{_END}$",
    rf"^{_LEAD}(?:the )?watch is mine{_END}$|^{_LEAD}my watch{_END}$",
    rf"^{_LEAD}i(?:'m| am| will|'ll) watch(?:ing)?{_END}$",
    rf"^{_LEAD}i(?:'ve| have) got it{_END}$|^{_LEAD}i have it{_END}$",
)
"""Words that take the watch whatever was asked."""
_ANSWERS_TAKES = phrases(
    rf"^{_LEAD}(?:(?:i|i've|ive|we've|we)(?= |'ll))? ?(?:(?:have|got|take|will take|'ll take|own) ?)+ ?(?:it|this"
    rf"|her|that|one){_END}$",
    rf"^{_LEAD}(?:it'?s |all )?mine{_END}$",
    rf"^{_LEAD}(?:i'?m|im|i am|we'?re|me)(?: on| up| here)?(?: (?:it|duty|watch))?{_END}$",
    rf"^{_LEAD}i(?:'ll| will) (?:do|stay|be|sit|watch|stay up|keep going|keep an eye)(?: (?:it|up|on|the fire|here"
    rf"|on it))*{_END}$",
    rf"^{_LEAD}on (?:it|duty|the fire){_END}$|^{_LEAD}my (?:turn|go|shift){_END}$"
    rf"|^{_LEAD}(?:on )?(?:the )?watch{_END}$",
)
"""Words that take it when the question about it is open, or when they say until when."""
_NAME = r"(?P<name>[a-z][a-z'-]{1,19}?)"
_HANDS = phrases(
    rf"\b{_NAME}(?:'s| has| is| will| 'll| takes| took| got|'ll)(?: got| have| take| taking)?"
    rf" (?:it|over|{_WATCH}|the lead)\b",
    rf"\b{_NAME.replace('name', 'on')}(?:'s| is| will be)?"
    r" (?:up|on (?:it|watch|duty|the fire)|on|next|in charge|watching|taking over|my relief)\b",
    r"\b(?:over |hand(?:ing|ed)? (?:it |this |(?:the |my )?(?:watch|fire|pit) )?(?:over )?|leav(?:e|ing) (?:it"
    r"|this) |pass(?:ing)? (?:it|this) (?:on )?"
    rf"|giv(?:e|ing) (?:it|{_WATCH}) )"
    rf"(?:to|with|for) {_NAME.replace('name', 'to')}\b",
    rf"^(?:{_WATCH} )(?:is |goes )?(?:to|with) {_NAME.replace('name', 'of')}\b",
)
_NOBODY = word_set(
    "back going gone went goes goin leaving heading coming put stay stays keep lit its everyone's dad's turn "
    "move moved getting got hang hold held sleep sleeping wake waking stand watching must should could would can may "
    "he she it they we i you who nobody somebody someone everybody everyone anyone this that there here what the "
    "meat brisket pork ribs fire pit watch smoker grill cooker dinner food probe lid one what's all that's it's "
    "there's he's she's who's fuel bark wrap foil paper butter wood water not is was stall fat box oven cooler "
    "rain chicken turkey mine lamb salmon beef butt shoulder everything nothing something guests kids wind smoke "
    "bed off still me him her them ya thermometer light power sun reader display dog cat and or but so if when "
    "then now just only also already has got "
)
_LEAVES = re.compile(r"\b(?:night|bed|sleep|off|out|leaving|going|watch|fire)\b")


def handed_over(heard: str, text: str, context: Context) -> Intent | None:
    """Return who is to have the watch, or that whoever speaks takes it; None for other words."""
    if context.stage == "none" or context.setup_slot is not None or heard.endswith("?"):
        return None
    whens = times.find(heard)
    plain = " ".join(cut_out(heard, [(when.start, when.end) for when in whens]).replace("|", " ").split()).strip(" .,!")
    ends = _UNTIL.sub("", plain).strip(" .,!")
    until = _until(whens, context)
    asked = context.watch_offered or any(step.step == "handover" for step in context.open_steps)
    if _TAKES_IT.match(ends) or ((asked or until is not None) and _ANSWERS_TAKES.match(ends)):
        return TakeWatch(until=until)
    return _to_somebody(ends, text, context, until)


_UNTIL = re.compile(r"\b(?:until|till|til|to|up to|at|for|from)\s*$")


def _to_somebody(heard: str, text: str, context: Context, until: dt.datetime | None) -> HandOver | None:
    known = {tidy(name): name for name in context.people}
    leaves = _LEAVES.search(heard) is not None
    for found in _HANDS.finditer(heard):
        said = next(word for word in found.groupdict().values() if word)
        typed = _as_typed(said, text)
        named = said in known or typed[:1].isupper() or "watch" in found.group() or (leaves and not found["on"])
        if said in _NOBODY or not named or (found["on"] and said not in known and not leaves):
            continue  # "Friday is on" is about something else
        return HandOver(to=known.get(said, typed if typed[:1].isupper() else said.capitalize()), until=until)
    return None


def _as_typed(word: str, text: str) -> str:
    """Return a word as it was typed: a name has a capital letter."""
    typed = (one for one in re.findall(r"[^\W\d_][\w-]*", text) if tidy(one) == word)
    return next(typed, word)


def _until(whens: tuple[times.When, ...], context: Context) -> dt.datetime | None:
    """Return the one time that a text names as the end, None when it names none."""
    ends = [when for when in whens if when.kind is times.Kind.CLOCK and when.hour is not None and when.until]
    return times.future(ends[0], context.now, context.zone) if len(ends) == 1 else None
