"""Words that ask for the temperature log of a cook. Only whole texts: a log of wood is none."""

from __future__ import annotations

import re

_WHO = "(?:(?:public )?(?:health|food) )?(?:officer|inspector|inspection|department|authorit(?:y|ies))|event"
_WHAT = (
    "(?:(?:event|safety|food safety|temperature|temp|cook|cooking|haccp|cook's) )+(?:logs?|records?|sheets?)|records?"
)
_FOR = f"(?: (?:for|to show)(?: to)? (?:(?:the|a|an|our) )?(?:{_WHO}))"
_LEAD = "(?:(?:print|make|send|export|download|get|i need|we need)(?: me| us)? )?(?:(?:the|a|an|my|our|new|this) )*"

RECORD = re.compile(
    f"^{_LEAD}(?:{_WHAT}){_FOR}?(?: (?:as|in) (?:a )?(?:csv|pdf|table))?$"
    f"|^{_LEAD}(?:log|papers?|something){_FOR}$"
    "|^(?:(?:the|our|a) )?(?:(?:public )?(?:health|food) (?:officer|inspector)|inspector)"
    "(?: (?:is here|is coming|comes|came|wants .*))?$"
)
"""The record, the temperature log, something for the inspector; also that one is here."""
