"""Sending what is due: only cooks with a due row are read, each is decided on and applied once."""

from __future__ import annotations

import datetime as dt

from bot.application.among import entitle
from bot.application.announcements import announce
from bot.application.crew_news import reachable
from bot.application.stale import tell_anew
from bot.application.visit import House, Work
from bot.application.writing import rebuilt
from bot.ports import Apply
from scheduler.cook import ENGINE, ring


class Dispatcher:
    """Rings cooks whose time has come."""

    def __init__(self, house: House) -> None:
        self._house = house

    def work(self, now: dt.datetime) -> int:
        """Restore missing caches, write what is due, and replace what could not be sent for too long; return how many
        messages were written.
        """
        self._rebuild(now)
        written = 0
        for cook_id in self._house.store.due_cooks(now):
            written += self._ring(cook_id, now)
        return written + tell_anew(self._house, now)

    def _rebuild(self, now: dt.datetime) -> None:
        store = self._house.store
        for cook_id in store.uncached_cooks(ENGINE):
            snapshot = store.cook(cook_id)
            if snapshot is not None:
                write = rebuilt(snapshot.facts, version=snapshot.version, catalogue=self._house.catalogue)
                store.apply(Apply(now=now, cooks=(write,)))

    def _ring(self, cook_id: str, now: dt.datetime) -> int:
        """Decide on one cook; on a version conflict the next sweep tries again."""
        store = self._house.store
        snapshot = store.cook(cook_id)
        if snapshot is None or not snapshot.open:
            return 0
        seed = f"{cook_id}.v{snapshot.version}"
        changes = ring(
            snapshot.facts, now=now, seed=seed, catalogue=self._house.catalogue, reachable=reachable(self._house)
        )
        work = Work(now=now)
        entitle(work, store, cook_id, snapshot.rooms, changes.after)
        written = announce(self._house, snapshot, changes, work)
        return written if store.apply(work.apply()) else 0
