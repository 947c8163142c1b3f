"""How a message is set for a terminal."""

from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from bot.ports import ScreenRow
from bot.transport.terminal.layout import columns, letter, set_row, wrap

NOON = dt.datetime(2026, 9, 5, 12, 5, tzinfo=dt.UTC)
LONG = (
    "Spritz the racks, turn the front one round, and read the thickest part of the biggest one while the lid is open."
)


def row(text: str, *labels: str, at: dt.datetime = NOON) -> ScreenRow:
    """Return a row of the screen."""
    return ScreenRow(id=1, text=text, choices=tuple((label, "t") for label in labels), at=at, shown=False)


def set_lisbon(one: ScreenRow, width: int = 80) -> list[str]:
    """Set a row as seen in Lisbon on the fifth of September."""
    return set_row(one, zone="Europe/Lisbon", today=dt.date(2026, 9, 5), width=width).split("\n")


def test_the_time_is_of_the_persons_zone() -> None:
    """Noon UTC is one o'clock in Lisbon's summer."""
    assert set_lisbon(row("Meat on.")) == ["13:05  Meat on."]


def test_a_message_of_another_day_carries_its_date() -> None:
    """What was written while nobody looked says on which day."""
    assert set_lisbon(row("Meat on.", at=NOON - dt.timedelta(days=1)))[0].startswith("2026-09-04 13:05  Meat")


def test_lines_are_wrapped_under_the_text() -> None:
    """A long line goes on under its own beginning and nothing passes 80 columns."""
    lines = set_lisbon(row(LONG))
    assert len(lines) == 2
    assert lines[1].startswith("       ")
    assert max(map(len, lines)) <= 79
    assert " ".join(line.strip() for line in lines).endswith(LONG)


def test_choices_have_letters() -> None:
    """Choices stand under the message, with letters, as many in a line as fit."""
    lines = set_lisbon(row("Three things.", "All done", "Not yet", "Skip"))
    assert lines == ["13:05  Three things.", "         a) All done   b) Not yet   c) Skip"]


def test_many_long_choices_take_more_lines() -> None:
    """Choices that do not fit go on in the next line, each whole."""
    lines = set_lisbon(row("Which?", *(f"the {n}th of many long choices" for n in range(6))))
    assert max(map(len, lines)) <= 79
    assert sum(line.count(") the") for line in lines) == 6


def test_letters_go_on_after_z() -> None:
    """The 27th choice is aa; a number never stands for a choice."""
    assert [letter(0), letter(25), letter(26), letter(27)] == ["a", "z", "aa", "ab"]
    assert not any(letter(i).isdigit() for i in range(1000))


def test_a_table_keeps_its_indent() -> None:
    """Lines that begin with blanks keep them, also where they go on."""
    assert wrap("    " + "word " * 5, 16) == ["    word word", "    word word", "    word"]


def test_a_forged_line_cannot_be_smuggled_in() -> None:
    """A label or text with line breaks or escapes cannot look like another message."""
    lines = set_lisbon(row("Fine.\x1b[1A", "ok\n14:00  Pull now"))
    assert lines == ["13:05  Fine.", "         a) ok 14:00 Pull now"]


@given(
    text=st.text(max_size=300), width=st.integers(min_value=1, max_value=200), labels=st.lists(st.text(max_size=120))
)
def test_no_text_passes_the_width(text: str, width: int, labels: list[str]) -> None:
    """Whatever the text and the window, no line is wider than the window (30 columns at least, 100 at most)."""
    for line in set_lisbon(row(text, *labels), width):
        assert columns(line) <= max(30 + 8, min(width, 100))


@given(text=st.text(alphabet="abc \n", max_size=200))
def test_no_word_is_lost(text: str) -> None:
    """Wrapping changes blanks and line breaks only."""
    shown = "".join(set_lisbon(row(text), 40)).removeprefix("13:05")
    assert "".join(shown.split()) == "".join(text.split())
