"""What a text tells of guests, meat and rules: of a cook that runs as intents, of a cook to come as parts of a draft.

Each reader stands in a file of its own; this one only asks them in order.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from bot.commands import CareSaid, EditionSaid, Intent, Note, SafeBySaid, TargetSaid, TreatedSaid, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing.care import ages_in, care_in, named_allergy, nobody, perhaps_in
from bot.conversation.parsing.cut_names import find_cuts
from bot.conversation.parsing.readings import asked
from bot.conversation.parsing.rules_said import rules_said
from bot.conversation.parsing.setup_told import Telling
from bot.conversation.parsing.treated import like_treated, only_treated, treated_in
from bot.conversation.parsing.wished_core import core_in, in_c, only_target, target_in
from bot.conversation.parsing.words import clauses
from scheduler.facts import Slot, Treatment

_LONE = re.compile(r"\W*([0-9]{2,3}(?:[.,][0-9])?) ?°? ?([cf])?\b\W*")


_READ_AT = re.compile(r"^(?:it(?:'s| is| was)? |all |we're |i'm |ok |yes )*(?:done|finished|ready) at\b")


def _was_read(heard: str, context: Context) -> bool:
    """Return whether "done at 203" tells what was read: its core is asked for."""
    return bool(_READ_AT.match(heard)) and Slot.CORE in asked(context)


def told_of_care(
    heard: str, context: Context, read_rest: Callable[[str], tuple[Intent, ...]]
) -> tuple[Intent, ...] | None:
    """Return what a text of a cook that runs tells of guests, meat, rules or a wished core, with what else it tells;
    None when it tells nothing of them.
    """
    if heard.endswith("?") and rules_said(heard) is None:
        return None
    alone = (
        nobody(heard, asked=any(isinstance(choice.meaning, CareSaid) and choice.letter for choice in context.choices))
        or (named_allergy(heard, context.people) if context.asks_allergy else None)
        or rules_said(heard)
        or only_treated(heard)
        or (None if _was_read(heard, context) else only_target(heard))
    )
    if alone is not None:
        return (alone,)
    if context.stage in ("after", "closed"):
        return None
    if (treated := _treated_beside(heard, read_rest)) is not None:
        return treated
    if (ages := ages_in(heard)) is not None:
        return (ages,) if isinstance(ages, CareSaid) else (Note(text=heard),)
    if (perhaps := perhaps_in(heard)) is not None:
        name, said = perhaps
        return (Unclear(question=name, text=heard, options=(("yes", said), ("no", Note(text=heard)))),)
    found = care_in(heard, context.people)
    if found is None:
        return (treated_how(heard),) if like_treated(heard) else None
    others = [found.rest[start:end] for start, end in clauses(found.rest) if "|" not in found.rest[start:end]]
    rest = ", ".join(part.strip() for part in others)
    return (*(read_rest(rest) if re.search(r"[a-z0-9]", rest) else ()), found.said)


def _treated_beside(heard: str, read_rest: Callable[[str], tuple[Intent, ...]]) -> tuple[Intent, ...] | None:
    """Return what was done to the meat with what is told in other clauses, None when a text tells of no treatment."""
    found = treated_in(heard)
    if found is None or not found.said.treatments:
        return None
    parts = [(a, b) for a, b in clauses(heard) if not any(a <= place < b for place in found.places)]
    rest = ", ".join(heard[a:b].strip() for a, b in parts)
    beside = read_rest(rest) if re.search(r"[a-z0-9]", rest) else ()
    return (*(one for one in beside if not isinstance(one, Unclear | Note)), found.said)


def treated_how(heard: str) -> Unclear:
    """Return the question what was done to meat by words that may mean a treatment: one tap."""
    options: tuple[tuple[str, Intent], ...] = (
        ("needles", TreatedSaid(treatments=(Treatment.TENDERISED,))),
        ("injected", TreatedSaid(treatments=(Treatment.INJECTED,))),
        ("rolled", TreatedSaid(treatments=(Treatment.ROLLED,))),
        ("none_of_these", Note(text=heard)),
    )
    return Unclear(question="treated_how", text=heard, options=options)


def take_care(told: Telling, context: Context) -> None:
    """Take who eats and which rules count out of a sentence about a cook to come."""
    for start, end in clauses(told.rest):
        chosen = rules_said(told.rest[start:end])
        if isinstance(chosen, EditionSaid) and chosen.edition is not None:
            told.said["edition"] = chosen.edition
            told.cut((start, end))
        elif isinstance(chosen, SafeBySaid):
            told.said["safe_by"] = chosen
            told.cut((start, end))
    found = care_in(told.rest, context.people)
    if found is None:
        return
    told.said["care"] = found.said
    whole, told.rest = told.rest, found.rest
    for start, end in clauses(whole):
        words = told.rest[start:end]
        if words != whole[start:end] and not re.search(r"[0-9]", words) and not find_cuts(words, context.cuts):
            told.cut((start, end))  # "grandma is": nothing of the cook is left in it


def take_meat(told: Telling, context: Context) -> None:
    """Take what was done to the meat and where it is to come off out of a sentence about one piece."""
    treated = treated_in(told.rest)
    if treated is not None:
        told.said["treated"], told.rest = treated.said, treated.rest
    lone = _LONE.fullmatch(told.rest) if context.setup_slot == "core" else None
    if lone is not None and (core_c := in_c(float(lone[1].replace(",", ".")), lone[2] or "")) is not None:
        told.said["target"], told.rest = TargetSaid(core_c=core_c), ""
        return
    target = target_in(told.rest) if context.setup_slot in (None, "core") or treated else core_in(told.rest)
    if target is not None:
        told.said["target"], told.rest = target.said, target.rest


def allergy_after_all(heard: str, context: Context) -> CareSaid | None:
    """Return a text that nothing else understood as the allergy that was asked for, None where none was."""
    return named_allergy(heard, context.people, own_words=True) if context.asks_allergy else None
