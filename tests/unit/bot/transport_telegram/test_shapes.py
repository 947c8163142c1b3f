"""References, buttons and lengths are what Telegram accepts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.chat import Choice
from bot.transport.telegram.shapes import CUT_SIGN, MessageRef, fitted, keyboard, read_ref, sendable, units


@given(st.integers(-(2**52), 2**52), st.integers(1, 2**31))
def test_a_reference_is_read_as_it_was_written(chat_id: int, message_id: int) -> None:
    """Writing and reading a reference gives the same message, for groups too (negative ids)."""
    ref = MessageRef(chat_id=chat_id, message_id=message_id)
    assert read_ref(str(ref)) == ref


@pytest.mark.parametrize("text", ["", "telegram", "telegram:1", "telegram:a:1", "terminal:1:2", "telegram:1:x"])
def test_what_is_no_reference_is_none(text: str) -> None:
    """References of other transports and broken ones name no message."""
    assert read_ref(text) is None


@given(st.text(max_size=60), st.integers(2, 40))
def test_a_text_always_fits(text: str, most: int) -> None:
    """However long a text is, what is sent is within the limit and starts like the text."""
    short = fitted(text, most)
    assert units(short) <= most
    assert text.startswith(short) or (short.endswith(CUT_SIGN) and text.startswith(short.removesuffix(CUT_SIGN)))
    sendable(short).encode()


def test_a_text_is_cut_at_a_line_end() -> None:
    """A cut falls between lines where a line end is near, and is marked."""
    assert fitted("one\ntwo three four\nfive six", 24) == "one\ntwo three four\n" + CUT_SIGN


def test_a_character_of_two_units_is_not_halved() -> None:
    """Characters beyond the first plane count as two, and are kept whole or left out."""
    assert fitted("\N{FIRE}" * 10, 6) == "\N{FIRE}\N{FIRE}" + CUT_SIGN


def test_half_a_surrogate_pair_can_be_sent() -> None:
    """A text that cannot be written as UTF-8 is made to."""
    assert sendable("a\ud800b") == "a?b"


@pytest.mark.parametrize(
    "choice",
    [
        Choice(label="Done", token=""),
        Choice(label="Done", token="x" * 65),
        Choice(label="Done", token="é" * 33),
        Choice(label=" ", token="x"),
    ],
)
def test_a_button_that_telegram_refuses_is_refused_here(choice: Choice) -> None:
    """Tokens are 1 to 64 bytes, not characters, and a label says something."""
    with pytest.raises(ValueError, match="button"):
        keyboard(((choice,),))


def test_a_keyboard_stays_within_its_limits() -> None:
    """At most eight in a row (more are broken), labels of at most 64 units, and no more than a hundred in all."""
    row = tuple(Choice(label="x" * 100, token=f"t{number}") for number in range(20))
    drawn = keyboard((row,))
    assert drawn
    assert [len(one) for one in drawn.inline_keyboard] == [8, 8, 4]
    assert {units(button.text) for one in drawn.inline_keyboard for button in one} == {64}
    with pytest.raises(ValueError, match="120 buttons"):
        keyboard((row,) * 6)


def test_rows_stay_rows_and_empty_ones_vanish() -> None:
    """Buttons are laid out as given; no choices, no keyboard."""
    rows = (
        (Choice(label="Done", token="a"), Choice(label="Not yet", token="b" * 64)),
        (),
        (Choice(label="Skip", token="c"),),
    )
    drawn = keyboard(rows)
    assert drawn
    assert [[button.text for button in row] for row in drawn.inline_keyboard] == [["Done", "Not yet"], ["Skip"]]
    assert keyboard(()) is None
