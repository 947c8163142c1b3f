"""Messages that waited past their use: withdrawn, and one message of how things stand now in their place.

It tells nothing that a cook does not say now; facts are not touched.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from bot.application.backlog import LOST_AFTER, overdue, told_anew, within
from bot.application.boards import PAPER
from bot.application.gone import unreached
from bot.application.manners import manner_of, voice_of
from bot.application.visit import House, Work
from bot.chat import Address
from bot.commands import DANGERS
from bot.messages import backlog as words
from bot.messages.answers import what_next
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.problems import danger_card
from bot.messages.stops import standing_lines
from bot.messages.trip import choices_for
from bot.messages.words import speaking
from bot.ports import Apply, WaitingRow
from scheduler.cook import Situation, assess


def tell_anew(house: House, now: dt.datetime) -> int:
    """Put one message in the place of those that could not be sent for long, room by room; return how many rooms."""
    rooms = {one.outgoing.address: one for one in house.store.waiting()}
    known = {(room.address.transport, room.address.chat): room.active for room in house.store.rooms()}
    told = 0
    for room in rooms:
        if not known.get((room.transport, room.chat), True):
            # It is told when it comes back; until then those at the fire know.
            told += unreached(house, room, now, min(one.created_at for one in house.store.waiting(room)))
            continue
        old = overdue(house.store.waiting(room), now)
        if old:
            told += house.store.apply(_in_place_of(house, room, old, now, _could_not_send(old, now)))
    return told


def _could_not_send(old: tuple[WaitingRow, ...], now: dt.datetime) -> Callable[[Voice], str]:
    since = min(one.created_at for one in old)
    return lambda voice: words.could_not_send(since, now, voice)


def back(house: House, room: Address, work: Work, row: int) -> bool:
    """Tell a chat that is back how things stand, and withdraw what waited for it; False when nothing did."""
    if room.transport in PAPER:
        return False  # a window that opens anew prints what waits for it, word for word
    old = told_anew(house.store.waiting(room))
    if not old:
        return False
    since, count = min(one.created_at for one in old), len(old)
    write = _in_place_of(
        house, room, old, work.now, lambda voice: words.back_again(since, count, voice), key=f"answer:{row}"
    )
    work.outbox += write.outbox
    work.withdrawn += write.withdraw_outbox
    return True


def tell_of_loss(house: House, transport: str, since: dt.datetime, work: Work) -> None:
    """Say in every room with a running cook that replies may be lost, after more than a day of not listening."""
    now = work.now
    if now - since <= LOST_AFTER:
        return
    for room, running in _rooms_with_cooks(house, transport):
        manner = manner_of(house.store, room)
        with speaking(manner.language):
            said = words.replies_lost(since, now, now - LOST_AFTER, voice_of(running, now, manner))
        work.say(Message(text=said), to=room, key=f"lost:{since.isoformat()}")


def _rooms_with_cooks(house: House, transport: str) -> list[tuple[Address, Situation]]:
    found: dict[Address, Situation] = {}
    for cook in house.store.open_cooks():
        snapshot = house.store.cook(cook)
        if snapshot is not None:
            situation = assess(snapshot.facts, house.catalogue)
            found |= {room: situation for room in snapshot.rooms if room.transport == transport}
    return list(found.items())


def _in_place_of(
    house: House,
    room: Address,
    old: tuple[WaitingRow, ...],
    now: dt.datetime,
    head: Callable[[Voice], str],
    *,
    key: str | None = None,
) -> Apply:
    """Return the write that withdraws messages and says how the cooks of the room stand; without a cook, the newest."""
    work = Work(now=now)
    manner = manner_of(house.store, room)
    named = key or f"now:{int(now.timestamp())}"
    with speaking(manner.language):
        for number, cook in enumerate(house.store.open_cooks(room)):
            snapshot = house.store.cook(cook)
            if snapshot is None:
                continue
            situation = assess(snapshot.facts, house.catalogue, now)
            voice = voice_of(situation, now, manner)
            said = stands(situation, voice, head(voice) if number == 0 else "")
            loud = any(one in DANGERS for one in situation.deciding.state.troubles)
            work.say(said, to=room, key=named + (f".{number}" if number else ""), cook=cook, urgent=loud)
    if not work.outbox:  # nothing is cooking: the newest of them is what still counts
        old = old[:-1]
    return Apply(now=now, outbox=tuple(work.outbox), withdraw_outbox=tuple(one.key for one in old))


def stands(situation: Situation, voice: Voice, head: str) -> Message:
    """Return how a cook stands in at most eight lines, with the buttons of what is open: first, and whole whatever its
    length, the card of people in danger while it is open, then stops.
    """
    dangers = [danger_card(one).text for one in situation.deciding.state.troubles if one in DANGERS]
    stops = standing_lines(situation, voice)
    rest = what_next(situation, voice).text.split("\n")
    before = [line for line in (head, *stops) if line]
    return Message(
        text=lines(*dangers, *within([*before, *rest], keep=len(before))),
        choices=choices_for(situation.waiting[:1], situation, voice),
    )
