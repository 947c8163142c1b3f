"""Rooms: registered, paused, and moved to another address."""

from __future__ import annotations

from bot.chat import Address, Moved, Sent, Unreachable
from bot.ports import Apply, RoomWrite, SessionWrite
from bot.store import SqlStore
from tests.contract.sending import claim, keys
from tests.contract.written import INES, NOON, TOMAS, message, new_cook, put, with_choices

OLD = Address(transport="memory", chat="-100")
NEW = Address(transport="memory", chat="-900")


def active(address: Address, *, title: str = "", group: bool = False) -> Apply:
    """Return the write that registers a room as usable."""
    return Apply(now=NOON, rooms=(RoomWrite(address=address, title=title, group=group),))


def test_rooms_are_listed_in_order_of_registration(store: SqlStore) -> None:
    """A new title replaces the old one; no title leaves it."""
    store.apply(active(OLD, title="Harrow Lane", group=True))
    store.apply(active(INES, title="Ines"))
    store.apply(active(OLD, group=True))
    store.apply(active(INES, title="Ines at the fire"))
    assert store.rooms() == (
        RoomWrite(address=OLD, title="Harrow Lane", group=True),
        RoomWrite(address=INES, title="Ines at the fire"),
    )


def test_messages_for_a_room_that_is_away_are_held(store: SqlStore) -> None:
    """A blocked chat gets nothing, others do; all its messages come once it is back, in order."""
    put(store, message("m1"), message("m2"), message("t1", TOMAS))
    first, other = claim(store)
    assert store.record(first, Unreachable(why="blocked"), NOON)
    store.record(other, Unreachable(why="blocked"), NOON)
    store.apply(active(TOMAS))
    assert [room.active for room in store.rooms()] == [False, True]
    assert keys(claim(store)) == ["t1"]
    assert store.next_send_at(["memory"]) is not None
    assert keys(claim(store)) == []
    store.apply(active(INES))
    assert keys(claim(store)) == ["m1"]
    assert store.outbox_counts()["waiting"] == 1


def test_a_pause_holds_for_every_topic_of_the_chat(store: SqlStore) -> None:
    """Whoever is thrown out of a group is thrown out of its topics."""
    topic = Address(transport="memory", chat=OLD.chat, thread=7)
    put(store, message("m1", OLD), message("m2", topic))
    plain, _ = claim(store)
    store.record(plain, Unreachable(why="kicked"), NOON)
    put(store, message("m3", topic))
    assert store.next_send_at(["memory"]) is None
    store.apply(active(topic))
    assert keys(claim(store)) == ["m1"]


def test_how_a_room_is_spoken_to_is_kept_until_it_is_said_anew(store: SqlStore) -> None:
    """Language and unit stay when the room is registered again without them, and go along when it moves."""
    store.apply(Apply(now=NOON, rooms=(RoomWrite(address=OLD, language="de", unit="C"),)))
    store.apply(active(OLD, title="Harrow Lane", group=True))
    assert store.rooms() == (RoomWrite(address=OLD, title="Harrow Lane", group=True, language="de", unit="C"),)
    store.apply(Apply(now=NOON, rooms=(RoomWrite(address=OLD, unit="F", group=True),)))
    assert store.apply(Apply(now=NOON, moved_room=(OLD, NEW)))
    assert [(one.address, one.language, one.unit) for one in store.rooms()] == [(NEW, "de", "F")]


def test_a_moved_room_takes_everything_along(store: SqlStore) -> None:
    """Cooks, waiting messages, conversations and choices follow; doing it again changes nothing."""
    store.apply(active(OLD, title="Harrow Lane", group=True))
    store.apply(new_cook(add_rooms=(OLD, INES)))
    store.apply(Apply(now=NOON, sessions=(SessionWrite(address=OLD, person="a", data={"step": "cut"}),)))
    put(store, message("gone", OLD), with_choices("ask", "yes", "no", address=OLD))
    move = Apply(now=NOON, moved_room=(OLD, NEW))
    for _ in range(2):
        assert store.apply(move)
        cook = store.cook("supper")
        assert cook is not None
        assert cook.rooms == (NEW, INES)
        assert store.open_cooks(NEW) == ("supper",)
        assert (store.session(OLD, "a"), store.session(NEW, "a")) == (None, {"step": "cut"})
        assert [one.label for one in store.open_choices(NEW)] == ["yes", "no"]
        assert store.rooms() == (RoomWrite(address=NEW, title="Harrow Lane", group=True),)
    (row,) = claim(store)
    assert row.outgoing.address == NEW


def test_a_room_may_move_to_where_it_is_known_already(store: SqlStore) -> None:
    """When the new address was heard of first, its own rows stay and the old ones are not doubled."""
    store.apply(active(OLD, title="old"))
    store.apply(active(NEW, title="new"))
    store.apply(new_cook(add_rooms=(OLD, NEW)))
    sessions = tuple(SessionWrite(address=one, person="a", data={"at": one.chat}) for one in (OLD, NEW))
    store.apply(Apply(now=NOON, sessions=sessions))
    assert store.apply(Apply(now=NOON, moved_room=(OLD, NEW)))
    cook = store.cook("supper")
    assert cook is not None
    assert cook.rooms == (NEW,)
    assert store.session(NEW, "a") == {"at": NEW.chat}
    assert [room.title for room in store.rooms()] == ["new"]


def test_a_message_that_finds_its_chat_moved_goes_to_the_new_address_at_once(store: SqlStore) -> None:
    """The outcome of one attempt moves the room and all that waits for it, in order."""
    put(store, message("m1", OLD), message("m2", OLD))
    (row,) = claim(store)
    assert store.record(row, Moved(to=NEW), NOON)
    (again,) = claim(store)
    assert (again.outgoing.key, again.outgoing.address) == ("m1", NEW)
    assert not again.outgoing.possible_repeat


def test_two_addresses_that_point_at_one_another_come_to_an_end(store: SqlStore) -> None:
    """A message is not chased round for ever: it is parked."""
    put(store, message("m1", OLD))
    tries = 0
    while rows := claim(store):
        tries += 1
        store.record(rows[0], Moved(to=NEW if rows[0].outgoing.address == OLD else OLD), NOON)
    assert tries < 20
    assert store.outbox_counts()["parked"] == 1


def test_what_a_room_lets_it_hear_is_kept(store: SqlStore) -> None:
    """Not known at first; what was found out stays until something else is, and None leaves it, False does not."""
    heard = []
    for hears_all in (None, False, None, True, None):
        store.apply(Apply(now=NOON, rooms=(RoomWrite(address=OLD, group=True, hears_all=hears_all),)))
        heard.append(store.rooms()[0].hears_all)
    assert heard == [None, False, False, True, True]


def test_a_topic_that_is_gone_leaves_everything_to_its_chat(store: SqlStore) -> None:
    """Cook, conversation, choices and what waits go to the group itself; other topics stay where they are."""
    gone, other = (Address(transport="memory", chat=OLD.chat, thread=thread) for thread in (7, 8))
    store.apply(active(gone, title="Supper", group=True))
    store.apply(active(other, title="Garden", group=True))
    store.apply(new_cook(add_rooms=(gone, other)))
    store.apply(Apply(now=NOON, sessions=(SessionWrite(address=gone, person="a", data={"step": "cut"}),)))
    put(store, with_choices("ask", "yes", "no", address=gone), message("next", gone), message("else", other))
    first, _ = claim(store)
    assert store.record(first, Sent(ref="1", at=OLD), NOON)
    cook = store.cook("supper")
    assert cook is not None
    assert cook.rooms == (OLD, other)
    assert (store.session(gone, "a"), store.session(OLD, "a")) == (None, {"step": "cut"})
    assert [one.label for one in store.open_choices(OLD)] == ["yes", "no"]
    assert [room.address for room in store.rooms()] == [OLD, other]
    assert [row.outgoing.address for row in claim(store)] == [OLD]
