"""How people tell of danger to life, of dirt on food and of a thermometer that is wrong, with near relatives.

Patterns only; when they count is decided in `bot.conversation.parsing.troubles`.
"""

from __future__ import annotations

from bot.conversation.parsing.telling import MEAT as MEAT_WORD
from bot.conversation.parsing.telling import Telling
from bot.conversation.parsing.words import phrases

_COOKER = r"(?:cooker|smoker|grill|kettle|drum|barbecue|bbq|charcoal|coals|fire)"
_ROOFED = r"(?:garage|tent|porch|shed|van|car port|carport|kitchen|house|conservatory|gazebo|caravan|camper|basement)"

MORTAL: tuple[Telling, ...] = (
    Telling(
        what="cooker_indoors",
        says=phrases(
            rf"\b{_COOKER}(?:'s| is| are)?(?: \w+){{0,3}} (?:in|into|inside|under) (?:the |a |my |our )?{_ROOFED}\b",
            rf"\b(?:brought|moved|wheeled|rolled|pushed|dragged) it(?: \w+)? (?:in|into|inside|under) (?:the |a "
            rf"|my |our )?"
            rf"{_ROOFED}\b",
            r"\b(?:it's|its|it is)(?: \w+){0,2} (?:in|inside|under) (?:the |a |my |our )?(?:garage|tent|gazebo"
            r"|caravan|camper"
            r"|conservatory|car ?port|basement|porch)\b",
            rf"\b(?:brought|moved|carried|took|put|pushed|rolled|wheeled|set) (?:the )?(?:lit |hot "
            rf"|burning )*{_COOKER}(?: \w+)?"
            r" (?:in ?doors|inside)(?! (?:the )?(?:box|fridge|cooler|oven|foil|paper|bag))\b",
            r"\b(?:cooker|smoker|grill|barbecue|bbq|kettle|drum)(?:'s| is)? (?:now )?(?:in ?doors|inside)\b",
            r"\b(?:smoke|fire|co|carbon monoxide|monoxide) (?:alarm|detector)s?\b",
        ),
        unless=phrases(
            r"\b(?:never|isn't|don't|won't|can i|can we|could|should|may|might|not (?:in|inside|under)|no (?:smoke"
            r"|fire|co))\b"
        ),
    ),
    Telling(
        what="allergic_reaction",
        says=phrases(
            r"\ballergic reaction\b",
            r"\banaphyla(?:xis|ctic)\b(?! risk)",
            r"\b[a-z]+ (?:just |accidentally |has |have |had |might have )*(?:ate|eaten|swallowed) (?:some |a |the "
            r"|one of the )?"
            r"(?:tree )?(?:nuts?|peanuts?|almonds?|cashews?|walnuts?|sesame|shellfish|prawns?|shrimps?)\b",
            r"\b(?:lips?|tongue|face|throat|eyes?)(?:'s| is| are)? (?:\w+ )?(?:swelling|swollen|swelled|swells"
            r"|closing)\b",
            r"\b(?:has|got|getting|with) (?:\w+ )?hives\b",
            r"\bepi-?pen\b",
        ),
        unless=phrases(
            r"\b(?:never|nobody|no one|hasn't|haven't|can (?:i|we|he|she|they|you)|should|avoid|smoke in|beehives)\b"
        ),
    ),
    Telling(
        what="choking",
        says=phrases(r"\bchoking\b", r"\bchokes\b", r"\b(?:stuck|lodged) in (?:his|her|their|my|the) throat\b"),
        unless=phrases(r"\bchoking (?:the )?(?:fire|vents?)\b"),
    ),
    Telling(
        what="guest_ill",
        says=phrases(
            r"\bvomit(?:s|ing|ed)?\b",
            r"\b(?:threw|throwing|throws) up\b",
            r"\bfood poisoning\b",
            r"\bdiarrh?o?ea\b",
            r"\b(?:sick|ill|poorly|unwell|cramps?|pains?) (?:after|since|from) (?:eating|dinner|the (?:food|meat"
            r"|meal|chicken))\b",
            r"\bcollapsed\b(?! (?:tent|table|chair|bark|fire|coals))|\bunconscious\b",
        ),
    ),
    Telling(
        what="fluid_on_fire",
        says=phrases(
            r"\b(?:poured|threw|squirted|sprayed|splashed|added|put)\b.*\b(?:petrol|gasoline|gas|diesel|alcohol"
            r"|spirits?|meths"
            r"|lighter fluid|kerosene|paraffin|white spirit)\b.*\b(?:on|onto|over|into) (?:the |hot "
            r"|lit )*(?:embers?|coals?"
            r"|charcoal|fire|flames?|it)\b",
            r"\b(?:lighter|starter|lighting) (?:fluid|fuel)\b.*\b(?:on|onto|over|into) (?:the |hot |lit )*"
            r"(?:embers?|coals?|fire|flames?)\b",
        ),
        unless=phrases(r"\b(?:never|not|no|don't|can i|can we|should)\b"),
    ),
    Telling(
        what="fire_spreads",
        says=phrases(
            r"\b(?:everything|deck|fence|house|shed|grass|table|hedge|tree|roof|bush(?:es)?|tent|curtains?|porch"
            r"|garage)"
            r"(?:'s| is| are| has)? (?:\w+ )?(?:caught|on) fire\b"
        ),
    ),
    Telling(
        what="sparks", says=phrases(r"\bsparks? (?:are |is |everywhere|fly\w*)"), unless=phrases(r"\bno sparks?\b")
    ),
    Telling(
        what="hot_ash",
        says=phrases(
            r"\b(?:ash|ashes|embers|coals)\b.*\b(?:in|into|in to) (?:the |a )?"
            r"(?:plastic|paper|cardboard|bin|trash|garbage|dumpster|compost)\b"
        ),
    ),
    Telling(
        what="cooker_fell",
        says=phrases(
            r"\b(?:cooker|smoker|grill|kettle|drum|chimney|brazier|barrel)(?:'s| is| has| just)* "
            r"(?:fell|fallen|tipped|toppled|knocked|blew) (?:over|down)\b",
            r"\b(?:knocked|tipped|kicked|bumped|pushed|blew|blown) (?:the |my |our |over the )(?:\w+ )?(?:cooker"
            r"|smoker|grill"
            r"|kettle|drum|chimney|brazier|barrel|pit)(?: \w+)? (?:over|down)\b|\b(?:knocked|tipped|kicked|pushed)"
            r" over the "
            r"(?:cooker|smoker|grill|kettle|drum|chimney|brazier|barrel)\b",
        ),
    ),
)
"""People first, like those in `trouble_words`."""

DIRT: tuple[Telling, ...] = (
    Telling(
        what="children_near",
        says=phrases(
            r"\b(?:kids?|child(?:ren)?|toddlers?)(?: are| is| keep| keeps)? "
            r"(?:playing|running|climbing|chasing|touching)(?: \w+){0,2} (?:it|grill|cooker|smoker|fire|kettle)\b",
            r"\b(?:kids?|child(?:ren)?|toddlers?|baby|boys?|girls?)(?:'s| is| are)? (?:\w+ )?(?:near|beside|next to"
            r"|at|close to"
            r"|around|by) (?:the )?(?:lit |hot )?(?:grill|cooker|smoker|fire|kettle|coals)\b",
        ),
    ),
    Telling(what="dropped_raw", says=phrases(r"\braw when it fell\b", r"\bdropped it raw\b")),
    Telling(what="dropped_done", says=phrases(r"\b(?:done|cooked) when it fell\b", r"\bdropped it (?:cooked|done)\b")),
    Telling(
        what="cross_contamination",
        says=phrases(
            rf"\bsame (?:tray|board|plate|knife|tongs|platter|pan) (?:\w+ ){{0,3}}raw (?:{MEAT_WORD}|juice)\b",
            r"\b(?:brushed|mopped|basted|painted|glazed) (?:\w+ ){0,3}(?:with |in )?(?:the )?raw "
            r"(?:marinade|brine|juices?)\b",
        ),
        unless=phrases(r"\b(?:never|not|no|didn't|can i|can we)\b"),
    ),
    Telling(
        what="reader_other",
        says=phrases(r"\b(?:another|other|new|second|different|spare) thermometer\b"),
        unless=phrases(r"\b(?:no|any|need|get|find|buy|is there|have you)\b"),
    ),
    Telling(
        what="reader_wrong",
        says=phrases(
            r"\b(?:thermometer|reader)(?:'s| is| reads| was)* (?:\w+ ){0,3}"
            r"(?:off by|out by|off|wrong|lying|inaccurate)\b",
            r"\b(?:thermometer|reader)\b.*\b(?:off|out) by\b",
        ),
        unless=phrases(r"\b(?:lid|dome|hood|pit|grate|fridge|oven) (?:thermometer|reader)\b"),
    ),
)
"""Near the fire, on the food, in the hand."""
