"""One body of every kind and version that was ever written, with every optional field filled.

It must grow with `scheduler.facts.BODIES`; a test compares.
"""

from __future__ import annotations

import datetime as dt

from scheduler.facts import (
    AirTold,
    Asked,
    Body,
    Closed,
    Corrected,
    Detail,
    Feel,
    Felt,
    Noted,
    PitMoved,
    Planned,
    PutOff,
    Reading,
    Serving,
    ServingKind,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Told,
    Undone,
    Warned,
    Withdrawn,
    Wrap,
    Wrapped,
)

_AT = dt.datetime(2026, 9, 12, 15, 30, 0, 250_000, tzinfo=dt.UTC)
_SERVING = Serving(
    kind=ServingKind.WINDOW,
    zone="Europe/Lisbon",
    start=dt.datetime(2026, 9, 12, 18, 0),  # noqa: DTZ001 -- wall time of the cook's own zone
    end=dt.datetime(2026, 9, 12, 19, 30),  # noqa: DTZ001 -- wall time of the cook's own zone
)

ONE_OF_EACH: tuple[Body, ...] = (
    Planned(
        cut="beef_short_ribs",
        serving=_SERVING,
        pit_low_c=121.1,
        pit_high_c=1 / 3,
        count=7,
        mass_kg=2.15,
        thickness_m=0.064,
        wrap=Wrap.BOAT,
        detail=Detail.DECISIONS,
        unit="C",
        from_middle=True,
    ),
    ServingMoved(serving=Serving(kind=ServingKind.WHEN_READY, zone="America/Chicago")),
    PitMoved(pit_low_c=107.0, pit_high_c=121.0),
    Reading(slot=Slot.CORE, value_c=81.11111111111111, spread_c=1.4, spot="flat", doubtful=True),
    StepDone(step="fuel", outcome="half"),
    StepSkipped(step="spritz"),
    PutOff(step="wrap", until=_AT),
    Wrapped(wrap=Wrap.PAPER),
    Felt(feel=Feel.ALMOST, spot="point"),
    AirTold(temp_c=-3.5, word="cold", wind="windy"),
    Noted(text="flare-up 🔥 at the left\nlid shut", understood=False),
    Corrected(of="f3", body=Reading(slot=Slot.PIT, value_c=140.0), happened_at=_AT),
    Undone(of="f4"),
    Asked(prompts=("wrap@1", "spritz@3"), revision=2, cautions=("monoxide",)),
    Told(next_at=_AT, next_step="wrap", verdict="late", milestones=(("pull", _AT), ("plate", _AT))),
    Withdrawn(prompt="spritz@2", reason="too_late"),
    Warned(rule="held_too_cold", since=_AT),
    Closed(reason="called_off"),
)
