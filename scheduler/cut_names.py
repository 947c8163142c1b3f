"""Which name of a list a text means: case, hyphens, plurals, order, small typing errors and extra words do not matter.

It knows words, no cuts; it never guesses between animals, nor between two names that fit equally well.
"""

from __future__ import annotations

import dataclasses
import difflib
import re
import unicodedata
from collections.abc import Iterable

ALIKE = 0.8
"""Two words at least this alike are the same word (difflib ratio): one letter in five or six."""
LOOSELY_ALIKE = 0.7
"""... and at least this alike may be meant, when somebody is asked which."""
SHORTEST_LOOSE = 3
"""... where the shorter one has so many letters."""
SHORTEST_FUZZY = 5
"""Shorter words must be typed as they are: "but" is not "butt" [letters]."""
SHORTEST_PLURAL = 4
"""A word of fewer letters keeps its s [letters]."""


def _set_of(text: str) -> frozenset[str]:
    return frozenset(text.split())


ANIMALS = {
    **dict.fromkeys(("beef", "cow", "ox"), "beef"),
    **dict.fromkeys(("pork", "pig", "hog"), "pork"),
    **dict.fromkeys(("lamb", "mutton"), "lamb"),
    **dict.fromkeys(("turkey", "chicken", "duck", "goose"), "poultry"),
    **dict.fromkeys(("salmon", "fish"), "fish"),
    **dict.fromkeys(("veal", "goat", "venison", "deer", "corned"), "other"),
}
"""Words that say which animal, and the species of cuts that may be of it."""
FOODS = frozenset(ANIMALS) | _set_of(
    "ham hams ribs rib sausage sausages burgers steak steaks wings thighs loin tenderloin roast chuck "
    "belly pastrami trout mackerel tritip picanha spare baby back jowl cheeks shank shanks oxtail tongue "
    "bologna meatloaf bacon cheese tofu jackfruit"
)
"""Words that stand for something to cook, known as a cut or not."""

_SPECIES = frozenset({"beef", "cow", "ox", "pork", "pig", "hog", "lamb", "mutton", "fish"})
"""Beside a name they change nothing when the animal is right; "turkey" beside "thighs" does."""
_OTHER_PIECES = _set_of(
    "wing drumstick leg quarter neck tail shank tongue heart liver steak chop cutlet tenderloin rump round silverside "
    "topside sirloin skirt flank eye hock trotter knuckle cured ground minced mince pulled burger bacon kebab"
)
"""Beside a name they mean another piece of meat, unless the name says them itself."""
_PIECE_FOODS = _set_of("sausage thigh wing ham cheek rib belly loin bacon pastrami bologna meatloaf")
"""Foods that are pieces, or are made of them: right behind an animal's name they are what is meant."""
_OPTIONAL = _set_of(
    "a an the of in on off out with without and my our your one some piece bone boneless boned skin skinless whole "
    "full fresh raw large big small medium smoked good nice trimmed untrimmed"
)
"""A text or a name may lack them."""
_HARMLESS = _OPTIONAL | {
    "cut",
    "roaster",
    "roast",
    "rack",
    "slab",
    "half",
    "side",
    "end",
    "style",
    "joint",
    "kg",
    "lb",
    "lbs",
    "g",
}
"""Beside a name they change nothing."""
_MIXED = frozenset({"beef", "pork", "lamb"})
_UNLIKE = (frozenset({"roast", "roaster"}),)
"""Words that look alike and mean different things: a roast is no roaster."""
_BRISKET = "brisket"
_PARTS_OF_BRISKET = {"flat": "flat", "first": "flat", "point": "point", "second": "point", "deckle": "point"}
_MINCED = frozenset({"burger", "ground", "minced", "mince"})
_SAYINGS = (
    (frozenset({"dino"}), ("plate", "rib")),
    (frozenset({"dinosaur"}), ("plate", "rib")),
    (frozenset({"ribeye", "roast"}), ("prime", "rib")),
    (frozenset({"rib", "eye", "roast"}), ("prime", "rib")),
    (frozenset({"chuck", "plate", "rib"}), ("chuck", "rib")),
)
"""Words that together mean what other words name."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class NameOf:
    """One of the names of a thing: its words, the key of the thing and its species."""

    name: str
    key: str
    species: str


def words_of(text: str) -> tuple[str, ...]:
    """Return the words of a text: small, without accents, hyphens and the s of the plural; numbers are words."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("'s", ""))
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return tuple(_singular(word) for word in re.findall(r"[a-z]+|[0-9]+", plain))


def name_key(name: str) -> str:
    """Return what two names share that nobody could tell apart: their words in the order of the alphabet."""
    return " ".join(sorted(words_of(name)))


def best_name(text: str, names: Iterable[NameOf]) -> str | None:
    """Return the key of the thing that a text names, None when it names none, or two of them equally well.

    A name that is the text wins; else the name with most of its words in the text, of which nothing telling may be left
    over: "turkey legs" is no turkey.
    """
    known = tuple(names)
    exact = {one.key for one in known if words_of(one.name) == words_of(text)}
    if len(exact) == 1:
        return exact.pop()
    said = _meant(words_of(text))
    if not said:
        return None
    same = {one.key for one in known if "".join(words_of(one.name)) == "".join(said)}
    same = same or {one.key for one in known if name_key(one.name) == " ".join(sorted(said))}
    if not same:
        telling = {word for one in known for word in words_of(one.name)} | {_singular(word) for word in FOODS}
        ranked = [(rank, one.key) for one in known if (rank := _rank(said, one, telling)) is not None]
        best = max((rank for rank, _ in ranked), default=None)
        same = {key for rank, key in ranked if rank == best}
    return same.pop() if len(same) == 1 else None


def near_names(text: str, names: Iterable[NameOf], most: int = 4) -> tuple[str, ...]:
    """Return the keys of the things whose names share most with a text that names none, the nearest first.

    Words are compared more loosely than where a name is taken as said; an animal that is named rules the others out,
    and is enough by itself. Nothing is near when nothing is shared.
    """
    said = [word for word in _meant(words_of(text)) if word not in _HARMLESS and not word.isdigit()]
    species = {ANIMALS[word] for word in said if word in ANIMALS}
    best: dict[str, float] = {}
    for one in names:
        fits = one.species in species or (one.species == "mixed" and bool(species & _MIXED))
        if species and not fits:
            continue
        words = [word for word in words_of(one.name) if word not in _OPTIONAL]
        shared = sum(max((_loosely(word, typed) for typed in said), default=0.0) for word in words)
        score = shared / len(words) if words else 0.0
        best[one.key] = max(best.get(one.key, 0.0), score + (0.01 if fits else 0.0))
    ranked = sorted((key for key, score in best.items() if score > 0.0), key=lambda key: -best[key])
    return tuple(ranked[:most])


def another_piece(word: str) -> bool:
    """Return whether a word beside the name of an animal's cut means another piece of it ("turkey legs")."""
    return _singular(word) in _OTHER_PIECES or _singular(word) in _PIECE_FOODS


def _loosely(word: str, typed: str) -> float:
    """Return how alike two words are for a suggestion, 0 when they are not."""
    if min(len(word), len(typed)) < SHORTEST_LOOSE:
        return float(word == typed)
    ratio = difflib.SequenceMatcher(None, word, typed).ratio()
    return ratio if ratio >= LOOSELY_ALIKE else 0.0


def word_alike(word: str, other: str) -> float:
    """Return how alike two words are: 1 the same but for a plural, 0 not the same word."""
    if word == other or word.rstrip("s") == other.rstrip("s") or word == f"{other}es":
        return 1.0
    if frozenset((word, other)) in _UNLIKE:
        return 0.0
    if min(len(word), len(other)) < SHORTEST_FUZZY or word[0] != other[0]:
        return 0.0
    return difflib.SequenceMatcher(None, word, other).ratio()


def _meant(said: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words of a text, or those of the name that they stand for.

    Whatever stands beside "brisket" it is one, whole unless its flat or its point alone is named, or it is minced.
    "Plate" alone is ribs.
    """
    if any(word_alike(word, _BRISKET) >= ALIKE for word in said) and not _MINCED.intersection(said):
        parts = {_PARTS_OF_BRISKET[word] for word in said if word in _PARTS_OF_BRISKET}
        return (_BRISKET, *parts) if len(parts) == 1 else (_BRISKET,)
    if said == ("plate",):
        return ("plate", "rib")
    meant = next(((words, name) for words, name in _SAYINGS if words <= set(said)), None)
    if meant is None:
        return said
    return (*meant[1], *(word for word in said if word not in meant[0] and word not in meant[1]))


def _rank(said: tuple[str, ...], one: NameOf, telling: set[str]) -> tuple[int, int, float] | None:
    """Return how well a name fits (words found, optional words missing as a minus, likeness), None when it does not."""
    left = list(said)
    found, missing, alike = 0, 0, 0.0
    required = [word for word in words_of(one.name) if word not in _OPTIONAL]
    for word in words_of(one.name):
        nearest = max(left, key=lambda typed: word_alike(typed, word), default="")
        likeness = word_alike(nearest, word) if nearest else 0.0
        if likeness >= ALIKE:
            left.remove(nearest)
            found, alike = found + 1, alike + likeness
        elif word in _OPTIONAL and required:
            missing += 1
        else:
            return None
    if any(_tells(word, one.species, telling) for word in left):
        return None
    return found, -missing, alike / found


def _tells(word: str, species: str, telling: set[str]) -> bool:
    """Return whether a word beside a name means that something else is named."""
    if word in _SPECIES:
        return ANIMALS[word] not in (_MIXED if species == "mixed" else {species})
    return word not in _HARMLESS and not word.isdigit() and (word in telling or word in _OTHER_PIECES)


def _singular(word: str) -> str:
    if len(word) < SHORTEST_PLURAL or not word.endswith("s") or word.endswith("ss"):
        return word
    return word[:-1]
