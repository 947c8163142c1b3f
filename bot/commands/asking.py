"""Questions to the program, and what each is about. Values only."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from bot.commands.intent import Said
from scheduler.facts import Wrap


class Topic(StrEnum):
    """What can be asked."""

    HOW_LONG = "how_long"
    WHAT_NEXT = "what_next"
    PLAN = "plan"
    PLAN_REST = "plan_rest"
    """The lines of the plan that did not fit."""
    SAFE = "safe"
    RULE = "rule"
    """By which published rule something is judged."""
    STALL = "stall"
    REST = "rest"
    """How long it rests, and how long the box keeps it."""
    WHEN = "when"
    """When it comes off, and what comes next."""
    STEP = "step"
    """When one step is due, or was."""
    WHAT_IF = "what_if"
    """When it comes off with another wrap."""
    PAGE = "page"
    """The plan as one printed page."""
    CALENDAR = "calendar"
    """The plan as a calendar file."""
    RECORD = "record"
    """The temperature log of the cook, as pages and as a table."""
    BOARD = "board"
    """How it stands, as the board shows it."""
    PHOTOS = "photos"
    """Which pictures were kept."""
    CHART = "chart"
    """The cook as a picture."""
    LEVERS = "levers"
    """What can be done about a cook that runs late or early."""
    CREW = "crew"
    WATCHES = "watches"
    """Who is awake when, and what wakes whom."""
    LEAVES = "leaves"
    """Who stays with the fire while somebody leaves it: a lit cooker is never left alone."""
    TOLD = "told"
    """How much the program tells, and what is switched off."""
    WHY = "why"
    """Why a step is asked, and why now."""
    IF_SKIPPED = "if_skipped"
    """What happens when a step is left out."""
    WAYS = "ways"
    """The plans side by side."""
    WHO_DID = "who_did"
    """Who did a step last, and when."""
    PROBES = "probes"
    """Which probe counts."""
    HELP = "help"


class Ask(Said):
    """A question to the program."""

    kind: Literal["ask"] = "ask"
    topic: Topic
    step: str | None = None
    """The step asked about."""
    wrap: Wrap | None = None
    """The wrap asked about."""
    number: float | None = None
    """The number whose rule is asked about, as typed."""
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""
    dark: bool | None = None
    """Whether a picture is to be dark, None: not said."""
