"""The arguments of `slowbell read`: a text, and what is known of the moment in which it is typed.

It only reads arguments; whatever begins with a dash and is no option belongs to the text.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence

from bot.messages import read_help as words

_WITH_VALUE = ("--slot", "--unit", "--stage", "--now", "--last", "--pit-target", "--data", "--zone", "--rules")
_ALONE = ("--json", "--help", "-h")
_OPTION = re.compile(r"--[a-z][a-z-]*(?:=.*)?", re.DOTALL)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what `slowbell read` understands to its parser."""
    parser.add_argument("text", nargs="*", metavar="TEXT", help=words.help_text())
    parser.add_argument("--slot", metavar="SLOT", help=words.help_slot())
    parser.add_argument("--unit", metavar="F|C", help=words.help_unit())
    parser.add_argument("--stage", metavar="STAGE", help=words.help_stage())
    parser.add_argument("--now", metavar="13:55", help=words.help_now())
    parser.add_argument("--last", action="append", metavar="core=166F@13:10", help=words.help_last())
    parser.add_argument("--pit-target", dest="pit_target", metavar="121C", help=words.help_pit_target())
    parser.add_argument("--json", action="store_true", help=words.help_json())


def with_text_apart(argv: Sequence[str]) -> list[str]:
    """Return the arguments with the text of `read` last, so that "---" and "-5" are text, not options."""
    given = list(argv)
    if "read" not in given:
        return given
    at = given.index("read")
    if any(not one.startswith("-") for one in _commands(given[:at])):
        return given  # "chat", or the value of an option, stands before it
    options, text = _apart(given[at + 1 :])
    return [*given[: at + 1], *options, "--", *text]


def _commands(before: list[str]) -> list[str]:
    """Return what stands before a word without the options and their values."""
    return [
        one
        for number, one in enumerate(before)
        if not one.startswith("-") and (number == 0 or before[number - 1] not in (*_WITH_VALUE, "--as"))
    ]


def _apart(given: list[str]) -> tuple[list[str], list[str]]:
    options: list[str] = []
    text: list[str] = []
    left = iter(given)
    for one in left:
        if one == "--":
            text.extend(left)
        elif one in _WITH_VALUE:
            options.extend((one, *([value] if (value := next(left, None)) is not None else [])))
        elif one in _ALONE or _OPTION.fullmatch(one):
            options.append(one)
        else:
            text.append(one)
    return options, text
