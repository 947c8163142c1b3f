"""Takes out of a text the figures of what was before: "171, was 166", "171 up from 166", "set to 275, reads 262".

What stands now is left as it is; where nothing would be left, nothing is taken out.
"""

from __future__ import annotations

import re

from bot.conversation.parsing.words import phrases

_N = r"[0-9]{2,3}(?:[.,][0-9])?(?: ?[cf]\b)?"
_MOVED = r"(?:up|down|risen|climbed|rose|jumped|crept|moved|went|gone|came|come|grew|fell|fallen|dropped|increased)"
_EARLIER = phrases(
    rf"\b{_MOVED}(?: up| down)? from (?P<from_to>{_N}) to (?={_N})",
    rf"(?<=[0-9]),? ?\(?(?:{_MOVED} )?(?:up |down )?from (?P<from>{_N})\b(?! to [0-9])",
    rf"\b(?:it )?was (?:at )?(?P<was>{_N})(?: (?:before|earlier|last time|a while ago|then))?(?= ?(?:$|[,;)|]))",
    rf"\b(?P<before>{_N}) (?:before|earlier|last time)\b",
    rf"\b(?:set|dialled|dialed|target(?:ed)?)(?: is)? (?:to|at|for) (?P<set>{_N})(?= ?,?(?: but| and)? (?:it )?"
    rf"(?:reads?|reading|shows?|showing|says|now|actual(?:ly)?)\b)",
    rf"\bat (?P<at>{_N})(?=,? (?:and |but )?(?:it'?s )?now [0-9])",
    rf"\b(?:was|hit|peaked at|reached|spiked to|got to|went to|shot to|jumped to) (?P<peak>{_N})"
    rf"(?= ?(?:f |c )?[^0-9]*\b(?:back|down|settled|now)(?: (?:down|up|to|at|again|it'?s))* {_N}(?: now)?$)",
    r"^(?:it'?s |is )?(?:up|down) (?:by )?(?P<step>[0-9]{1,2})(?: ?(?:deg(?:rees?)?|f|c))?(?= to [0-9])",
)
_STEPS = phrases(
    r"\b[0-9]{1,2} ?(?:degrees?|deg)? ?(?:over|under|above|below|short|shy)(?: (?:target|it))?(?= ?(?:[,;]|$))",
    r"\b[0-9]{1,2} ?(?:degrees?|deg) (?:more|less|up|down|higher|lower|to go|left)(?: than \w+(?: \w+)?)?\b",
)
"""Steps and gaps: no figure in them is one that a probe shows."""
_PROBE = re.compile(r"\b(?:pit|smoker|grill|cooker|meat|core|flat|point)\b")


def without_earlier(masked: str) -> str:
    """Return a text with the figures blanked that say what was before; all of it where no other figure is told."""
    letters = list(masked)
    for step in _STEPS.finditer(masked):
        letters[step.start() : step.end()] = "|" * (step.end() - step.start())
    for found in _EARLIER.finditer(masked):
        if found.lastgroup == "was" and _PROBE.search(masked[: found.start()].rpartition(",")[2]):
            continue  # "171, pit was 250" tells both
        start, end = found.span(found.lastgroup or 0)
        letters[start:end] = "|" * (end - start)
    left = "".join(letters)
    return left if re.search(r"[0-9]", left) else masked
