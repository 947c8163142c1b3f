"""Moments of these tests: what options describe, and what is left to say beyond them."""

from __future__ import annotations

import argparse
import dataclasses
import datetime as dt
import shlex

from bot.__main__ import _parser
from bot.read.arguments import with_text_apart
from bot.read.command import moment_of
from bot.read.meaning import Understood, understand
from bot.read.moment import Moment
from scheduler.planning.catalogue import Catalogue, read_catalogue
from scheduler.units import c_from_f
from tests.catalogue import TEXTS

NOW = dt.datetime(2026, 9, 12, 12, 55, tzinfo=dt.UTC)
"""13:55 on a Saturday in London."""
ZONE = "Europe/London"
CATALOGUE: Catalogue = read_catalogue(dict(TEXTS))


def given(text: str, options: str) -> argparse.Namespace:
    """Return what the command line makes of a text and its options."""
    return _parser().parse_args(with_text_apart(["read", text, *shlex.split(options)]))


def moment(text: str, options: str, **more: object) -> Moment:
    """Return the moment that options describe, and whatever else is known."""
    return dataclasses.replace(moment_of(given(text, options), zone=ZONE, now=NOW), **more)  # type: ignore[arg-type]  # fields of a moment, by name


def heard(text: str, options: str = "", **more: object) -> Understood:
    """Return how a text is understood."""
    return understand(text, moment(text, options, **more), CATALOGUE)


def celsius(typed: str) -> float:
    """Return the °C of "171F" or "68.5C", as the JSON rounds it."""
    value = float(typed[:-1])
    return round(c_from_f(value) if typed.endswith("F") else value, 2)
