"""While a stop says to throw meat away, nothing leads on to eating it: only steps of safety are asked."""

from __future__ import annotations

from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice
from scheduler.facts import Corrected, StepDone
from tests.unit.scheduler.logbook import Logbook, at


def _spoiled() -> tuple[Logbook, str]:
    """Return meat that lay out for three hours, and the fact that says so."""
    log = Logbook()
    out = log.done("raw_out", 10, "out")
    log.done("light", 130)
    log.ring(190)
    return log, out


def test_no_step_towards_dinner_is_asked_of_meat_for_the_bin() -> None:
    """Neither meat on nor anything after it; dinner is not called on time; corrected, everything is back."""
    log, out = _spoiled()
    asked = log.situation.prompts
    assert all(p.step.safety or p.step.scope == "cook" for p in asked), [p.step.id for p in asked]
    assert not {"light", "t_minus"} & {p.step.id for p in asked}
    voice = Voice(zone="UTC", unit="F", now=at(191))
    assert "throw it away" in dinner_line(log.situation, voice)
    log.tell(Corrected(of=out, body=StepDone(step="raw_out", outcome="out"), happened_at=at(120)), 192)
    log.ring(193)
    assert {"meat_on", "t_minus"} & {p.step.id for p in log.situation.prompts}
    assert "throw it away" not in dinner_line(log.situation, voice)


def test_safety_is_asked_all_the_same() -> None:
    """On the fire and spoiled: the raw side is washed; no number, box or board of food that nobody eats is asked."""
    log, _out = _spoiled()
    log.done("meat_on", 191)
    log.ring(192)
    ids = {p.step.id for p in log.situation.prompts}
    assert "raw_cleanup" in ids
    assert (
        not {"board_ready", "hold_check", "serve_reading", "second_spot", "box_meat", "come_up_check", "box_ready"}
        & ids
    )
    assert not {"pull", "slice", "serve", "core_read", "bark_check"} & ids
