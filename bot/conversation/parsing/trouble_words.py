"""How people tell of danger, of the fire and of what measures, with near relatives that are no problem.

Patterns only; when they count is decided in `bot.conversation.parsing.troubles`.
"""

from __future__ import annotations

from bot.conversation.parsing.telling import PROBE, Telling
from bot.conversation.parsing.words import phrases

_BODY = (
    r"(?:hands?|fingers?|thumb|arm|wrist|palm|leg|foot|feet|face|eyes?|skin|knuckles?|tongue|neck|"
    r"myself|himself|herself|themselves|yourself)"
)
_WHO = r"(?:i|i'm|we|he|she|they|somebody|someone|[a-z]+)"

_NOT_NOW = (
    r"\b(?:will|might|may|could|if|forecast|later|tomorrow|tonight|chance of|expected|supposed to|no|not|never)\b"
)

DANGERS: tuple[Telling, ...] = (
    Telling(
        what="burn",
        says=phrases(
            rf"\b(?:burn(?:ed|t)?|scald(?:ed)?|singed) (?:\w+ ){{0,3}}{_BODY}\b",
            rf"\b{_BODY} (?:is|are|got|has been|was) (?:\w+ )?(?:burn(?:ed|t)|scalded|blistered)\b",
            (
                rf"\b{_WHO} (?:just )?(?:got|been|was|were) (?:\w+ )?(?:burn(?:ed|t)|scalded)\b(?! (?:out"
                r"|down|wood|end))"
            ),
            r"\b(?:burn|blister)(?:s|ed)? on (?:my|his|her|the|their) \w+\b",
            (
                r"\b(?:hot (?:fat|grease|oil|water)|steam) (?:\w+ ){0,3}(?:on|over|got|burn(?:ed|t))"
                r" (?:my|me|his|her|him)\b"
            ),
            r"\bverbrannt\b(?=.*\b(?:hand|finger|arm|mich)\b)",
        ),
        unless=phrases(
            r"\b(?:bark|ends|meat|rub|sugar|wood|probe|wire) (?:\w+ )?(?:got|is|was) burn(?:ed|t)\b", r"\bdon't burn\b"
        ),
    ),
    Telling(
        what="co_symptom",
        says=phrases(
            r"\bhead ?aches?\b",
            r"\b(?:dizzy|dizziness|light[- ]?headed|nauseous|nausea|woozy|faint(?:ed|ing)?|passed out|blacked out)\b",
            r"\bfeel(?:s|ing)? (?:\w+ )?(?:sick|ill|faint|drowsy|funny|off|dizzy)\b",
            r"\b(?:carbon monoxide|co) (?:alarm|detector|poisoning)\b",
            r"\bcan(?:'t|not|t) breathe\b",
        ),
        unless=phrases(
            r"\b(?:is|was|been|such|what|being) (?:a|an) (?:\w+ )?headache\b",
            r"\bfaint(?:ly)? (?:smoke|smell|line|blue)\b",
        ),
    ),
    Telling(
        what="grease_fire",
        says=phrases(
            (
                r"\b(?:grease|fat|oil|drip(?:pings?)?|pan|tray) ?(?:is |has |just )?(?:fire|(?:caught|on)"
                r" fire|burning|in flames)\b"
            ),
            (
                r"\bflames? (?:\w+ ){0,3}(?:out of|from|through|above) (?:the )?(?:\w+ )?(?:lid|vents?"
                r"|top|cooker|smoker|grill|tray)\b"
            ),
            (
                r"\b(?:smoker|cooker|grill|kettle|drum)(?:'s| is| has)?"
                r" (?:caught|on) fire\b"
            ),
            r"\bflames? everywhere\b",
            r"\bfire (?:is )?spreading\b",
        ),
        unless=phrases(r"\bno (?:grease|fat|flames?)\b"),
    ),
    Telling(
        what="lightning",
        says=phrases(
            r"\b(?:lightning|lightening|thunder(?:ing|storm)?s?)\b",
            (
                r"\b(?:storm|tornado|hail) (?:\w+ ){0,2}(?:is |has )?(?:here|near|close|coming|overhead"
                r"|right over|hit)\b"
            ),
        ),
        unless=phrases(r"\blightning fast\b", _NOT_NOW),
    ),
)
"""People first."""

FIRE: tuple[Telling, ...] = (
    Telling(
        what="wont_light",
        says=phrases(
            (
                r"\b(?:won't|wont|can't|cant|cannot|will not|not|doesn't|wouldn't) (?:\w+ ){0,3}(?:light"
                r"|catch|start burning|ignite|lighting|lit)\b"
            ),
            (
                r"\b(?:charcoal|coals?|fuel|lump|briquettes|wood)(?:'s| is| are| got| was)* (?:\w+"
                r" )?(?:damp|wet|soaked|soggy)\b"
            ),
        ),
        unless=phrases(
            r"\blight(?:er|ly| smoke)\b",
            r"\bnot (?:yet )?lit\b",
            r"\b(?:have|has|is|it's)(?:n't| not) (?:been )?lit yet\b",
        ),
    ),
    Telling(
        what="yo_yo",
        says=phrases(
            r"\byo[- ]?yo(?:s|ing)?\b",
            (
                r"\b(?:pit|temps?|temperature|smoker|cooker|grill|fire|it)(?:'s| is| are| keeps?| has"
                r" been)* (?:\w+ )?(?:swing(?:s|ing)?|bounc(?:es|ing)|jump(?:s|ing) around|all over the"
                r" place|up and down)\b"
            ),
            r"\bgoes up and down\b",
            r"\bchasing (?:the )?(?:temps?|temperature|pit|vents?)\b",
        ),
    ),
    Telling(
        what="lid_open",
        says=phrases(
            r"\blid(?:'s| is| was| has been| had been| been| stood| stayed)+ (?:left |standing |wide |still )*open\b",
            r"\b(?:left|forgot) (?:to (?:close|shut) )?the lid\b(?: open)?",
            r"\blid (?:won't|wont|doesn't|doesnt|does not|will not|can't|cannot) (?:\w+ )?(?:close|shut|fit|sit)\b",
            r"\b(?:forgot|didn't|did not) (?:to )?(?:close|shut) the lid\b",
        ),
        unless=phrases(r"\blid (?:is|was) (?:not|never) open\b"),
    ),
    Telling(
        what="dirty_smoke",
        says=phrases(
            (
                r"\b(?:thick|white|yellow|brown|grey|gray|black|dirty|heavy|billowing|acrid|bitter|bad"
                r"|dark)(?:,? (?:thick|white|yellow|dirty|grey|gray))* smoke\b"
            ),
            (
                r"\bsmoke(?:'s| is| looks| turned| went| smells| tastes)* (?:\w+ )?(?:thick|white|yellow"
                r"|brown|dirty|heavy|bitter|acrid|black|bad|awful|stings?|stinging)\b"
            ),
            r"\bbillowing\b",
            r"\bsmoke (?:\w+ )?(?:stings|burns) (?:my|the|our) (?:eyes|nose|throat)\b",
        ),
        unless=phrases(
            r"\b(?:no|not|isn't|less|without|stopped|no more) (?:\w+ )?(?:thick|white|dirty|smoke|yellow)\b"
        ),
    ),
    Telling(
        what="wind",
        says=phrases(
            r"\bgust(?:s|y|ing)?\b",
            (
                r"\bwind(?:'s| is| keeps| has)* (?:\w+ )?(?:blow(?:s|ing|n)?|kill(?:s|ing)|feeding"
                r"|starv(?:es|ing)|howling|messing|at)\b"
            ),
            r"\b(?:blown|blowing) (?:\w+ )?(?:out|over|ash|sparks)\b",
        ),
        unless=phrases(_NOT_NOW),
    ),
    Telling(
        what="rain",
        says=phrases(
            (
                r"\b(?:it's|its|it is|started|starts|starting|begun|began|now|still)? ?(?:to"
                r" )?(?:rain(?:ing)?|pouring|drizzl(?:e|ing)|bucketing|chucking it down|hailing)\b"
            ),
            r"\bdownpour\b",
        ),
        unless=phrases(
            _NOT_NOW,
            r"\brain (?:has |is )?(?:stopped|over|gone|cover|coat|water)\b",
            r"\bstopped raining\b",
            r"\bpouring (?:\w+ ){0,3}(?:juice|broth|sauce|fat|coals?|charcoal|water|lit|out|off|in)\b",
            r"\bafter the rain\b",
        ),
    ),
    Telling(
        what="cold",
        says=phrases(
            r"\b(?:it's |its |it is |started |starting to )?snow(?:ing|s|ed)?\b",
            r"\b(?:below|under) (?:freezing|zero)\b",
            r"\bfreezing (?:cold|out|outside|out here)\b",
            r"\b(?:ice|frost) on (?:the )?(?:cooker|smoker|grill|lid|ground|path|steps)\b",
        ),
        unless=phrases(_NOT_NOW),
    ),
    Telling(
        what="heat",
        says=phrases(
            r"\bheat ?wave\b",
            r"\b(?:scorching|boiling|sweltering|roasting|baking) (?:hot )?(?:out|outside|out here|today)\b",
        ),
        unless=phrases(_NOT_NOW),
    ),
    Telling(
        what="fire_ban_now",
        says=phrases(
            r"\b(?:fire|burn|charcoal|open[- ]fire) ban\b",
            r"\bban(?:ned)? (?:just )?(?:announced|declared|came|started|on (?:fires?|charcoal|barbecues?))\b",
            (
                r"\b(?:fire (?:marshal|warden|department|service|brigade)|police|ranger|park (?:officer"
                r"|warden)|landlord|neighbou?rs?) (?:\w+ ){0,3}(?:stop|put (?:it|the fire) out|shut|no"
                r" fires?|out now)\b"
            ),
            r"\b(?:told|ordered) (?:us |me )?to (?:stop|put (?:it|the fire) out|shut (?:it )?down)\b",
        ),
        unless=phrases(
            r"\bno (?:\w+ )?ban\b", r"\bban (?:is |was )?(?:lifted|over|off)\b", r"\bisn't (?:a|any) (?:\w+ )?ban\b"
        ),
    ),
)
"""The fire, the weather, the law."""

GAUGES: tuple[Telling, ...] = (
    Telling(
        what="probe_wire_fire",
        says=phrases(
            (
                r"\b(?:wire|cable|lead|cord)s?(?:'s| is| are| got| has)* (?:\w+ )?(?:burn(?:ed|t|ing)?"
                r"|melt(?:ed|ing)|scorched|charred|on fire|in the (?:fire|flames?|hinge)|over the (?:fire"
                r"|flames?)|caught|pinched)\b"
            ),
            r"\b(?:burn(?:ed|t)|melted|fried|scorched) (?:\w+ ){0,3}(?:wire|cable|lead)\b",
        ),
    ),
    Telling(
        what="probe_bone",
        says=phrases(
            (
                rf"\b(?:{PROBE}|core|meat|it|they)(?:'s| is| are)? (?:reads?|reading|says?|shows?|at"
                rf"|already|jumped)(?: \w+){{0,2}} \d{{2,3}} ?[cf]? already\b"
            ),
            r"^reads? \d{2,3} ?[cf]? already\b",
            r"\balready (?:reads?|reading|says?|shows?|at) \d{2,3}\b(?! ?%)",
            (
                rf"\b(?:{PROBE}|it)(?:'s| is)? (?:\w+ )?(?:on|against|touch(?:es|ing)|hit(?:s|ting)?|next"
                r" to|in) (?:the |a )?bone\b"
            ),
            r"\bhit (?:the |a )?bone\b",
            rf"\b(?:{PROBE}|reading|number|core)(?:'s| is| has| just)* jump(?:ed|s)\b(?! rope)",
            (
                rf"\b(?:(?:two|both|the) )?(?:{PROBE}|readings?|spots?) (?:don't agree|disagree|differ|are"
                r" (?:way |far )?(?:apart|different|off))\b"
            ),
        ),
        unless=phrases(
            r"\bbones? (?:show|pulls?|wiggles?|twists?|is clean|comes? (?:out )?clean)\b",
            r"\bbone[- ]?(?:in|side|dry)\b",
            r"\b(?:did|done|wrapped|spritzed|added|put|got|finished|had) (?:it|that|them|meat) (?:\w+ )?at\b",
        ),
    ),
    Telling(
        what="probe_air_fat",
        says=phrases(
            (
                rf"\b(?:{PROBE}|it)(?:'s| is| was)? (?:\w+ )?(?:in|into|hit|through) (?:the |a |some"
                r" )?(?:fat|fat seam|fat pocket|air(?: pocket)?|seam|cavity)\b"
            ),
            rf"\b(?:{PROBE})(?:'s| is| has)* (?:\w+ )?(?:slipped|sliding|moved|shifted|loose|too shallow)\b",
            (
                rf"\b(?:{PROBE}|reading|number|core|meat temp)(?:'s| is| has| just)* (?:dropped|fell"
                r"|falls|drops|went down)\b.*\b(?:spritz\w*|mop\w*|lid|turn\w*|mov\w*)\b"
            ),
            rf"\b{PROBE} reads? (?:way |far )?too low\b",
        ),
    ),
    Telling(
        what="pit_gauge_wrong",
        says=phrases(
            (
                r"\b(?:dial|dome|lid (?:thermometer|gauge|dial)|gauge|hood thermometer)(?:'s| is| are|"
                r" reads?| shows?| says)* (?:\w+ )?(?:off|wrong|lying|lies|different|higher than|lower"
                r" than|out by|not (?:right|accurate))\b"
            ),
            r"\b(?:dial|lid|dome|gauge) (?:says|reads|shows) \d{2,3}\b.*\b(?:grate|probe|grid)\b.*\d{2,3}",
            r"\b(?:grate|grid) (?:says|reads|shows) \d{2,3}\b.*\b(?:dial|lid|dome|gauge)\b.*\d{2,3}",
            r"\bdon't trust the (?:dial|gauge|lid thermometer)\b",
        ),
    ),
    Telling(
        what="stall_long",
        says=phrases(
            (
                r"\b(?:stuck|stalled|stalling|hasn't moved|has not moved|not moved|hasn't budged|no"
                r" movement|hasn't changed|sitting|parked)\b.*\b(?:for (?:\w+ ){0,2}(?:hours?|hrs?|ages"
                r"|ever)|forever|all (?:day|night|morning)|\d+ ?(?:h|hrs?|hours?))\b"
            ),
            (
                r"\bstall(?:'s| is)? (?:\w+ )?(?:taking|lasting|going on) (?:\w+ )?(?:forever|ages|too"
                r" long|hours|long)\b"
            ),
            r"\b(?:won't|wont|will not|doesn't|isn't|not) (?:budge|budging)\b",
            r"\b(?:never|long)[- ]ending stall\b|\bstall (?:won't|doesn't) (?:end|break)\b",
        ),
    ),
)
"""What measures, and what it shows."""
