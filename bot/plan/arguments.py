"""The arguments of `slowbell plan`: a group of them for each piece, from its --cut on. It only reads arguments."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from bot.messages import plan_help as words

FORMATS = ("text", "json", "ics", "page")
OF_A_PIECE = ("mass", "thickness", "count", "pit", "wrap", "serve", "treated", "done", "safe_by")
_SHOWN = ("6kg", "7.5cm", "N", "250F", "WRAP", "TIME", "HOW", "145F", "RULE")


class _Cut(argparse.Action):
    """Begins a piece; what was said before the first one belongs to it."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:  # fmt: skip
        del parser, option_string  # argparse calls it with all four
        pieces = list(getattr(namespace, "pieces", None) or [])
        early = {} if pieces else dict(getattr(namespace, "early", None) or {})
        namespace.pieces = [*pieces, {**early, "cut": str(values)}]


class _OfPiece(argparse.Action):
    """Says something of the newest piece."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:  # fmt: skip
        del parser, option_string  # argparse calls it with all four
        pieces = list(getattr(namespace, "pieces", None) or [])
        if pieces:
            namespace.pieces = [*pieces[:-1], {**pieces[-1], self.dest: str(values)}]
        else:
            namespace.early = {**(getattr(namespace, "early", None) or {}), self.dest: str(values)}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what `slowbell plan` understands to its parser."""
    add_wishes(parser)
    parser.add_argument("--format", choices=FORMATS, default="text", help=words.help_format())


def add_wishes(parser: argparse.ArgumentParser) -> None:
    """Add what says of a plan how it is wanted, to the parser of any command that makes one."""
    parser.add_argument("--cut", action=_Cut, metavar="CUT", help=words.help_cut())
    for name, metavar in zip(OF_A_PIECE, _SHOWN, strict=True):
        option = f"--{name.replace('_', '-')}"
        parser.add_argument(option, dest=name, action=_OfPiece, metavar=metavar, help=words.help_of(name))
    parser.add_argument("--file", metavar="PLAN.toml", help=words.help_file())
    parser.add_argument("--guests", metavar="24+6", help=words.help_guests())
    parser.add_argument("--at-risk", dest="at_risk", action="store_true", default=None, help=words.help_at_risk())
    parser.add_argument("--no-at-risk", dest="at_risk", action="store_false", help=words.help_no_at_risk())
    parser.add_argument("--allergies", metavar="WHAT", help=words.help_allergies())
    parser.add_argument("--public", action="store_true", default=None, help=words.help_public())
    parser.add_argument("--cooker", metavar="KIND", help=words.help_cooker())
    parser.add_argument("--confidence", metavar="P", help=words.help_confidence())
    parser.add_argument("--now", metavar="TIME", help=words.help_now())
