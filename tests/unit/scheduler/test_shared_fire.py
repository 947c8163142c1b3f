"""Plans side by side for several pieces on one fire."""

from __future__ import annotations

import dataclasses

from scheduler.facts import PieceAdded
from scheduler.planning.alternatives import Alternative, Kind, alternatives, pit_limits_c
from scheduler.planning.shared_fire import alternatives_of, together
from tests.unit.scheduler.logbook import Logbook, cut, dinner, planned


def _with(*others: str) -> Logbook:
    """Return a brisket for six in the evening of the next day, and other pieces on the same fire."""
    log = Logbook(planned(cut="brisket_packer", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0))
    for number, name in enumerate(others, 2):
        log.tell(PieceAdded(cut=name), 1)
        log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=f"p{number}"))
    return log


def _offered(log: Logbook) -> tuple[Alternative, ...]:
    return alternatives_of([(view.state, view.cut) for view in log.situation.views])


def test_one_piece_alone_has_its_own_ways() -> None:
    """Nothing else on the fire: what `alternatives` says."""
    log = _with()
    assert _offered(log) == alternatives(log.state, cut("brisket_packer"))


def test_a_pit_is_offered_only_when_every_piece_bears_it() -> None:
    """Alone the brisket may go to 149 °C; beside spareribs, which end at 135, that is the hottest."""
    alone = max(one.pit_high_c for one in _offered(_with()))
    beside = _offered(_with("spareribs_stl"))
    hot = next(one for one in beside if one.kind is Kind.HOT)
    assert hot.pit_high_c < alone
    for name in ("brisket_packer", "spareribs_stl"):
        low_c, high_c = pit_limits_c(cut(name), None)
        assert low_c - 0.5 <= hot.pit_low_c <= hot.pit_high_c <= high_c + 0.5


def test_the_whole_is_lit_for_the_first_and_late_as_the_likeliest() -> None:
    """First fire, last plate, worst chance; each thing to know once."""
    log = _with("spareribs_stl", "pork_butt")
    plans = [view.outlook.plan for view in log.situation.views]
    known = [plan for plan in plans if plan is not None]
    assert len(known) == 3
    whole = together(known)
    assert whole.light_at == min(plan.light_at for plan in known)
    assert whole.on_at == min(plan.on_at for plan in known)
    assert whole.late_probability == max(plan.late_probability or 0.0 for plan in known)
    lates = [plan.plate.late for plan in known]
    assert whole.plate.late == max(late for late in lates if late is not None)
    kinds = [snag.kind for snag in whole.snags]
    assert len(kinds) == len(set(kinds))
    assert _offered(log)[0].plan == whole
