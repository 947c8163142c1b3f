"""Deleting the caches changes nothing that a person sees: due rows and outlook are computed again from the log."""

from __future__ import annotations

import dataclasses
import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.fakes.kitchen import PlayedKitchen, on
from tests.unit.bot.application.cooks import RIBS_F, Crew

PEOPLE = ("Ines", "Tomas")

BEGINNINGS = (
    "short ribs, pit 275, dinner 20:00",
    "short ribs, pit 275, when ready",
    "brisket on since 3:00, 150 now, pit 250, dinner 20:00",
)

WORDS = (
    "done", "all done", "lit", "meat on", "probe is in", "smoke thin", "135", "165", "180", "199", "pit 240", "285/170",
    "skip", "in 20", "not yet", "undo", "no, 170", "how long", "what next", "plan", "wrapped in paper", "bare", "tight",
    "almost", "slides in", "pulled", "boxed", "food out", "fuel low", "dinner 22:00", "pit 300", "put away", "thanks",
)  # fmt: skip
"""What a crew types, to the point or not."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Turn:
    """Somebody types something, or time passes; the caches may be deleted first."""

    words: str | None
    who: str
    minutes: float
    dropped: bool


def _turns() -> st.SearchStrategy[tuple[Turn, ...]]:
    turn = st.builds(
        Turn,
        words=st.one_of(st.none(), st.sampled_from(WORDS)),
        who=st.sampled_from(PEOPLE),
        minutes=st.sampled_from((0, 5, 20, 60, 150)),
        dropped=st.booleans(),
    )
    return st.lists(turn, min_size=5, max_size=20).map(tuple)


def _seen(beginning: str, turns: tuple[Turn, ...], *, drops: bool) -> list[tuple[object, ...]]:
    """Return everything that was sent, with and without deleting the caches where a turn says so."""
    with tempfile.TemporaryDirectory() as folder:
        kitchen = PlayedKitchen(Path(folder), on("6:00"))
        for person in PEOPLE:
            kitchen.opens(person)
        kitchen.say(PEOPLE[0], beginning)
        for turn in turns:
            if drops and turn.dropped:
                forget(kitchen)
            if turn.words is not None:
                kitchen.mutter(turn.who, turn.words)
            kitchen.later(turn.minutes)
        kitchen.close()
        return [(heard.at, heard.room, heard.text, heard.labels) for heard in kitchen.heard]


def forget(kitchen: PlayedKitchen) -> None:
    """Delete what can be computed again; the bell is rung as at every start of the program."""
    kitchen.store.drop_caches()
    assert kitchen.kitchen.next_wake_at() is None
    kitchen.kitchen.ring(kitchen.now)


def _script(*told: tuple[str | None, int]) -> tuple[Turn, ...]:
    """Return turns of one person; before the last one the caches are deleted."""
    last = len(told) - 1
    return tuple(
        Turn(words=words, who=PEOPLE[0], minutes=minutes, dropped=at == last)
        for at, (words, minutes) in enumerate(told)
    )


DINNER_SAVED = _script(
    ("wrapped in paper", 5), (None, 150), (None, 150), (None, 0), (None, 150), (None, 20), ("dinner 22:00", 0),
    (None, 5),
)  # fmt: skip
"""Dinner was called late, then moved and called close in the answer: from then on time alone can turn it again."""


@settings(max_examples=12)
@example(beginning=BEGINNINGS[0], turns=DINNER_SAVED)
@given(beginning=st.sampled_from(BEGINNINGS), turns=_turns())
def test_deleting_the_caches_at_any_moment_changes_nothing_seen(beginning: str, turns: tuple[Turn, ...]) -> None:
    """The same words at the same times bring the same messages, at the same instants, with the same buttons."""
    assert _seen(beginning, turns, drops=True) == _seen(beginning, turns, drops=False)


def test_deleting_the_caches_after_everything_changes_nothing_of_a_whole_cook(tmp_path: Path) -> None:
    """A cook from the fire to the leftovers, with the caches deleted after every answer and every message."""
    seen = []
    for name, each_time in (("kept", lambda _kitchen: None), ("forgotten", forget)):
        (tmp_path / name).mkdir()
        kitchen = PlayedKitchen(tmp_path / name, on("6:00"))
        kitchen.opens("Ines")
        kitchen.say("Ines", "short ribs, pit 275, dinner 20:00")
        Crew(kitchen=kitchen, name="Ines", rise_f=RIBS_F, wrap="bare", each_time=each_time).play(on("23:00"))
        kitchen.close()
        seen.append([(heard.at, heard.text, heard.labels) for heard in kitchen.heard])
    assert len(seen[0]) > 30
    assert seen[0] == seen[1]
