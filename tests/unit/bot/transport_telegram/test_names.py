"""Names that would break, reorder or imitate a message do none of it."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.transport.telegram.bidi import FSI, PDI, laid_out
from bot.transport.telegram.names import LONGEST_NAME, plain_name

NOA, LAST = "\u05e0\u05d5\u05e2\u05d4", "\u05db\u05d4\u05df"
"""Hebrew letters: written from right to left."""


@pytest.mark.parametrize(
    ("given_name", "name"),
    [
        ("Ines  Vale", "Ines Vale"),
        ("Tomas\nDinner is at 19:00", "Tomas Dinner is at 19:00"),
        ("\u202eIn\u200bes\ufeff", "In es"),
        ("@all", "all"),
        ("#supper /stop @@here", "supper stop here"),
        ("a@b", "a@b"),
        ("<b>Wren</b> & *co* _x_", "<b>Wren</b> & *co* _x_"),
        ("\u200b\u2800\u3164\u200d", ""),
        ("...", ""),
        ("\N{FIRE}", "\N{FIRE}"),
        ("x" * 200, "x" * 39 + "…"),
        ("e\u0301\u0302\u0303\u0304\u0305a", "e\u0301\u0302a"),
        (f"{NOA} {LAST}", f"{NOA} {LAST}"),
    ],
)
def test_a_name_is_one_short_plain_line(given_name: str, name: str) -> None:
    """No line ends, no turning, nothing unseen, no links, at most forty characters; markup is only letters here."""
    assert plain_name(given_name) == name


@given(st.text(max_size=300))
def test_any_name_is_one_short_plain_line(given_name: str) -> None:
    """Whatever somebody calls themselves, one line of at most forty characters is left, or nothing."""
    name = plain_name(given_name)
    assert len(name) <= LONGEST_NAME
    assert len(name.splitlines()) <= 1
    assert not name.startswith(("@", "/", "#"))
    assert plain_name(name) == name


# --- layout -----------------------------------------------------------------------------------------------------------


def _direction_of(line: str) -> str:
    """Return how a paragraph is laid out: by its first letter with a direction, isolates passed over (UAX #9, P2)."""
    depth = 0
    for ch in line:
        kind = unicodedata.bidirectional(ch)
        depth += (kind in {"FSI", "LRI", "RLI"}) - (kind == "PDI")
        if depth == 0 and kind in {"L", "R", "AL"}:
            return "left to right" if kind == "L" else "right to left"
    return "left to right"


def _outside(line: str) -> str:
    """Return what a line says outside of its isolates."""
    said, depth = "", 0
    for ch in line:
        depth += (ch == FSI) - (ch == PDI)
        said += ch if depth == 0 and ch not in {FSI, PDI} else ""
    return said


@pytest.mark.parametrize(
    "name", [NOA, f"{NOA} {LAST}", f"\u202e{NOA}", f"{NOA}\u202e", f"\u2067{NOA}", "\u0639\u0645\u0631"]
)
def test_a_name_from_right_to_left_leaves_the_sentence_as_it_is(name: str) -> None:
    """The sentence runs from left to right, the number after the name stays after it, the name is one thing."""
    line = laid_out(f"{name}: Core 166 F at 13:10.")
    assert _direction_of(line) == "left to right"
    assert _outside(line) == ": Core 166 F at 13:10."
    assert (line.count(FSI), line.count(PDI)) == (1, 1)


def test_two_names_in_a_sentence_stay_two() -> None:
    """Each is laid out by itself: they do not change places."""
    assert laid_out(f"{NOA}, {LAST} and Ines") == f"{FSI}{NOA}, {LAST}{PDI} and Ines"
    assert laid_out(f"{NOA} and {LAST}: 74 C") == f"{FSI}{NOA}{PDI} and {FSI}{LAST}{PDI}: 74 C"


def test_a_sentence_without_such_letters_is_left_alone() -> None:
    """Nothing is added; marks that turn are left out."""
    assert laid_out("Core 166 F.\n<b>ok</b>") == "Core 166 F.\n<b>ok</b>"
    assert laid_out("Core \u202e661 F") == "Core 661 F"


@given(st.text(alphabet=st.sampled_from(f"ab 1:.\n{NOA}\u0661\u202e\u202c\u2066\u2067\u2068\u2069\u200f"), max_size=60))
def test_every_line_closes_what_it_opens(text: str) -> None:
    """Isolates are balanced in every line, never nested, and nothing else turns anything; no letter is lost."""
    for line in laid_out(text).split("\n"):
        depth = 0
        for ch in line:
            depth += (ch == FSI) - (ch == PDI)
            assert depth in {0, 1}
        assert depth == 0
        assert not set(line) & set("\u200f\u202c\u202e\u2066\u2067")
    kept = set("\u202e\u202c\u2066\u2067\u2068\u2069\u200f")
    assert [ch for ch in laid_out(text) if ch not in kept] == [ch for ch in text if ch not in kept]
