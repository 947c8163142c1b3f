"""That meat is intact takes back what was told of it: at once before it is on, from then on when it is said twice."""

from __future__ import annotations

import pytest

from scheduler.cook import StopOver
from scheduler.facts import Corrected, TreatedTold, Treatment, Undone
from scheduler.safety import findings
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, planned

INJECTED = TreatedTold(treatments=(Treatment.INJECTED,))
INTACT = TreatedTold()


def _stopped() -> tuple[Logbook, str]:
    """Return injected meat that came up too slowly, and what told that it was injected."""
    log = cooking(planned(cut="pork_butt"))
    told = log.tell(INJECTED, 70)
    log.read(50.0, 440)
    return log, told


def _rules(log: Logbook, minutes: float) -> set[str]:
    return {f.rule for f in findings(log.state, cut("pork_butt"), CATALOGUE.cuts, at(minutes)) if f.level == "stop"}


def test_one_word_ends_no_stop_and_lowers_no_minimum() -> None:
    """Injected, too slow, then "it is intact": the stop stands; said once more it ends, by that word."""
    log, _told = _stopped()
    log.ring(441)
    log.taken(INTACT, minutes=450)
    assert _rules(log, 451) == {"come_up_over"}
    assert log.state.treated == (Treatment.INJECTED,)
    assert not [e for e in log.ring(452).events if isinstance(e, StopOver)]
    log.taken(INTACT, minutes=455, by="Tomas")
    assert _rules(log, 456) == set()
    (over,) = (e for e in log.ring(456).events if isinstance(e, StopOver))
    assert (over.how, over.by, over.at) == ("intact", "Tomas", at(455))


@pytest.mark.parametrize("corrected", [True, False])
def test_a_correction_counts_at_once(corrected: bool) -> None:
    """Corrected, or taken back: the stop ends with it."""
    log, told = _stopped()
    log.tell(Corrected(of=told, body=INTACT) if corrected else Undone(of=told), 450)
    assert _rules(log, 451) == set()


def test_before_it_is_on_one_word_is_enough() -> None:
    """Nothing rests on it yet."""
    log = Logbook(planned(cut="pork_butt"))
    log.tell(INJECTED, 1)
    log.tell(INTACT, 2)
    log.done("meat_on", 60)
    assert log.state.treated == ()


def test_what_is_told_in_between_is_no_second_word() -> None:
    """Injected, intact, rolled, intact: each takes back another thing, and both count until one is said twice."""
    log, _told = _stopped()
    log.tell(INTACT, 450)
    log.tell(TreatedTold(treatments=(Treatment.ROLLED,)), 451)
    log.tell(INTACT, 452)
    assert set(log.state.treated or ()) == {Treatment.INJECTED, Treatment.ROLLED}
    log.tell(INTACT, 453)
    assert log.state.treated == ()
