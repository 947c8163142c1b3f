"""The words of a set-up: since when it is on, what was done before, what is the pit, what is the meal. Patterns only.

What a match means, `setup` works out.
"""

from __future__ import annotations

import re

from bot.conversation.parsing.words import phrases, word_set

ON = re.compile(
    r"\b(?:(?:been |it's |its |meat(?:'s| is| went)? |went |put (?:it|them) |(?:it|they)(?:'s"
    "| is| are| went)? )*on(?: (?:the )?(?:smoker|grill|pit|fire))?(?: since| at| from)?"
    r"|started(?: it| cooking| at)?|since|cooking since|smoking since|in since|seit)\s*$"
)
ON_FOR = re.compile(
    r"\b(?:on for|been on|been going|going for|cooking for|in for|smoking for|(?:it's "
    r"|its )?been)\s*(?:about |around |like )?$"
)
ON_WORDS = re.compile(r"(?:\b(?:been|it's|its|went|put it|put them|started)\s+)*\b(?:on|started)?\s*(?:since|at)?\s*$")
YESTERDAY_BEFORE = re.compile(
    r"\b(?:yesterday|last night|the day before)(?: (?:evening|afternoon|morning))?(?: at)? *$"
)
YESTERDAY_AFTER = re.compile(r"^ *(?:yesterday|last night|the day before)\b")
DAY_SAID = re.compile(r"\b(?:yesterday|last night|the day before)\b")
OFF = phrases(
    r"\b(?:pulled|taken|took (?:it|them|the \w+)|came|come|is|are|it's)\b(?: \w+)? off\b",
    r"\bpulled\b(?! pork)",
    r"\boff (?:at|the (?:heat|smoker|pit|grill|cooker))\b",
    r"\bboxed\b|\bresting\b",
)
DEED = re.compile(
    rf"{OFF.pattern}|\b(?:wrapped|lit|salted|seasoned|trimmed|spritzed|dry[- ]?brined|brined|rubbed|thawed|injected"
    r"|bought)\b"
)
NOT_OF_THE_DEED = re.compile(r"\b(?:dinner|supper|lunch|eat(?:ing)?|serv(?:e|ing)|pit|smoker|on since|now)\b")
PLAIN_TIME = re.compile(r"[ap]\.?m\b|:|\buhr\b|clock|\bnoon\b|\bmidnight\b|^(?:at|by|um|@) ?[0-9]{1,2}$")
HOURS_IN = re.compile(r"^\s*(?:in|already|so far|now|on)\b")
CORE_AFTER = re.compile(
    r"^\s*(?:°? ?[cf]\b)?\s*(?:now|right now|currently|internal|inside|core|in the meat"
    r"|at the moment|already|so far)\b"
)
CORE_BEFORE = re.compile(
    r"\b(?:now|currently|reads?|reading|it's at|its at|sitting at|is at|at|internal|core|meat)"
    r"(?: (?:is|at|now))*\s*$"
)
PIT_BEFORE = phrases(
    (
        r"\b(?:pit|smoker|cooker|grill|hot|temp|temperature|run(?:s|ning)?|cook(?:ing)? (?:at"
        "|it at)|smok(?:e|ing) (?:at|it at)|oven|heat)(?: (?:at|is|to|around|about|it|the|temp"
        r"|runs?|running|set))*\s*[@:=]?\s*$"
    ),
    r"@\s*$",
)
DINNER_WORDS = re.compile(
    r"\b(?:dinner|supper|lunch|eat(?:ing)?|serv(?:e|ing|ed)|meal|table|guests?|people|ready"
    r"|for|by|at|food|we|want|around|about|on|from|is|the|party|bbq)\b"
)
FILLER = word_set(
    "a an the of and with for at on in to by is it its it's we i i'm im i've we're we'll i'll are be have "
    "has got my our some this that going gonna doing cooking cook smoking smoke making make want would "
    "like about around dinner lunch supper eat eating serve serving served ready meal people guests pit "
    "smoker grill cooker temp temperature degrees deg hot heat each total since now been started whole "
    "big small large nice one two kg lb lbs today tomorrow tonight please pls hi hey hello um so ok okay "
    "just maybe will do let's lets when time party bbq run running runs set f c x weighing weighs weight "
    "mass bone boneless bone-in trimmed untrimmed raw fresh all altogether together or as done tender fat "
    "paper foil boat wrap wrapped wrapping naked bare no in-bone pieces piece rack racks slab slabs"
)
