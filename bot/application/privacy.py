"""What a group lets the program hear and do: known per room, explained once, and questions there ask for a reply.

Reads the store and fills in the work; the words are made in `bot.messages.telegram_words`.

In a group the messenger hands over commands and replies to the program's own messages, and nothing else, unless it is
an administrator there or its owner switched privacy mode off (Bot features, "Privacy mode"). Both come with the
updates (`Incoming.hears_all`).
"""

from __future__ import annotations

import dataclasses

from bot.application.posted import key_of, pin, standing
from bot.application.visit import House, Work
from bot.chat import Address, Asking, Incoming, IncomingKind, Lack, Outgoing, OutgoingKind
from bot.messages import talk, telegram_words
from bot.messages.message import Message
from bot.ports import RoomWrite, Store


def hears_all(store: Store, address: Address) -> bool:
    """Return whether plain messages of a room are heard; so where nothing else is known."""
    found = _room_of(store, address)
    return found is None or found.hears_all is not False


def note_hearing(house: House, incoming: Incoming, work: Work) -> None:
    """Remember what was found out about a group that is known; a strange group is none of our business."""
    found = _room_of(house.store, incoming.address)
    if found is None or incoming.hears_all is None or found.hears_all == incoming.hears_all:
        return
    work.rooms.append(dataclasses.replace(found, hears_all=incoming.hears_all))


def note_rights(house: House, incoming: Incoming, work: Work, row: int) -> None:
    """Take in that a group gave rights or took them: pin what could not be pinned, say what is no longer heard."""
    found = _room_of(house.store, incoming.address)
    if found is None or not found.active:
        return
    note_hearing(house, incoming, work)
    if found.hears_all is not False and incoming.hears_all is False:
        work.say(Message(text=telegram_words.hears_little()), to=incoming.address, key=f"privacy:{row}", silent=True)
    for cook in house.store.open_cooks():
        snapshot = house.store.cook(cook)
        for room in () if snapshot is None else snapshot.rooms:
            board = standing(house.store, key_of(cook, room)).key
            fate = house.store.fate(f"{board}:pin")
            if room.chat == incoming.address.chat and fate is not None and fate.lack is Lack.PIN:
                pin(work, board, to=room, cook=cook, again=f":{row}")


def hello(incoming: Incoming) -> Message:
    """Return the greeting of a group, with the one thing to do where it lets the program hear little."""
    if incoming.hears_all is None:
        return Message(text=talk.hello_group())
    return Message(text=telegram_words.hello_group(hears_all=incoming.hears_all))


def ask_for_replies(store: Store, incoming: Incoming, name: str, work: Work) -> None:
    """Let questions without buttons open a reply, where a group hands over nothing but replies.

    Whoever is answered is asked: by their message, or, where they pressed a button, by their `name` in the question.
    """
    if not incoming.group or hears_all(store, incoming.address):
        return
    tapped = incoming.kind is IncomingKind.TAP
    asking = Asking(person=incoming.sender, name=name) if tapped else Asking(to=incoming.message)
    for number, row in enumerate(work.outbox):
        if row.outgoing.address == incoming.address and _asks(row.outgoing):
            outgoing = dataclasses.replace(row.outgoing, wants_reply=asking)
            work.outbox[number] = dataclasses.replace(row, outgoing=outgoing)


def _asks(outgoing: Outgoing) -> bool:
    """Return whether a message is a question that is answered by typing: it ends a sentence so, and has no buttons."""
    answers = outgoing.kind is OutgoingKind.MESSAGE and outgoing.key.startswith("answer:")
    return answers and not outgoing.choices and "?" in outgoing.text


def _room_of(store: Store, address: Address) -> RoomWrite | None:
    """Return what is known of a room; a topic that nobody registered is as its group."""
    rooms = store.rooms()
    own = [room for room in rooms if room.address == address]
    chat = [room for room in rooms if (room.address.transport, room.address.chat) == (address.transport, address.chat)]
    return next(iter(own or chat), None)
