"""The memory stage with a clock on every message: for pictures of screens, and for what each person saw in a play."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from bot.chat import Outgoing, OutgoingKind
from tests.fakes.stages.memory import MemoryStage

_GROUP = "the group"


class Filmed(MemoryStage):
    """A stage that remembers when each message came, and what people wrote and pressed."""

    def __init__(self, folder: Path, at: dt.datetime | None = None) -> None:
        self.timed: list[tuple[dt.datetime, Outgoing]] = []
        self.said: list[tuple[int, str, str, dt.datetime, str]] = []
        """(messages sent before, room, who, when, what)."""
        super().__init__(folder, at)

    def settle(self) -> None:
        """Do what the program does, and note the time of whatever was sent."""
        super().settle()
        self.timed += [(self.now, one) for one in self.outgoings[len(self.timed) :]]

    def put(self, name: str, text: str, *, group: bool) -> None:
        """Write, and remember it."""
        self._note(name, text, group=group)
        super().put(name, text, group=group)

    def put_edit(self, name: str, text: str, *, group: bool) -> None:
        """Change the last text, and remember it."""
        self._note(name, f"(changes it to) {text}", group=group)
        super().put_edit(name, text, group=group)

    def put_tap(self, name: str, label: str, *, group: bool) -> None:
        """Press a button, and remember it."""
        self._note(name, f"[{label}]", group=group)
        super().put_tap(name, label, group=group)

    def _note(self, name: str, what: str, *, group: bool) -> None:
        self.said.append((len(self.timed), _GROUP if group else name, name, self.now, what))

    def seen(self, *names: str) -> str:
        """Return what each of these people saw in their own room, and what stood in the group, as it stands at the end.

        Signs under what somebody wrote are left out, boards stand once, at the end of each room.
        """
        rooms = [(name, name, False) for name in names]
        if any(one.address == self._address(names[0], group=True) for _at, one in self.timed):
            rooms.append((_GROUP, names[0], True))
        return "\n".join(self._room_as_text(title, name, group=group) for title, name, group in rooms)

    def _room_as_text(self, title: str, name: str, *, group: bool) -> str:
        shown = self.shown(name, group=group)
        rows = [
            (place - 0.5, f"{at:%H:%M} {who} > {what}") for place, room, who, at, what in self.said if room == title
        ]
        for place, (at, one) in enumerate(self.timed):
            now = shown.get(one.key)
            if one.kind is OutgoingKind.MESSAGE and now is not None and not one.key.startswith("board:"):
                buttons = "".join(f" [{choice.label}]" for row in now.choices for choice in row)
                file = "" if one.document is None else f" ({one.document.name})"
                rows.append((place, f"{at:%H:%M} {now.text}{file}{buttons}"))
        boards = [f"The board:\n{now.text}" for key, now in shown.items() if key.startswith("board:")]
        return (
            "\n\n".join([f"===== What stands in {title}", *(text for _place, text in sorted(rows)), *boards[-1:]])
            + "\n"
        )
