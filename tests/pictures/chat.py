"""Draws the screens of docs/howto/chat.md: `python -m tests.pictures.chat docs/howto/chat`.

Each is played on the real kitchen over the memory transport. The club, the names and the readings are invented.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from bot.chat import OutgoingKind
from tests.fakes.kitchen import on
from tests.fakes.stages.filmed import Filmed
from tests.pictures.phone import Bubble, phone

_TITLE = "Harrow Lane supper"


@dataclasses.dataclass
class Screen:
    """One room as it is looked at: what was said in it, and what the program sent, in order."""

    stage: Filmed
    name: str
    group: bool = False
    said: list[tuple[int, Bubble]] = dataclasses.field(default_factory=list)
    """(messages sent before, what somebody wrote)."""
    begins_at: int = 0

    def says(self, who: str, text: str) -> None:
        """Let somebody write in this room."""
        before = len(self.stage.timed)
        self.stage.says(who, text, group=self.group)
        signed = any(one.kind is OutgoingKind.REACTION for _at, one in self.stage.timed[before:])
        bubble = Bubble(text=text, at=f"{self.stage.now:%H:%M}", who=who, sign="a sign under it" if signed else "")
        self.said.append((before, bubble))

    def begin(self) -> None:
        """Show only what comes from now on."""
        self.begins_at, self.said = len(self.stage.timed), []

    def picture(self) -> bytes:
        """Return the room as it stands now."""
        shown = self.stage.shown(self.name, group=self.group)
        rows: list[tuple[float, Bubble]] = [(place - 0.5, bubble) for place, bubble in self.said]
        for place, (at, one) in enumerate(self.stage.timed):
            now = shown.get(one.key)
            if place < self.begins_at or one.kind is not OutgoingKind.MESSAGE or now is None or _is_board(one.key):
                continue
            labels = tuple(tuple(choice.label for choice in row) for row in now.choices)
            rows.append((place, Bubble(text=now.text, at=f"{at:%H:%M}", rows=labels)))
        boards = [message.text for key, message in shown.items() if _is_board(key)]
        bubbles = tuple(bubble for _place, bubble in sorted(rows, key=lambda row: row[0]))
        return phone(_TITLE, bubbles, board=boards[-1] if boards else "")


def _is_board(key: str) -> bool:
    return key.startswith("board:")


def _cooking(folder: Path, until: str) -> Filmed:
    """Return a brisket on the fire since seven, with Ines and Tomas in their private rooms."""
    stage = Filmed(folder, on("06:00"))
    stage.comes("Ines")
    stage.comes("Tomas")
    stage.says("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    stage.says("Ines", "no guests at risk, no allergies, a club")
    stage.until(on("06:50"))
    stage.says("Ines", "smoke is thin, meat on")
    stage.until(on("09:00"))
    stage.says("Ines", "pit 251, meat 104")
    stage.until(on(until))
    return stage


def one_sentence(folder: Path) -> Screen:
    """A cook set up with one sentence."""
    stage = Filmed(folder, on("06:00"))
    stage.comes("Ines")
    screen = Screen(stage=stage, name="Ines")
    screen.begin()
    screen.says("Ines", "brisket 6 kg, dinner 23:30, pit 250")
    return screen


def one_tap(folder: Path) -> Screen:
    """A number that is asked for, with its buttons."""
    stage = _cooking(folder, "11:00")
    screen = Screen(stage=stage, name="Ines")
    screen.begin()
    while not any("F" in label for label in stage.labels("Ines")) or len(stage.timed) == screen.begins_at:
        stage.until(stage.now + dt.timedelta(minutes=10))
    return screen


def a_number(folder: Path) -> Screen:
    """A number typed where nothing was asked: a sign and the board."""
    stage = _cooking(folder, "10:20")
    screen = Screen(stage=stage, name="Ines")
    screen.begin()
    screen.says("Ines", "pit 252")
    return screen


def differing(folder: Path) -> Screen:
    """Two people read the same meat and differ."""
    stage = _cooking(folder, "13:00")
    stage.says("Ines", "pit 250, meat 160")
    stage.until(on("14:05"))
    screen = Screen(stage=stage, name="Tomas")
    stage.says("Ines", "meat 165")
    screen.begin()
    stage.now = on("14:08")
    screen.says("Tomas", "meat 151")
    return screen


def german(folder: Path) -> Screen:
    """A room that speaks German and Celsius beside one that does not."""
    stage = _cooking(folder, "10:00")
    screen = Screen(stage=stage, name="Tomas")
    screen.begin()
    screen.says("Tomas", "auf deutsch")
    screen.says("Tomas", "Celsius bitte")
    stage.until(on("10:20"))
    screen.says("Tomas", "wie lange noch")
    return screen


def night(folder: Path) -> Screen:
    """The watch goes to bed: the card for the next one, with the button that takes the watch."""
    stage = Filmed(folder, on("17:00"))
    for name in ("Ines", "Tomas", "Bashir"):
        stage.comes(name)
    stage.says("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00")
    for text in ("Tomas is watch", "Bashir is watch", "Tomas 22:00-02:30, Bashir 02:30-07:00"):
        stage.says("Ines", text)
    stage.until(on("20:05"))
    for name in ("Ines", "Tomas", "Bashir"):
        stage.says(name, "I heard it")
    stage.until(on("22:05"))
    stage.says("Tomas", "lit")
    stage.until(on("23:00"))
    for text in ("smoke thin", "probe is in", "meat on", "raw side washed"):
        stage.says("Tomas", text)
    stage.until(on("01:20", 1))
    stage.says("Tomas", "pit 252, meat 131")
    stage.until(on("01:30", 1))
    screen = Screen(stage=stage, name="Bashir")
    screen.begin()
    stage.says("Tomas", "going to bed, Bashir has it")
    stage.now = on("01:32", 1)
    screen.says("Bashir", "k")
    return screen


SCREENS: dict[str, Callable[[Path], Screen]] = {
    "one-sentence": one_sentence,
    "one-tap": one_tap,
    "a-number": a_number,
    "differing": differing,
    "german": german,
    "night": night,
}


def main(folder: Path) -> None:
    """Draw every screen into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, play in SCREENS.items():
        with tempfile.TemporaryDirectory() as data:
            screen = play(Path(data))
            (folder / f"{name}.png").write_bytes(screen.picture())
            screen.stage.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
