"""Commands and questions to the program, typed as "/plan" or in plain words.

Only whole texts are commands: a question in the middle of a report is left to the readers of reports.
"""

from __future__ import annotations

import re

from bot.commands import Ask, CallOff, Draft, Intent, Invite, Join, Pause, TellMe, Topic, Trouble, Undo
from bot.conversation.parsing.chart_words import CHARTS
from bot.conversation.parsing.record_words import RECORD
from bot.conversation.parsing.words import bare, phrases, tidy
from scheduler.facts import Detail, Wrap

_JOIN = re.compile(r"^(?:/start(?:@\w+)?|/?join(?:@\w+)?|my code is|code)[ :]+([A-Za-z0-9_-]{4,64})\s*$", re.IGNORECASE)
_SLASH = re.compile(r"^/([a-z_]+)(?:@\w+)?(?: .*)?$")
_SLASHES: dict[str, Intent] = {
    "start": Draft(),
    "new": Draft(),
    "cook": Draft(),
    "howlong": Ask(topic=Topic.HOW_LONG),
    "how_long": Ask(topic=Topic.HOW_LONG),
    "eta": Ask(topic=Topic.HOW_LONG),
    "next": Ask(topic=Topic.WHAT_NEXT),
    "what_next": Ask(topic=Topic.WHAT_NEXT),
    "whatnext": Ask(topic=Topic.WHAT_NEXT),
    "plan": Ask(topic=Topic.PLAN),
    "rest": Ask(topic=Topic.PLAN_REST),
    "more": Ask(topic=Topic.PLAN_REST),
    "page": Ask(topic=Topic.PAGE),
    "print": Ask(topic=Topic.PAGE),
    "calendar": Ask(topic=Topic.CALENDAR),
    "record": Ask(topic=Topic.RECORD),
    "board": Ask(topic=Topic.BOARD),
    "photos": Ask(topic=Topic.PHOTOS),
    "pictures": Ask(topic=Topic.PHOTOS),
    "fotos": Ask(topic=Topic.PHOTOS),
    "chart": Ask(topic=Topic.CHART),
    "graph": Ask(topic=Topic.CHART),
    "picture": Ask(topic=Topic.CHART),
    "bild": Ask(topic=Topic.CHART),
    "safe": Ask(topic=Topic.SAFE),
    "options": Ask(topic=Topic.LEVERS),
    "late": Ask(topic=Topic.LEVERS),
    "early": Ask(topic=Topic.LEVERS),
    "stall": Ask(topic=Topic.STALL),
    "crew": Ask(topic=Topic.CREW),
    "help": Ask(topic=Topic.HELP),
    "undo": Undo(),
    "invite": Invite(),
    "cancel": CallOff(),
    "stop": CallOff(),
    "calloff": CallOff(),
    "call_off": CallOff(),
    "end": CallOff(),
}
_POLITE = phrases(
    (
        "^(?:(?:hey|hi|ok|okay|so|and|please|pls|slowbell|yo|um|err|can you|could you|tell me"
        "|show(?: me)?|give me|whats|what's|what is) )+"
    ),
    "(?: (?:please|pls|thanks|thx|now|again|slowbell))+$",
)
_PHRASES: tuple[tuple[Intent, re.Pattern[str]], ...] = (
    (
        Ask(topic=Topic.STALL),
        phrases(
            "^(?:the )?(?:stall|plateau)(?: over| done| yet| now)*$",
            r"^(?:how|when|wen|why|where|what|will|is|are|does|do|did|has)\b.*\b(?:stall\w*|plateau\w*)\b.*",
            r"^(?:how long|when|why|is|are|will|has)\b.*\b(?:it|meat|core|temps?|temperature|we)\b.* ?\bstuck\b.*",
            "^(?:still |are we |is it )?(?:stalled|stalling|in the stall)(?: yet| now| still)?$",
        ),
    ),
    (
        Ask(topic=Topic.LEVERS),
        phrases(
            (
                r"^what (?:can|could) (?:i|we) (?:still |now )?(?:do|try)(?: about (?:it|that|this))?(?:"
                r" now)?(?: (?:if|when|to) .*)?$"
            ),
            (
                r"^(?:(?:what|which|any|are there any) (?:are )?)?(?:my |our |the |other )?(?:options|levers"
                r"|choices)(?: (?:are there|do (?:i|we) have|left|now))?$"
            ),
            (
                r"^(?:help,? )?(?:we're|we are|i'm|i am|it's|it is|dinner is|dinner's|dinner will be|we"
                r" will be|we'll be)? ?(?:running |going to be |gonna be )?(?:too |so |really |very |way"
                r" )?(?:late|behind|early|slow|fast)(?: schedule)?(?: now| again)?$"
            ),
            r"^(?:it's |it is |the meat is )?(?:too|running) (?:late|early|slow|fast)$",
            (
                r"^(?:how (?:can|do) (?:i|we) |can (?:i|we) )?(?:speed|hurry|slow) (?:it|this|things|the"
                r" meat|her) (?:up|down)(?: a bit)?$"
            ),
            (
                r"^(?:it|the meat|this|she)(?:'s| is) (?:going |coming |running |way )?(?:too (?:fast"
                r"|slow)|behind|ahead|late|early)(?: of (?:plan|schedule))?$"
            ),
            r"^make it (?:faster|slower|quicker)$",
        ),
    ),
    (
        Trouble(what="bot_silent", text="are you there?"),
        phrases(
            r"^(?:are )?you (?:still )?(?:there|alive|awake|ok|dead)$",
            r"^(?:did|have) you (?:crash|die|stop)(?:ed|d|ped)?$",
        ),
    ),
    (
        Trouble(what="two_bosses", text="who decides?"),
        phrases(r"^who(?:'s| is)? (?:decides|in charge|the boss)(?: here| now)?$"),
    ),
    (
        Pause(),
        phrases(
            (
                r"^(?:can|could|should|may|let's|lets|i'll|we'll|i will|we will|i want to|we want to|want"
                r" to|how (?:do|can) (?:i|we)|is it ok(?:ay)? to|i|we)? ?(?:i |we |us )?(?:just"
                r" )?(?:pause|interrupt)(?: (?:it|this|the (?:cook|meat|fire|brisket|butt"
                r"|ribs))?)?(?: .*)?$"
            ),
            (
                r"^.*\b(?:let|leave) (?:the |it |this )?(?:fire |coals )?(?:to )?(?:go|die|burn) (?:out"
                r"|down)\b.*\b(?:over ?night|tomorrow|later|till|until|and (?:finish|start|light"
                r"|relight))\b.*$"
            ),
            (
                r"^(?:can|could|should|shall|let's|lets|what if) (?:i |we )?(?:let|leave) (?:the |it"
                r" )?(?:fire |coals )?(?:to )?(?:go|die) out$"
            ),
            (
                r"^.*\b(?:finish|cook|continue|carry on|go on|do the rest|resume)(?: \w+){0,2}"
                r" (?:tomorrow|in the morning|next day|the next day|later tonight)\b.*$"
            ),
            (
                r"^.*\b(?:stop|take it off|pull it|put it (?:in|into) the fridge)\b.*\b(?:and|then)"
                r" (?:finish|cook|continue|start again|put it back)\b.*\b(?:later|tomorrow|morning)\b.*$"
            ),
        ),
    ),
    (
        Ask(topic=Topic.SAFE),
        phrases(
            (
                "^(?:is|are) (?:it|this|that|they|these|the meat) (?:still )?(?:safe|ok|okay|good|fine)"
                "(?: to (?:eat|serve))?$"
            ),
            "^safe(?: to (?:eat|serve))?$",
            "^can (?:we|i|you) (?:eat|serve)(?: it| this| now)*$",
            "^(?:(?:it )?looks done|is (?:it|this) done|done yet)$",
            "^(?:still )?safe$",
        ),
    ),
    (
        Ask(topic=Topic.WHAT_NEXT),
        phrases(
            "^(?:and )?(?:what|whats|what's|wat)(?: is|s|'s)? (?:next|now|to do(?: now| next)?)$",
            "^next(?: step| one| up| thing)?$",
            "^now what$",
            "^what (?:do|should) (?:i|we) (?:do|be doing)(?: now| next)?$",
            "^what can (?:i|we) do next$",
            "^what(?:'s| is| are|re)? (?:do i (?:have|need|got) to do|must i do|my (?:jobs?|tasks?|dut(?:y|ies)|part))"
            "(?: now| next| today| tonight)?$",
            "^(?:my (?:jobs?|tasks?|dut(?:y|ies))|(?:is there )?anything (?:for me )?to do(?: for me)?)$",
            "^(?:was (?:muss|soll|kann) ich (?:jetzt |noch |als n(?:ä|ae)chstes )?(?:tun|machen)|meine aufgaben?)$",
            r"^(?:should|do|shall) (?:i|we) (?:wrap|spritz|pull|flip|rotate|wait|add wood|add coal)\b.*",
            "^whats up next$",
            "^todo$",
            "^(?:and|so) now$",
        ),
    ),
    (
        Ask(topic=Topic.REST),
        phrases(
            r"^how long\b.*\b(?:hold|holds|keep|keeps|rest|rests|box|boxed|cooler)\b.*",
            "^(?:the )?rest(?:ing)? plan$",
        ),
    ),
    (Ask(topic=Topic.WHEN), re.compile("^when$")),
    (
        Ask(topic=Topic.HOW_LONG),
        phrases(
            r"^how (?:long|much (?:longer|more|time))\b.*",
            (
                r"^(?:when|wen|what time)(?: is|'s|s| will| do| does| are| can)?\b.*\b(?:ready|done|eat"
                r"|eating|dinner|food|finished|serve|pull|off|over)\b.*"
            ),
            "^eta(?: please)?$",
            (r"^(?:are|will) (?:we|it|dinner)\b.*\b(?:on time|late|make it|be ready|be done|be late)\b.*"),
            (
                "^(?:status|how(?:'s| is|s) (?:it|dinner|the meat|things?) (?:going|looking|doing"
                "|coming along)|how are we doing|how far)$"
            ),
            "^on time$",
            "^still on time$",
            "^wie lange(?: noch)?$",
            "^cuanto falta$",
            "^combien de temps$",
            "^dinner on time$",
            "^time left$",
            r"^can (?:we|i) (?:eat|serve) (?:at|by|in|before)\b(?!.*\b(?:instead|earlier|later|rather)\b).*",
            "^how long$",
        ),
    ),
    (
        Ask(topic=Topic.PAGE),
        re.compile(
            "^(?:(?:make|send|new|another|get)(?: me)? )?(?:(?:the|a|one|my|this|new) )*(?:printed |plan |a5 )?"
            "(?:page|printout|print-out|pdf)(?: to (?:print|tape up))?$"
            "|^print(?: out)?(?: (?:it|this|that|(?:(?:the|my|a|this) )?(?:plan|page|schedule)))?(?: out)?$"
            "|^(?:(?:the |my )?plan )?on paper$"
        ),
    ),
    (
        Ask(topic=Topic.CALENDAR),
        re.compile(
            "^(?:(?:make|send|new|another|get|add|put)(?: me)? )?(?:(?:it|this|the plan) )?(?:(?:to|in|into|as) )?"
            "(?:(?:the|a|my|our|new) )*(?:calendar|ics|ical|icalendar)(?: (?:file|entries|events))?$"
        ),
    ),
    (Ask(topic=Topic.RECORD), RECORD),
    *CHARTS,
    (
        Ask(topic=Topic.BOARD),
        re.compile("^(?:show(?: me)? )?(?:the )?(?:board|glance|overview|tafel|uebersicht|ubersicht|stand)$"),
    ),
    (
        Ask(topic=Topic.PHOTOS),
        re.compile("^(?:show(?: me)? |which |what )?(?:the |our )?(?:photos|pictures|pics|fotos|bilder)(?: kept)?$"),
    ),
    (
        Ask(topic=Topic.PLAN_REST),
        re.compile(
            "^(?:(?:the )?rest(?: of (?:it|the plan))?|more|(?:the )?(?:full|whole) plan|all of it"
            "|show all|all steps|everything)$"
        ),
    ),
    (
        Ask(topic=Topic.PLAN),
        phrases(
            "^(?:the |our |full )?(?:plan|schedule|timeline|timetable|times|agenda)$",
            "^plan b$",
            r"^when (?:do|should|shall) (?:i|we) (?:wrap|spritz|pull|add|light|start|put|slice|box|test)\b.*",
        ),
    ),
    (
        Ask(topic=Topic.CREW),
        re.compile(r"^(?:the )?crew$|^who(?:'s| is|s)? (?:here|in|on|there|on watch|awake|in the crew)(?: now)?$"),
    ),
    (
        Ask(topic=Topic.HELP),
        re.compile(
            "^(?:help|help me|menu|hilfe|ayuda|aide|commands?|what can (?:you|i) (?:do|say|ask|type)"
            "|how does (?:this|it) work|how do (?:i|you) use (?:this|it))$"
        ),
    ),
    (
        TellMe(detail=Detail.EVERY),
        re.compile("^(?:(?:tell|ask) (?:me|us) )?(?:about )?(?:every|each|all the) (?:single )?steps?$"),
    ),
    (
        TellMe(detail=Detail.USUAL),
        re.compile("^(?:tell|ask) (?:me|us) (?:just |only )?the usual$|^(?:just |only )?(?:the )?usual steps$"),
    ),
    (
        TellMe(detail=Detail.DECISIONS),
        re.compile("^(?:(?:tell|ask) (?:me|us) )?(?:just|only) (?:the )?decisions$"),
    ),
    (
        Undo(),
        re.compile(
            (
                "^(?:undo|undo (?:that|it|this|last|the last(?: one)?)|take (?:that|it) back|ruckgangig"
                "|deshacer|annuler)$"
            ),
        ),
    ),
    (
        Invite(),
        phrases(
            "^(?:invite|add)(?: (?:someone|somebody|people|a friend|a person|[a-z]+))?$",
            "^(?:new |make (?:a |an )?|get (?:a |an )?)?(?:invite|invitation)(?: (?:code|link))?$",
        ),
    ),
    (
        CallOff(),
        phrases(
            (
                "^(?:cancel|call off|abort|end|stop|quit|scrap|finish|close) (?:the |this |my )?(?:cook"
                "|cooking|bbq|barbecue|dinner|whole thing|everything)$"
            ),
            "^call (?:it|the cook|the whole thing|everything) off$",
            "^(?:cancel|abort)$",
            "^we(?:'re| are) (?:calling it off|not cooking)(?: today)?$",
            "^cook(?:'s| is) off$",
            "^(?:cook|dinner) (?:is )?cancel(?:l)?ed$",
        ),
    ),
)
_GREETING = re.compile(
    "^(?:(?:hi|hello|hey|yo|hallo|hola|salut|bonjour|moin|good (?:morning|evening|afternoon)"
    "|start|begin|new|new cook|start (?:a )?(?:new )?cook|let's (?:cook|go|start)|lets "
    "(?:cook|go|start)|there|all|everyone|slowbell) ?)+$"
)
_QUESTION = phrases(
    r"^(?:who|why|what(?! an? )|how|where|which|when|whose)\b",
    (
        "^(?:should|is|are|does|do|can|could|would|will|has|have) (?:it|i|we|u|you|this|that"
        r"|the|they|there|anyone|somebody|someone|my|our)\b"
    ),
)


_VERB_FIRST = re.compile(r"^(?:should|is|are|does|do|can|could|would|will|did|has|have|was|were)\b")


_WHAT_IF = re.compile(r"^(?:and )?(?:what|wat|how about|whats|what's)\b(?: (?:if|about|when))?\b.*")
_IF = re.compile(r"\b(?:if|about)\b")
_IF_WRAPS = (
    (Wrap.NONE, re.compile(r"\b(?:bare|naked|unwrapped|no wrap|(?:don't|dont|not|never|without) (?:\w+ )?wrap\w*)\b")),
    (Wrap.BOAT, re.compile(r"\bboat\b")),
    (Wrap.FOIL, re.compile(r"\b(?:foil\w*|crutch\w*)\b")),
    (Wrap.PAPER, re.compile(r"\b(?:paper|butcher paper)\b")),
)


def what_if(heard: str) -> Ask | None:
    """Return the question about another wrap ("what if foil"), None when it is none or names no wrap."""
    if not (_WHAT_IF.match(heard) and _IF.search(heard)):
        return None
    wrap = next((wrap for wrap, pattern in _IF_WRAPS if pattern.search(heard)), None)
    return None if wrap is None else Ask(topic=Topic.WHAT_IF, wrap=wrap)


def command(text: str) -> Intent | None:
    """Return what a text asks of the program, or None when it is not a command."""
    if code := _JOIN.match(text.strip()):
        return Join(code=code[1])
    heard = tidy(text)
    if slash := _SLASH.match(heard):
        return _SLASHES.get(slash[1])
    plain = bare(heard)
    if heard == "?":
        return Ask(topic=Topic.HELP)
    if plain in ("rest", "resting") and heard.endswith("?"):
        return Ask(topic=Topic.REST)
    if (asked := what_if(plain)) is not None:
        return asked
    for said in dict.fromkeys((plain, _POLITE.sub("", plain))):
        for intent, pattern in _PHRASES:
            if pattern.match(said):
                return intent
    return None


def greets(heard: str) -> bool:
    """Return True for a greeting, or for a wish to begin."""
    return bool(_GREETING.match(bare(heard)))


def questions(heard: str) -> bool:
    """Return True for a text that asks: nothing in it is a report ("is 203 too hot?")."""
    return bool(_QUESTION.match(heard) or (heard.endswith("?") and _VERB_FIRST.match(heard)))
