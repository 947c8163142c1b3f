"""Finds the other pieces of a cook in one sentence ("and 2 racks of spare ribs"), and what may be a piece but names
none: those are asked about.

What is said of a piece stays with it: its count and its mass never move to another.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Iterable

from bot.commands import PieceDraft, VaguePiece
from bot.conversation.context import Context
from bot.conversation.parsing import setup_words as said_as
from bot.conversation.parsing.amounts import COUNT_WORDS, PIECES, amounts
from bot.conversation.parsing.amounts import pieces as number_of
from bot.conversation.parsing.cut_names import OTHER_FOODS, Named, find_cuts
from bot.conversation.parsing.meat import wrap_words
from bot.conversation.parsing.setup_told import Telling
from bot.conversation.parsing.words import clauses, cut_out
from scheduler.cut_names import ANIMALS, FOODS, another_piece

Tell = Callable[[str, str, Context], Telling]
"""Reads what is said of one piece."""

_FIELDS = ("count", "mass_kg", "pit_low_c", "pit_high_c", "serving", "wrap", "treated", "target", "safe_by")
_NOT_OF_THE_PIECE = re.compile(
    r"\b(?:dinner|supper|lunch|eat(?:ing)?|served? (?:at|by)|serving|pit|smoker|cooker|grill|paper|foil|boat)\b"
)
"""Where the words about one of several pieces end: what follows is said of the whole cook."""
_BESIDE = re.compile(r"\b(?:with|plus|alongside|as well as|next to|beside)\b|\s/\s")
"""Words that join two pieces as "and" does."""
_COUNTED = re.compile(rf"\b(?:[0-9]{{1,2}}|{COUNT_WORDS}) (?:(?:whole|big|small|{PIECES}) (?:of )?)*(?P<what>[a-z]+)")
"""A count and what is counted."""
_RACKS = re.compile(r"\b(?:racks?|slabs?)\b")
_RIBS = re.compile(r"ribs?\b|\brack")
"""In the name of a cut that is counted in racks."""


def take_others(told: Telling, text: str, context: Context, tell: Tell) -> None:
    """Take the other pieces, each from its own part of a sentence ("and 2 racks of ribs", "chicken 1.8 kg at 325")."""
    found = find_cuts(told.rest, context.cuts)
    if not found:
        return
    first = found[0].cut.id
    plain = dataclasses.replace(context, setup_slot=None)
    more: list[PieceDraft] = []
    vague: list[VaguePiece] = []
    whole = told.rest
    for start, end in _parts(whole, found):
        here = {named.cut.id for named in found if start <= named.start < end}
        one = None if here else _vague(whole[start:end], found, context)
        if isinstance(one, VaguePiece):
            vague.append(one)
        elif one is not None:
            told.ignored.append(one)
        elif len(here) == 1 and first not in here:
            inner = tell(whole[start:end], text, plain)
            piece = PieceDraft(cut=here.pop(), **{name: inner.said.get(name) for name in _FIELDS})
            known = next((i for i, other in enumerate(more) if other.cut == piece.cut), None)
            if known is not None and piece.count is None and piece.mass_kg is None:
                said = {name: value for name in _FIELDS if (value := getattr(piece, name)) is not None}
                more[known] = more[known].model_copy(update=said)  # "pull the chicken at 150": the one told before
            else:
                more.append(piece)
            told.ignored += [*inner.ignored, *inner.no_pits]
        else:
            continue
        told.cut((start, end))
    if more:
        told.said["more"] = tuple(more)
    if vague:
        told.said["vague"] = tuple(vague)


def _parts(heard: str, found: Iterable[Named]) -> list[tuple[int, int]]:
    """Return the parts of a sentence that speak of one piece each: a clause, and the amounts alone that follow it."""
    named = sorted(found, key=lambda one: one.start)
    several = len({one.cut.id for one in named}) > 1
    parts: list[tuple[int, int]] = []
    about_piece = False
    for left, right in clauses(heard):
        for start, end in _joined(heard, left, right, named):
            stop = _NOT_OF_THE_PIECE.search(heard, start, end)
            until = stop.start() if stop else end
            has_name = any(start <= one.start < until for one in named)
            if (
                several
                and about_piece
                and not has_name
                and stop is None
                and _only_amounts(heard[start:end], parts, named)
            ):
                parts[-1] = (parts[-1][0], end)
                continue
            about_piece = has_name and stop is None
            parts.append((start, until))
    return parts


def _joined(heard: str, left: int, right: int, named: list[Named]) -> list[tuple[int, int]]:
    """Return a clause cut where a word like "with", or the count of the next piece, stands between two pieces."""
    first = next((one.end for one in named if left <= one.start < right), right)
    edges = [
        edge.span()
        for edge in _BESIDE.finditer(heard, first, right)
        if any(edge.end() <= one.start < right for one in named)
    ]
    edges += [(count.start(), count.start()) for count in _COUNTED.finditer(heard, first, right) if _meat(count, named)]
    edges.sort()
    starts, ends = [left, *(end for _start, end in edges)], [*(start for start, _end in edges), right]
    return [part for part in zip(starts, ends, strict=True) if heard[part[0] : part[1]].strip()]


def _meat(count: re.Match[str], named: list[Named]) -> bool:
    """Return whether what is counted is a piece that is named, or a food."""
    return _is_food(count["what"]) or any(count.start("what") == one.start for one in named)


def _only_amounts(clause: str, parts: list[tuple[int, int]], named: list[Named]) -> bool:
    """Return whether a clause says how many or how heavy, and nothing else, of the piece in the part before it."""
    owner = next((one for one in named if parts[-1][0] <= one.start < parts[-1][1]), None)
    said = amounts(clause)
    if owner is None or (said.count is None and said.mass_kg is None):
        return False
    if _RACKS.search(clause) and not _RIBS.search(owner.cut.name.casefold()):
        return False
    words = [word for word in re.findall(r"[a-z]+|[0-9]+", said.rest) if word not in said_as.FILLER]
    return not words


def _vague(clause: str, found: tuple[Named, ...], context: Context) -> VaguePiece | str | None:
    """Return a piece that is told without naming a cut ("3 racks of ribs", "a roast"), the words of a food that no cut
    is of, or None when neither is there.
    """
    foods = [word for word in re.finditer(r"[a-z]+", clause) if _is_food(word.group())]
    racks = _RACKS.search(clause)
    if not foods and (racks is None or any(_RIBS.search(one.cut.name.casefold()) for one in found)):
        return None
    if foods and all(ANIMALS.get(word.group()) == found[0].cut.species for word in foods):
        return None  # "brisket, beef, 6 kg"
    words = " ".join(word.group() for word in foods) or "ribs"
    if found[0].cut in context.cuts.near(words) and len({one.cut.id for one in found}) == 1:
        return None  # the same piece, told twice
    if any(_strange(word, context) for word in re.findall(r"[a-z]+", clause)):
        return " ".join(
            word for word in clause.replace("|", " ").split() if word not in ("a", "an", "the", "some", "of")
        )
    first = foods[0].start() if foods else racks.end() if racks else 0
    count = count_before(clause[:first])
    amount = amounts(clause if count is None else cut_out(clause, [count.span()]))
    wrap = wrap_words(clause)
    return VaguePiece(
        words=words,
        count=number_of(count["n"]) if count else amount.count,
        mass_kg=amount.mass_kg,
        wrap=wrap.wrap if wrap is not None and not wrap.not_yet else None,
    )


def _is_food(word: str) -> bool:
    return word in FOODS or word.removesuffix("s") in FOODS


def _strange(word: str, context: Context) -> bool:
    """Return whether a word is a food, or a piece of an animal, that no cut is called by."""
    known = {
        part for cut in context.cuts.cuts for name in (cut.name, *cut.also_called) for part in name.casefold().split()
    }
    singular = word.removesuffix("s")
    if {word, singular, f"{singular}s"} & known or word in ANIMALS or word in said_as.FILLER:
        return False
    return another_piece(word) or _is_food(word)


def other_food(told: Telling) -> None:
    """Name a food that is none of the cuts beside one that is, with its count."""
    if "cut" not in told.said:
        return
    for start, end in clauses(told.rest):
        words = [w for w in re.findall(r"[a-z][a-z'-]*", told.rest[start:end]) if w not in said_as.FILLER]
        if any(word in OTHER_FOODS for word in words):
            told.ignored.append(" ".join(words[:4]))


def count_before(before: str) -> re.Match[str] | None:
    """Return the count right before the place where a name begins."""
    return re.search(
        rf"(?<![0-9.,-])\b(?P<n>[0-9]{{1,2}}|{COUNT_WORDS}) ?x? ?(?:(?:whole|big|small|nice|large|full"
        rf"|{PIECES})(?: of)? ?)*$",
        before,
    )
