"""One way in which people tell of a problem: its words, and near relatives that mean something else. A value."""

from __future__ import annotations

import dataclasses
import re

PROBE = r"(?:probe|thermometer|thermo|sensor|gauge|reader|thermocouple|display)s?"
"""What measures."""

MEAT = r"(?:meat|brisket|flat|point|butt|shoulder|ribs?|racks?|chicken|turkey|bird|breast|roast|loin|pork|beef|lamb|it)"
"""What is cooked."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Telling:
    """A problem, the words that tell of it, and words that look like it and mean something else."""

    what: str
    says: re.Pattern[str]
    unless: re.Pattern[str] | None = None
