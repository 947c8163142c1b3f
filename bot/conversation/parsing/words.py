"""Tidies a typed text so that the other readers see plain lower-case words, figures and a few signs.

It changes spelling, never meaning, and throws no text away: the interpreter keeps the text as it was typed.
"""

from __future__ import annotations

import functools
import re
import unicodedata

from bot.conversation.parsing.durations import with_minutes
from bot.conversation.parsing.german import from_german
from bot.conversation.parsing.number_words import with_figures
from bot.conversation.parsing.phrasebook import in_english

LONGEST_READ = 400
"""Longer texts are stories: they are kept, not read [characters]."""

_SIGNS = {
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("’\u2018\u00b4`", "'"),
    **dict.fromkeys("“”„", '"'),
    **dict.fromkeys("–—−", "-"),
    **dict.fromkeys("✅✔✓☑", " done "),
    **dict.fromkeys("👍👌🆗", " thumbsup "),
    "👎": " not yet ",
    "℃": "°c",
    "℉": "°f",
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "×": "x",
    "≈": "~",
    "…": " ... ",
    **dict.fromkeys("¿¡", " "),
}
_LOOKALIKE = re.compile(
    r"(?<![a-z0-9.])(?=[0-9lio|]*[0-9])[0-9lio|]{3,4}(?=[cf]?(?![a-z0-9]))|(?<![a-z0-9.])[1-9]o(?![a-z0-9])"
)
_LOOKALIKE_DIGITS = str.maketrans("lio|", "1101")
_FRACTIONS = {"1/2": ".5", "1/4": ".25", "3/4": ".75"}
_FRACTION = re.compile(r"(?<=[0-9]) (1/2|1/4|3/4)(?![0-9/])")
_NO_MARK = {
    "ive": "i've", "im": "i'm", "thats": "that's", "dont": "don't", "cant": "can't", "wont": "won't", "didnt": "didn't",
    "isnt": "isn't", "hasnt": "hasn't", "havent": "haven't", "whos": "who's", "whats": "what's", "wasnt": "wasn't",
    "doesnt": "doesn't", "couldnt": "couldn't", "shouldnt": "shouldn't", "arent": "aren't", "weve": "we've",
    "youre": "you're", "theyre": "they're", "hes": "he's", "shes": "she's", "lets": "let's", "theres": "there's",
    "heres": "here's", "wouldnt": "wouldn't", "werent": "weren't", "soz": "sorry", "sozz": "sorry", "srry": "sorry",
}  # fmt: skip
_WITHOUT_MARK = re.compile(rf"\b(?:{'|'.join(_NO_MARK)})\b(?!')")
"""Contractions as thumbs type them, without their mark."""
_MENTION = re.compile(r"^@[a-z0-9_]{3,}[\s,:]+")


@functools.lru_cache(maxsize=256)
def tidy(text: str) -> str:
    """Return the text in lower case without accents, emoji or control characters, blanks folded.

    A new line becomes a comma; letters that stand for digits ("l74", "l0O") and spelled numbers ("one seventy")
    become figures; digits of any script become 0-9.
    """
    for sign, plain in _SIGNS.items():
        text = text.replace(sign, plain)
    text = text.replace("\n", ", ")
    kept = []
    for char in unicodedata.normalize("NFKD", text.casefold()):
        category = unicodedata.category(char)
        if category == "Nd":
            kept.append(str(unicodedata.digit(char)))
        elif char == "°" or category[0] in "LPZN" or category == "Sm" or char in "^|":
            kept.append(char)
        elif category != "Mn":
            kept.append(" ")
    folded = " ".join("".join(kept).split())
    folded = _MENTION.sub("", folded)
    folded = _LOOKALIKE.sub(lambda found: found.group().translate(_LOOKALIKE_DIGITS), folded)
    folded = from_german(folded)
    folded = _WITHOUT_MARK.sub(lambda found: _NO_MARK[found.group()], folded)
    folded = with_minutes(in_english(with_figures(folded)))
    return _FRACTION.sub(lambda found: _FRACTIONS[found.group(1)], folded)


def bare(text: str) -> str:
    """Return only the words and figures of a tidied text, one blank between them."""
    return " ".join(re.findall(r"[a-z0-9]+(?:'[a-z]+)?", text))


def cut_out(text: str, spans: list[tuple[int, int]]) -> str:
    """Return the text with these spans blanked by as many bars, so that places stay where they are.

    A bar joins nothing: what stands left and right of it are not neighbours.
    """
    letters = list(text)
    for start, end in spans:
        letters[start:end] = "|" * (end - start)
    return "".join(letters)


def clauses(text: str) -> list[tuple[int, int]]:
    """Return the spans of a tidied text between commas, stops and "and", "then", "but"."""
    edges = re.compile(
        r"[,;!?]+(?=\s|$)|(?<!\bca)\.+(?=\s|$)|\b(?:and|then|(?<!everywhere )(?<!anywhere )(?<!all )but|und|y|et"
        r"|aber|pero|mais)\b|\s[&+]\s|\s-\s"
    )
    spans, start = [], 0
    for edge in edges.finditer(text):
        spans.append((start, edge.start()))
        start = edge.end()
    spans.append((start, len(text)))
    return [(left, right) for left, right in spans if text[left:right].strip()] or [(0, len(text))]


def any_of(*alternatives: str) -> str:
    """Return one pattern that matches any of these."""
    return f"(?:{'|'.join(alternatives)})"


def word_set(words: str) -> frozenset[str]:
    """Return the words of a list written as one text."""
    return frozenset(words.split())


def phrases(*alternatives: str) -> re.Pattern[str]:
    """Return the compiled pattern that matches any of these phrases."""
    return re.compile("|".join(alternatives))
