"""Says what is wrong with a person's own cuts, on the console and where a cook is set up.

It must not judge them; why an entry cannot be used is said by the engine's checks.
"""

from __future__ import annotations

from bot.messages.words import _
from scheduler.cuts.own import Complaint

FILE = "cuts.toml"
"""What the file is called where its folder need not be named."""
COOKERS_FILE = "cookers.toml"
"""The same for a person's own cookers."""
_MOST = 3
"""Complaints that are told; the others come up when these are put right."""


def broken(complaints: tuple[Complaint, ...], path: str = FILE, *, every: bool = False) -> str:
    """Say which of the own cuts cannot be used and why, and that everything else counts.

    In a chat the first ones are told and where the others stand; `every` tells them all, as a console can.
    """
    told = [_one(complaint) for complaint in complaints[: None if every else _MOST]]
    if not every and len(complaints) > _MOST:
        told.append(
            _("And {count} more: slowbell plan on the command line lists them all.").format(
                count=len(complaints) - _MOST
            )
        )
    return _("{path} needs a look. {told} Everything else counts.").format(path=path, told=" ".join(told))


def _one(complaint: Complaint) -> str:
    # Why a whole file cannot be used is in the catalogues; what is wrong with a field stays in the words of the fields.
    why = _(complaint.why.rstrip("."))
    stop = "" if why.endswith("?") else "."
    if not complaint.entry:
        return _("{why}{stop}").format(why=why[:1].upper() + why[1:], stop=stop)
    return _("{entry} is left out: {why}{stop}").format(entry=complaint.entry, why=why, stop=stop)
