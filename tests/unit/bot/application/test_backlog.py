"""Which late messages are told together, and what of it fits in eight lines."""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from bot.application.backlog import (
    MOST_LINES,
    SHORTENED,
    Heard,
    late_rows,
    overdue,
    summary_lines,
    within,
)
from bot.chat import Address, Outgoing, OutgoingKind
from bot.ports import WaitingRow

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


def heard(*minutes_ago: float | None, source: str = "telegram:1") -> list[Heard]:
    """Return rows sent so many minutes ago; None is a tap."""
    return [
        Heard(row=number, source=source, sent_at=None if ago is None else NOON - ago * MINUTE)
        for number, ago in enumerate(minutes_ago)
    ]


def test_two_that_come_late_are_a_backlog() -> None:
    """What was sent more than three minutes ago is late; the others are answered as ever."""
    assert late_rows(heard(40, 30, 1, 0), NOON) == {0, 1}


def test_one_late_message_is_answered_by_itself() -> None:
    """It needs no summary."""
    assert late_rows(heard(40, 1, 0), NOON) == frozenset()


def test_a_tap_is_as_late_as_what_came_before_it() -> None:
    """A tap does not say when it was pressed: between late messages of its source it is late, after a fresh one not."""
    assert late_rows(heard(40, None, 30, None, 0, None), NOON) == {0, 1, 2, 3}
    other = [*heard(40, 30), Heard(row=9, source="terminal", sent_at=None)]
    assert late_rows(other, NOON) == {0, 1}


def test_each_answer_gives_its_first_line_and_the_newest_all_of_it() -> None:
    """What was understood of each message, and how things stand after the last."""
    told = summary_lines(["Core 160 F.\nNext: 13:10.", "Pit 250 F.\nNext: 13:40.", "Wrapped.\nRest 2 h.\nNext: 14:10."])
    assert told == (0, ("Core 160 F.", "Pit 250 F.", "Wrapped.", "Rest 2 h.", "Next: 14:10."))


def test_the_oldest_give_way() -> None:
    """Ten answers do not fit: the newest are told, how many are not is known."""
    left_out, told = summary_lines([f"Reading {number}.\nNext: 13:{number}0." for number in range(10)])
    assert left_out == 5
    assert told == ("Reading 5.", "Reading 6.", "Reading 7.", "Reading 8.", "Reading 9.", "Next: 13:90.")


def test_a_line_that_names_a_cook_is_joined_to_what_it_says() -> None:
    """Where several cooks run, the name alone would say nothing."""
    assert summary_lines(["Brisket:\nCore 160 F.", "Ribs.\nNext."])[1][0] == "Brisket: Core 160 F."


@given(st.lists(st.lists(st.text("ab", min_size=1), min_size=1, max_size=12), min_size=1, max_size=30))
def test_a_summary_always_fits(texts: list[list[str]]) -> None:
    """With its heading, and the line that counts what is left out, at most eight lines; the last always stays."""
    left_out, told = summary_lines(["\n".join(text) for text in texts])
    assert 1 + bool(left_out) + len(told) <= MOST_LINES
    assert told[-1] == texts[-1][-1]
    assert 0 <= left_out < len(texts)


@given(st.lists(st.text("ab", min_size=1), min_size=1, max_size=30), st.integers(0, 6))
def test_lines_are_shortened_in_the_middle(found: list[str], keep: int) -> None:
    """What must be kept and the last line stay; what is left out is marked."""
    shown = within(found, keep=keep)
    assert len(shown) <= MOST_LINES
    assert shown[: min(keep, len(found))] == tuple(found[:keep])
    assert shown[-1] == found[-1]
    assert (SHORTENED in shown) is (len(found) > MOST_LINES)


def waiting(key: str, minutes_ago: float, **changes: object) -> WaitingRow:
    """Return a message written so many minutes ago that still waits."""
    outgoing = Outgoing(**{"key": key, "address": Address(transport="telegram", chat="1"), "text": key, **changes})  # type: ignore[arg-type]  # any field of a message
    return WaitingRow(outgoing=outgoing, cook="supper", created_at=NOON - minutes_ago * MINUTE)


def test_messages_that_wait_for_long_are_told_as_one() -> None:
    """Two or more, the oldest for more than ten minutes: all of them are out of date, the newest as well."""
    old = [waiting("prompt:1", 30), waiting("prompt:2", 5)]
    assert overdue(old, NOON) == tuple(old)


def test_what_has_just_been_written_is_sent_as_it_is() -> None:
    """A short pause of the messenger makes no summary, and one message alone needs none."""
    assert overdue([waiting("prompt:1", 9), waiting("prompt:2", 5)], NOON) == ()
    assert overdue([waiting("prompt:1", 300), waiting("prompt:2", 1)], NOON) == ()
    assert overdue([waiting("prompt:1", 300)], NOON) == ()


def test_what_is_urgent_waits_as_long_as_it_takes() -> None:
    """Food safety, the board, its edits and pins are never replaced."""
    kept = [
        waiting("stop:1", 30, urgent=True),
        waiting("board:supper:x", 30),
        waiting("e", 30, kind=OutgoingKind.EDIT),
        waiting("p", 30, kind=OutgoingKind.PIN),
    ]
    old = [waiting("prompt:1", 30), waiting("prompt:2", 20)]
    assert overdue([*kept, *old], NOON) == tuple(old)


def test_a_file_that_was_asked_for_waits() -> None:
    """Nothing says again what is on it."""
    page = dataclasses.replace(waiting("answer:1", 30), has_file=True)
    assert overdue([page, waiting("prompt:1", 30)], NOON) == ()
