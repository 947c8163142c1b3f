"""Rules of cooked food that cools: two stages, measured; a stage that nobody measured is unknown, never kept."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Edition
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import COOL_COLD, COOL_FIRST, COOL_FIRST_TIME, COOL_TIME, Limit
from scheduler.safety.put_away import Cooling, Glance, gone_at, put_away
from scheduler.state import CookState

NEAR = 0.75
"""Food that is not there yet when this share of its time is over is said while it can still be mended: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class CoolingStage:
    """One stage of cooling: its rule, the temperature and the time since the food was last hot."""

    rule: str
    limit: Limit
    time: Limit

    @property
    def c(self) -> float:
        """Return the temperature to be reached [°C]."""
        return self.limit.under(Edition.FOOD_CODE).c

    @property
    def within(self) -> dt.timedelta:
        """Return the time in which it is to be reached."""
        return dt.timedelta(minutes=self.time.under(Edition.FOOD_CODE).value)


FIRST = CoolingStage(rule="cool_slow", limit=COOL_FIRST, time=COOL_FIRST_TIME)
WHOLE = CoolingStage(rule="cool_too_long", limit=COOL_COLD, time=COOL_TIME)
STAGES = (FIRST, WHOLE)
"""FDA Food Code 3-501.14(A): 57 C to 21 C (70 F) within 2 h, and to 5 C (41 F) within 6 h in all."""


def is_measured(state: CookState) -> bool:
    """Return whether cooling is measured in this cook: a public meal, or the Food Code was chosen."""
    return state.care.public is True or state.edition is Edition.FOOD_CODE


def counts(state: CookState) -> bool:
    """Return whether a measured stage counts: in every edition but that for homes, which gives none."""
    return is_measured(state) or state.edition is not Edition.CONSUMER


def cooled(case: Case) -> list[Finding]:
    """A stage of cooling was measured and missed, is about to be, or nobody measured it."""
    state = case.state
    if state.discarded or not counts(state):
        return []
    found: list[Finding] = []
    for cooling in put_away(state).coolings:
        missed = [finding for stage in STAGES if (finding := _missed(cooling, stage)) is not None]
        found += missed or _open(case, cooling)
    return found


def _missed(cooling: Cooling, stage: CoolingStage) -> Finding | None:
    """Return that food was read too warm after the time of a stage: no reading takes that back."""
    limit_at = cooling.began_at + stage.within
    late = [look for look in cooling.looks if look.at >= limit_at and look.over(stage.c)]
    return None if not late else _finding(cooling, stage, late[0], FindingLevel.STOP)


def _open(case: Case, cooling: Cooling) -> list[Finding]:
    """Return that a stage is nearly over and the food still too warm, or is over and was never read."""
    found = []
    ongoing = put_away(case.state).chilling == cooling and gone_at(case.state) is None
    for stage in STAGES:
        limit_at = cooling.began_at + stage.within
        if any(look.at <= limit_at and not look.over(stage.c) for look in cooling.looks):
            continue
        if case.now > limit_at:
            if ongoing and is_measured(case.state):
                found.append(
                    Finding(
                        rule="cool_not_read",
                        level=FindingLevel.CAUTION,
                        limit_c=stage.c,
                        limit_min=stage.within / dt.timedelta(minutes=1),
                        since=limit_at,
                        edition=Edition.FOOD_CODE,
                        whole=True,
                    )
                )
            continue
        near = [look for look in cooling.looks[-1:] if look.at >= cooling.began_at + NEAR * stage.within]
        if ongoing and near:
            caution = _finding(cooling, stage, near[0], FindingLevel.CAUTION)
            found.append(dataclasses.replace(caution, until=limit_at))
    return found


def _finding(cooling: Cooling, stage: CoolingStage, look: Glance, level: FindingLevel) -> Finding:
    return Finding(
        rule=stage.rule,
        level=level,
        found_c=look.high_c,
        limit_c=stage.c,
        found_min=(look.at - cooling.began_at) / dt.timedelta(minutes=1),
        limit_min=stage.within / dt.timedelta(minutes=1),
        since=look.at,
        edition=Edition.FOOD_CODE,
        whole=True,
    )


def cold_by(state: CookState) -> tuple[dt.datetime, dt.datetime] | None:
    """Return by when food that was put away has to reach 70 F and 41 F, None while none cools."""
    chilling = put_away(state).chilling
    return None if chilling is None else (chilling.began_at + FIRST.within, chilling.began_at + WHOLE.within)


def looks_ahead(state: CookState) -> list[tuple[str, dt.datetime | None, dt.datetime]]:
    """Return (rule, since, instant) of what time alone makes unknown: a stage that nobody reads."""
    chilling = put_away(state).chilling
    if chilling is None or gone_at(state) is not None or not is_measured(state):
        return []
    ends = [chilling.began_at + stage.within for stage in STAGES]
    return [("cool_not_read", end, end + dt.timedelta(minutes=1)) for end in ends]


RULES = (cooled,)
"""Rules in the order in which they are told."""
