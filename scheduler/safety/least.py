"""The least temperature that counts for a piece: by its class, by what was done to it, by the edition.

It looks at no reading; whether the least was measured is the gate's business (`scheduler.safety.minimum`).
"""

from __future__ import annotations

import dataclasses
from enum import StrEnum

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Edition, SafeBy, Treatment
from scheduler.safety import limits
from scheduler.safety.limits import Limit
from scheduler.safety.tables import MEAT_7_LOG, ROAST, Table
from scheduler.units import c_from_f

WHOLE_CLASSES = frozenset({"intact_beef", "intact_pork", "intact_lamb"})
"""Classes whose pieces are whole muscle as long as nothing was done to them: only these may be safe by time."""

_BY_CLASS: dict[str, tuple[Limit, Limit]] = {
    **dict.fromkeys(WHOLE_CLASSES, (limits.WHOLE, limits.WHOLE_HOLD)),
    "poultry": (limits.POULTRY, limits.POULTRY_HOLD),
    "ground": (limits.GROUND, limits.GROUND_HOLD),
    "fish": (limits.FISH, limits.FISH_HOLD),
}
_NOT_INTACT = (limits.NOT_INTACT, limits.NOT_INTACT_HOLD)
_BY_TREATMENT: dict[Treatment, tuple[Limit, Limit]] = {
    Treatment.TENDERISED: _NOT_INTACT,
    Treatment.INJECTED: _NOT_INTACT,
    Treatment.ROLLED: _NOT_INTACT,
    Treatment.GROUND: (limits.GROUND, limits.GROUND_HOLD),
    Treatment.STUFFED: (limits.STUFFED, limits.STUFFED_HOLD),
}
"""What was done to meat and the limit that it brings. Rolled meat is handled as tenderised: a house reading of the
Food Code's line on meat that is not intact, because what was outside lies inside; neither publisher gives a figure for
it, so above the whole cut's own minimum it is never more than a caution (`Case.published_gate`)."""


class NotByTime(StrEnum):
    """Why time at a lower temperature does not count for a piece: the minimum alone opens its gate."""

    POULTRY = "poultry"
    GROUND = "ground"
    """Sausages, burgers: what was outside is all through it."""
    FISH = "fish"
    """No published table of time and temperature is of fish."""
    TREATED = "treated"
    """Something was done to it that brings bacteria inside."""
    AT_RISK = "at_risk"
    """Guests at risk eat with them."""
    UNTOLD = "untold"
    """Nobody said whether it is intact: one word may change that."""
    RISK_UNTOLD = "risk_untold"
    """Nobody said whether guests at risk eat with them: unknown is not no, one word may change that."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Minimum:
    """A least temperature, how long it is held, whose figure that is and what made it count."""

    temp_f: float
    """As published [°F]."""
    rest_min: float
    """Time at or after it that belongs to it [min]."""
    edition: Edition | None
    """The edition of the figure that counts, None where its publisher is the only one."""
    source: str
    because: str
    """The class of meat or the treatment that asks for it."""

    @property
    def temp_c(self) -> float:
        """Return the temperature converted and rounded to 0.1 [°C]."""
        return round(c_from_f(self.temp_f), 1)


def least_of(
    cut: Cut, cuts: Cuts, treated: tuple[Treatment, ...] | None = None, edition: Edition = Edition.STRICTER
) -> Minimum:
    """Return the least temperature of a piece: the strictest of its class and of all that was done to it.

    Of an edition temperature and time count together; where the stricter one counts, the higher temperature does, and
    of equal ones the longer time. `treated` None: nobody said; the class counts, as the chart means it. No edition goes
    under the class of the catalogue (the consumer chart) but the Food Code where it was chosen.
    """
    entry = cuts.safety[cut.safety_class]
    by_class = _BY_CLASS.get(cut.safety_class)
    asked = [] if by_class is None else [counting_pair(*by_class, edition, cut.safety_class)]
    asked += [counting_pair(*_BY_TREATMENT[one], edition, one.value) for one in treated or ()]
    if by_class is None or edition is not Edition.FOOD_CODE:
        chart = Minimum(
            temp_f=entry.minimum_f,
            rest_min=entry.rest_min,
            edition=Edition.CONSUMER,
            source=entry.source,
            because=cut.safety_class,
        )
        asked.append(chart)
    return max(asked, key=_strictness)


def under_least(
    cut: Cut,
    cuts: Cuts,
    treated: tuple[Treatment, ...] | None,
    wanted_c: float,
    edition: Edition = Edition.STRICTER,
    *,
    safe_by: SafeBy = SafeBy.MINIMUM,
    at_risk: bool | None = None,
) -> Minimum | None:
    """Return the least temperature that a wished core [°C] is under, None when it may be planned.

    Poultry, sausages and other ground meat, fish, and whatever was tenderised, injected, rolled or stuffed is never
    planned under its minimum. A whole cut is only when somebody chose equivalence, said that it is intact (`treated` is
    empty, not None) and that no guest is at risk (`at_risk` is False, not None), and then not under the lowest row of
    the table.
    """
    needed = least_of(cut, cuts, treated, counting(edition, at_risk=at_risk))
    if safe_by is SafeBy.EQUIVALENCE and not_by_time(cut, treated, at_risk=at_risk) is None:
        table = table_under(edition)
        lowest = Minimum(
            temp_f=table.lowest_f,
            rest_min=table.dwell_s[0][1] / 60.0,
            edition=edition,
            source=table.source,
            because=SafeBy.EQUIVALENCE.value,
        )
        needed = min(needed, lowest, key=_strictness)
    return needed if round(wanted_c, 1) < needed.temp_c else None


def not_by_time(cut: Cut, treated: tuple[Treatment, ...] | None, *, at_risk: bool | None) -> NotByTime | None:
    """Return why time at temperature never opens the gate of a piece, None where it may be chosen.

    None bars it, of `treated` (nobody said that the piece is intact) as of `at_risk` (nobody said who eats).
    """
    reasons = (
        (cut.safety_class == "poultry" or cut.species == "poultry", NotByTime.POULTRY),
        (cut.safety_class == "fish", NotByTime.FISH),
        (cut.safety_class not in WHOLE_CLASSES, NotByTime.GROUND),
        (bool(treated), NotByTime.TREATED),
        (bool(at_risk), NotByTime.AT_RISK),
        (treated is None, NotByTime.UNTOLD),
        (at_risk is None, NotByTime.RISK_UNTOLD),
    )
    return next((reason for holds, reason in reasons if holds), None)


def counting(edition: Edition, *, at_risk: bool | None) -> Edition:
    """Return the edition that counts: where guests are at risk always the stricter of each figure."""
    return Edition.STRICTER if at_risk else edition


def table_under(edition: Edition) -> Table:
    """Return the table of time and temperature of an edition: the Food Code has its own, FSIS asks for 7 log."""
    return ROAST if edition is Edition.FOOD_CODE else MEAT_7_LOG


def counting_pair(temp: Limit, hold: Limit, edition: Edition, because: str) -> Minimum:
    """Return the figure of a pair of limits that counts: of the edition, of the only publisher, or the stricter one."""
    holds = {figure.edition: figure for figure in hold.figures}
    pairs = [
        Minimum(
            temp_f=figure.value,
            rest_min=holds[figure.edition].value,
            edition=figure.edition,
            source=f"{figure.source}; {holds[figure.edition].source}",
            because=because,
        )
        for figure in temp.figures
    ]
    own = [pair for pair in pairs if pair.edition is edition]
    return max(own or pairs, key=_strictness)


def _strictness(minimum: Minimum) -> tuple[float, float]:
    return (minimum.temp_f, minimum.rest_min)
