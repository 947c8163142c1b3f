"""Safety findings in words: the number, the limit, and what to do now. Never softened."""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.words import _
from scheduler.safety import Finding


def finding_text(finding: Finding, voice: Voice) -> str:
    """Return a finding as one or two sentences."""
    fine = finding.rule in {
        "served_under_floor",
        "minimum_not_measured",
        "held_under_floor",
        "held_act_now",
        "pulled_under_minimum",
    }
    found = _("nothing") if finding.found_c is None else voice.temp(finding.found_c, fine=fine)
    limit = "" if finding.limit_c is None else voice.temp(finding.limit_c, fine=fine)
    since = "" if finding.since is None else voice.clock(finding.since)
    texts = {
        "minimum_not_measured": _(
            "Stop: not measured as safe. Found {found}, it needs {limit} at the lowest spot. Read it before anyone "
            "eats;"
            " if it is lower, back on the heat."
        ),
        "pulled_under_minimum": _(
            "Stop: off the fire, but not measured as safe. Found {found}, it needs {limit} at the coldest spot. Put it"
            ' back on now (type "undo"), and read that spot again before it comes off.'
        ),
        "held_under_floor": _(
            "Stop: held meat at {found}, under {limit}. Since {since} at least. Serve at once or reheat covered to "
            "165 F"
            " (74 C); more than two hours under it in all (one on a hot day): bin it."
        ),
        "served_under_floor": _(
            "Stop: this meat was last read at {found}, under {limit}, before it was served. Reheat it covered to 165 F"
            " (74 C); more than two hours under it in all (one on a hot day): bin it."
        ),
        "held_act_now": _(
            "Held meat at {found}: act now. Serve, a warm oven, or slice and chill. The floor is 140 F (60 C)."
        ),
        "held_not_read": _(
            "Served without a reading since it left the fire: I cannot say that it stayed hot. Read it now; under"
            " {limit} it goes back on the heat, to 165 F (74 C)."
        ),
        "come_up_slow": _(
            "Meat at {found} after hours on the fire; by now it should be above {limit}. Get the pit up, look at"
            " fuel and probe. If the meat was injected, rolled or tenderised, stop and think."
        ),
        "two_hours_out": _("Stop: the food has been out since {since}, more than two hours. Do not eat it; bin it."),
        "pit_cold": _(
            "Pit {found}, under {limit}, while the meat is still in the danger zone. Get the pit up now: air, ash, lit"
            " fuel. If it stays cold for half an hour, move the meat to a hot oven. Never pause half-cooked meat."
        ),
    }
    return texts[finding.rule].format(found=found, limit=limit, since=since)
