"""The invented crew: two people who read what is on their own screen, walk to the cooker, and type.

They must not know the store, the plan or the other's screen: only words in front of them, and what their hands find.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from collections.abc import Callable

from bot.rehearsal.scene import CLOCK, DINNER_AT, INES, TOMAS, WISH
from bot.rehearsal.world import Place, World
from bot.transport.terminal.layout import letter

Act = Callable[[World], str | None]
"""Does something with the hands; returns the line to type, None when there is nothing to say yet."""

NEAR_ENOUGH_F = 240
SLIPS_FROM_F = 166
MOST_SLIP_F = 30


@dataclasses.dataclass(frozen=True, kw_only=True)
class Deed:
    """Something a person will do: when, and what. Done again every `again_min` while there is nothing to say yet."""

    who: str
    at: dt.datetime
    act: Act
    again_min: float | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Habit:
    """When a person reads these words, they do this so many minutes later.

    `picks`: instead of words, type the letter that stands before this choice. `once`: whoever has it in hand does not
    start anew when reminded.
    """

    words: re.Pattern[str]
    act: Act
    after_min: float
    again_min: float | None = None
    once: bool = False
    picks: str | None = None


def _habit(
    words: str,
    act: Act | str,
    after_min: float,
    *,
    again_min: float | None = None,
    once: bool = False,
    picks: str | None = None,
) -> Habit:
    said = _saying(act) if isinstance(act, str) else act
    pattern = re.compile(words)
    return Habit(words=pattern, act=said, after_min=after_min, again_min=again_min, once=once, picks=picks)


def _saying(line: str) -> Act:
    return lambda _world: line


class Member:
    """One of the crew."""

    def __init__(self, name: str, habits: tuple[Habit, ...]) -> None:
        self.name = name
        self._habits = habits
        self._begun: set[Habit] = set()

    def reads(self, text: str, labels: tuple[str, ...], at: dt.datetime) -> list[Deed]:
        """Read a message; return what it makes this person do. What only comes next makes nobody get up."""
        deeds = []
        text = "\n".join(line for line in text.split("\n") if not line.startswith("Next: "))
        for habit in self._habits:
            if not habit.words.search(text) or (habit.once and habit in self._begun):
                continue
            self._begun.add(habit)
            act = _saying(letter(labels.index(habit.picks))) if habit.picks in labels else habit.act
            done_at = at + dt.timedelta(minutes=habit.after_min)
            deeds.append(Deed(who=self.name, at=done_at, act=act, again_min=habit.again_min))
        return deeds

    def rereads(self, _at: dt.datetime) -> Deed | None:
        """Look once more at what was just typed."""
        return None


class Ines(Member):
    """Leads. Careful, busy, and once with her fingers on the wrong keys."""

    def __init__(self) -> None:
        super().__init__(
            INES,
            (
                _habit(r"What is cooking\?", WISH, 2),
                _habit(r"Salt the meat", "all done", 25),
                _habit(r"is there a fire ban", "no ban, calm enough", 6),
                _habit(r"Light the fire", _light, 14, once=True),
                _habit(r"Deflector", "skip the deflector", 4),
                _habit(r"on its way up", lambda world: f"pit {world.read_pit()}", 2),
                _habit(r"Begin to close the vents now", "vents are set", 3, once=True),
                _habit(r"Look at the smoke", _look_at_smoke, 5),
                _habit(r"Read the pit at grate", lambda world: f"pit {world.read_pit()}", 7),
                _habit(r"meat on, lid shut", _put_on, 12, again_min=4, once=True),
                _habit(r"^Meat is on", self._of_her_own_accord, 200, once=True),
                _habit(r"^Meat is on", self._of_her_own_accord, 232, once=True),
                _habit(r"Read the pit \(", lambda world: str(world.read_pit()), 5),
                _habit(r"Read the meat in its thickest", self._bare_meat, 5),
                _habit(r"Read pit and meat", self._pit_and_meat, 4, again_min=21),
                _habit(r"How much fuel", lambda world: f"fuel {world.fuel()}", 7),
                _habit(r"Look at the bark", _bark, 6),
                _habit(r"Feel for tenderness", lambda world: f"{world.read_meat()}, {world.feel()}", 6),
                _habit(r"Pull it now", _pull, 4, once=True),
                _habit(r"Go, or move it once", "dinner go", 8),
                _habit(r"Food out", _eat, 0.4, again_min=1, once=True),
            ),
        )
        self._slipped = False
        self._wrong: tuple[int, int] | None = None
        self._in_mind: str | None = None

    def rereads(self, at: dt.datetime) -> Deed | None:
        """Look once more at what was just typed; a slip of the fingers is put right a minute later."""
        if self._wrong is None:
            return None
        (right, wrong), self._wrong = self._wrong, None
        return Deed(who=self.name, at=at + dt.timedelta(minutes=1), act=_saying(f"sorry {right} not {wrong}"))

    def _typed(self, core_f: int) -> int:
        """Return what the fingers make of a number: once, two figures change places."""
        tens, ones = divmod(core_f % 100, 10)
        swapped = core_f - core_f % 100 + 10 * ones + tens
        if self._slipped or core_f < SLIPS_FROM_F or not 0 < abs(core_f - swapped) < MOST_SLIP_F:
            return core_f
        self._slipped, self._wrong = True, (core_f, swapped)
        return swapped

    def _bare_meat(self, world: World) -> str:
        return str(self._typed(world.read_meat()))

    def _of_her_own_accord(self, world: World) -> str:
        return f"meat {self._typed(world.read_meat())}"

    def _pit_and_meat(self, world: World) -> str | None:
        """Read both; the first time she is called away with the figures in her head, and types them later."""
        if self._in_mind is None:
            self._in_mind = f"pit {world.read_pit()} meat {world.read_meat()} at {world.now.astimezone(CLOCK):%H:%M}"
            return None
        line, self._in_mind = self._in_mind, ""
        return line or f"{world.read_pit()}/{self._typed(world.read_meat())}"


class Tomas(Member):
    """Helps. Does what he reads, sometimes later than he meant to."""

    def __init__(self) -> None:
        super().__init__(
            TOMAS,
            (
                _habit(r"Probe into the middle", "probe is in", 6, once=True),
                _habit(r"Wash, then sanitise", "raw side washed", 6, once=True),
                _habit(r"^Ines: Meat is on", "how long", 262, once=True),
                _habit(r"Warm the box", "box is warm", 24, once=True),
                _habit(r"Let it stand open", "venting", 3, once=True),
                _habit(r"Close all vents", _shut, 5, once=True),
                _habit(r"into the box, probe wire", _box, 4),
                _habit(r"Open the box once", lambda world: str(world.read_meat()), 5),
                _habit(r"Read the meat as you open it", lambda world: str(world.read_meat()), 6, once=True),
                _habit(r"(Slice across the grain|Take it apart at the joints|Pull it apart)", "slicing", 9, once=True),
                _habit(r"Is the cooker cooling", "cooling", 12),
                _habit(r"Leftovers: slice", "leftovers in the fridge", 11, once=True, picks="Leftovers in the fridge"),
                _habit(r"Ash, if it is truly cold", "ash is out, cold", 30),
                _habit(r"eat, freeze or bin them", "eaten", 45),
            ),
        )


# --- hands ----------------------------------------------------------------------------------------------------------


def _light(world: World) -> str:
    world.light()
    return "lit"


def _look_at_smoke(world: World) -> str:
    return "smoke is thin" if world.smoke_is_thin() else "smoke: grey"


def _put_on(world: World) -> str | None:
    """Put the meat on as soon as the smoke is thin and the pit is near enough, whoever asks."""
    if not world.smoke_is_thin() or world.read_pit() < NEAR_ENOUGH_F:
        return None
    world.move_meat(Place.FIRE)
    return "meat is on"


def _bark(world: World) -> str:
    return "bare to the end" if world.bark_is_set() else "not yet"


def _pull(world: World) -> str:
    world.move_meat(Place.TABLE)
    return "it is off"


def _shut(world: World) -> str:
    world.shut()
    return "vents closed"


def _box(world: World) -> str:
    """Box the racks, but not while they steam: they would go on cooking in there."""
    if world.steams():
        return "not yet"
    world.move_meat(Place.BOX)
    return "boxed"


def _eat(world: World) -> str | None:
    """Carry the platters out when people sit down, not before."""
    if world.now < DINNER_AT:
        return None
    world.move_meat(Place.EATEN)
    return "food is out"
