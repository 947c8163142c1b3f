"""What may reach a terminal."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.transport.terminal.clean import clean, clean_line


@pytest.mark.parametrize(
    ("raw", "shown"),
    [
        ("\x1b[31mred\x1b[0m", "red"),
        ("\x1b[2J\x1b[Hgone", "gone"),
        ("\x1b]0;title\x07text", "text"),
        ("\x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\", "link"),
        ("\x9b1;31mred", "red"),
        ("a\rb", "a\nb"),
        ("a\r\nb", "a\nb"),
        ("a\x00b\x07c\x08d\x7f", "abcd"),
        ("a\tb", "a   b"),
        ("abc\u202edef", "abcdef"),
        ("half \ud83d pair", "half ? pair"),
        ("Ινές 5 °C – 👩‍🍳", "Ινές 5 °C – 👩‍🍳"),
    ],
)
def test_only_what_can_be_seen_is_left(raw: str, shown: str) -> None:
    """Colours, cursor movements, titles, bells and turned writing are dropped; words stay."""
    assert clean(raw) == shown


def test_a_name_is_one_line() -> None:
    """A name with line breaks cannot pose as a message of its own."""
    assert clean_line(" Ines\n14:05  all is well ") == "Ines 14:05 all is well"


@given(st.text())
def test_no_text_at_all_controls_the_terminal(text: str) -> None:
    """Whatever goes in, only line breaks are left of the control characters, and cleaning again changes nothing."""
    cleaned = clean(text)
    assert {ch for ch in cleaned if unicodedata.category(ch) in {"Cc", "Cs"}} <= {"\n"}
    assert clean(cleaned) == cleaned
