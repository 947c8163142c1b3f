"""How many messages a crew gets in a night with a good pit, counted: `python -m tests.budgets` prints the table.

It plays usual cooks with a good crew and counts; what is too many is asserted in `tests/properties/test_budgets.py`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
import sys
from zoneinfo import ZoneInfo

from scheduler.cook import Changes, TripDue
from scheduler.facts import Watch, WatchesTold
from scheduler.planning.nights import is_quiet, lead_of
from scheduler.planning.trips import Trip
from scheduler.state import Stage
from tests.properties.actions import Start
from tests.properties.play import Play

WATCH_GAP = dt.timedelta(minutes=60)
"""The watch hears at most one message in 60 to 90 minutes at night while all is well; common practice, no source."""

DAY_GAP = dt.timedelta(minutes=45)
"""By day at most one ping in 45 minutes when nothing changed; common practice, no source."""

COLLAPSE = dt.timedelta(minutes=15)
"""What falls within this is one message; common practice, no source."""

LOOKS = frozenset({"pit_check", "fuel_check", "core_read", "spritz", "wood_add", "water_pan", "rotate", "first_look"})
"""What is asked although nothing has changed."""

CUTS = ("brisket_packer", "pork_butt", "beef_chuck_ribs", "spareribs_stl")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Heard:
    """One message that went out: when, what it asked, whom it woke, and how it stood then."""

    at: dt.datetime
    trip: Trip
    quiet: bool
    stage: Stage
    lead: str | None
    watch: str | None

    @property
    def steps(self) -> tuple[str, ...]:
        """Return the steps that it asked, in order."""
        return tuple(prompt.step.id for prompt in self.trip.prompts)

    @property
    def only_looks(self) -> bool:
        """Return whether it asked nothing but looks of the usual rhythm, for the first time."""
        usual = all(p.asked == 0 and p.why.kind not in {"put_off", "rising"} for p in self.trip.prompts)
        return usual and not self.trip.safety and set(self.steps) <= LOOKS

    @property
    def wakes_lead(self) -> bool:
        """Return whether it wakes who leads, and has not got the watch."""
        return self.lead in self.trip.wakes and self.lead != self.watch


class Counted(Play):
    """A cook that is played, with every message that went out."""

    def __init__(self, start: Start) -> None:
        self.heard: list[Heard] = []
        super().__init__(start)

    def ring(self) -> Changes:
        """Ring once and keep the message."""
        changes = super().ring()
        state = changes.after.state
        for event in changes.events:
            if isinstance(event, TripDue):
                self.heard.append(
                    Heard(
                        at=self.now, trip=event.trip, quiet=is_quiet(state, self.now), stage=changes.after.stage,
                        lead=lead_of(state), watch=state.watch_holder(self.now),
                    )
                )  # fmt: skip
        return changes


@dataclasses.dataclass(frozen=True, kw_only=True)
class Budget:
    """What a cook cost its crew. Counts, and spans in minutes."""

    cut: str
    messages: int
    night: int
    """Messages in the quiet hours with meat on the fire."""
    night_h: float
    """Hours from the first to the last of them."""
    lead_woken: int
    too_soon_night: tuple[str, ...]
    """Looks that came sooner than an hour after the message before, at night."""
    too_soon_day: tuple[str, ...]
    """Looks that came sooner than 45 minutes after the message before, by day."""
    not_collapsed: tuple[str, ...]
    """Messages within a quarter of an hour of the one before that could have been one with it."""


def counted(cut: str, heard: list[Heard]) -> Budget:
    """Return what the messages of a cook add up to."""
    fire = [one for one in heard if one.stage is Stage.COOKING]
    night = [one for one in fire if one.quiet]
    pairs = list(itertools.pairwise(fire))
    soon = [(a, b) for a, b in pairs if b.only_looks and a.quiet == b.quiet]
    return Budget(
        cut=cut,
        messages=len(heard),
        night=len(night),
        night_h=(night[-1].at - night[0].at) / dt.timedelta(hours=1) if night else 0.0,
        lead_woken=sum(one.wakes_lead for one in night),
        too_soon_night=tuple(_pair(a, b) for a, b in soon if b.quiet and b.at - a.at < WATCH_GAP),
        too_soon_day=tuple(_pair(a, b) for a, b in soon if not b.quiet and b.at - a.at < DAY_GAP),
        not_collapsed=tuple(_pair(a, b) for a, b in pairs if _apart(a, b)),
    )


def _apart(before: Heard, after: Heard) -> bool:
    """Return whether a message could have been one with that before: first asked, known then, and no answer to it."""
    near = dt.timedelta() < after.at - before.at <= COLLAPSE
    known = all(p.asked == 0 and p.early_from <= before.at and p.why.kind == "repeat" for p in after.trip.prompts)
    return near and known and not after.trip.safety


def _pair(before: Heard, after: Heard) -> str:
    minutes = (after.at - before.at) / dt.timedelta(minutes=1)
    return f"{'+'.join(before.steps)} -> {minutes:.0f} min -> {'+'.join(after.steps)}"


def crew_night(evening: dt.date, *turns: tuple[str, dt.time]) -> WatchesTold:
    """Return watches from ten in the evening, each until its time of the next morning."""
    start = dt.datetime.combine(evening, dt.time(22))
    found: list[Watch] = []
    for name, until in turns:
        end = dt.datetime.combine(evening + dt.timedelta(days=1), until)
        found.append(Watch(name=name, start=found[-1].end if found else start, end=end))
    return WatchesTold(watches=tuple(found))


def usual_night(cut: str, pace: float = 1.0) -> Start:
    """Return a cook begun in the morning for six the next evening, with Wren and Tomas on watch and Ines leading."""
    at = dt.datetime(2026, 9, 12, 8, tzinfo=ZoneInfo("Europe/London")).astimezone(dt.UTC)
    watches = crew_night(dt.date(2026, 9, 12), ("Wren", dt.time(2)), ("Tomas", dt.time(7)))
    return Start(at=at, cut=cut, dinner_min=34 * 60, pit_c=121.0, watches=watches, pace=pace)


def played(start: Start, hours: float = 36) -> Counted:
    """Return a cook that a good crew has played for so many hours."""
    play = Counted(start)
    if play.refused is None:
        play.work(hours * 60)
    return play


def main() -> None:
    """Print the table, and what was too soon."""
    out = sys.stdout.write
    out("cut, messages, in the night, hours of it, lead woken, too soon by night, by day, not collapsed\n")
    for cut in CUTS:
        budget = counted(cut, played(usual_night(cut, pace=0.6)).heard)
        out(
            f"{cut}, {budget.messages}, {budget.night}, {budget.night_h:.1f}, {budget.lead_woken}, "
            f"{len(budget.too_soon_night)}, {len(budget.too_soon_day)}, {len(budget.not_collapsed)}\n"
        )
        for line in (*budget.too_soon_night, *budget.too_soon_day, *budget.not_collapsed):
            out(f"    {line}\n")


if __name__ == "__main__":
    main()
