"""What each person saw: plays of the allotment club on the memory stage, kept as texts in `tests/screens/seen`.

`python -m tests.screens` writes them anew. All people and readings are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tests.fakes.kitchen import on
from tests.fakes.stages.dinners import DINNERS, RIBS, brisket_of_two, give
from tests.fakes.stages.filmed import Filmed
from tests.fakes.stages.robot import Cook

SEEN = Path(__file__).with_name("seen")


def family(stage: Filmed) -> str:
    """Two people, ribs for a Saturday: one sentence, taps and short texts until the food is away."""
    stage.now = on("08:30")
    stage.comes("Ines")
    stage.comes("Tomas")
    stage.says("Ines", "3 racks of spareribs, dinner 18:00, pit 250")
    stage.taps("Ines", "None of these")
    Cook(stage, "Ines", RIBS, 250).cook_until(on("21:30"))
    return stage.seen("Ines", "Tomas")


def crew_night(stage: Filmed) -> str:
    """A brisket over night: the sound check, a decision that waits, a handover, and somebody who does not answer."""
    stage.now = on("17:00")
    stage.comes("Ines")
    stage.gather("Ines")
    for name, role in (("Tomas", "watch"), ("Bashir", "watch"), ("Wren", "host")):
        stage.comes(name, role)
    stage.says("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00", group=True)
    stage.says("Ines", "no guests at risk, no allergies, a club", group=True)
    stage.says("Ines", "Tomas 22:00-02:30, Bashir 02:30-07:00", group=True)
    stage.until(on("20:05"))
    for name in ("Ines", "Tomas"):
        stage.taps(name, "I heard it")
    stage.until(on("20:21"))
    stage.taps("Bashir", "I heard it")
    stage.until(on("22:05"))
    stage.says("Tomas", "lit")
    stage.until(on("23:00"))
    for text in ("smoke thin", "probe is in", "meat on", "raw side washed"):
        stage.says("Tomas", text)
    stage.until(on("23:40"))
    stage.says("Tomas", "pit 252")
    stage.until(on("01:10", 1))
    stage.says("Tomas", "pit 249 meat 96")
    stage.says("Tomas", "pit to 275")
    stage.until(on("02:22", 1))
    stage.says("Bashir", "k")
    stage.until(on("02:50", 1))
    stage.says("Bashir", "I have it")
    stage.until(on("04:40", 1))
    return stage.seen("Ines", "Tomas", "Bashir", "Wren")


def dispute(stage: Filmed) -> str:
    """Two readings three minutes apart that differ by fourteen degrees."""
    brisket_of_two(stage, "15:00")
    stage.says("Ines", "pit 250, meat 172")
    stage.until(on("16:00"))
    stage.says("Ines", "meat 178")
    stage.now = on("16:03")
    stage.says("Tomas", "meat 164")
    stage.now = on("16:06")
    stage.taps("Ines", "164 F is right")
    return stage.seen("Ines", "Tomas")


def correction(stage: Filmed) -> str:
    """A slip of the thumb, put right by an edit; another taken back."""
    brisket_of_two(stage, "15:00")
    stage.says("Ines", "pit 250, meat 172")
    stage.until(on("16:00"))
    stage.says("Ines", "meat 187")
    stage.now = on("16:03")
    stage.changes("Ines", "178")
    stage.now = on("16:20")
    stage.says("Tomas", "pit 350")
    stage.says("Tomas", "sorry 250 not 350")
    stage.now = on("16:25")
    stage.says("Tomas", "undo")
    return stage.seen("Ines", "Tomas")


def outage(stage: Filmed) -> str:
    """The machine is off for two and a half hours, and people go on typing."""
    brisket_of_two(stage, "13:00")
    stage.says("Ines", "pit 250, meat 160")
    for clock, name, text in (
        ("13:40", "Tomas", "pit 262"),
        ("14:30", "Ines", "meat 166"),
        ("15:10", "Ines", "wrapped in paper"),
    ):
        stage.now = on(clock)
        stage.put(name, text, group=False)
    stage.away_until(on("15:40"))
    return stage.seen("Ines", "Tomas")


def _dinner(number: int) -> Callable[[Filmed], str]:
    def played(stage: Filmed) -> str:
        give(DINNERS[number], stage)
        return stage.seen("Ines", "Wren")

    return played


PLAYS: dict[str, Callable[[Filmed], str]] = {
    "family": family,
    "crew-night": crew_night,
    "dispute": dispute,
    "correction": correction,
    "outage": outage,
    **{f"dinner-for-{one.people}": _dinner(number) for number, one in enumerate(DINNERS)},
}


def seen(name: str, folder: Path) -> str:
    """Play one play and return what everybody saw."""
    with Filmed(folder) as stage:
        return PLAYS[name](stage)
