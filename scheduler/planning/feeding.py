"""Whom the meat of a plan feeds, what is missing for the guests told, and what of each cut to buy for them.

Pure sums over the pieces of a plan (`quantities` has the figures of one cut); it plans no times and makes no words.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence

from scheduler.cuts import Cut
from scheduler.facts import GuestsTold
from scheduler.planning.quantities import Guests, ToBuy, feeds, rounded_up, to_buy
from scheduler.planning.views import PieceView

ENOUGH = 0.97
"""A plan that feeds so much of the portions is enough: yields are not known better (house rule)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Served:
    """What one piece (or several like ones) brings to the table."""

    piece: str
    cut: Cut
    count: int
    raw_kg: float
    """Meat as bought, in all [kg]."""
    told: bool
    """False: nobody said how heavy, taken as usual for the cut."""
    adults: float
    """So many adult portions at the appetite of the guests, usual where nobody said."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Feeding:
    """Whom all pieces of a plan feed. `guests` None: nobody said how many adults eat."""

    served: tuple[Served, ...]
    guests: Guests | None

    @property
    def adults(self) -> float:
        """Return how many adults it feeds."""
        return sum(one.adults for one in self.served)

    @property
    def heads(self) -> int | None:
        """Return how many people eat, children counted whole; None when nobody said."""
        return None if self.guests is None else self.guests.adults + self.guests.children

    @property
    def share(self) -> float | None:
        """Return what it feeds over what is eaten: 1 is just enough; None without guests."""
        wanted = 0.0 if self.guests is None else _plates(self.guests)
        return self.adults / wanted if wanted else None

    @property
    def enough(self) -> bool | None:
        """Return whether it is enough, None without guests."""
        return None if self.share is None else self.share >= ENOUGH

    @property
    def fed(self) -> float | None:
        """Return how many of these people it feeds, in their own mix of adults and children; None without guests."""
        return None if self.share is None or self.heads is None else self.share * self.heads

    @property
    def short_kg(self) -> float:
        """Return how much more raw meat would do, of each piece in proportion [kg]; 0 when it is enough."""
        if self.share is None or self.enough:
            return 0.0
        return rounded_up(sum(one.raw_kg for one in self.served) * (1.0 / self.share - 1.0)) if self.share else 0.0


def feeding(views: Sequence[PieceView], told: GuestsTold | None) -> Feeding:
    """Return whom the pieces of a plan feed; masses nobody said are those usual for the cut."""
    guests = guests_of(told)
    found = []
    for view in views:
        planned = view.state.planned
        raw_kg = planned.count * (planned.mass_kg or view.cut.mass_kg.typical)
        portions = _adults(view.cut, raw_kg, told)
        found.append(
            Served(
                piece=view.piece,
                cut=view.cut,
                count=planned.count,
                raw_kg=raw_kg,
                told=planned.mass_kg is not None,
                adults=portions,
            )
        )
    return Feeding(served=tuple(found), guests=guests)


def guests_of(told: GuestsTold | None) -> Guests | None:
    """Return the guests in figures, None as long as nobody said how many adults eat."""
    if told is None or told.adults is None or told.adults + (told.children or 0) <= 0:
        return None
    return Guests(adults=told.adults, children=told.children or 0, appetite=told.appetite, buns=told.buns)


def shopping(of: Feeding) -> tuple[tuple[Served, ToBuy], ...]:
    """Return what to buy of each piece for the guests told: they share the dinner as they are planned to.

    Nothing as long as nobody said who eats.
    """
    if of.guests is None or not of.adults:
        return ()
    return tuple((one, to_buy(one.cut, of.guests, one.adults / of.adults)) for one in of.served)


def waves(of: Feeding, views: Iterable[PieceView]) -> tuple[tuple[tuple[PieceView, ...], float], ...]:
    """Return the pieces that come to the table together, in order of time, and how many people each wave feeds: of
    the guests where they are told, else adults.
    """
    by_time: dict[object, list[PieceView]] = {}
    for view in sorted(
        views, key=lambda one: (one.outlook.serve_at is None, one.outlook.serve_at or one.outlook.on_at)
    ):
        by_time.setdefault(view.outlook.serve_at, []).append(view)
    adults = {one.piece: one.adults for one in of.served}
    heads = 1.0 if of.fed is None or not of.adults else of.fed / of.adults
    return tuple((tuple(wave), heads * sum(adults.get(view.piece, 0.0) for view in wave)) for wave in by_time.values())


def _adults(cut: Cut, raw_kg: float, told: GuestsTold | None) -> float:
    if told is None:
        return feeds(cut, raw_kg).typical
    return feeds(cut, raw_kg, appetite=told.appetite, buns=told.buns).typical


def _plates(guests: Guests) -> float:
    """Return the adults that these guests eat like, from plates or buns as they are served."""
    return dataclasses.replace(guests, buns=False).portions
