"""Judges a scene that was killed: what was lost, what came twice, what was written otherwise than without the kill.

It must not run anything.
"""

from __future__ import annotations

import difflib
import json
import signal
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from bot.messages import console
from tests.acceptance.kills.stage import Run
from tests.acceptance.kills.written import Row
from tests.fakes.botapi import Seen

MARK = console.possible_repeat()
MICROSECOND = 1_000_000


Decided = Mapping[str, str]
"""What was written of a decision, table by table."""


def decided(run: Run) -> Decided:
    """Return what an undisturbed run has decided, to compare others with."""
    return run.after.decided(run.said.ref)


def problems(run: Run, undisturbed: Sequence[Decided]) -> list[str]:
    """Return what is wrong, nothing when all is well.

    `undisturbed` are decisions without a kill, when the program was there at once, or only from the second life on,
    or only from the third: a kill may make no difference but that between these.
    """
    found = [*_lives(run), *_accepted(run), *_log(run, undisturbed), *_prompts(run), *_delivered(run), *_repeats(run)]
    died = [passed[-1] if passed else "the beginning" for passed in run.boundaries[:-1]]
    return [f"killed at {' and '.join(died)}: {problem}" for problem in found]


def extra_copies(run: Run) -> int:
    """Return how many messages people got that they had already."""
    return sum(max(0, len(_copies(run, row)) - 1) for row in _new_messages(run))


def marks(run: Run) -> int:
    """Return how many messages are marked as possible repeats in the database."""
    return sum(bool(row["possible_repeat"]) for row in _new(run, "outbox"))


def _lives(run: Run) -> Iterator[str]:
    *before, last = run.ends
    wrong = [end for end in before if end.signal != signal.SIGKILL and end.code != 0]
    if wrong or last.code != 0:
        yield f"lives ended otherwise than by the kill or by themselves: {run.ends}"
    if not all(written.sound for written in run.written):
        yield "the database is damaged"


def _accepted(run: Run) -> Iterator[str]:
    """Never is what was said neither in the inbox nor with whoever will bring it again; in the end it is done, once."""
    if not run.said.key:
        return
    for passed, written, unconfirmed in zip(run.boundaries, run.written, run.unconfirmed, strict=True):
        stored = written.rows("inbox", key=run.said.key)
        promised = run.said.key not in unconfirmed if run.messenger else any("after COMMIT" in one for one in passed)
        if promised and not stored:
            yield "accepted and not in the inbox"
    rows = run.after.rows("inbox", key=run.said.key)
    if [(row["state"], row["result"]) for row in rows] != [("done", "done")]:
        yield f"in the inbox it stands as {rows}"
    if run.unconfirmed[-1]:
        yield f"never confirmed: {run.unconfirmed[-1]}"
    if not run.after.rows("fact", message=run.said.ref):
        yield "no fact came of it"


def _log(run: Run, undisturbed: Sequence[Decided]) -> Iterator[str]:
    """Every table is as in an undisturbed run that began with the life in which the decision was written."""
    doubled = [one for one, count in Counter(row["id"] for row in run.after.tables["fact"]).items() if count > 1]
    if doubled:
        yield f"facts are there twice: {doubled}"
    length = len(run.before.tables["fact"])
    lives = [life for life, written in enumerate(run.written) if len(written.tables["fact"]) > length]
    if not lives:
        yield "nothing was decided"
        return
    mine = decided(run)
    for table, rows in undisturbed[lives[0]].items():
        if mine[table] != rows:
            differing = difflib.unified_diff(rows.splitlines(), mine[table].splitlines(), lineterm="", n=1)
            yield f"table {table} differs: {' '.join(list(differing)[:20])}"


def _prompts(run: Run) -> Iterator[str]:
    """Every prompt that was due is asked, or withdrawn with a reason."""
    new = _new(run, "fact")
    asked = {key for row in new if row["kind"] == "asked" for key in json.loads(row["body"])["prompts"]}
    bodies = [json.loads(row["body"]) for row in new if row["kind"] == "withdrawn"]
    withdrawn = {body["prompt"] for body in bodies if body["reason"]}
    due = {
        row["prompt"] for row in run.before.tables["due"] if row["due_at"] <= run.begins_at.timestamp() * MICROSECOND
    }
    if lost := due - asked - withdrawn:
        yield f"prompts lost: {lost}"
    if not run.said.key and not due:
        yield "no prompt was due"


def _delivered(run: Run) -> Iterator[str]:
    """Every message that was written reached its chat, in order; nothing came that was not written."""
    rows = _new_messages(run)
    if not rows:
        yield "nothing was to be said"
    for row in rows:
        if row["state"] != "sent" or not _copies(run, row):
            yield f"{row['key']} is {row['state']} and came {len(_copies(run, row))} times"
    if any(row["state"] not in {"sent", "superseded", "dropped"} for row in _new(run, "outbox")):
        yield "the outbox is not empty"
    strays = [one.text for one in run.got.messages if not any(one in _copies(run, row) for row in rows)]
    if strays:
        yield f"nobody wrote {strays}"
    for key, text in run.got.boards.items():
        edits = [
            row for row in _new(run, "outbox") if (row["kind"], row["target"], row["state"]) == ("edit", key, "sent")
        ]
        if edits and text != edits[-1]["text"].strip():
            yield f"{key} shows {text!r}"
    shown = Counter(row["outbox_key"] for row in _new(run, "screen"))
    if not run.messenger and shown != Counter(row["key"] for row in _new(run, "outbox") if row["text"]):
        yield f"on the screens: {shown}"


def _repeats(run: Run) -> Iterator[str]:
    """At most one message comes twice for each kill, and whatever comes twice says so."""
    kills = sum(end.signal == signal.SIGKILL for end in run.ends)
    if extra_copies(run) > kills:
        yield f"{extra_copies(run)} repeats"
    if marks(run) > kills:
        yield f"{marks(run)} marks"
    for row in _new_messages(run):
        unmarked = [copy.text for copy in _copies(run, row)[1:] if not copy.text.startswith(MARK)]
        if unmarked or (len(_copies(run, row)) > 1 and not row["possible_repeat"]):
            yield f"{row['key']} came twice and did not say so"


def _new(run: Run, table: str) -> list[Row]:
    """Return the rows that were not there before the scene."""
    return list(run.after.tables[table][len(run.before.tables[table]) :])


def _new_messages(run: Run) -> list[Row]:
    return [row for row in _new(run, "outbox") if row["kind"] == "message"]


def _copies(run: Run, row: Row) -> list[Seen]:
    """Return the copies of a message that came in its chat; a terminal's screen stands for its chat."""
    if not run.messenger:
        return [_on_screen(one) for one in _new(run, "screen") if one["outbox_key"] == row["key"]]
    text = row["text"].strip()
    return [one for one in run.got.messages if one.chat == int(row["chat"]) and one.text in {text, f"{MARK}\n{text}"}]


def _on_screen(row: Row) -> Seen:
    return Seen(chat=0, message_id=row["id"], text=row["text"], sender="", by_bot=True, date=0)
