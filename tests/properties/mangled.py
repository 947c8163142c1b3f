"""Replies as greasy thumbs, odd keyboards and far scripts send them: real ones, mangled."""

from __future__ import annotations

import csv
from collections.abc import Callable

from hypothesis import strategies as st

from tests.unit.bot.conversation.spoken import ROOT

REPLIES = tuple(
    row["text"]
    for row in csv.DictReader(
        line
        for line in (ROOT / "tests" / "data" / "replies_read.csv").read_text(encoding="utf-8").splitlines()
        if not line.startswith("#")
    )
)
_ZEROS = (0x660, 0x6F0, 0x966, 0xE50, 0xFF10, 0x1D7CE)
SCRIPTS = tuple("".join(chr(zero + digit) for digit in range(10)) for zero in _ZEROS)
"""The ten digits of Arabic, Persian, Devanagari, Thai, full width and mathematical bold."""
MARKS = (
    "\u0301",
    "\u0336",
    "\u200b",
    "\u200d",
    "\ufe0f",
    "\u202e",
    "\u202c",
    "\u2066",
    "\u00a0",
    "\u0000",
    "\ufeff",
    "\ud83d",
)
AROUND = (
    "'; DROP TABLE facts; --", "<b>{}</b>", "<script>{}</script>", "**{}**", "`{}`", "[{}](http://127.0.0.1)",
    "|| {} ||", "{{{}}}", "%s %d {{0}}", "&lt;{}&gt;", "> {}", "# {}", "~~{}~~", "\u202e{}\u202c", "🔥{}🔥", "{}!!!???",
    "\n{}\n\n", "\t{}",
)  # fmt: skip
_KEYS = "qwertyuiopasdfghjklzxcvbnm1234567890 ,.-/'"


def _typo(text: str, at: int, key: str, way: int) -> str:
    at %= max(1, len(text))
    return (
        text[:at] + key + text[at:],
        text[:at] + text[at + 1 :],
        text[:at] + key + text[at + 1 :],
        text[:at] + text[at : at + 1] * 2 + text[at + 1 :],
        text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :],
    )[way % 5]


def _script(text: str, digits: str) -> str:
    return text.translate(dict(zip(map(ord, "0123456789"), digits, strict=True)))


def _wrap(text: str, around: str) -> str:
    return around.replace("{}", text) if "{}" in around else f"{text} {around}"


def _case(text: str, way: int) -> str:
    return (text.upper(), text.title(), text.swapcase(), text.casefold(), text.capitalize())[way % 5]


def _mutations() -> st.SearchStrategy[Callable[[str], str]]:
    whole = st.integers(0, 400)
    return st.one_of(
        st.tuples(whole, st.sampled_from(_KEYS), whole).map(lambda a: lambda text: _typo(text, *a)),
        whole.map(lambda way: lambda text: _case(text, way)),
        st.sampled_from(SCRIPTS).map(lambda digits: lambda text: _script(text, digits)),
        st.tuples(whole, st.sampled_from(MARKS)).map(
            lambda a: lambda text: text[: a[0] % (len(text) + 1)] + a[1] + text[a[0] % (len(text) + 1) :]
        ),
        st.sampled_from(AROUND).map(lambda around: lambda text: _wrap(text, around)),
        st.integers(2, 60).map(lambda times: lambda text: " ".join([text] * times)),
        st.sampled_from(REPLIES).map(lambda other: lambda text: f"{text}, {other}"),
        st.text(max_size=12).map(lambda more: lambda text: f"{text} {more}"),
    )


@st.composite
def mangled(draw: st.DrawFn) -> str:
    """A reply of the table, mangled up to four times, or any text at all."""
    text = draw(st.one_of(st.sampled_from(REPLIES), st.text(max_size=80)))
    for change in draw(st.lists(_mutations(), max_size=4)):
        text = change(text)
    return text[:5000]
