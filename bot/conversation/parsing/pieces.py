"""Words that name one of several pieces: "ribs 188", "brisket wrapped", "171 188", "add 2 chickens", "drop the ribs".

It finds which piece is named and what is said of it; what the words mean is read by the other readers.
"""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections.abc import Callable

from bot.commands import AddPiece, Done, Draft, DropPiece, Intent, PieceDraft, Report, Unclear, Value, stamped
from bot.conversation.context import Context, KnownPiece
from bot.conversation.parsing.cut_names import find_cuts
from bot.conversation.parsing.guests import guests
from bot.conversation.parsing.numbers import SPOT_WORDS, Figure, figures
from bot.conversation.parsing.readings import in_c, near_pit, settle
from bot.conversation.parsing.serving import on_its_day
from bot.conversation.parsing.words import clauses, cut_out
from scheduler.cut_names import ALIKE, word_alike
from scheduler.facts import Slot

Reader = Callable[[str, Context], tuple[Intent, ...]]
"""Reads words in a context; nothing when they are not understood."""

_LONG = 4
"""Shorter words of a name tell no cut from another [letters]."""
_PLAIN = frozenset(
    {"beef", "pork", "lamb", "whole", "half", "bone", "boneless", "rack", "racks", "slab", "slabs", "roast", "fresh"}
)
_LITTLE = re.compile(r"^[\s|,.:;!?-]*(?:the|my|our|a|an|of|and|is|are|at|now)?[\s|,.:;!?-]*$")
_DROP = re.compile(
    r"^(?:please )?(?:drop|remove|cancel|forget|scrap|leave out|take out|no more|without) (?:the |my |our )?\|+"
    r"(?: after all| please| from the plan)*[.!]?$"
    r"|^(?:the )?\|+ (?:is|are) (?:off the menu|dropped|cancelled|not coming)$"
)
_ADD = re.compile(
    r"^(?:please )?(?:and )?(?:also|add|plus|we also (?:do|have|want)|put on also|one more thing:?)\b[ :]*"
)
_TOO = re.compile(r"\b(?:too|as well|also)[.!]?$")
_PULLING = re.compile(r"^(?:now )?pull(?:ing)? it(?: off)?(?: now)?$")
_NUMBER = re.compile(r" (?:no\.? |number |#)?([1-9])(?![0-9.,])")


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Named:
    start: int
    end: int
    piece: str


@dataclasses.dataclass
class _Said:
    """What is said of some pieces."""

    pieces: tuple[str, ...]
    words: str


def dropped(heard: str, context: Context) -> DropPiece | None:
    """Return the piece that is not cooked after all, or None."""
    found = _names(heard, context)
    if len(found) != 1 or not _DROP.match(cut_out(heard, [(found[0].start, found[0].end)])):
        return None
    return DropPiece(piece=found[0].piece)


def added(
    heard: str, text: str, context: Context, set_up: Callable[[str, str, Context], tuple[Intent, ...]]
) -> Intent | None:
    """Return the pieces that are added to a cook ("also chicken thighs", "add 2 chickens"), or None."""
    lead, too = _ADD.match(heard), _TOO.search(heard)
    if lead is None and (too is None or piece_named(heard, context) is not None):
        return None
    rest = heard[lead.end() :] if lead else heard[: too.start()] if too else heard
    alone = dataclasses.replace(context, stage="none", open_steps=(), choices=(), pieces=(), setup_slot=None)
    drafts = [intent for intent in set_up(rest.strip(" ,"), text, alone) if isinstance(intent, Draft)]
    if not drafts or drafts[0].cut is None:
        return None
    draft = drafts[0]
    serving = draft.serving if draft.serving is None else on_its_day(draft.serving, context.serving, heard)
    first = PieceDraft(
        cut=draft.cut or "", count=draft.count, mass_kg=draft.mass_kg, pit_low_c=draft.pit_low_c,
        pit_high_c=draft.pit_high_c, serving=serving, wrap=draft.wrap,
    )  # fmt: skip
    return AddPiece(more=(first, *draft.more), ignored=draft.ignored)


def by_piece(heard: str, context: Context, read: Reader) -> tuple[Intent, ...]:
    """Return what is said of pieces that are named, each intent with its piece; nothing when none is named."""
    named = _names(heard, context)
    if not named:
        return ()
    found: list[Intent] = []
    for said in _segments(heard, named):
        understood = _of_each(said, context, read)
        if not understood and said.words.strip(" ,.|"):
            return ()
        found += understood
    return tuple(found)


def in_order(heard: str, context: Context) -> tuple[Intent, ...]:
    """Return the cores of several pieces told as a row of figures in the order of the question ("171 188").

    One figure more than pieces is the pit: the one that it holds, the first where several could be.
    """
    found = figures(heard)
    wanted = context.asked_cores
    rest = cut_out(heard, [(figure.start, figure.end) for figure in found])
    if len(wanted) < 2 or re.search(r"[a-z]", rest) or not len(wanted) <= len(found) <= len(wanted) + 1:  # noqa: PLR2004 - one piece is no row
        return ()
    values: list[Value] = []
    cores = list(found)
    if len(found) > len(wanted):
        pit = next(
            (f for f in found if near_pit(in_c(f, f.unit or context.unit or "F", Slot.PIT).value_c, context)), found[0]
        )
        cores.remove(pit)
        values.append(in_c(pit, pit.unit or context.unit or "F", Slot.PIT))
    for figure, piece in zip(cores, wanted, strict=True):
        core = _core(figure, _of(piece, context))
        if core is None:
            return ()
        values.append(core.model_copy(update={"piece": piece}))
    return (Report(values=tuple(values)),)


def piece_named(heard: str, context: Context) -> str | None:
    """Return the one piece that a text names, None when it names none or several."""
    found = pieces_named(heard, context)
    return found.pop() if len(found) == 1 else None


def piece_apart(heard: str, context: Context) -> tuple[str | None, str]:
    """Return the one piece that a text names, with the words beside its name; None when it names none or several."""
    found = _names(heard, context)
    if len(found) != 1:
        return None, heard
    rest = cut_out(heard, [(found[0].start, found[0].end)])
    return found[0].piece, " ".join(rest.replace("|", " ").split()).strip(" ,:-")


def names_the_meat(heard: str, context: Context) -> bool:
    """Return whether words are about a piece by its name, whether the cook has one or several."""
    if context.of_piece or context.cut is None or context.pieces:
        return context.of_piece
    alone = KnownPiece(piece="", cut=context.cut, number=None, context=context)
    return bool(_names(heard, dataclasses.replace(context, pieces=(alone,))))


def pieces_named(heard: str, context: Context) -> set[str]:
    """Return every piece that a text names."""
    return {named.piece for named in _names(heard, context)}


def _of_each(said: _Said, context: Context, read: Reader) -> list[Intent]:
    """Return what some words say of each of their pieces; a row of figures goes one to each."""
    numbers = figures(said.words)
    if len(said.pieces) > 1 and len(numbers) == len(said.pieces):
        values = [_core(figure, _of(piece, context)) for figure, piece in zip(numbers, said.pieces, strict=True)]
        if all(value is not None for value in values):
            pairs = zip(values, said.pieces, strict=True)
            return [Report(values=tuple(v.model_copy(update={"piece": p}) for v, p in pairs if v is not None))]
    if not said.pieces:
        return list(read(said.words.strip(" ,"), context))
    found: list[Intent] = []
    for piece in said.pieces:
        found += [stamped(intent, piece) for intent in _read(said.words, _of(piece, context), read)]
    return found


def _read(words: str, context: Context, read: Reader) -> tuple[Intent, ...]:
    """Return what words say in which a bar stands for the piece: as "it", or left out."""
    plain = " ".join(re.sub(r"(?:\b(?:the|my|our) )?\|+", " ", words).split()).strip(" ,:-")
    as_it = " ".join(re.sub(r"(?:\b(?:the|my|our) )?\|+", " it ", words).split()).strip(" ,:-")
    as_it = _PULLING.sub("pulled it off", as_it)
    ways = (as_it, plain) if re.search(r"[a-z]{2}", plain) else (plain,)
    for way in ways:
        found = tuple(i for i in read(way, context) if not (isinstance(i, Unclear) and i.question == "not_understood"))
        if found:
            return found
    return ()


def _core(figure: Figure, context: Context) -> Value | None:
    settled = settle(figure, Slot.CORE, context)
    return settled if isinstance(settled, Value) else None


def _of(piece: str, context: Context) -> Context:
    own = next((known.context for known in context.pieces if known.piece == piece), context)
    return dataclasses.replace(own, of_piece=True)


def _segments(heard: str, named: list[_Named]) -> list[_Said]:
    """Return the words about each piece; a name by itself waits for the words that follow ("brisket and ribs on")."""
    said: list[_Said] = []
    waiting: tuple[str, ...] = ()
    for start, end in clauses(heard):
        here = [n for n in named if start <= n.start < end]
        for pieces, words in _in_clause(heard, start, end, here):
            if pieces and _LITTLE.match(words.replace("|", "")):
                waiting = (*waiting, *pieces)
            elif not pieces and said and not waiting:
                said[-1].words += ", " + words
            else:
                said.append(_Said(pieces=(*waiting, *pieces), words=words))
                waiting = ()
    return said


def _in_clause(heard: str, start: int, end: int, here: list[_Named]) -> list[tuple[tuple[str, ...], str]]:
    """Return (pieces, words) of one clause: of several names each opens its words, or closes them."""
    clause = cut_out(heard, [(n.start, n.end) for n in here])[start:end]
    if len(here) <= 1:
        return [(tuple(n.piece for n in here), clause)]
    opens = not clause[: here[0].start - start].strip(" |") or bool(_LITTLE.match(clause[: here[0].start - start]))
    if opens:
        edges = [*(n.start - start for n in here), len(clause)]
        spans = list(itertools.pairwise(edges))
    else:
        edges = [0, *(n.end - start for n in here)]
        edges[-1] = len(clause)
        spans = list(itertools.pairwise(edges))
    return [((n.piece,), clause[left:right]) for n, (left, right) in zip(here, spans, strict=True)]


def _names(heard: str, context: Context) -> list[_Named]:
    """Return every piece that is named, in the order of the text."""
    words = [(found.group(), *found.span()) for found in re.finditer(r"[a-z]+", heard)]
    telling = _telling(context)
    found: list[_Named] = []
    at = 0
    while at < len(words):
        known, last = _meant(words[at][0], telling), at
        while known and last + 1 < len(words) and words[last + 1][1] == words[last][2] + 1:
            both = known & _meant(words[last + 1][0], telling)
            if not both:
                break
            known, last = both, last + 1
        if known:
            named = _one_of(known, heard, words[at][1], words[last][2], context)
            found += [] if named is None else [named]
        at = last + 1
    return sorted((*found, *_by_whole_name(heard, found, context)), key=lambda one: one.start)


def _by_whole_name(heard: str, found: list[_Named], context: Context) -> list[_Named]:
    """Return pieces named by the whole name of their cut where no word of it tells them ("tri-tip")."""
    more: list[_Named] = []
    for name in find_cuts(heard, context.cuts):
        pieces = [known.piece for known in context.pieces if known.cut == name.cut.id]
        if len(pieces) == 1 and not any(one.start < name.end and name.start < one.end for one in found):
            more.append(_Named(start=name.start, end=name.end, piece=pieces[0]))
    return more


_ALL_ON = re.compile(
    r"^(?:ok |now |and )*(?:all|everything|both|the lot)(?: of (?:it|them|the meat))?(?: (?:the )?(?:meat|meats"
    r"|pieces))?"
    r"(?:'s| is| are)? (?:now |all )?on(?: (?:the )?(?:fire|grill|smoker|pit|cooker))?(?: now)?$"
)


def all_on(heard: str, context: Context) -> tuple[Intent, ...]:
    """Return that each piece went on that is not on yet, for "all meat on"; nothing for other words."""
    if _ALL_ON.match(heard.strip(" .!")) is None:
        return ()
    off = [known.piece for known in context.pieces if known.context.meat_on_at is None]
    return tuple(Done(step="meat_on", piece=piece) for piece in off)


def _one_of(known: set[str], heard: str, start: int, end: int, context: Context) -> _Named | None:
    """Return the piece that a name means; two of one cut are told apart by the number behind it ("brisket 2")."""
    number = _NUMBER.match(heard[end:])
    pieces = [p for p in context.pieces if p.piece in known]
    if len(pieces) > 1 and number is not None:
        pieces = [p for p in pieces if p.number == int(number[1])]
        end += number.end()
    return _Named(start=_before(heard, start), end=end, piece=pieces[0].piece) if len(pieces) == 1 else None


def _before(heard: str, start: int) -> int:
    """Return where a name begins with the plain words of a cut before it ("pork shoulder", "whole chicken")."""
    before = re.search(rf"\b(?:(?:{'|'.join(sorted(_PLAIN))}) )+$", heard[:start])
    return start if before is None else before.start()


_A_CUT_TOO = frozenset({"loin"})
"""Names of a spot that are whole cuts, too."""


def _meant(word: str, telling: dict[str, set[str]]) -> set[str]:
    exact = telling.get(word) or telling.get(word.removesuffix("s")) or telling.get(word + "s")
    if exact:
        return exact
    if len(word) <= _LONG:
        return set()
    best = max(telling, key=lambda known: word_alike(word, known), default="")
    return telling[best] if best and word_alike(word, best) >= ALIKE else set()


def _telling(context: Context) -> dict[str, set[str]]:
    """Return each word that names a cut of this cook, with the pieces that it may name: the words of its name, and the
    last word of every other name ("trimmed spares" is called spares, "pulled pork" has no word of its own).
    """
    telling: dict[str, set[str]] = {}
    for known in context.pieces:
        cut = context.cuts.get(known.cut)
        words = re.findall(r"[a-z]+", cut.name.casefold())
        words += [found[-1] for name in cut.also_called if (found := re.findall(r"[a-z]+", name.casefold()))]
        for word in words:
            if len(word) >= _LONG and word not in _PLAIN and (word not in SPOT_WORDS or word in _A_CUT_TOO):
                telling.setdefault(word, set()).add(known.piece)
    return telling


def also_guests(heard: str) -> Intent | None:
    """Return who eats, when a text says nothing else."""
    said = guests(heard)
    others = "" if said is None else re.sub(r"\b(?:and|plus|with|for|are|we|eat(?:ing)?)\b", " ", said.rest)
    return None if said is None or re.search(r"[a-z]{3}|[0-9]", others) else said.intent
