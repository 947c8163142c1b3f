"""Rules of fire and people that ride in prompts as cautions. Values only.

They limit no reading; where local codes and authorities decide, those count. Which moment carries each stands in
`scheduler/catalogue/cautions.toml`, its words in `bot/messages/steps/cautions.py`.
"""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.register.rule import Rule

_TESTS = ("tests/unit/scheduler/test_cautions.py", "tests/unit/bot/messages/test_cautions.py")


def _rule(name: str, figure: str, *sources: str) -> Rule:
    """Return the rule behind a caution; one without a published source is the house's own."""
    return Rule(
        id=f"caution_{name}",
        worst=FindingLevel.CAUTION,
        figure=figure,
        sources=sources,
        house=not sources,
        tests=_TESTS,
    )


REGISTER: tuple[Rule, ...] = (
    _rule(
        "co",
        "charcoal burns outdoors only, until it is stone cold: no garage, tent, porch, vehicle",
        "US CPSC documents 5012 and 99-051",
    ),
    _rule("fluid", "starter fluid only before lighting, never on a lit fire", "US Fire Administration grilling safety"),
    _rule("ban", "no fire against a ban or in wind that carries sparks; local rules decide", "Jefferson County CO"),
    _rule("unattended", "somebody is awake and near while it burns", "US Fire Administration grilling safety"),
    _rule("site", "3 m (10 ft) from what burns, children and pets 1 m back", "US Fire Administration", "NFPA"),
    _rule("ash", "48 h, in a metal container with a lid, outdoors", "US Fire Administration (48 h: common practice)"),
    _rule("raw", "raw and cooked apart, meat not rinsed", "USDA FSIS basics for handling food safely"),
    _rule("danger", "no pause of half-cooked meat between 40 and 140 F", "USDA FSIS Smoking Meat and Poultry"),
    _rule("marinade", "a marinade that held raw meat only if boiled", "USDA FSIS Smoking Meat and Poultry"),
    _rule("permit", "a public or paid meal: local health department", "temporary food event rules of four counties"),
    _rule("at_risk", "guests at risk: no meat below the minimum, strict hold", "USDA FSIS Cooking for Groups"),
    _rule("bristle", "no wire bristles on the grate", "MMWR 2012"),
    _rule("burn_aid", "a burn: cool running water 10 to 20 min, no ice, no butter", "first-aid pages for burns (read)"),
    _rule("storm", "lightning: indoors until 30 min after the last thunder", "lightning safety advice (from memory)"),
    _rule("grease", "burning fat is smothered, never water", "first-aid pages on grease fires (partly from memory)"),
    _rule("hot", "gloves and long sleeves at hot metal, steam and fat"),
    _rule("burp", "a starved fire is opened a crack first"),
    _rule("knife", "a cut-resistant glove, away from the hand"),
    _rule("allergy", "allergens kept apart"),
    _rule("drink_sleep", "who is tired or drank hands over before fire work"),
)
