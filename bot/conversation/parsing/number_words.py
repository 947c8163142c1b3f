"""Writes numbers that people spell ("one seventy one", "hundred and seventy", "siebzig") as figures.

It knows numbers as they are said of a probe, from sixty to 999, and compounds from 21; small words ("ten", "twenty")
are left to the times, and nothing is taken for a temperature here.
"""

from __future__ import annotations

import re

_ONES = dict(
    zip(
        [
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ],
        range(1, 20),
        strict=True,
    )
)
_TENS = dict(
    zip(
        ["twenty", "thirty", "forty", "fourty", "fifty", "sixty", "seventy", "eighty", "ninety"],
        (20, 30, 40, 40, 50, 60, 70, 80, 90),
        strict=True,
    )
)
_TENS_PLURAL = {f"{word.removesuffix('y')}ies": tens for word, tens in _TENS.items()}
_DE_ONES = dict(
    zip(["ein", "zwei", "drei", "vier", "funf", "sechs", "sieben", "acht", "neun"], range(1, 10), strict=True)
)
_DE_LOW = {word: number for word, number in _DE_ONES.items() if word != "ein"}
"""Beside "hundert" as a word of its own: "hundert ein" may go on with "ein Grad"."""
_DE_TENS = dict(
    zip(
        ["zwanzig", "dreissig", "vierzig", "funfzig", "sechzig", "siebzig", "achtzig", "neunzig"],
        range(20, 100, 10),
        strict=True,
    )
)
_ES_ONES = dict(
    zip(["uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve"], range(1, 10), strict=True)
)
_ES_TENS = {"cuarenta": 40, "cincuenta": 50, "sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90}
_FR_ONES = dict(
    zip(
        [
            "un",
            "deux",
            "trois",
            "quatre",
            "cinq",
            "six",
            "sept",
            "huit",
            "neuf",
            "dix",
            "onze",
            "douze",
            "treize",
            "quatorze",
            "quinze",
            "seize",
        ],
        range(1, 17),
        strict=True,
    )
)
_FR_TENS = {"cinquante": 50, "soixante": 60, "quatre-vingt": 80, "quatre-vingts": 80, "quatre vingt": 80}


def _any(words: dict[str, int]) -> str:
    return "|".join(sorted(words, key=len, reverse=True))


_LOW = "|".join(list(_ONES)[:9])
_TEEN = "|".join(list(_ONES)[9:])
_REST = rf"(?:(?P<tens>{_any(_TENS)})(?:[ -](?P<ones>{_LOW})\b)?|(?P<teen>{_TEEN}))"
_OH = rf"(?:oh?|zero)[ -](?P<oh>{_LOW})"
_HOURS = "|".join(list(_ONES)[:12])
_CLOCK = re.compile(
    r"(?<!is )(?<!'s )(?<!its )(?<!pit )(?<!meat )(?<!core )(?<!smoker )(?<!grill )(?<!sitting )(?<!steady )"
    r"(?<!holding )(?<!still )(?<!stuck )"
    rf"\b(?P<lead>at|since|by|around|until|till) (?P<h>{_HOURS})[ -](?:{_REST}|{_OH})\b"
)
"""After these "at two forty five" is a time; after "it's" it is where a probe stands."""
_AT = r"(?<!past )(?<!to )"
_NOT_MORE = r"(?!(?:[ -](?:past|to|o'?clock|percent|times)\b)|%)"
_HUNDRED = re.compile(
    rf"\b(?:(?P<n>one|two|three|four|five|a|1|2|3|4|5)[ -])?hundred(?P<plus>(?: and|-and-| &)?[ -](?:{_REST}"
    rf"|(?P<low>{_LOW})))?\b(?! percent)"
)
_SAID = re.compile(rf"{_AT}\b(?P<n>one|two|three|four|five)[ -](?:{_REST}|{_OH})\b{_NOT_MORE}")
_PLURAL = re.compile(rf"\b(?:(?P<n>one|two|three|1|2|3)[ -]?)?(?P<tens>{_any(_TENS_PLURAL)})\b")
_PAIR = re.compile(rf"\b(?P<tens>{_any(_TENS)})[ -](?P<ones>{_LOW})\b{_NOT_MORE}")
_ALONE = re.compile(r"\b(?P<tens>sixty|seventy|eighty|ninety)\b(?! percent|%)")
_POINT = re.compile(rf"(?<=[0-9]) point (?P<tenths>[0-9]|{_LOW})\b")
_GERMAN = re.compile(
    rf"\b(?:(?:(?P<h>{_any(_DE_ONES)}) ?)?hundert[ -]?(?:und ?)?)?"
    rf"(?:(?P<ones>{_any(_DE_ONES)})und)?(?P<tens>{_any(_DE_TENS)})\b"
)
_GERMAN_HUNDRED = re.compile(
    rf"\b(?:(?P<h>{_any(_DE_ONES)}) ?)?hundert(?:(?: ?und ?)?(?P<ones>{_any(_DE_ONES)})| (?P<low>{_any(_DE_LOW)}))?\b"
)
_SPANISH = re.compile(rf"\b(?P<h>ciento )?(?P<tens>{_any(_ES_TENS)})(?: y (?P<ones>{_any(_ES_ONES)}))?\b")
_FRENCH = re.compile(
    rf"\b(?P<tens>{_any(_FR_TENS)})(?:(?:[ -]| et |-et-)(?P<ones>{_any(_FR_ONES)}))?\b(?! (?:minutes?|mn|min)\b)"
)
_MIXED = re.compile(rf"\b(?P<n>1|2)[ -](?P<tens>{_any(_TENS)})(?:[ -](?P<ones>{_LOW}))?\b")
_WORTH_A_LOOK = re.compile(
    r"hundred|dozen|\b(?:one|two|three) (?:one|two|three|four|five|six|seven|eight|nine|zero|oh?) |ty\b|ties\b"
    r"|hundert|zig\b|ssig|enta\b|soixante|quatre|cinquante|teen\b|\b(?:one|two|three|four)[ -]"
    r"(?:oh?|zero|ten|eleven|twelve)\b| point "
)
_TO_THE_HOUR = re.compile(r"^(?P<lead>(?:at|about|around|like) )?(?P<n>5|10|20) to$")
_TO_AN_HOUR = re.compile(
    r"^(?P<lead>(?:at|about|around) )?(?P<n>5|10|20) (?:till?|to) (?P<h>[1-9]|1[0-2])[:,]?(?= ?[0-9]{2,3}(?![0-9:]))"
)
"""A time told before what was read then ("5 til 3: 170")."""
_IN_WORDS = {"5": "five", "10": "ten", "20": "twenty"}
_DOZEN = re.compile(r"\b(?:(?P<n>half a|a|one|two|three) )?dozen\b")
_DOZENS = {"half a": 0.5, "a": 1, "one": 1, "two": 2, "three": 3}
_KEY_OF = {word: str(number) for word, number in list(_ONES.items())[:9]} | {"zero": "0", "oh": "0", "o": "0"}
_KEYS = re.compile(
    rf"\b(?:one|two|three)(?: (?:{'|'.join(_KEY_OF)})){{2}}\b(?! (?:minutes?|mins?|hours?|people|racks?|pieces))"
)
"""Three figures told one by one ("one seven one")."""
_LETTERED = re.compile(
    r"^(?:(?P<a>[pm]) ?:?(?P<x>[0-9]{2,3})[ ,;/]+(?P<b>[pm]) ?:?(?P<y>[0-9]{2,3})"
    r"|(?P<u>[0-9]{2,3}) ?(?P<c>[pm])[ ,;/]+(?P<v>[0-9]{2,3}) ?(?P<d>[pm]))$"
)
"""Pit and meat by their first letters ("p 255 m 169")."""
_PROBE_OF = {"p": "pit", "m": "meat"}
_SIXTY = 60


def with_figures(heard: str) -> str:
    """Return a tidied text with its spelled numbers as figures; times of the clock stay as they are."""
    heard = _LETTERED.sub(_by_letters, heard)
    heard = _TO_THE_HOUR.sub(lambda found: f"{found['lead'] or ''}{_IN_WORDS[found['n']]} to", heard)
    heard = _TO_AN_HOUR.sub(lambda found: f"{found['lead'] or ''}{_IN_WORDS[found['n']]} to {found['h']},", heard)
    if _WORTH_A_LOOK.search(heard) is None:
        return heard
    heard = _DOZEN.sub(lambda found: str(int(_DOZENS[found["n"] or "a"] * 12)), heard)
    heard = _KEYS.sub(lambda found: "".join(_KEY_OF[word] for word in found.group().split()), heard)
    heard = _HUNDRED.sub(_hundred, heard)
    heard = _PLURAL.sub(lambda m: f"{_ones_of(m['n']) * 100 + _TENS_PLURAL[m['tens']]}s", heard)
    heard = _CLOCK.sub(_clock, heard)
    heard = _SAID.sub(lambda m: str(_ones_of(m["n"]) * 100 + _rest(m)), heard)
    heard = _MIXED.sub(lambda m: str(int(m["n"]) * 100 + _rest(m)), heard)
    heard = _PAIR.sub(lambda m: str(_rest(m)), heard)
    heard = _ALONE.sub(lambda m: str(_TENS[m["tens"]]), heard)
    heard = _POINT.sub(lambda m: f".{_ONES.get(m['tenths'], m['tenths'])}", heard)
    heard = _GERMAN.sub(_german, heard)
    heard = _GERMAN_HUNDRED.sub(
        lambda m: str(_DE_ONES.get(m["h"] or "ein", 1) * 100 + _DE_ONES.get(m["ones"] or m["low"] or "", 0)), heard
    )
    heard = _SPANISH.sub(lambda m: _other(m, _ES_TENS, _ES_ONES), heard)
    return _FRENCH.sub(lambda m: _other(m, _FR_TENS, _FR_ONES), heard)


def _ones_of(word: str | None) -> int:
    if word is None:
        return 0
    return int(word) if word.isdigit() else _ONES.get(word, 1)


def _rest(found: re.Match[str]) -> int:
    said = found.groupdict()
    if said.get("tens"):
        return _TENS[said["tens"]] + (_ONES[said["ones"]] if said.get("ones") else 0)
    return _ONES[said.get("teen") or said.get("oh") or "one"]


def _by_letters(found: re.Match[str]) -> str:
    first, second = found["a"] or found["c"], found["b"] or found["d"]
    if first == second:
        return found.group()
    return f"{_PROBE_OF[first]} {found['x'] or found['u']}, {_PROBE_OF[second]} {found['y'] or found['v']}"


def _clock(found: re.Match[str]) -> str:
    minute = _rest(found)
    return f"{found['lead']} {_ONES[found['h']]}:{minute:02d}" if minute < _SIXTY else found.group()


def _hundred(found: re.Match[str]) -> str:
    whole = 100 * (_ones_of(found["n"]) or 1)
    if not found["plus"]:
        return str(whole)
    return str(whole + (_ONES[found["low"]] if found["low"] else _rest(found)))


def _german(found: re.Match[str]) -> str:
    tens = _DE_TENS[found["tens"]]
    hundreds = 100 * _DE_ONES[found["h"] or "ein"] if "hundert" in found.group() else 0
    if not hundreds and tens < _SIXTY and not found["ones"]:
        return found.group()
    return str(hundreds + tens + (_DE_ONES[found["ones"]] if found["ones"] else 0))


def _other(found: re.Match[str], tens: dict[str, int], ones: dict[str, int]) -> str:
    hundreds = 100 if found.groupdict().get("h") else 0
    whole = hundreds + tens[found["tens"]] + (ones[found["ones"]] if found["ones"] else 0)
    return str(whole) if whole >= _SIXTY or found["ones"] else found.group()
