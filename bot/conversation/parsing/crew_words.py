"""What people say about one another, as whole texts: "Tomas is the carver", "mine", "not me", "sound check".

It reads names and times; who may do what, and who is asked, is decided elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import (
    CallName,
    CancelInvites,
    CannotWatch,
    Claim,
    ClaimBack,
    DeclineWatch,
    HandOver,
    HeardIt,
    Intent,
    Invite,
    LeftSaid,
    RoleSaid,
    SoundCheck,
)
from bot.conversation.context import Context
from bot.conversation.parsing.cut_names import find_cut
from bot.conversation.parsing.steps import named
from bot.conversation.parsing.words import LONGEST_READ, phrases, tidy, word_set
from bot.crew import Role

_ROLES: dict[str, Role] = {
    "fire lead": Role.FIRE_LEAD, "firelead": Role.FIRE_LEAD, "lead": Role.FIRE_LEAD, "pitmaster": Role.FIRE_LEAD,
    "pit master": Role.FIRE_LEAD, "boss": Role.FIRE_LEAD, "watch": Role.WATCH, "night watch": Role.WATCH,
    "watchman": Role.WATCH, "helper": Role.HELPER, "hand": Role.HELPER, "runner": Role.HELPER, "carver": Role.CARVER,
    "slicer": Role.CARVER, "host": Role.HOST, "hostess": Role.HOST, "food handler": Role.FOOD_HANDLER,
    "handler": Role.FOOD_HANDLER, "guest": Role.GUEST,
}  # fmt: skip
_ROLE = r"(?P<role>" + "|".join(sorted(map(re.escape, _ROLES), key=len, reverse=True)) + r")"
_STATES = (
    "ill|sick|unwell|hurt|injured|choking|dizzy|faint|unconscious|burn(?:ed|t)|bleeding|vomiting|allergic|pregnant|drunk"
    "|asleep|awake|late|early|here|there|gone|missing|ready|hungry|down|out|not|cold|hot|in|on|off|coming|leaving"
)
"""What a person may be that is no name: "a guest is ill" is no role."""
_NAME = rf"(?P<name>(?!(?:i'm|{_STATES})\b)[^\W\d_][\w'-]{{1,19}}|i)"
_A = r"(?:(?:a|an|the|our|my) )?"
_END = r"(?: (?:today|tonight|now|please|for this(?: one)?|this time))*"

_INVITE = re.compile(
    rf"^/?(?:invite|add|bring in|let in|(?:make |send |get )?(?:a |an )?(?:link|invite|invitation|code) for) "
    rf"(?:(?:someone|somebody|one person|{_A}(?:friend|person))|{_NAME})?(?: ?(?:as|to be) {_A}{_ROLE})?{_END}$"
)
_INVITE_A = re.compile(
    rf"^/?(?:invite|add|(?:link|invite|invitation|code) for) (?:a|an|one(?: more)?|another) {_ROLE}$"
)
_CANCEL = phrases(
    r"^(?:cancel|revoke|withdraw|delete|drop|void|kill)(?: all)?(?: (?:the|my|our|open|old|unused))* "
    r"(?:invites?|invitations?|links?|codes?)$",
)
_IS = re.compile(
    rf"^(?:make {_NAME} {_A}{_ROLE}|set {_NAME} as {_A}{_ROLE})$".replace("?P<name>", "?P<name1>", 1)
    .replace("?P<role>", "?P<role1>", 1)
    .replace("?P<name>", "?P<name2>", 1)
    .replace("?P<role>", "?P<role2>", 1)
)
_IS_NOW = re.compile(rf"^{_NAME}(?:'s| is| am|'m| will be| does| acts as| as)? (?:now |also )?{_A}{_ROLE}{_END}$")
_ROLE_FIRST = re.compile(rf"^{_A}{_ROLE}(?: is|:| =) {_NAME}{_END}$")
_NO_MORE = re.compile(
    rf"^{_NAME}(?:'s| is| am|'m)? (?:not|no longer|no more) {_A}{_ROLE}(?: any ?more| any longer| now)?$"
)
_LEFT = re.compile(
    rf"^{_NAME} (?:has |have |had to |is |'s )?(?:left|leaves|leave|gone|went|go home|going|out|left us)"
    r"(?: (?:home|for good|the (?:crew|cook|team|party|group)|early|already|now))*$"
)
_MINE = phrases(
    r"^(?:that(?:'s| is) |it(?:'s| is) |all )?mine(?: then)?$",
    r"^(?:ok |yes |yeah |sure )?(?:i(?:'ll| will|'m gonna| am going to| can)|let me) (?:do|handle|take|manage|sort) "
    r"(?:it|that|this|that one|this one)(?: now| then)?$",
    r"^i(?:'ve| have)? got (?:this|that|this one|that one)$",
    r"^(?:dibs|i call it|my job|leave (?:it|that|this) to me|consider it done|i do (?:it|that|this))$",
)
_MINE_OF = re.compile(
    r"^(?:ok |yes |sure )?(?:i(?:'ve| have)? got|i(?:'ll| will)(?: go)?(?: and)? (?:get|fetch|do|bring|take|see to)"
    r"|i take|i do|mine ?:?|i'm (?:doing|getting|fetching|on)) (?:the |some )?(?P<what>[\w ]{3,30}?)"
    r"(?: now| is mine| then)?$"
)
_OF_MINE = re.compile(r"^(?:the )?(?P<what>[\w ]{3,30}?)(?:'s| is)? mine$")
_NOT_MINE = phrases(
    r"^(?:not mine(?: after all| any ?more)?|i can(?:'t|not) (?:do|get to) (?:it|that|this)(?: after all| now)?)$",
    r"^(?:somebody|someone) else (?:please|take it|has to do it)$",
    r"^(?:drop|forget) my claim$",
)
_DECLINES = phrases(
    r"^(?:not me|i can(?:'t|not)(?: take (?:it|the watch|over))?|not now|no,? (?:i )?can(?:'t|not)|can't take it)$",
    r"^i (?:do not|don't) (?:take|want|have) (?:it|the watch)$",
)
_HAND_OVER = phrases(r"^/?(?:hand ?over|handover card|hand (?:it|the watch) over|change of (?:the )?watch)$")
_CANNOT = phrases(
    r"^(?:sorry,? )?i (?:can(?:'t|not)|cannot|won't) (?:do|make|take|keep|finish|go on with) (?:my|the) "
    r"(?:watch|shift|turn)"
    r"(?: any ?more| tonight| now| after all)?$",
    r"^(?:sorry,? )?(?:i(?:'m| am|m)? (?:leaving|off home|going home|too tired|drunk)"
    r"|i (?:must|have to|need to|gotta|got to) "
    r"(?:go|leave|go home)|i(?:'m| am) not (?:fit|able)(?: to watch)?)(?: now| already| early)?$",
    r"^(?:can|could) (?:somebody|someone|anybody|anyone) (?:else )?"
    r"(?:take over|relieve me|take (?:it|the watch|my watch))"
    r"(?: please)?$",
    r"^i need (?:a |some)?(?:relief|somebody to take over|someone to take over)$",
    r"^(?:ich (?:kann|schaffe) (?:meine|die) (?:wache|schicht) (?:nicht|nicht mehr|heute nicht)(?: machen| halten)?"
    r"|ich (?:muss|gehe) (?:jetzt )?(?:weg|los|gehen|heim|nach hause)|(?:kann|könnte) (?:jemand|wer) übernehmen"
    r"|ich bin (?:zu müde|betrunken))$",
)
_CALL = re.compile(
    r"^(?:please )?(?:wake|wake up|call|ring|get|fetch) (?:up )?(?P<name>[^\W\d_][\w'-]{1,19}|the lead|the boss)"
    r"(?: up)?(?: now| please)?$"
    r"|^(?P<who>[^\W\d_][\w'-]{1,19}) (?:has|needs|must) (?:to )?(?:come|get up|wake up)(?: now| here| down)*$"
    r"|^(?:weck(?:e|t)?|hol|ruf) (?P<wen>[^\W\d_][\w'-]{1,19})(?: auf)?(?: bitte| jetzt)?$"
    r"|^(?P<wer>[^\W\d_][\w'-]{1,19}) (?:muss|soll) kommen$"
)
_NODS = word_set("k kk ok okay okey thumbsup yes yep yeah sure fine cool good great roger understood")
"""Words that acknowledge a card, and take nothing over."""

_SOUND = phrases(
    r"^/?(?:sound ?check|(?:do |make |run )?(?:a )?(?:sound|wake[- ]?up|alarm) (?:check|test))(?: now| please)?$",
    r"^(?:test|try|check) (?:the )?(?:alarms?|wake[- ]?ups?|sound|sounds|ringing)(?: now| please)?$",
)
_HEARD = phrases(r"^(?:yes,? )?(?:i )?(?:have )?heard (?:it|you|that|the test)?(?: loud and clear)?$", r"^heard$")
_NO_NAMES = word_set(
    "dinner supper lunch food pit grill smoker cooker core meat fire temp lid probe box oven wood water fuel charcoal "
    "coal salt rub it that this he she they we you who everybody everyone nobody anyone somebody someone the a an one "
    "what when where not and then all some no yes ok is there here me us them guests people party lead watch helper "
    "carver host handler guest brisket chicken ribs pork sides bark smoke ash drip next first last my your our its"
)


def crew_said(heard: str, text: str, context: Context) -> Intent | None:
    """Return what a whole text says about people of the crew, None when it is about something else."""
    plain = heard.strip(" .!")
    if not plain or len(plain) > LONGEST_READ:
        return None
    if heard.endswith("?"):
        asks = context.stage != "none" and _CANNOT.match(plain.strip(" ?"))
        return CannotWatch() if asks else None
    if _CANCEL.match(plain):
        return CancelInvites()
    if (invited := _invited(plain, text, context)) is not None:
        return invited
    if context.stage == "none":
        return None
    if _SOUND.match(plain):
        return SoundCheck()
    if _HEARD.match(plain) and context.sound_open:
        return HeardIt()
    return _call(plain, context) or _role(plain, text, context) or _watch(plain, context) or _claim(plain, context)


def _invited(plain: str, text: str, context: Context) -> Invite | None:
    if found := _INVITE_A.match(plain):
        return Invite(role=_ROLES[found["role"]])
    found = _INVITE.match(plain)
    if found is None or not (found["role"] or found["name"]):
        return None
    if found["name"] in _ROLES:
        return Invite(role=_ROLES[str(found["name"])])
    if found["name"] and (found["name"] in _NO_NAMES or (not found["role"] and not plain.startswith("invite"))):
        return None
    name = _called(found["name"], text, context) if found["name"] else None
    return Invite(role=_ROLES[found["role"]], name=name) if found["role"] else Invite(name=name)


def _role(plain: str, text: str, context: Context) -> RoleSaid | LeftSaid | None:
    if found := _NO_MORE.match(plain):
        name = _someone(found["name"], text, context)
        return None if name is None else RoleSaid(name=name, role=_ROLES[found["role"]], dropped=True)
    if found := _IS.match(plain):
        who, role = found["name1"] or found["name2"], found["role1"] or found["role2"]
        name = _someone(who, text, context)
        return None if name is None else RoleSaid(name=name, role=_ROLES[role])
    for form in (_IS_NOW, _ROLE_FIRST):
        if found := form.match(plain):
            name = _someone(found["name"], text, context)
            return None if name is None else RoleSaid(name=name, role=_ROLES[found["role"]])
    found = _LEFT.match(plain)
    if found is None:
        return None
    known = found["name"] == "i" or found["name"] in {one.casefold() for one in context.people}
    told = found["name"] != "i" or plain.endswith(("crew", "cook", "team", "home"))
    return LeftSaid(name=_called(found["name"], text, context)) if known and told else None


def _watch(plain: str, context: Context) -> Intent | None:
    """Return what is said about who has the watch, but for who takes it and who is to have it."""
    if _HAND_OVER.match(plain):
        return HandOver()
    if context.watch_offered and _DECLINES.match(plain):
        return DeclineWatch()
    return CannotWatch() if _CANNOT.match(plain) else None


def _call(plain: str, context: Context) -> CallName | None:
    """Return who is to be called, by a name that is known or as the lead."""
    found = _CALL.match(plain)
    if found is None:
        return None
    name = next(one for one in found.groups() if one)
    if name in {"the lead", "the boss"}:
        return CallName()
    known = next((one for one in context.people if one.casefold() == name), None)
    return None if known is None else CallName(name=known)


def nods(text: str, context: Context) -> bool:
    """Return whether a text is a bare nod while the watch is to be taken over: no button, and no takeover."""
    said = tidy(text).strip(" .!")
    first = not context.open_steps or context.open_steps[0].step == "handover"
    return context.watch_offered and (said in _NODS or (first and said == "done"))


def _claim(plain: str, context: Context) -> Claim | ClaimBack | None:
    """Return what is said of who does a step."""
    if _MINE.match(plain):
        return Claim()
    if _NOT_MINE.match(plain):
        return ClaimBack()
    takes = plain in {"i got it", "i've got it", "i have it", "on it", "i'm on it"}
    if takes and context.open_steps and not context.watch_offered:
        return Claim()  # with nothing open the watch is meant
    for form in (_MINE_OF, _OF_MINE):
        if found := form.match(plain):
            step = _step(found["what"], context)
            if step is not None:
                return Claim(step=step)
    return None


def _step(what: str, context: Context) -> str | None:
    """Return the step that words name, those that are open first."""
    words = {word for word in what.split() if len(word) > 2}  # noqa: PLR2004 - shorter words name nothing
    for step in context.open_steps:
        if words & set(step.title.casefold().split()):
            return step.step
    return named(f"the {what}")


def _someone(name: str, text: str, context: Context) -> str | None:
    """Return the name of a person as it is written, None for words that are no name."""
    if name in _NO_NAMES or find_cut(name, context.cuts) is not None:
        return None
    return _called(name, text, context)


def _called(name: str, text: str, context: Context) -> str:
    """Return a name as the house knows it, else as it was typed, with a capital."""
    if name in {"i", "me", "myself"}:
        return "i"
    known = next((one for one in context.people if one.casefold() == name), None)
    if known is not None:
        return known
    found = re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text, re.IGNORECASE)
    typed = found.group() if found else name
    return typed if typed[:1].isupper() else typed.capitalize()
