"""How people shout that somebody or a building is in danger: short, badly typed, in English.

Patterns only, heard before any other; what is said in other languages stands in `trouble_words_foreign`.
"""

from __future__ import annotations

from bot.conversation.parsing.telling import MEAT, Telling
from bot.conversation.parsing.words import phrases

SUPPOSED = (
    r"^(?:so |and |hey |but )?(?:what if|what (?:do|should|would|must) (?:i|we) do (?:if|when)|if |in case"
    r"|how do (?:i|we))"
)
"""Asked about what may come: no danger is told by that."""

_NOT = r"\b(?:no|not|never|nobody|no one|isn't|aren't|don't|doesn't|didn't|wasn't|can't smell|without|nearly|almost)\b"
_THE = r"(?:the |a |my |our |their |his |her |that |this )?"
_HOUSE = (
    r"(?:house|home|hut|shed|garage|cabin|barn|kitchen|roof|building|flat|room|bedroom|attic|basement|tent|gazebo"
    r"|caravan"
    r"|camper|van|car|conservatory|car ?port|porch|shack|marquee|awning|club ?house|greenhouse|garden house"
    r"|curtains?|sofa)"
)
_OUTSIDE = (
    r"(?:everything|deck|decking|fence|grass|lawn|tables?|hedge|trees?|bush|bushes|field|straw|hay|pallets?|tarp"
    r"|tablecloth|bench|chairs?|pergola|parasol|umbrella|gate|bins?|compost|rubbish|wood ?pile|neighbou?rs?)"
)
_BURNS = (
    r"(?:'s| is| are| has| have| just| now| got| gone| all| really)* ?(?:caught (?:fire|alight|light)"
    r"|catching (?:fire|alight)|on fire|alight|ablaze|in flames|burning(?! (?:hot|well|nicely|clean|good|fine))"
    r"|burns(?! (?:hot|well|nicely|clean|good|fine))|(?:went )?up in flames)"
)
_COALS = (
    r"(?:coals?|embers|fire|flames?|fire ?pit|grill|smoker|cooker|barbecue|bbq|kettle|chimney|fire basket"
    r"|hot (?:fat|ash))"
)
_THING = (
    rf"(?:{MEAT}|pieces?|some|one|half|bits?|few|end|bark|probes?|thermometer|lid|chunks?|wood|logs?|foil|paper|pan"
    rf"|tray"
    r"|tongs|spatula|gloves?|phone|knife|fork|brush|wire|grate|bottle|ash|water|rain|fat|grease|drips?|sausages?|wings?"
    r"|thighs?|potato(?:es)?|corn|buns?|cap|temp|pit|bone|which|and|then|that|this|just|has|what|everything|food)"
)
_HOT = r"(?:hot |lit |burning )*(?:grill|lid|cooker|smoker|kettle|coals?|grate|chimney|embers|pan)"
_CHILD = r"(?:kids?|child(?:ren)?|toddlers?|baby|boys?|girls?|son|daughter|grandson|granddaughter|little one)"
_PERSON = (
    rf"(?:{_CHILD}|somebody|someone|he|she|guests?|people|grandma|grandpa|granny|mum|mom|dad|neighbou?r|man|woman)"
)
_COOKER = r"(?:cooker|smoker|grill|kettle|drum|barbecue|bbq|fire|coals?|brazier)"
_UNDER = (
    r"(?:garage|tent|porch|shed|hut|barn|cabin|car ?port|conservatory|gazebo|caravan|camper|basement|cellar|greenhouse"
    r"|marquee|awning|workshop|trailer|outhouse|pavilion|summer ?house)"
)
_ANY_ROOF = rf"(?:{_UNDER}|kitchen|house|van|hall|room)"
_IN = r"(?:in|into|inside|under|underneath|to)"
_LIMB = r"(?:hands?|fingers?|thumbs?|finger ?tips?|palm|wrist|arm|leg|foot|knuckle|myself|himself|herself|themselves)"

PEOPLE_HURT: tuple[Telling, ...] = (
    Telling(
        what="burn_severe",
        says=phrases(
            rf"\b(?!{_THING}\b)[a-z']+ (?:has |have |just |'s )*(?:fell|fallen|falls|tripped|stumbled|slipped"
            rf"|stepped|jumped)"
            rf"(?: \w+)? (?:in|into|in to|onto|on to|over into|against) {_THE}(?:hot |lit |burning )*{_COALS}\b",
            rf"\b(?:tripped|stumbled|slipped|fainted) (?:\w+ ){{1,3}}(?:in|into|onto|on|against) {_THE}(?:hot "
            rf"|lit )*{_COALS}\b",
            r"\b(?:clothes|clothing|sleeves?|hair|shirt|apron|trousers|pants|jacket|dress|skirt|scarf|beard|jumper"
            r"|hoodie)"
            rf"{_BURNS}\b",
            r"\b(?:he|she|kid|child|guest|somebody|someone)(?:'s| is) (?:on fire|burning|in flames)\b",
        ),
        unless=phrases(SUPPOSED, _NOT),
    ),
    Telling(
        what="collapsed",
        says=phrases(
            r"\bcollapsed\b(?! (?:tent|table|chair|bark|fire|coals))|\bunconscious\b",
            r"\b(?:not|stopped|isn't|isnt|hardly|barely) breath(?:e|ing)\b|\b(?:doesn't|does not) breathe\b",
            r"\bheart attack\b|\bcardiac arrest\b|\bno pulse\b|\b(?:having|had|has) a (?:stroke|seizure|fit)\b",
            rf"\b{_PERSON}(?:'s| is) (?:unresponsive|not (?:responding|answering|moving)|on the (?:ground|floor))\b",
            rf"\b{_PERSON} (?:just )?(?:keeled over|dropped to the (?:ground|floor))\b",
        ),
        unless=phrases(SUPPOSED, r"\b(?:fire|coals?|pit|charcoal)(?:'s| is)? not breath|\btable collapsed"
        r"|\b(?:table|tent"
                       r"|chair|bench|gazebo|shelf|stack|pile|grate|fire|coals|pit|bark|crust"
                       r"|temps?)(?: \w+)? collapsed"),
    ),
    Telling(
        what="cut",
        says=phrases(
            r"\b(?:cut|sliced|stabbed|chopped|gashed|slashed|nicked) (?:(?:off|into|in|open|through|right|deep"
            r"|badly|the"
            rf"|my|his|her|their|half|part|tip|of|a|top|end) ){{0,5}}{_LIMB}\b",
            rf"\b{_LIMB} (?:is |are |was |got |just )*(?:\w+ )?(?:cut|bleeding|sliced)\b",
            r"\b(?:blood everywhere|lots? of blood|bleeding (?:badly|a lot|heavily|everywhere)|stop(?:s|ping)? "
            r"(?:the )?bleeding)\b",
            r"\b(?!it\b|meat\b|juice\b|roast\b|steak\b|chicken\b)[a-z]+(?:'s| is) bleeding\b",
        ),
        unless=phrases(SUPPOSED, r"\b(?:nobody|no one|didn't|don't|never) (?:\w+ )?(?:cut|bleed)"
                       r"|\b(?:meat|steak|roast|brisket|chicken|it)(?:'s| is) (?:\w+ )?bleeding\b|\bfish fingers?\b"),
    ),
    Telling(
        what="burn",
        says=phrases(
            rf"\b(?:{_CHILD}|he|she) (?:has |just )*(?:touched|grabbed|leaned on|sat on) {_THE}{_HOT}\b",
            r"\b(?:bad|nasty|serious|severe|deep|second degree|third degree|2nd degree|3rd degree) burns?\b",
            r"\b(?:hand|hands|arm|foot|feet|fingers?) (?:\w+ )?(?:in|into) the (?:hot )?(?:coals?|fire|embers"
            r"|flames?)\b",
            r"\bbadly burn(?:ed|t)\b(?! (?:ends?|bark|meat|crust|rub))",
        ),
        unless=phrases(SUPPOSED, _NOT, rf"\b(?:{MEAT}|bark|ends|crust)(?:'s| is| are| got| was)* badly burn"),
    ),
    Telling(
        what="guest_ill",
        says=phrases(
            r"\bbeing sick\b|\bpuk(?:ed|es|ing)\b|\bthrowing up\b",
            rf"\b(?!guests?|people|neighbou?r){_PERSON}(?:'s| is| are| was| were| feels?| got| gets?)+ (?:\w+ )?"
            r"(?:sick|ill|poorly|unwell)\b|\bguests? (?:is|are|got|feels?) (?:\w+ )?sick\b",
        ),
        unless=phrases(SUPPOSED, _NOT, r"\bsick (?:of|day|note|leave)\b"),
    ),
    Telling(
        what="co_symptom",
        says=phrases(r"\bhead (?:\w+ )?(?:hurts|aches|aching|pounding|spinning|spins|throbbing)\b"),
        unless=phrases(SUPPOSED, _NOT),
    ),
)  # fmt: skip
"""Somebody is hurt or ill."""

PLACES: tuple[Telling, ...] = (
    Telling(
        what="gas_smell",
        says=phrases(
            r"\bsmell(?:s|ing|ed)? (?:\w+ ){0,3}gas\b|\bgas (?:smell|leak|leaks|leaking|is leaking|escaping"
            r"|is escaping)\b",
            r"\b(?:gas bottle|gas tank|gas cylinder|cylinder|canister|propane(?: \w+)?|gas hose|regulator)"
            r"(?:'s| is| are| just| has)* (?:\w+ )?(?:leaking|leaks|hissing|on fire|burning|in flames|alight"
            r"|explod\w+)\b",
            r"\b(?:gas|cylinder|bottle|grill|cooker|smoker) explo(?:ded|des|sion)\b",
        ),
        unless=phrases(SUPPOSED, _NOT),
    ),
    Telling(
        what="building_fire",
        says=phrases(
            rf"\b{_HOUSE}{_BURNS}\b",
            rf"\bset(?:s|ting)? {_THE}{_HOUSE} (?:on fire|alight|ablaze)\b",
            r"\bsmoke (?:\w+ ){0,2}(?:in|inside|fills?|filling|out of|from) (?:the |my |our |their )?(?:house|home"
            r"|kitchen"
            r"|garage|hut|shed|flat|room|bedroom|hall|attic|basement|caravan|tent|roof|windows?)\b",
            rf"\bflames? (?:\w+ ){{0,3}}(?:in|inside|from|out of|on|at|up) (?:the |our |my )?{_HOUSE}\b",
            r"\b(?:house|kitchen|building|roof|garage|shed|hut|chip ?pan) fire\b",
            r"\bfire (?:\w+ )?(?:in|inside|on) (?:the |my |our )?(?:house|kitchen|roof|bedroom|attic|hut|flat|room)\b",
        ),
        unless=phrases(SUPPOSED, _NOT, r"\bfire (?:alarm|detector)"),
    ),
    Telling(
        what="fire_spreads",
        says=phrases(
            rf"\b{_OUTSIDE}{_BURNS}\b",
            rf"\bset(?:s|ting)? (?:fire to )?{_THE}{_OUTSIDE}(?: on fire| alight| ablaze)?\b(?<=fire|ight|laze)",
            rf"\bset(?:s|ting)? fire to {_THE}[a-z]+\b",
            r"\b(?:fire|flames?|it)(?:'s| is| has| have| are)* (?:spread(?:ing|s)?|jumped) (?:\w+ )?(?:to|over|into"
            r"|onto"
            r"|on)\b",
            r"\bfire(?:'s| is| has)* spread(?:ing)?\b",
        ),
        unless=phrases(SUPPOSED, _NOT, r"\bspread (?:the )?coals|\bfires? (?:ban|alarm)|\bset (?:the )?table\b"),
    ),
    Telling(
        what="grease_fire",
        says=phrases(
            r"\bflames? (?:\w+ ){0,2}(?:under|inside|in|below|at|over|around) (?:the |my )?(?:lid|hood|meat|drip"
            r"|grease|cooker"
            r"|smoker|pit|kettle)\b",
            r"\blid(?:'s| is)? on fire\b",
        ),
        unless=phrases(SUPPOSED, _NOT, r"\b(?:small|low|blue|little|light(?:ing)?|chimney|burner) flames?\b"),
    ),
    Telling(
        what="cooker_moving",
        says=phrases(
            rf"\b(?:mov(?:e|ing)|bring(?:ing)?|wheel(?:ing)?|roll(?:ing)?|push(?:ing)?|drag(?:ging)?|carry(?:ing)?"
            rf"|put(?:ting)?|tak(?:e|ing)|pull(?:ing)?|light(?:ing)?|run(?:ning)?|use|using|set(?:ting)? up) "
            rf"{_THE}(?:lit |hot |whole )*{_COOKER} (?:\w+ )?(?:{_IN} {_THE}{_ANY_ROOF}|indoors|in doors|inside)\b",
            rf"\b(?:mov(?:e|ing)|bring(?:ing)?|wheel(?:ing)?|roll(?:ing)?|push(?:ing)?|drag(?:ging)?|put(?:ting)?"
            rf"|tak(?:e|ing)|pull(?:ing)?|carry(?:ing)?) (?:it|this|everything|all) (?:\w+ )?{_IN} {_THE}{_UNDER}\b",
            r"\b(?:wheeling|rolling|pushing|dragging|moving) it (?:inside|indoors|under (?:cover|a roof|the roof))\b"
            r"(?=.*\b(?:rain\w*|wind\w*|storm\w*|pour\w*|snow\w*|wet|cold|hail\w*)\b)",
        ),
        unless=phrases(
            r"\b(?:never|don't|do not|won't|not going to|must not|mustn't|shouldn't|nobody|out of|back out)\b",
            r"\bcoals?\b.*\b(?:chimney|basket)\b|\b(?:cold|empty|clean|unlit) (?:cooker|smoker|grill|kettle|one)\b",
        ),
    ),
    Telling(
        what="cooker_indoors",
        says=phrases(
            rf"\b(?:it's|its|it is|it stands|they're|stands|standing)(?: \w+){{0,2}} (?:in|inside|under) "
            rf"(?:the |a |my |our ){_UNDER}\b",
            rf"\b{_COOKER}(?:'s| is| are| stands| sits)*(?: \w+){{0,2}} (?:in|inside|under) {_THE}{_ANY_ROOF}\b",
            rf"\b(?:moved|wheeled|rolled|pushed|dragged|brought|put|carried|took|got) (?:it|{_THE}{_COOKER})(?: \w+)? "
            rf"{_IN} {_THE}{_UNDER}\b",
        ),
        unless=phrases(
            r"\b(?:never|isn't|don't|won't|can i|can we|could|should|may|might|not (?:in|inside|under)|out of"
            r"|beside|next to"
            r"|outside|behind|in front of)\b",
            r"\b(?:fire|smoke|co) (?:alarm|detector)",
        ),
    ),
)  # fmt: skip
"""A house, a hedge, gas, a roof over burning charcoal."""

UNCLEAR: tuple[Telling, ...] = (
    Telling(
        what="danger_unclear",
        says=phrases(
            r"^\W*(?:help\W+)?(?:fire\W*!|fires?\W+fire\b|fire\W+help|flames\W*!+|help\W+fire|emergency|mayday|sos)\W*"
            r"(?:fire|help|now|please|here|quick|\W)*$",
            r"\b(?:call(?:ing)?|ring|phone|get|need|send) (?:us )?(?:an? |the |for an? )?(?:ambulance|911|112|999"
            r"|fire (?:brigade|department|service)|fire ?fighters|paramedics)\b|^\W*ambulance\b",
            r"\b(?:drank|swallowed|drunk) (?:\w+ ){0,3}(?:fluid|petrol|gasoline|meths|bleach|paraffin|lighter)\b",
            rf"\b{_PERSON}(?:'s| is| are| got| was)+ (?:\w+ )?(?:hurt|injured|dying|electrocuted)\b",
            r"\b(?:there's|there is|been|had) an? (?:\w+ )?accident\b",
            rf"\b(?!(?:{MEAT}|wood|coals?|charcoal|chunks?|chimney|logs?|briquettes|you|we|i|guys|team|boys|girls"
            rf"|this|that"
            r"|they|market|everybody|everyone|crew|he|she|cooker|smoker|grill|kettle|drum|lid|tray|fat|grease|oil"
            r"|pan|now"
            r"|wire|cable|lead|cord|steaks?|burgers?|sausages?|wings?|thighs?)\b)[a-z]+(?:'s| is| are) on fire\b",
        ),
        unless=phrases(SUPPOSED, r"\b(?:no|not|nobody|no one|isn't|aren't|never|didn't)\b"),
    ),
)  # fmt: skip
"""Loud, and not said of what: asked back, with the number first."""
