"""The door of the listening half: take in what was said, ring what is due, tell when to wake.

Synchronous; one call at a time.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from bot.application.dispatcher import Dispatcher
from bot.application.intake import Intake
from bot.application.visit import House
from bot.makers import ChartMaker, PaperMaker
from bot.ports import Decoder, Store
from scheduler.cookers import Cards
from scheduler.cuts.own import Complaint
from scheduler.facts import Edition
from scheduler.planning.catalogue import Catalogue

NO_CARDS = Cards()


class Kitchen:
    """Listens and decides for every cook in one store."""

    def __init__(
        self,
        *,
        store: Store,
        catalogue: Catalogue,
        decoders: Mapping[str, Decoder],
        zone: str,
        papers: PaperMaker,
        charts: ChartMaker,
        link_prefix: str | None = None,
        complaints: tuple[Complaint, ...] = (),
        cards: Cards = NO_CARDS,
        card_complaints: tuple[Complaint, ...] = (),
        edition: Edition = Edition.STRICTER,
    ) -> None:
        """Make a kitchen; `decoders` by source prefix, `papers` prints, `charts` draws, `link_prefix` is what a
        single-use code is appended to, `complaints` say what is wrong with a person's own cuts, `cards` are the
        cookers that somebody owns, `card_complaints` say what is wrong with others. `edition` are the rules that
        count for a cook where nobody says another.
        """
        house = House(
            store=store,
            catalogue=catalogue,
            zone=zone,
            papers=papers,
            charts=charts,
            link_prefix=link_prefix,
            complaints=complaints,
            cards=cards,
            card_complaints=card_complaints,
            edition=edition,
        )
        self._store = store
        self._intake = Intake(house, decoders)
        self._dispatcher = Dispatcher(house)

    def take_in(self, now: dt.datetime) -> int:
        """Work on what was accepted; return how many rows."""
        return self._intake.work(now)

    def ring(self, now: dt.datetime) -> int:
        """Write what is due; return how many messages."""
        return self._dispatcher.work(now)

    def next_wake_at(self) -> dt.datetime | None:
        """Return when to ring next, None when nothing is planned."""
        return self._store.next_due_at()
