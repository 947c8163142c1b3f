"""How people tell of what happens to the meat, to guests, watches and phones, with near relatives that are no problem.

Patterns only; when they count is decided in `bot.conversation.parsing.troubles`.
"""

from __future__ import annotations

from bot.conversation.parsing.telling import MEAT as MEAT_WORD
from bot.conversation.parsing.telling import PROBE, Telling
from bot.conversation.parsing.words import phrases

_BADLY = r"(?:a (?:bit|little)|too|way too|so|very|really|all|pretty|quite|kind of|kinda|bone|totally|completely)"

MEAT: tuple[Telling, ...] = (
    Telling(
        what="left_out",
        says=phrases(
            r"\b(?:meat|food|salad|slaw|chicken|ribs|brisket|leftovers|sauce|rest|plates?|meal)(?:'s| has| have"
            r"| was| is"
            r"| were| are)* (?:been )?(?:(?:sitting|standing|lying|left|sat|stood) )*(?:out|outside|on the (?:table"
            r"|counter))"
            r"(?: in the sun)?(?: there)? (?:for|since|all)\b",
            r"\b(?:left|forgot) (?:the |some )?(?:meat|food|salad|slaw|chicken|ribs|leftovers) (?:out|outside"
            r"|on the table)\b",
        ),
        unless=phrases(r"\b(?:of the fridge|on the (?:pit|grill|smoker)|from the fire)\b"),
    ),
    Telling(
        what="dropped",
        says=phrases(
            (
                rf"\bdropped (?:the |a |one of the |my |our |one )?(?:whole |entire )?(?:{MEAT_WORD})\b(?!"
                r" (?:to|below|under|by|from|\d|temp|in temp))"
            ),
            (
                rf"\b{MEAT_WORD}(?:'s| is| has| just)* (?:\w+ )?(?:fell|fallen|dropped|slid|landed)(?:"
                rf" \w+){{0,2}} (?:on|onto|to|off) (?:the )?(?:ground|floor|grass|dirt|deck|patio|table)\b"
            ),
            rf"\b{MEAT_WORD}(?:'s| is| are)? on the (?:ground|floor|grass)\b",
        ),
    ),
    Telling(
        what="eaten",
        says=phrases(
            r"\b(?:dog|cat|fox|raccoon|bear)s?(?: has| have| just)? (?:got|ate|eaten|took|stole|stolen)\b",
            (
                r"\b(?:kids?|somebody|someone) (?:ate|stole|took) (?:one|two|a|half|the|some)(?: of the)? "
                rf"(?:{MEAT_WORD}|racks?|pieces?)\b"
            ),
            rf"\b(?:{MEAT_WORD}|racks?|pieces?)(?:'s| is| are| was| were| got| has been)? (?:stolen|eaten by)\b",
        ),
    ),
    Telling(
        what="pink_inside",
        says=phrases(
            r"\b(?:pink|raw|bloody|red) (?:on the inside|inside|in the (?:middle|centre|center)|near the bone)\b",
            r"\b(?:inside|middle|centre|center|meat)(?:'s| is| looks)+ (?:\w+ )?(?:pink|raw|bloody|red)\b",
        ),
        unless=phrases(r"\bnot (?:\w+ )?(?:pink|raw|bloody|red)\b", r"\bno (?:pink|red)\b"),
    ),
    Telling(
        what="skin_rubbery",
        says=phrases(
            r"\bskin\b.{0,20}\b(?:rubbery|rubber|soft|soggy|leathery|chewy|tough|not crisp\w*|isn't crisp\w*)\b"
        ),
    ),
    Telling(
        what="frozen_middle",
        says=phrases(
            (
                r"\b(?:still |half |partly |partially )?frozen (?:in|inside|at) (?:the )?(?:middle|centre"
                r"|center|core|inside)\b"
            ),
            (
                rf"\b{MEAT_WORD}(?:'s| is| are)? (?:still |half |partly |a bit |not )?(?:frozen|icy|thawed"
                r"|defrosted)\b(?<!is thawed)(?<!'s thawed)"
            ),
            r"\b(?:ice|icy|frozen) (?:\w+ ){0,2}(?:middle|centre|center|inside|bone|spot)\b",
            r"\b(?:not|isn't|hasn't|never) (?:\w+ )?(?:thawed|defrosted)\b",
        ),
        unless=phrases(
            r"\b(?:no|not|isn't|without|any) (?:\w+ )?(?:ice|icy|frozen)\b",
            r"\b(?:bought|buy|is|it's|meat is) frozen,? (?:until|so|thaw)\b",
            r"\bfully thawed\b",
        ),
    ),
    Telling(
        what="over_salted",
        says=phrases(
            r"\bsalt(?:ed)? (?:\w+ ){0,3}(?:twice|two times|double|again by mistake)\b",
            r"\b(?:double|over)[- ]?salted\b",
            r"\b(?:too (?:much salt|salty)|way too salty|so salty)\b",
            r"\b(?:pumped|injected|enhanced|pre-?salted|brined) (?:meat|pork|chicken|turkey|already)\b",
        ),
        unless=phrases(r"\bnot (?:too|so) salty\b"),
    ),
    Telling(
        what="no_salt",
        says=phrases(
            (
                r"\b(?:forgot|forgotten|didn't|did not|never|haven't|missed)(?: \w+){0,3} (?:salt(?:ed"
                r"|ing)?|dry[- ]?brined?|brined?|the brine)\b"
            ),
            r"\bno (?:salt|dry[- ]?brine)(?: on(?: it)?| yet)?$",
            r"\bunsalted meat\b",
        ),
    ),
    Telling(
        what="dry_flat",
        says=phrases(
            (
                rf"\b{MEAT_WORD}(?:'s| is| are| came out| turned out| looks| tastes| got| went)+ (?:{_BADLY}"
                r" )?(?:dry|dried out)\b(?! (?:brin|rub|ag|off|salt|to the touch|on the outside))"
            ),
            r"\bdry (?:flat|meat|brisket|chicken|turkey|breast|slices)\b",
        ),
        unless=phrases(r"\bnot (?:\w+ )?dry\b", r"\b(?:pat(?:ted)?|wipe[ds]?) (?:\w+ )?dry\b", r"\bsurface\b"),
    ),
    Telling(
        what="bark_soft",
        says=phrases(
            (
                r"\b(?:bark|crust)(?:'s| is| has| got| went| looks| gone| came| turned| all)+ (?:\w+"
                r" )?(?:soft|soggy|wet|mushy|washed(?: off)?|off|gone|ruined|fell off|falling off|slimy)\b"
            ),
            r"\b(?:bark|crust) (?:washed|came|fell|rubbed) off\b",
            r"\b(?:washed|spritzed|mopped) (?:off )?the (?:bark|crust)(?: off)?\b",
            r"\b(?:soggy|mushy|wet) bark\b",
        ),
    ),
    Telling(
        what="bark_dark",
        says=phrases(
            (
                r"\b(?:bark|crust|outside|surface|it)(?:'s| is| are| has| got| gets| getting| looks|"
                r" turned| went| going)+ (?:\w+ )?(?:black|burn(?:t|ed|ing)|charred|too dark|scorched)\b"
            ),
            r"\b(?:burnt|burned|black|charred|scorched) bark\b",
            r"\btoo dark already\b",
        ),
        unless=phrases(
            r"\bburn(?:t|ed|ing) (?:out|down|clean|hot|low|up|off|well|nicely|through)\b",
            r"\bnot (?:\w+ )?(?:black|burnt|burned|dark)\b",
            r"\bdark(?:ness)? (?:out|outside)\b",
        ),
    ),
    Telling(
        what="over_tender",
        says=phrases(
            (
                rf"\b{MEAT_WORD}(?:'s| is| are| went| got| gone| turned(?: to| into)?)* (?:{_BADLY} )?(?:mush"
                r"|mushy|overcooked|overdone|over ?done|too tender|too soft|pulp)\b"
            ),
            r"\bfalls? apart (?:when|before|as soon as) (?:i|we|you|it)\b",
            r"\bfell apart (?:when|on|before)\b",
        ),
        unless=phrases(r"\bnot (?:\w+ )?(?:mushy|overcooked|overdone|too (?:tender|soft))\b", r"\bbark\b"),
    ),
    Telling(
        what="hold_low",
        says=phrases(
            (
                r"\b(?:box|cooler|held meat|rest(?:ing)? (?:meat|box))(?:'s| is| has| went|"
                r" got| down| gone)+ (?:\w+ )?(?:cold|cooling|too (?:cold|cool|low)|lukewarm|dropp(?:ed"
                r"|ing)|below|under)\b"
            ),
            (
                r"\b(?:meat|brisket|butt|it)(?:'s| is| has| went| got| gone)+ (?:\w+ )?(?:cold|lukewarm"
                r"|cooled (?:down|off)|too cold) in (?:the )?(?:box|cooler)\b"
            ),
            (
                r"\b(?:dropped|fell|down|gone) (?:\w+ )?(?:below|under) (?:140|60|145|63)\b.*\b(?:box"
                r"|cooler|hold|rest)\w*\b"
            ),
            (
                r"\b(?:box|cooler|hold)\b.*\b(?:dropped|fell|down|is|reads?) (?:\w+ )?(?:below|under)"
                r" (?:140|60|145|63)\b"
            ),
        ),
    ),
    Telling(
        what="too_tough_at_dinner",
        says=phrases(
            r"\b(?:still |too |so |really )?(?:tough|chewy|rubbery|like leather)\b",
        ),
        unless=phrases(r"\bnot (?:\w+ )?(?:tough|chewy)\b", r"\btough (?:night|day|one|luck|going)\b"),
    ),
)
"""What happens to the meat."""

PEOPLE: tuple[Telling, ...] = (
    Telling(
        what="phone_dead",
        says=phrases(
            (
                r"\b(?:phone|battery|mobile|tablet|laptop)(?:'s| is| has| just| about)* (?:\w+ )?(?:dying"
                r"|dead|dies|died|almost (?:dead|empty|out|flat)|flat|empty|low|going|at [0-9]{1,2} ?%)(?!\w)"
            ),
            (
                r"\b(?:power|electricity|wifi|wi-fi|internet|signal|network)(?:'s| is| has| went| just)*"
                r" (?:\w+ )?(?:out|down|off|gone|cut|dead|lost)\b"
            ),
            r"\b(?:no|lost|losing) (?:signal|wifi|wi-fi|internet|network|reception|power|electricity)\b",
        ),
        unless=phrases(r"\b(?:thermometer|probe|reader|sensor)\b"),
    ),
    Telling(
        what="bot_silent",
        says=phrases(
            r"\byou (?:were|was|are|went|have been|'ve been)? ?(?:\w+ )?(?:silent|quiet|gone|asleep|offline|down)\b",
            (
                r"\byou (?:didn't|did not|never|haven't|stopped) (?:\w+ )?(?:ping|remind|tell|ask|message"
                r"|answer|reply|say|warn|wake)\w*\b"
            ),
            (
                r"\bno (?:message|messages|prompt|prompts|reminder|reminders|ping|pings|word) (?:from you"
                r"|came|all (?:night|morning))\b"
            ),
            r"\b(?:did you|have you) (?:crash|die|crashed|died|stop|stopped)\b",
            r"^(?:are )?you (?:still )?(?:there|alive|awake|dead|ok)$",
        ),
    ),
    Telling(
        what="guests_late",
        says=phrases(
            (
                r"\b(?:guests?|people|folks|everyone|everybody|they|family|friends|visitors|half of"
                r" them)(?:'re| are| is|'s| will be| have been| got| all)* (?:\w+ )?(?:late|delayed|stuck"
                r" in traffic|held up|not here(?: yet)?|behind)\b"
            ),
            r"\bwaiting (?:for|on) (?:the )?(?:guests?|people|everyone|family|friends)\b",
        ),
        unless=phrases(r"\b(?:not|never|isn't|aren't) (?:\w+ )?late\b"),
    ),
    Telling(
        what="guests_early",
        says=phrases(
            (
                r"\b(?!it\b|meat\b)[a-z]+ (?:is |are |has |have )?(?:here|arrived|came|showed up|turned up)"
                r" (?:\w+ )?early\b"
            ),
            (
                r"\b(?!it\b|meat\b|food\b|dinner\b)[a-z]+ (?:is |are |has |have )?(?:here|arrived|showed up"
                r"|turned up)\b.*"
                r"\b(?:starving|hungry|famished|peckish|ravenous)\b"
            ),
            (
                r"\b(?:guests?|people|folks|everyone|everybody|they|family|friends|visitors)(?:'re| are|"
                r" is|'s| came| arrived| showed up| all| have)* (?:\w+ )?(?:early|already here|here"
                r" already|arrived already|here too soon)\b"
            ),
            (
                r"\b(?:guests?|people|everyone|family) (?:have |has )?(?:already )?(?:arrived|showed up"
                r"|turned up)(?: already| early)?\b"
            ),
        ),
    ),
    Telling(
        what="helper_missing",
        says=phrases(
            (
                r"\b(?!it\b|you\b|meat\b|probe\b|pit\b)[a-z]+ (?:isn't|is not|not|doesn't|does not|won't"
                r"|hasn't|didn't) (?:\w+ )?(?:answering|answer|replying|reply|picking up|pick up|come"
                r"|shown? up|turned up|here yet|awake|waking up|wake up)\b"
            ),
            r"\b(?:can't|cannot|couldn't) (?:reach|wake|get hold of|find) (?:[a-z]+)\b",
            (
                r"\b(?:nobody|no one|no-one) (?:is |has |'s )?(?:\w+ )?(?:here|up|awake|answers|came"
                r"|coming|watching|to (?:relieve|take over))\b"
            ),
            (
                r"\b(?:relief|next watch|replacement|night watch)(?:'s| is| has)* (?:\w+ )?(?:missing"
                r"|late|not here|asleep|gone|a no[- ]show)\b"
            ),
        ),
        unless=phrases(
            (
                r"\b(?:guests?|people|folks|everybody|everyone|family|thermometer|probe|lid|fire|charcoal"
                r"|coals?|core|temp)\b"
            ),
        ),
    ),
    Telling(
        what="two_bosses",
        says=phrases(
            (
                r"\b(?:he|she|[a-z]+) (?:says|wants|said) (?:to )?\w+(?: \w+){0,4},? (?:but |and |while"
                r" )?(?:he|she|i|[a-z]+) (?:says|wants|said|want|say)\b"
            ),
            r"\bconflicting (?:orders|instructions|advice)\b",
            r"\b(?:we're|we are|they're|they are|everyone is|everybody is) (?:arguing|fighting|disagreeing)\b",
            r"\b(?:can't|cannot|don't) agree (?:on|about|whether|if)\b",
            r"\bwho (?:decides|is in charge|'s in charge|is the boss|'s the boss)\b",
        ),
        unless=phrases(rf"\b(?:{PROBE}|dial|lid|grate|meat|pit|it|box|board|label|recipe) (?:says|said)\b"),
    ),
)
"""Guests, watches, phones and orders."""
