"""The scenes whose screens are kept: who says what at which time, and what comes back, word for word."""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

from tests.fakes.kitchen import PlayedKitchen, on

GOLDEN = Path(__file__).parent / "golden"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Scene:
    """One scene: Ines types these lines, each a minute after the one before, from `at` (UTC) on."""

    name: str
    at: dt.datetime
    lines: tuple[str, ...]
    zone: str = "Europe/London"


THURSDAY = on("09:00", -2)

SCENES = (
    Scene(name="brisket", at=THURSDAY, lines=("brisket 6 kg, dinner 18:00 Saturday, pit 250, paper", "all steps")),
    Scene(name="spareribs", at=on("07:00"), lines=("3 racks of spareribs, pit 275, dinner 18:00", "plan")),
    Scene(name="chicken", at=on("09:00"), lines=("2 chickens 1.9 kg, dinner 18:00, pit 325", "all steps")),
    Scene(name="salmon", at=on("12:00"), lines=("side of salmon, dinner 18:00, pit 225", "all steps")),
    Scene(
        name="three_pieces",
        at=THURSDAY,
        lines=(
            "brisket 6 kg and 3 racks of spareribs, dinner 18:00 Saturday, pit 250",
            "also 2 chickens",
            "24 adults and 6 children",
            "plan",
        ),
    ),
    Scene(name="too_soon", at=on("12:00"), lines=("pork butt 4 kg, dinner 18:00, pit 250", "what can I do?")),
    Scene(name="window", at=THURSDAY, lines=("plate ribs, dinner between 17:30 and 18:30 Saturday, pit 275",)),
    Scene(name="when_ready", at=on("08:00"), lines=("chuck roast 1.6 kg, pit 250, dinner when it is ready",)),
    Scene(
        name="clocks_go_back",
        at=dt.datetime(2026, 10, 23, 9, tzinfo=dt.UTC),
        lines=("pork butt 4 kg, pit 250, dinner 13:00 Sunday, paper",),
    ),
    Scene(
        name="cooker",
        at=THURSDAY,
        lines=("brisket flat 2.7 kg on the kettle, pit 250, dinner 18:00 Saturday, foil", "plan"),
    ),
    Scene(
        name="trouble",
        at=on("08:00"),
        lines=(
            "2 racks of beef ribs, pit 275, dinner 18:00",
            "fire went out",
            "grease fire",
            "can I pause it?",
            "what can I do?",
        ),
    ),
)  # fmt: skip


def played(scene: Scene, folder: Path) -> str:
    """Return the screen of a scene: each typed line after a mark, each answer as it was sent, buttons in brackets."""
    kitchen = PlayedKitchen(folder, scene.at, zone=scene.zone)
    try:
        kitchen.opens("Ines")
        shown: list[str] = []
        for line in scene.lines:
            kitchen.later(1)
            heard = kitchen.say("Ines", line)
            shown += [f"> {line}", heard.text, *(f"  [{label}]" for label in heard.labels), ""]
    finally:
        kitchen.close()
    return "\n".join(shown)
