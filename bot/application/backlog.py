"""What came late, and what could not be sent: which of it still matters, in one message of at most eight lines. Pure.

It reads no store and makes no words; `bot.application.gathering` and `bot.application.stale` do.

Three times something piles up:
- people wrote while the program was away: all of it is worked on in order, dated by when it was sent, and the answers
  of each room are told in one summary (`late_rows`, `summary_lines`);
- a chat could not be written to (blocked, thrown out) and comes back;
- the messenger could not be reached, and messages wait past their use. In both cases what waited is withdrawn, and one
  message says how things stand now (`overdue`).
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Sequence

from bot.ports import WaitingRow

MOST_LINES = 8
"""Of a summary: what a phone shows at once."""
LATE = dt.timedelta(minutes=3)
"""Worked on this long after it was sent, a message is late: by then whoever wrote it has put the phone away."""
STALE = dt.timedelta(minutes=10)
"""A message that waited this long unsent is told in a summary, where more than one waits."""
FRESH = dt.timedelta(minutes=2)
"""A message written within this is on its way, unless the way is cut."""
HELD_FOR = dt.timedelta(minutes=1)
"""So long the answers of a backlog are held back for their summary; should the program die meanwhile, they go then."""
LOST_AFTER = dt.timedelta(hours=24)
"""The messenger keeps what people wrote for so long (Bot API 10.1, getUpdates: "not kept longer than 24 hours")."""
SHORTENED = "…"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Heard:
    """One row of the inbox, as far as it matters here. A tap carries no time: `sent_at` is None."""

    row: int
    source: str
    sent_at: dt.datetime | None


def late_rows(rows: Sequence[Heard], now: dt.datetime) -> frozenset[int]:
    """Return which rows are a backlog: two or more that come late; a tap is late between late ones of its source."""
    late: set[int] = set()
    was_late: dict[str, bool] = {}
    for one in rows:
        is_late = was_late.get(one.source, False) if one.sent_at is None else now - one.sent_at > LATE
        was_late[one.source] = is_late
        if is_late:
            late.add(one.row)
    return frozenset(late) if len(late) > 1 else frozenset()


def summary_lines(answers: Sequence[str], *, most: int = MOST_LINES - 1) -> tuple[int, tuple[str, ...]]:
    """Return how many answers are left out, and the lines that tell the others, in order.

    Of each answer its first line, of the newest as much as there is room for and always its last line: what comes next.
    The oldest give way.
    """
    newest = tuple(line for line in answers[-1].split("\n") if line)
    whole = newest if len(newest) <= most else (*newest[: most - 1], newest[-1])
    firsts = [_first_line(one) for one in answers[:-1]]
    room = most - len(whole)
    if len(firsts) > room and len(whole) > _TAIL:  # rather each answer in a line than all of the newest
        spare = min(len(firsts) - room, len(whole) - _TAIL)
        whole = (*whole[: len(whole) - spare - 1], whole[-1])
        room += spare
    left_out = max(0, len(firsts) - room)
    if left_out and room > 0:  # a line says how many
        left_out += 1
        room -= 1
    shown = firsts[len(firsts) - room :] if room > 0 else []
    return len(firsts) - len(shown), (*shown, *whole)


_TAIL = 2
"""Of the newest answer its first and its last line are always told."""


def _first_line(text: str) -> str:
    """Return the first line that says something; one that only names a cook is joined to the next."""
    found = [line for line in text.split("\n") if line]
    if len(found) > 1 and found[0].endswith(":"):
        return f"{found[0]} {found[1]}"
    return found[0] if found else ""


def within(found: Sequence[str], *, keep: int, most: int = MOST_LINES) -> tuple[str, ...]:
    """Return lines shortened to `most`: the first `keep` and the last always stay, what is left out is marked."""
    if len(found) <= most:
        return tuple(found)
    head = max(keep, most - 2)
    return (*found[:head], SHORTENED, found[-1]) if head + 2 <= most else (*found[:head], found[-1])


def overdue(waiting: Sequence[WaitingRow], now: dt.datetime) -> tuple[WaitingRow, ...]:
    """Return what waits in a room past its use: at least two messages, the oldest for longer than `STALE`.

    None while the newest was written just now: the courier is about to send, as after a start of the program. What is
    urgent (food safety), and files that were asked for, wait as long as it takes.
    """
    messages = told_anew(waiting)
    if len(messages) < MOST_WAITING:
        return ()
    written = [one.created_at for one in messages]
    return messages if now - min(written) > STALE and now - max(written) > FRESH else ()


MOST_WAITING = 2
"""From so many on, messages that wait are told as one."""


def told_anew(waiting: Sequence[WaitingRow]) -> tuple[WaitingRow, ...]:
    """Return the messages among what waits that a summary takes the place of; boards are kept as they are."""
    return tuple(
        one
        for one in waiting
        if one.is_message and not one.outgoing.urgent and not one.has_file and not one.key.startswith(_KEPT)
    )


_KEPT = ("board:", "cannot-pin:")
