"""The arguments of `slowbell read`: a text, and what is known of the moment in which it is typed.

It only reads arguments; whatever begins with a dash and is no option belongs to the text.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence

from bot.messages import read_help as words

_WITH_VALUE = (
    "--slot",
    "--unit",
    "--stage",
    "--now",
    "--last",
    "--pit-target",
    "--data",
    "--zone",
    "--rules",
    "--language",
)
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
    at = next(iter(_words(given)), None)
    if at is None or given[at] != "read":
        return given
    options, text = _apart(given[at + 1 :])
    return [*given[: at + 1], *options, "--", *text]


def _words(given: list[str]) -> list[int]:
    """Return the places of what is no option and no value of one."""
    options = (*_WITH_VALUE, "--as")
    return [
        number
        for number, one in enumerate(given)
        if not one.startswith("-") and (number == 0 or given[number - 1] not in options)
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
