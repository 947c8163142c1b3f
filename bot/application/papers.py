"""Papers in the chat: giving one out, and offering a new one when the plan has left the old one behind.

It must not lay anything out: files come through the port.
"""

from __future__ import annotations

import datetime as dt

from bot.application.visit import Visit, Work
from bot.application.writing import cook_write
from bot.commands import Ask, Topic
from bot.makers import PaperKind
from bot.messages import papers as words
from bot.messages import record
from bot.messages.message import Message
from bot.messages.trip import next_line
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Over, Situation, Taken, assess
from scheduler.facts import Fact, PaperIssued, StepDone
from scheduler.planning.replanning import WORTH_TELLING
from scheduler.state import FIRST, Stage

TOPICS: dict[Topic, PaperKind] = {Topic.PAGE: "page", Topic.CALENDAR: "calendar", Topic.RECORD: "record"}
_PLANS = (Topic.PAGE, Topic.CALENDAR)
"""What grows old when the plan moves."""


def give_out(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, paper: PaperKind, *, number: int = 0
) -> None:
    """Send the plan or the record on paper to whoever asked, and keep what was on it; `number` counts several cooks."""
    unit = visit.unit(situation)
    made = visit.house.papers(paper, situation, now=visit.now, log=snapshot.facts, unit=unit)
    fact = Fact(
        id=f"{visit.seed}.paper" + (f".{number}" if number else ""),
        cook=situation.state.cook,
        piece=situation.state.piece,
        happened_at=visit.now,
        recorded_at=visit.now,
        by=None,
        body=made.issued,
    )
    after = assess((*snapshot.facts, fact), visit.house.catalogue)
    work.cooks.append(cook_write(after, (fact,), version=snapshot.version))
    key = f"answer:{visit.row_id}" + (f".{number}" if number else "")
    said = record.given_out(made.issued.sequence) if paper == "record" else words.given_out(paper, made.issued.sequence)
    if after.state.stage is not Stage.CLOSED:
        said = f"{said}\n{next_line(after, visit.voice(after))}"
    work.say(Message(text=said), to=visit.address, key=key, cook=snapshot.id, document=made.document)
    if made.also is not None:
        table = Message(text=record.given_out_file())
        work.say(table, to=visit.address, key=f"{key}.table", cook=snapshot.id, document=made.also)


def give_out_last_record(visit: Visit, work: Work) -> bool:
    """Send the record of the newest cook that a room followed, also of one that is over; False when there is none."""
    for cook in visit.house.store.recent_cooks(visit.address, 1):
        snapshot = visit.house.store.cook(cook)
        if snapshot is not None:
            situation = assess(snapshot.facts, visit.house.catalogue, visit.now)
            give_out(visit, work, snapshot, situation, "record")
            return True
    return False


def offer_record(changes: Changes) -> Message:
    """Return one line that offers the record at the end of a public meal: when its food is put away, or, where nobody
    said that it was, when the cook is over; else nothing.
    """
    state = changes.after.state
    done = [e.body for e in changes.events if isinstance(e, Taken) and isinstance(e.body, StepDone)]
    away = any(body.step == "two_hour" and body.outcome != "on_heat" for body in done)
    over = any(isinstance(e, Over) for e in changes.events) and state.did("two_hour") is None
    return Message(text=record.offered() if state.care.public is True and (away or over) else "")


def given_out(facts: tuple[Fact, ...]) -> tuple[PaperIssued, ...]:
    """Return every paper of a cook that was given out, oldest first."""
    return tuple(fact.body for fact in facts if isinstance(fact.body, PaperIssued))


def offer(facts: tuple[Fact, ...], situation: Situation) -> Message:
    """Return one line and a button for each kind of paper whose plan has moved by thirty minutes since; else nothing.

    To be said only with a message that tells the move.
    """
    message = Message(text="")
    newest = {one.paper: one for one in given_out(facts)}
    for topic in _PLANS:
        paper = TOPICS[topic]
        moved = _moved(newest.get(paper), situation)
        other_meat = _other_meat(newest.get(paper), situation)
        if moved >= WORTH_TELLING or other_meat:
            line, label = words.out_of_date(paper, newest[paper].sequence, None if other_meat else moved)
            row = ((label, Ask(topic=topic)),)
            before = f"{message.text}\n" if message.text else ""
            message = Message(text=f"{before}{line}", choices=(*message.choices, row))
    return message


def _other_meat(paper: PaperIssued | None, situation: Situation) -> bool:
    """Return whether a piece was added or dropped since a paper was given out."""
    if paper is None or situation.ended:
        return False
    names = [name for name, _at in paper.milestones if not name.startswith("event:")]
    printed = {name.split("/")[0] if "/" in name else FIRST for name in names}
    now = {view.piece: view.state.did("pull") for view in situation.views}
    return any(piece not in now for piece in printed) or any(
        piece not in printed and pulled is None for piece, pulled in now.items()
    )


def _moved(paper: PaperIssued | None, situation: Situation) -> dt.timedelta:
    """Return by how much the milestone that moved farthest has moved since a paper was given out."""
    if paper is None or situation.ended:
        return dt.timedelta()
    printed = dict(paper.milestones)
    now = situation.told(all_of_it=True).milestones
    return max((abs(at - printed[name]) for name, at in now if name in printed), default=dt.timedelta())
