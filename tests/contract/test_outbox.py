"""Messages as they are written: once per key, taken back, overtaken; and what their buttons mean."""

from __future__ import annotations

import dataclasses

import pytest

from bot.chat import Address, Asking, Choice, Declined, Document, Lack, Outgoing, OutgoingKind, Sent, TryAgain
from bot.ports import Apply, Fate, OutboxWrite
from bot.store import SqlStore, errors
from tests.contract.sending import attempt, claim, keys
from tests.contract.written import INES, LEASE, NOON, TOMAS, after, edit, message, put, with_choices


def test_a_message_comes_back_as_it_was_written(store: SqlStore) -> None:
    """Every field of an outgoing survives: buttons in their rows, flags, instants, odd characters."""
    outgoing = Outgoing(
        key="m1",
        address=Address(transport="memory", chat="-100123", thread=7),
        kind=OutgoingKind.MESSAGE,
        text="Wrap now.\n<b> & 🔥",
        choices=(
            (Choice(label="done", token="t1"), Choice(label="not yet", token="t2")),
            (Choice(label="skip", token="t3"),),
        ),
        silent=True,
        urgent=True,
        target="x",
        useful_until=after(hours=1),
        wants_reply=Asking(to="memory:9", person="5", name="Ines"),
    )
    put(store, OutboxWrite(outgoing=outgoing, meanings=({"n": 1}, {"n": 2}, {"n": 3})))
    (row,) = claim(store)
    assert row.outgoing == outgoing
    assert (row.attempt, row.target_ref) == (1, None)


def test_a_file_goes_with_its_message_until_it_has_arrived(store: SqlStore) -> None:
    """A file is kept byte for byte: after an attempt that failed, and after one that nobody recorded."""
    every_byte = Document(name="plan.pdf", media_type="application/pdf", data=bytes(range(256)) * 300)
    put(store, message("m1", document=every_byte), message("m2", TOMAS))
    first, other = claim(store)
    assert (first.outgoing.document, other.outgoing.document) == (every_byte, None)
    assert store.record(other, Sent(ref="2"), NOON)
    assert store.record(first, TryAgain(wait=LEASE, why="no network"), NOON)
    (second,) = claim(store, after(minutes=1))
    assert second.outgoing.document == every_byte
    assert claim(store, after(minutes=3)) == ()
    (third,) = claim(store, after(minutes=4))
    assert (third.outgoing.document, third.outgoing.possible_repeat) == (every_byte, True)


def test_a_key_is_stored_once_with_its_first_file(store: SqlStore) -> None:
    """Writing a key again with another file changes nothing."""
    put(store, message("m1", document=Document(name="a.ics", media_type="text/calendar", data=b"first")))
    put(store, message("m1", document=Document(name="b.ics", media_type="text/calendar", data=b"second")))
    (row,) = claim(store)
    assert row.outgoing.document is not None
    assert row.outgoing.document.data == b"first"


def test_a_key_is_stored_once(store: SqlStore) -> None:
    """Writing a key again leaves what is there, even after it was sent; the rest of the decision is written."""
    put(store, message("m1"))
    attempt(store, Sent(ref="1"))
    other = dataclasses.replace(message("m1", TOMAS), cook="lunch")
    assert store.apply(Apply(now=NOON, outbox=(other, message("m2"))))
    assert keys(claim(store)) == ["m2"]


def test_a_waiting_message_can_be_withdrawn(store: SqlStore) -> None:
    """It is never sent; what is on its way or sent stays, and an unknown key is nothing."""
    put(store, message("m1"), message("m2"), message("m3"))
    attempt(store, Sent(ref="1"))
    (second,) = claim(store)
    store.apply(Apply(now=NOON, withdraw_outbox=("m1", "m2", "m3", "never")))
    counts = store.outbox_counts()
    assert (counts["sent"], counts["sending"], counts["withdrawn"]) == (1, 1, 1)
    assert store.record(second, Sent(ref="2"), NOON)
    assert claim(store) == ()


def test_an_edit_learns_where_its_message_went(store: SqlStore) -> None:
    """It waits for its message to be sent and carries the reference of it."""
    put(store, message("m1"), edit("e1", "m1"))
    assert keys(claim(store, limit=5)) == ["m1"]
    (row,) = claim(store, now=after(minutes=5))
    store.record(row, Sent(ref="chat:77"), after(minutes=5))
    (change,) = claim(store)
    assert (change.outgoing.key, change.target_ref) == ("e1", "chat:77")


def test_an_edit_of_what_was_never_sent_has_no_reference(store: SqlStore) -> None:
    """The transport is told so and decides."""
    put(store, edit("e1", "never"))
    (change,) = claim(store)
    assert change.target_ref is None


@pytest.mark.parametrize("kind", [OutgoingKind.PIN, OutgoingKind.UNPIN])
def test_a_pin_learns_where_its_message_went(store: SqlStore, kind: OutgoingKind) -> None:
    """Like an edit it carries the reference of its message."""
    put(store, message("m1"), message("p1", kind=kind, target="m1"))
    attempt(store, Sent(ref="chat:77"))
    (row,) = claim(store)
    assert (row.outgoing.kind, row.target_ref) == (kind, "chat:77")


def test_the_fate_of_a_message_is_told(store: SqlStore) -> None:
    """Waiting, sent, over; of a key that was never written, nothing."""
    put(store, message("m1"), message("m2"))
    assert store.fate("m1") == Fate(sent=False, over=False)
    attempt(store, Sent(ref="1"))
    store.apply(Apply(now=NOON, withdraw_outbox=("m2",)))
    assert store.fate("m1") == Fate(sent=True, over=False)
    assert store.fate("m2") == Fate(sent=False, over=True)
    assert store.fate("never") is None


def test_a_message_whose_edit_was_declined_is_gone(store: SqlStore) -> None:
    """What an edit or a pin finds out about its message is remembered with the message; it is not tried again."""
    put(store, message("m1"), edit("e1", "m1"))
    attempt(store, Sent(ref="1"))
    attempt(store, Declined(lack=Lack.GONE, why="deleted"))
    found = store.fate("m1")
    assert found is not None
    assert (found.sent, found.gone, found.lack) == (True, True, Lack.GONE)
    assert store.fate("e1") == Fate(sent=False, over=True, lack=Lack.GONE)
    assert claim(store, after(hours=1)) == ()


def test_a_pin_without_a_right_leaves_its_message_as_it_was(store: SqlStore) -> None:
    """The reason is remembered with the pin alone."""
    put(store, message("m1"), message("p1", kind=OutgoingKind.PIN, target="m1"))
    attempt(store, Sent(ref="1"))
    attempt(store, Declined(lack=Lack.PIN, why="no right"))
    assert store.fate("m1") == Fate(sent=True, over=False)
    assert store.fate("p1") == Fate(sent=False, over=True, lack=Lack.PIN)


def test_an_edit_knows_whether_its_message_went_with_a_file(store: SqlStore) -> None:
    """What is shown of a message, and an edit that is claimed, say whether its text is a caption."""
    chart = Document(name="chart.png", media_type="image/png", data=b"a chart")
    put(store, message("m1", document=chart), message("m2"))
    attempt(store, Sent(ref="1"))
    attempt(store, Sent(ref="2"))
    put(store, edit("e1", "m1"), edit("e2", "m2"))
    claimed = [attempt(store, Sent(ref=ref)) for ref in "12"]
    assert [(row.outgoing.key, row.target_ref, row.target_file) for row in claimed] == [
        ("e1", "1", True),
        ("e2", "2", False),
    ]
    shown = [store.shown(key) for key in ("m1", "m2", "made-up")]
    assert [None if one is None else (one.text, one.captioned) for one in shown] == [
        (claimed[0].outgoing.text, True),
        (claimed[1].outgoing.text, False),
        None,
    ]


def test_what_waits_is_listed(store: SqlStore) -> None:
    """Oldest first, with when it was written and its cook, of one room or of all; what is on its way is not listed."""
    put(store, message("m1"), with_choices("t1", "a", address=TOMAS))
    put(store, message("m2"), now=after(minutes=5))
    claim(store)
    assert [(one.key, one.cook, one.created_at) for one in store.waiting()] == [("m2", None, after(minutes=5))]
    assert [one.key for one in store.waiting(TOMAS)] == []
    assert [one.key for one in store.waiting(INES)] == ["m2"]


def test_a_newer_edit_overtakes_a_waiting_one(store: SqlStore) -> None:
    """Only the newest text of a message is sent; an edit on its way, and edits of others, stay."""
    put(store, message("m1"))
    attempt(store, Sent(ref="1"))
    put(store, edit("e1", "m1"))
    (under_way,) = claim(store)
    put(store, edit("e2", "m1"), edit("x1", "other"), edit("e3", "m1"))
    assert store.outbox_counts()["superseded"] == 1
    assert store.record(under_way, Sent(), NOON)
    assert keys(attempt(store, Sent()) for _ in range(2)) == ["x1", "e3"]


def test_an_old_edit_written_again_overtakes_nothing(store: SqlStore) -> None:
    """A repeated decision does not bring back an older text."""
    put(store, edit("e1", "m1"), edit("e2", "m1"), edit("e1", "m1"))
    assert keys(claim(store)) == ["e2"]


def test_counts_name_every_state(store: SqlStore) -> None:
    """An empty outbox counts zero everywhere, possible repeats included."""
    assert store.outbox_counts() == dict.fromkeys(
        ("waiting", "sending", "sent", "parked", "dropped", "withdrawn", "superseded", "possible_repeat"), 0
    )


# --- choices --------------------------------------------------------------------------------------------------------


def test_a_button_is_found_by_its_token(store: SqlStore) -> None:
    """Its meaning, label, message, room and cook are what was written; an unknown token means nothing."""
    put(store, with_choices("m1", "done", "skip"))
    choice = store.choice("m1-skip")
    assert choice is not None
    assert (choice.label, choice.outbox_key, choice.address, choice.cook) == ("skip", "m1", INES, "supper")
    assert choice.meaning == {"kind": "press", "label": "skip"}
    assert store.choice("made-up") is None


def test_every_choice_needs_a_meaning(store: SqlStore) -> None:
    """A message whose buttons and meanings differ in number is refused whole."""
    broken = dataclasses.replace(with_choices("m1", "done", "skip"), meanings=({"kind": "press"},))
    with pytest.raises(errors.BrokenWrite):
        store.apply(Apply(now=NOON, outbox=(message("m0"), broken)))
    assert store.outbox_counts()["waiting"] == 0


def test_open_choices_are_those_of_the_newest_message_with_choices(store: SqlStore) -> None:
    """They come in order, per room; later messages without choices do not close them."""
    put(
        store,
        with_choices("m1", "a", "b"),
        with_choices("m2", "c", "a"),
        message("m3"),
        with_choices("t1", "z", address=TOMAS),
    )
    assert [one.token for one in store.open_choices(INES)] == ["m2-c", "m2-a"]
    assert [one.label for one in store.open_choices(TOMAS)] == ["z"]


def test_a_message_nobody_can_have_seen_does_not_close_the_choices_of_one_that_was_sent(store: SqlStore) -> None:
    """What waits or was taken back takes over only when it has left."""
    put(store, with_choices("m1", "a"))
    attempt(store, Sent(ref="1"))
    put(store, with_choices("m2", "b"))
    assert [one.label for one in store.open_choices(INES)] == ["a"]
    attempt(store, Sent(ref="2"))
    assert [one.label for one in store.open_choices(INES)] == ["b"]
    put(store, with_choices("m3", "c"))
    attempt(store, TryAgain(wait=LEASE, why="busy"))
    store.apply(Apply(now=NOON, withdraw_outbox=("m3",)))
    assert [one.label for one in store.open_choices(INES)] == ["b"]
