"""Who read: the letters in each person's dots, so that people are told apart without any colour.

Names are only shortened here; nothing is drawn.
"""

from __future__ import annotations

from collections.abc import Iterable

from bot.papers.chart_type import covers
from bot.papers.chart_values import ChartPerson

_LETTERS = 2


def people_of(names: Iterable[str]) -> tuple[ChartPerson, ...]:
    """Return everybody once, in the order in which they first read, each with letters that nobody else has."""
    known = list(dict.fromkeys(names))
    taken: set[str] = set()
    found = []
    for number, name in enumerate(known):
        others = [_initial(other) for other in known if other != name]
        sign = _sign(name, number, others, taken)
        taken.add(sign)
        found.append(ChartPerson(name=name, sign=sign, number=number))
    return tuple(found)


def _sign(name: str, number: int, others: list[str], taken: set[str]) -> str:
    """Return the initial where it is the only one, else with one more letter, else the place in the row."""
    initial = _initial(name)
    if initial and initial not in others and initial not in taken:
        return initial
    letters = _letters(name)
    longer = [initial + letter.lower() for letter in letters[1:]] or [initial] * len(letters)
    numbers = (str(n) for n in range(number + 1, number + 1 + len(taken) + 1))
    return next((sign for sign in (*longer, *numbers) if sign not in taken and len(sign) <= _LETTERS), str(number + 1))


def _initial(name: str) -> str:
    letters = _letters(name)
    return letters[0].upper()[:1] if letters else ""


def _letters(name: str) -> list[str]:
    return [letter for letter in name if letter.isalnum() and covers(letter)]
