"""The rule table of delivery, over every kind of message, every outcome and every history."""

from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from bot.chat import Address, Locked, Moved, Outcome, OutgoingKind, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.store.aftermath import LONGEST_WAIT, MAX_FAILURES, After, Attempted, abandoned, after
from bot.store.tables import OutboxState

NOW = dt.datetime(2026, 9, 12, 12, 0, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)

OUTCOMES = st.one_of(
    st.builds(Sent, ref=st.none() | st.just("7")),
    st.builds(
        TryAgain, wait=st.just(MINUTE), why=st.just("w"), costs_attempt=st.booleans(), whole_transport=st.booleans()
    ),
    st.just(Moved(to=Address(transport="memory", chat="new"))),
    st.sampled_from([Unreachable(why="u"), Rejected(why="r"), Unknown(why="?"), Locked(why="l")]),
)
ROWS = st.builds(
    Attempted,
    kind=st.sampled_from(OutgoingKind),
    failures=st.integers(0, MAX_FAILURES - 1),
    unknown_count=st.integers(0, 1),
    possible_repeat=st.booleans(),
)


def of(outcome: Outcome, kind: OutgoingKind = OutgoingKind.MESSAGE, **history: int) -> After:
    """Return what becomes of a message with this history."""
    return after(history_of(kind, **history), outcome, NOW)


def history_of(kind: OutgoingKind = OutgoingKind.MESSAGE, **history: int) -> Attempted:
    """Return a message that has been tried before."""
    fields = {"failures": 0, "unknown_count": 0, **history}
    return Attempted(kind=kind, possible_repeat=fields["unknown_count"] > 0, **fields)


@given(row=ROWS, outcome=OUTCOMES)
def test_nothing_ends_without_a_reason(row: Attempted, outcome: Outcome) -> None:
    """Whatever is not sent and does not wait says why, and so does what is only believed to be sent."""
    result = after(row, outcome, NOW)
    assert result.state in {OutboxState.WAITING, OutboxState.SENT, OutboxState.PARKED, OutboxState.DROPPED}
    assert result.why or isinstance(outcome, Sent)
    assert (result.sent_at is not None) == (result.state is OutboxState.SENT)


@given(row=ROWS, outcome=OUTCOMES)
def test_only_an_unknown_fate_of_a_message_makes_a_possible_repeat(row: Attempted, outcome: Outcome) -> None:
    """A mark once made stays, and is made for nothing else."""
    result = after(row, outcome, NOW)
    unsure = isinstance(outcome, Unknown) and row.kind is OutgoingKind.MESSAGE
    assert result.possible_repeat == (row.possible_repeat or unsure)
    assert result.unknown_count == row.unknown_count + unsure


@given(row=ROWS, outcome=OUTCOMES)
def test_failures_only_grow_and_end_in_parking(row: Attempted, outcome: Outcome) -> None:
    """A message that has failed too often never waits again."""
    result = after(row, outcome, NOW)
    assert row.failures <= result.failures <= row.failures + 1
    assert not (result.failures >= MAX_FAILURES and result.state is OutboxState.WAITING)


@given(outcome=OUTCOMES)
def test_a_tap_answer_never_waits(outcome: Outcome) -> None:
    """Its first outcome is its last."""
    assert of(outcome, OutgoingKind.TAP_ANSWER).state is not OutboxState.WAITING


@given(row=ROWS)
def test_a_death_is_never_taken_for_a_delivery(row: Attempted) -> None:
    """A message whose courier died waits, marked, until it is parked; what is idempotent is not marked; all say why."""
    result = abandoned(row, NOW)
    assert result.state in {OutboxState.WAITING, OutboxState.PARKED, OutboxState.DROPPED}
    assert (result.state is OutboxState.DROPPED) == (row.kind is OutgoingKind.TAP_ANSWER)
    assert result.possible_repeat == (row.possible_repeat or row.kind is OutgoingKind.MESSAGE)
    assert result.unknown_count == row.unknown_count
    assert result.why
    assert result.sent_at is None


def test_the_first_death_costs_no_wait() -> None:
    """After one death a message goes again at once, after more it waits, longer each time."""
    first, *more = [abandoned(history_of(failures=at), NOW).not_before for at in range(MAX_FAILURES - 1)]
    waits = [at - NOW for at in more if at is not None]
    assert first is None
    assert len(waits) == len(more)
    assert waits == sorted(waits)
    assert waits[0] > dt.timedelta(0)


def test_waits_for_idempotent_repeats_grow_to_a_limit() -> None:
    """Each failure doubles the wait, up to the longest."""
    waits = [of(Unknown(why="?"), OutgoingKind.EDIT, failures=at).not_before for at in range(MAX_FAILURES - 1)]
    spans = [at - NOW for at in waits if at is not None]
    assert spans == sorted(spans)
    assert spans[1] == 2 * spans[0]
    assert spans[-1] == LONGEST_WAIT


def test_a_message_is_never_sent_three_times_blindly() -> None:
    """After the second unknown it counts as sent, and says that nobody answered."""
    first = of(Unknown(why="time-out"))
    second = of(Unknown(why="time-out"), unknown_count=first.unknown_count)
    assert (first.state, second.state) == (OutboxState.WAITING, OutboxState.SENT)
    assert second.why == "sent twice, no answer: time-out"


def test_columns_end_the_lease() -> None:
    """Recording frees the row: no owner, no lease."""
    columns = of(Sent(ref="7")).columns()
    assert (columns["owner"], columns["lease_until"], columns["ref"]) == (None, None, "7")
