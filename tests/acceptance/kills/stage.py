"""The stage of the kill tests: a cook played up to some moment, and one scene of it run with or without kills.

It must not judge what came of it: `verdict` does. Each run of a scene begins from a copy of the same data.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import shutil
from operator import itemgetter
from pathlib import Path
from typing import Any

from tests.acceptance.kills.crew import CREW, NOTHING, Crew, Got, Said
from tests.acceptance.kills.life import Order
from tests.acceptance.kills.nursery import End, Nursery
from tests.acceptance.kills.written import Written, read

ONE = dt.datetime(2026, 9, 12, 13, 0, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)
EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
AWAY = dt.timedelta(seconds=90)
"""Between a kill and the next start: longer than any lease of the courier."""
OF_A_PIECE = "/"
"""Stands in the key of a prompt; other rows of the schedule are looks at the whole cook."""
BEGINS = "4 short ribs on since 10:00, 165 now, pit 262, eating at 19:30"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Scene:
    """What happens once everything before it is over: Ines says something, or (nothing said) a prompt falls due."""

    name: str
    said: str | None


READING = Scene(name="reading", said="meat 178 pit 262")
WRAPPED = Scene(name="wrapped", said="wrapped in paper")
PROMPT = Scene(name="prompt", said=None)
HALF_SET_UP = Scene(name="half set up", said="6 kg")
"""The mass of a brisket whose dinner and pit nobody has said: a set-up that is not finished."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Base:
    """Data at the beginning of a scene."""

    folder: Path
    at: dt.datetime
    written: Written


@dataclasses.dataclass(frozen=True, kw_only=True)
class Run:
    """One scene as it went: how each life ended, what was written at each end, what people got."""

    begins_at: dt.datetime
    said: Said
    before: Written
    ends: tuple[End, ...]
    boundaries: tuple[tuple[str, ...], ...]
    """What each life passed, in order; nothing for a life that was not watched."""
    written: tuple[Written, ...]
    """What stood in the database at the end of each life."""
    unconfirmed: tuple[tuple[str, ...], ...]
    """Keys that the messenger would hand out again, at the end of each life."""
    messenger: bool
    """Whether people were reached by the messenger; else by their screens, which the database holds."""
    got: Got

    @property
    def after(self) -> Written:
        """Return what stands in the database when all is over."""
        return self.written[-1]


class Stage:
    """Runs scenes with a crew at the terminal or on the messenger."""

    def __init__(self, folder: Path, nursery: Nursery, crew: Crew) -> None:
        self._folder = folder
        self._nursery = nursery
        self.crew = crew
        self._copies = 0
        self._bases = self._play()

    # --- the story so far

    def _play(self) -> dict[str, Base]:
        data = self._folder / "story"
        data.mkdir(mode=0o700)
        for minute, name in enumerate(CREW):
            self._live_through(data, ONE + minute * MINUTE, self.crew.joins(data, ONE + minute * MINUTE, name))
        half = self._half_set_up(data)
        self._hear(data, ONE + 5 * MINUTE, BEGINS)
        reading = self._keep(READING, data, ONE + 20 * MINUTE)
        self._hear(data, reading.at, READING.said)
        wrapped = self._keep(WRAPPED, data, ONE + 22 * MINUTE)
        self._hear(data, wrapped.at, WRAPPED.said)
        prompt = self._keep(PROMPT, data, self._wait_for_a_prompt(data))
        return {"reading": reading, "wrapped": wrapped, "prompt": prompt, HALF_SET_UP.name: half}

    def _half_set_up(self, data: Path) -> Base:
        """Name a cut, in a copy of the story before any cook was begun."""
        other = self._folder / "half"
        shutil.copytree(data, other)
        self._hear(other, ONE + 3 * MINUTE, "brisket")
        return self._keep(HALF_SET_UP, other, ONE + 4 * MINUTE)

    def _wait_for_a_prompt(self, data: Path) -> dt.datetime:
        """Return when the next prompt is due; a mere look at the cook before that is lived through."""
        while True:
            first = min(read(data).tables["due"], key=itemgetter("due_at"))
            at = EPOCH + dt.timedelta(microseconds=first["due_at"])
            if OF_A_PIECE in first["prompt"]:
                return at
            self._live_through(data, at, NOTHING)

    def _hear(self, data: Path, at: dt.datetime, text: str | None) -> None:
        assert text is not None
        self._live_through(data, at, self.crew.says(at, "Ines", text))

    def _live_through(self, data: Path, at: dt.datetime, said: Said) -> None:
        end = self._nursery.live_here(self._order(data, at, typed=said.typed).as_json())
        assert end.code == 0, end

    def _keep(self, scene: Scene, data: Path, at: dt.datetime) -> Base:
        folder = self._folder / f"before-{scene.name}"
        shutil.copytree(data, folder)
        return Base(folder=folder, at=at, written=read(folder))

    # --- one run of a scene

    def begin(self, scene: Scene) -> tuple[Base, Path, Said]:
        """Return the base of a scene, a copy of its data, and what was said."""
        base = self._bases[scene.name]
        self._copies += 1
        data = self._folder / f"copy-{self._copies}"
        shutil.copytree(base.folder, data)
        self.crew.forget(base.written)
        said = NOTHING if scene.said is None else self.crew.says(base.at, "Ines", scene.said)
        return base, data, said

    def run(
        self,
        scene: Scene,
        *kills: int,
        late: dt.timedelta = dt.timedelta(0),
        away: dt.timedelta = AWAY,
        watched: bool = False,
    ) -> Run:
        """Run a scene: one life for each boundary in `kills`, which it does not survive, and one that lives on.

        `away` lies between the beginnings of two lives. With `late` the program was not there when the scene began:
        the first life begins so much after it. The boundaries of the last life
        are noted when it is the only one, or `watched`.
        """
        base, data, said = self.begin(scene)
        ends: list[End] = []
        boundaries: list[tuple[str, ...]] = []
        written = [base.written]
        unconfirmed: list[tuple[str, ...]] = []
        for life, kill_at in enumerate((*kills, None)):
            # A window keeps a line until it is stored; what was stored it does not type again.
            typed = None if written[-1].rows("inbox", key=said.key) else said.typed
            now = base.at + late + life * away
            if kill_at is None and kills and not watched:
                ends.append(self._nursery.live_here(self._order(data, now, typed=typed).as_json()))
                boundaries.append(())
            else:
                end, gaps = self.live(data, now, typed=typed, kill_at=kill_at)
                ends.append(end)
                boundaries.append(gaps)
            written.append(read(data))
            unconfirmed.append(self.crew.unconfirmed())
        shutil.rmtree(data)
        return Run(
            begins_at=base.at,
            said=said,
            before=base.written,
            ends=tuple(ends),
            boundaries=tuple(boundaries),
            written=tuple(written[1:]),
            unconfirmed=tuple(unconfirmed),
            messenger=self.crew.server is not None,
            got=self.crew.got(),
        )

    def rehearse(self, scene: Scene, late: dt.timedelta = dt.timedelta(0)) -> Run:
        """Run a scene undisturbed, after the nursery did: what its children will compute it then remembers."""
        base, data, said = self.begin(scene)
        self._nursery.live_here(self._order(data, base.at + late, typed=said.typed).as_json())
        shutil.rmtree(data)
        self.crew.got()
        return self.run(scene, late=late)

    def live(self, data: Path, now: dt.datetime, **how: Any) -> tuple[End, tuple[str, ...]]:  # noqa: ANN401 - fields of `Order`
        """Let the program live once; return how that ended and the boundaries it passed."""
        order = self._order(data, now, **how)
        end = self._nursery.live(order.as_json())
        return end, passed(Path(order.report).read_text("utf-8"))

    def _order(self, data: Path, now: dt.datetime, **how: Any) -> Order:  # noqa: ANN401 - fields of `Order`
        report = str(data.with_suffix(".boundaries"))
        return Order(data=str(data), now=now.isoformat(), report=report, server=self.crew.server, **how)


def passed(report: str) -> tuple[str, ...]:
    """Return the boundaries of a report, each as what ended there and what would have begun."""
    named: dict[str, list[str]] = {}
    for line in report.splitlines():
        number, _, name = line.partition(" ")
        named.setdefault(number, []).append(name)
    return tuple(", ".join(names) for names in named.values())
