"""The page about replies tells the truth about `slowbell read`: its commands, and every intent that it names."""

from __future__ import annotations

import re
import shlex

import pytest

from bot.__main__ import main
from bot.messages.read_intents import intents
from tests.unit.bot.conversation.spoken import ROOT
from tests.unit.bot.read.moments import heard

PAGE = (ROOT / "docs" / "reference" / "replies.md").read_text(encoding="utf-8")
_COMMAND = re.compile(r"^    \$ slowbell (read .*)\n((?:    (?!\$).*\n)+)", re.MULTILINE)
_INTENT = re.compile(r"^\| `(?P<intent>[a-z_]+)` \| `(?P<text>[^`]+)` \| `(?P<options>--[^`]+)` \|$", re.MULTILINE)


@pytest.mark.parametrize(("command", "shown"), _COMMAND.findall(PAGE))
def test_a_command_of_the_page_prints_what_the_page_shows(
    command: str, shown: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What the page shows below a command is what the command prints."""
    assert main(["--zone", "Europe/London", *shlex.split(command)]) == 0
    assert capsys.readouterr().out.splitlines() == [line.removeprefix("    ") for line in shown.splitlines()]


@pytest.mark.parametrize(("intent", "text", "options"), _INTENT.findall(PAGE))
def test_an_intent_of_the_page_is_that_of_its_text(intent: str, text: str, options: str) -> None:
    """The text beside an intent has it."""
    assert heard(text, options).intent == intent


def test_the_page_names_every_intent() -> None:
    """No intent is left out of the page, and every one has words."""
    named = {intent for intent, _, _ in _INTENT.findall(PAGE)}
    assert named == set(intents())
