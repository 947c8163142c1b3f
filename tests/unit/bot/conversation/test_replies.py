"""Replies as people type them: the table of the trade, and every example of the reference page.

The words of questions are not looked at here; they belong to `bot.messages`.
"""

from __future__ import annotations

import csv
import re

import pytest

from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import ROOT, plain, setting

TABLE = ROOT / "tests" / "data" / "replies.csv"
PAGE = ROOT / "docs" / "reference" / "replies.md"
_SETTING = re.compile(r"^Setting: `(?P<setting>[^`]*)`(?:, asked: `(?P<asked>[^`]*)`)?")
_EXAMPLE = re.compile(r"^\| `(?P<text>[^`]+)` \| `(?P<understood>[^`]+)` \|$")


def _rows() -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def _examples() -> list[tuple[str, str, str, str]]:
    """Return (setting, asked, text, understood) of every example on the page."""
    found: list[tuple[str, str, str, str]] = []
    here, asked = "", ""
    for line in PAGE.read_text(encoding="utf-8").splitlines():
        if told := _SETTING.match(line):
            here, asked = told["setting"], told["asked"] or ""
        elif example := _EXAMPLE.match(line):
            found.append((here, asked, example["text"], example["understood"].replace("¦", "|")))
    return found


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['n']} {row['text']}")
def test_a_typed_reply_means_what_the_table_says(row: dict[str, str]) -> None:
    """Every row of the table is understood as it says."""
    context = setting(row["setting"], row["asked"])
    assert plain(read(row["text"], context)) == row["understood"]


def test_every_one_of_the_hundred_replies_is_in_the_table() -> None:
    """The table holds the hundred replies, each once."""
    assert [int(row["n"]) for row in _rows()] == list(range(1, 101))


@pytest.mark.parametrize(("here", "asked", "text", "understood"), _examples())
def test_the_reference_page_tells_the_truth(here: str, asked: str, text: str, understood: str) -> None:
    """Every example of docs/reference/replies.md is understood as the page says."""
    assert plain(read(text, setting(here, asked))) == understood


def test_the_reference_page_has_examples() -> None:
    """The examples are really found on the page."""
    assert len(_examples()) > 80
