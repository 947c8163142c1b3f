"""Step words: "lit it", "meat's on", "pulled it", "boxed", "served", and the step of the catalogue each one means.

Ids are those of the step catalogue. Whether and when it was done is decided by the interpreter.
"""

from __future__ import annotations

import re

from bot.conversation.parsing.pausing import is_other_food
from bot.conversation.parsing.words import any_of, word_set

LATE_STAGES = ("resting", "serving", "after")
COOKING_STAGES = ("cooking", *LATE_STAGES)
"""The meat has been on the fire."""
BEFORE_THE_PULL = ("before", "fire", "cooking")
"""What comes next is done at a time that is told later, as often as not."""
READING_STEPS = word_set(
    "core_read pit_check pit_recover come_up_check second_spot hold_check serve_reading cool_check reheat "
    "tender_test fridge_check"
)
"""Steps that are only a number or a feel: "done" or a thumb without one leaves them open."""
SMALL_JOBS = word_set("spritz wood_add refuel water_pan rotate")
"""Jobs that people tell of by name alone ("did the spritz")."""
_BEFORE_THE_MEAT = frozenset({"pit_stable", "vents_early", "wake", "order_meat", "collect_meat", "rub_binder"})
"""Steps that are told only before the meat is on; later the same words are talk."""
TIMED_STEPS = frozenset(
    {"light", "meat_on", "pull", "box_meat", "serve", "wrap_do", "dry_brine", "vent_meat", "leftovers"}
)
"""Steps whose clock time matters: a bare time answers them."""

_THING = (
    "(?:(?:the |my |our |all )?(?:meat|ribs?|racks?|briskets?|butts?|shoulders?|pork|beef"
    "|food)|it|they|everything|he|she|she's|we)"
)
_IS = r"(?:'s|'re| is| are| went| goes| has gone| has been| have been| been|s){0,2}"
_PATTERNS: tuple[tuple[str, str], ...] = (
    (
        "dry_brine",
        any_of(
            r"\b(?:salted|dry[- ]?brined|brined|seasoned|gesalzen|sale|salado)\b",
            r"\b(?:salt|rub)(?:'s| is)? on\b",
        ),
    ),
    ("trim", r"\btrimmed\b|\btrimming(?:'s| is)? done\b"),
    (
        "light",
        any_of(
            r"\blit\b",
            (
                r"\b(?:fire|coals?|charcoal|chimney|smoker|cooker)(?:'s|s| is| are)? (?:lit|going|burning"
                r"|started|on)\b"
            ),
            (r"\b(?:started|lighted|made|got) (?:the |a |my )?(?:fire|coals?|chimney|charcoal)(?: going)?\b"),
            r"\bangezundet\b",
            r"\bfeuer (?:ist )?an\b",
        ),
    ),
    ("wake", r"^(?:i'?m|i am|we'?re|we are)? ?(?:up|awake)(?: now)?$"),
    (
        "vents_early",
        any_of(
            r"\b(?:vents?|air)(?:'s| is| are)? (?:all )?(?:set|adjusted|half closed|nearly closed)\b",
            r"\b(?:set|adjusted|began (?:to close|closing)|started (?:to close|closing)) (?:all )?the vents?\b",
        ),
    ),
    (
        "handover",
        any_of(
            r"\b(?:i have|i've got|i got|got|taking|i take) (?:the |my )?watch\b",
            r"\b(?:taking|taken|took) over\b",
            r"\bmy watch now\b",
        ),
    ),
    (
        "weather",
        any_of(
            r"\bweather(?:'s| is)? (?:fine|ok|checked|looked at|read|good)\b",
            r"\b(?:checked|read|looked at) the (?:weather|forecast)\b",
        ),
    ),
    ("order_meat", r"\b(?:ordered|reserved) (?:it|them|the \w+)\b|\bmeat(?:'s| is)? (?:ordered|reserved)\b"),
    (
        "collect_meat",
        any_of(
            r"\bmeat(?:'s| is)? (?:home|bought|here|in the house)\b",
            r"\b(?:bought|collected|picked up|fetched|got) the (?:meat|ribs?|brisket|butts?|shoulders?|pork|beef)\b",
        ),
    ),
    ("rub_binder", r"\brubbed\b|\bbinder(?:'s| is)? on\b"),
    ("wash_up", r"\bwashing[- ]up(?:'s| is)? done\b|\bdishes(?: are)? done\b"),
    (
        "grease_clean",
        any_of(
            r"\b(?:drip|grease) (?:tray|pan)(?:'s| is)? (?:empty|emptied|clean)\b",
            r"\bemptied the (?:drip|grease) (?:tray|pan)\b",
        ),
    ),
    (
        "smoke_clean",
        any_of(
            r"\b(?:clean|thin|blue|clear)(?: blue)? smoke\b",
            r"\bsmoke(?:'s|s| is| looks| runs| running)?(?: now)? (?:clean|thin|blue|clear)\b",
        ),
    ),
    (
        "pit_stable",
        any_of(
            (
                r"\b(?:pit|smoker|cooker|grill|temps?|fire)(?:'s|s| is| are)? (?:steady|stable|settled"
                r"|dialed in|holding(?: steady)?|locked in|up to temp)\b"
            ),
            r"\bup to temp(?:erature)?\b",
            "^(?:holding|steady|stable|settled)(?: steady)?$",
        ),
    ),
    (
        "probe_in",
        (
            r"\bprobes?(?:'s| is| are)? in\b(?! (?:the |a |my )?(?:sink|dishwasher|wash|drawer|car|bucket|bin|kitchen"
            r"|house|fire"
            r"|water|wrong|air|fat)\b)|\bprobed (?:it|the meat)\b|\bput (?:the )?probes? in\b"
        ),
    ),
    (
        "box_meat",
        any_of(
            r"\bboxed\b(?! set\b)",
            r"\bin(?:to)? (?:the |a )?(?:box|cooler|cool box|hot box|ice chest|warmer)\b",
            r"\bresting\b",
            r"\b(?:in|with) (?:the )?towels?\b",
            r"\bin(?:to)? (?:the |a )?oven\b",
            r"\bput (?:it|them) to rest\b",
            r"\bruht\b",
        ),
    ),
    (
        "pull",
        any_of(
            (
                r"\b(?:pulled|took|taken|taking|got|take) (?:it|them|the meat|the ribs?|the brisket"
                r"|the butts?|the shoulders?|the racks?)? ?(?:off|out)\b"
            ),
            r"\bpulled\b(?! (?:pork|a|an|my|his|her|some|over|up|the (?:car|van|dog|kids?|plug|curtains?|chairs?"
            r"|tables?|trailer"
            r"|weeds?))\b)(?!.*\bapart\b)",
            rf"\b{_THING}{_IS}(?: come| came)?(?: all)? off\b",
            r"\b(?:came|come) off\b",
            r"^off\b(?! (?:to (?!rest\b|the (?:box|cooler|board|oven))|topic|work|duty|home|road|limits|season))",
            r"\boff (?:the )?(?:heat|fire|grill|smoker|pit|cooker)\b",
            r"\bout of (?:the )?(?:smoker|pit|cooker)\b",
            r"\bruntergenommen\b",
            r"\bretire\b",
        ),
    ),
    (
        "vent_meat",
        any_of(
            r"\bvent(?:ed|ing)\b(?! (?:closed|open))",
            r"\b(?:opened|open) (?:up )?the (?:wrap|foil|paper)\b",
            r"\bletting (?:it|them) (?:vent|breathe|steam)\b",
        ),
    ),
    ("board_ready", r"\b(?:board|knife|knives|cutting board)(?:'s|s| is| are| and \w+(?: are)?)? (?:ready|out|set)\b"),
    (
        "slice",
        any_of(
            (
                r"\b(?:sliced|slicing|carved|carving|shredded|shredding|pulled apart|cut (?:it|them) up"
                r"|aufgeschnitten)\b"
            ),
            r"\bpulled\b.*\bapart\b",
        ),
    ),
    (
        "serve",
        any_of(
            r"\b(?:served(?! in the (?:army|navy|war))|plated|dished up|serviert|servi)\b",
            r"\b(?:dinner|food|lunch|supper)(?:'s|s| is| are)? (?:out|up|served|on the table)\b",
            rf"(?:^|\b{_THING}{_IS}(?: \w+)? |\b(?:dinner|supper|lunch|plates?|platters?)(?: is| are"
            rf"|'s)? )on the table\b",
            r"\b(?:we're|we are|everyone's|everybody's|they're|people are|all) eating\b",
            "^eating(?: now)?$",
            r"\bplates are out\b",
        ),
    ),
    (
        "leftovers",
        any_of(
            (r"\bleftovers?(?:'s| is| are)? (?:\w+ )?(?:in|put|away|boxed|packed|stored|done|cooling|bagged)\b"),
            r"\b(?:put|packed|stored)(?: \w+){0,3} away\b",
            r"\b(?:in|into) the fridge\b",
            r"\bfridged\b",
        ),
    ),
    (
        "shutdown",
        any_of(
            r"\b(?:vents?|air)(?:'s| is| are)? (?:all )?(?:closed|shut)\b",
            r"\b(?:closed|shut)(?: down)?(?: all)? the (?:vents?|air|cooker|smoker|pit)\b",
            r"\bshut (?:it |everything |her )?down\b",
            r"\bclosed (?:it|her) (?:down|up)\b",
        ),
    ),
    (
        "ash",
        any_of(
            r"\bash(?:es)?(?:'s| is| are)? (?:out|cold|gone|emptied|binned|in the tin)\b",
            r"\b(?:emptied|dumped|binned|cleaned out) (?:the )?ash(?:es)?\b",
        ),
    ),
    ("spritz", r"\bspritz(?:ed|ing)?\b|\bsprayed\b|\bmisted\b"),
    (
        "wood_add",
        any_of(
            (
                r"\b(?:added|threw|put|tossed|dropped|more|chucked|lobbed|slung|popped|stuck|bunged|laid|fed|gave it"
                r"|chuck|shoved) (?:\w+ ){0,4}"
                r"(?:wood|chunks?|chips|splits?|logs?|oak|hickory|apple|applewood|cherry|pecan|mesquite|beech|maple"
                r"|alder"
                r"|peach|sticks?)\b"
            ),
            r"\b(?:chunks?|splits?|logs?|oak|hickory|cherry|pecan|mesquite)(?:'s| is| are)? (?:in|on|added)\b",
            r"\bwood(?:'s| is)? (?:in|on|added)\b",
            r"\bdid (?:the )?wood\b",
        ),
    ),
    (
        "refuel",
        any_of(
            r"\b(?:refuel(?:l?ed)?|restoked)\b",
            r"\b(?:added|put|threw|more|chucked|dumped|tipped|poured|shovell?ed|tossed|lobbed) (?:\w+ ){0,4}"
            r"(?:coals?|charcoal|fuel|briquettes|briqs|lump)\b",
            r"\btopped up (?:the )?(?:coals?|charcoal|fuel|basket)\b",
            r"\b(?:added|put|dumped|poured|threw|chucked|tipped) (?:\w+ ){0,3}chimney\b(?: of \w+)?(?: (?:in|on))?",
            r"\bchimney(?: of \w+)? (?:in|on|added)\b",
        ),
    ),
    (
        "water_pan",
        any_of(
            r"\bwater(?: pan)? (?:refilled|filled|topped)\b",
            r"\b(?:filled|topped up|refilled|topped off) (?:up )?(?:the )?(?:water|pan|water pan)\b",
            r"\bwater(?: pan)?(?:'s| is)? (?:full|topped up|filled)\b",
        ),
    ),
    (
        "rotate",
        (
            r"\b(?:rotated|swapped|turned|spun|flipped)(?: (?:it|them|'em|em|her|the (?:racks?|ribs?|meat"
            r"|briskets?|butts?|lot))\b"
            r"|(?: (?:a?round|over|sides|now|already|just))*[ |,.!]*$)"
        ),
    ),
    (
        "box_ready",
        any_of(
            r"\b(?:box|cooler|oven|cool box)(?:'s| is)? (?:hot|warm|ready|preheated|preheating)\b",
            r"\bpreheated (?:the )?(?:box|cooler|oven)\b",
        ),
    ),
    (
        "meat_on",
        any_of(
            rf"\b{_THING}{_IS}(?: all)? on\b(?! (?:the )?(?:table|board|plate|fire\?|time|track))(?! [0-9])",
            r"^(?:just )?(?:went |put |gone |going )?on\b(?! (?:the )?(?:table|board|plate|time|track|my|it))",
            r"\b(?:put|got|threw|chucked) (?:it|them|the \w+|everything) on\b",
            r"\bwent (?:on|in)\b",
            r"(?<![0-9] )(?<![0-9][fc°] )\b(?:on|in) the (?:smoker|grill|pit|cooker|grate)\b",
            r"\baufgelegt\b",
            r"\b(?:fleisch|es) ist drauf\b",
            r"^drauf\b",
        ),
    ),
)
_COMPILED = tuple((step, re.compile(pattern)) for step, pattern in _PATTERNS)


def mentioned(clause: str, stage: str) -> tuple[str, ...]:
    """Return the steps that a clause says were done, in the order they are said.

    A pit that is "steady" is a step only until the meat is on; after that it is talk beside a reading.
    """
    found: list[tuple[int, int, str]] = []
    for step, pattern in _COMPILED:
        match = pattern.search(clause)
        if match is None or not _in_its_time(step, match.group(), stage):
            continue
        if step == "leftovers" and is_other_food(clause):
            continue
        if all(match.end() <= left or match.start() >= right for left, right, _ in found):
            found.append((match.start(), match.end(), step))
    return tuple(step for _, _, step in sorted(found))


def _in_its_time(step: str, words: str, stage: str) -> bool:
    """Return False for words that mean the step only in another stage: a steady pit, closed vents, the oven."""
    if step in _BEFORE_THE_MEAT:
        return stage in ("none", "before", "fire")
    if step == "leftovers" and "leftover" not in words and stage in ("none", "before", "fire"):
        return False
    if step == "shutdown" or words.endswith("oven"):
        return stage in LATE_STAGES
    return True


NAMES: tuple[tuple[str, str], ...] = (
    ("heat_parts_in", r"\bdeflector\b|\bdrip pan\b|\bgrates?\b|\bparts\b"),
    ("spritz", r"\bspritz"),
    ("wood_add", r"\bwood\b|\bchunks?\b|\bchips\b"),
    ("refuel", r"\brefuel|\bcharcoal\b|\bcoals?\b"),
    ("fuel_check", r"\bfuel\b"),
    ("water_pan", r"\bwater\b"),
    ("wrap_do", r"\bwrap(?:ping)?\b"),
    ("rotate", r"\brotat|\bswap"),
    ("core_read", r"\b(?:core|meat temp|probe|reading)\b"),
    ("pit_check", r"\bpit\b"),
    ("bark_check", r"\bbark\b"),
    ("tender_test", r"\b(?:tender(?:ness)?|feel) ?(?:test|check)?\b"),
    ("box_ready", r"\bbox\b|\bcooler\b"),
    ("pull", r"\bpull(?:ing)?\b"),
    ("slice", r"\bslic(?:e|ing)\b"),
    ("light", r"\blight(?:ing)?\b|\bfire\b"),
    ("dry_brine", r"\b(?:dry[- ])?brin(?:e|ing)\b|\bsalt(?:ing)?\b"),
    ("trim", r"\btrim"),
    ("smoke_clean", r"\bsmoke\b"),
    ("vents_early", r"\bvents?\b"),
    ("weather", r"\bweather\b|\bforecast\b"),
    ("first_look", r"\bfirst look\b"),
    ("sides", r"\bsides\b"),
    ("wash_up", r"\bwash(?:ing)?[- ]up\b|\bdishes\b"),
    ("grease_clean", r"\b(?:drip|grease) (?:tray|pan)\b"),
    ("handover", r"\bhand(?:ing)?[- ]?over\b|\bwatch change\b"),
    ("roles", r"\broles\b"),
    ("headcount", r"\bguests?\b|\bhead ?count\b"),
)
_NAMES = tuple((step, re.compile(pattern)) for step, pattern in NAMES)


def named(text: str) -> str | None:
    """Return the step that a text names without saying it was done ("skip the spritz"), or None."""
    return next((step for step, pattern in _NAMES if pattern.search(text)), None)
