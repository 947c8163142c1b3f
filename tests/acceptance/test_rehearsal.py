"""The rehearsal as an acceptance test: what each person saw, and when."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable

import pytest

from bot.messages.steps import CAUTIONS
from bot.rehearsal import scene
from bot.rehearsal.record import Record, Seen
from bot.rehearsal.scene import CREW, INES, TOMAS, local
from bot.rehearsal.tally import MOST_MESSAGES, done_at, on_to_plate, own_accord
from scheduler.facts import Corrected, Felt, PutOff, Reading, Slot, StepDone, StepSkipped, Wrapped
from tests.acceptance.conftest import Rehearsed

MIN = dt.timedelta(minutes=1)
OTHER = {INES: TOMAS, TOMAS: INES}

KEY_MESSAGES = (
    ("Salt the meat", lambda _r: (local(18, 12), local(18, 17))),
    ("Light the fire", lambda r: (done_at(r, "meat_on") - 90 * MIN, done_at(r, "meat_on") - 55 * MIN)),
    ("meat on, lid shut", lambda r: (done_at(r, "light") + 40 * MIN, done_at(r, "meat_on"))),
    ("Read the pit (", lambda r: (done_at(r, "meat_on") + 30 * MIN, done_at(r, "meat_on") + 30 * MIN)),
    ("Read pit and meat", lambda r: (done_at(r, "meat_on") + 60 * MIN, done_at(r, "meat_on") + 120 * MIN)),
    ("Look at the bark", lambda r: (done_at(r, "meat_on") + 180 * MIN, done_at(r, "pull"))),
    ("Feel for tenderness", lambda r: (done_at(r, "pull") - 120 * MIN, done_at(r, "pull") - 10 * MIN)),
    ("Pull it now", lambda r: (done_at(r, "pull") - 10 * MIN, done_at(r, "pull"))),
    ("into the box", lambda r: (done_at(r, "pull") + 20 * MIN, done_at(r, "pull") + 20 * MIN)),
    ("Go, or move it once", lambda _r: (scene.DINNER_AT - 120 * MIN, scene.DINNER_AT - 85 * MIN)),
    ("Read the meat as you open it", lambda _r: (scene.DINNER_AT - 30 * MIN, scene.DINNER_AT - 10 * MIN)),
    ("Food out", lambda _r: (scene.DINNER_AT - 20 * MIN, scene.DINNER_AT)),
    ("Two hours is the limit", lambda r: (done_at(r, "serve") + 90 * MIN, done_at(r, "serve") + 90 * MIN)),
    ("Ash, if it is truly cold", lambda r: (done_at(r, "shutdown") + 2880 * MIN, done_at(r, "shutdown") + 2940 * MIN)),
)  # fmt: skip
"""(words, window in which they first appear), in the order in which they do."""


def first_with(record: Record, who: str, words: str) -> Seen:
    """Return the first message on somebody's screen that holds these words outside its last line."""
    return next(seen for seen in record.seen if seen.who == who and words in without_next(seen.row.text))


def without_next(text: str) -> str:
    """Return a message without the line about the next one."""
    return "\n".join(line for line in text.split("\n") if not line.startswith("Next: "))


def follows_plan(record: Record) -> list[Seen]:
    """Return what was seen from the plan on: before that there is no next message to be told."""
    start = next(i for i, seen in enumerate(record.seen) if "meat on" in seen.row.text)
    return record.seen[start:]


# --- who saw what, and when -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("who", CREW)
@pytest.mark.parametrize(("words", "window"), KEY_MESSAGES, ids=[words for words, _ in KEY_MESSAGES])
def test_a_key_message_comes_in_its_time(
    rehearsed: Rehearsed, who: str, words: str, window: Callable[[Record], tuple[dt.datetime, dt.datetime]]
) -> None:
    """Each person sees each key message when it is due: after what was done, or before dinner."""
    early_at, late_at = window(rehearsed.record)
    assert early_at <= first_with(rehearsed.record, who, words).at <= late_at + dt.timedelta(seconds=30)


@pytest.mark.parametrize("who", CREW)
def test_key_messages_come_in_the_order_of_a_cook(rehearsed: Rehearsed, who: str) -> None:
    """From salt to ash each person sees the key messages in the order in which things are done."""
    times = [first_with(rehearsed.record, who, words).at for words, _ in KEY_MESSAGES]
    assert times == sorted(times)


def test_what_comes_by_itself_comes_to_both_at_once(rehearsed: Rehearsed) -> None:
    """By day a message that nobody's line brought stands on both screens, at the same instant, in the same words;
    before seven only whoever leads is woken.
    """
    own = {
        who: [(s.at, s.row.text, s.row.choices and [label for label, _ in s.row.choices])
              for s in rehearsed.record.seen if s.who == who and s.caused_by is None]
        for who in CREW
    }  # fmt: skip
    by_day = {who: [one for one in own[who] if 7 <= one[0].astimezone(scene.CLOCK).hour < 22] for who in CREW}
    assert by_day[INES] == by_day[TOMAS]
    assert own[TOMAS] == by_day[TOMAS]
    assert len(own[INES]) > len(KEY_MESSAGES) - 5


def test_the_other_sees_one_line_about_what_somebody_did(rehearsed: Rehearsed) -> None:
    """When one reports, the other sees it at once, with the name before it."""
    typed = {"lit": INES, "probe is in": TOMAS, "meat is on": INES, "boxed": TOMAS, "food is out": INES}
    for line, who in typed.items():
        said_at = next(t.at for t in rehearsed.record.typed if t.line == line)
        echo = [s for s in rehearsed.record.seen if s.who == OTHER[who] and s.at == said_at and s.caused_by == who]
        assert [s.row.text.startswith(f"{who}: ") for s in echo] == [True]


def test_carbon_monoxide_is_named_with_the_fire(rehearsed: Rehearsed) -> None:
    """Whoever is told to light the fire is told of carbon monoxide in the same message."""
    for who in CREW:
        assert "carbon monoxide" in first_with(rehearsed.record, who, "Light the fire").row.text


# --- how much is said -----------------------------------------------------------------------------------------------


def test_every_message_ends_with_when_the_next_one_comes(rehearsed: Rehearsed) -> None:
    """From the plan on the last line of each message says when the program comes by itself, or that it will not."""
    last = [seen.row.text.split("\n")[-1] for seen in follows_plan(rehearsed.record)]
    assert [line for line in last if not re.match(r"(Next: .|That was )", line)] == []


def test_the_next_message_comes_when_it_was_told(rehearsed: Rehearsed) -> None:
    """A message that comes by itself comes at the told time, give or take ten minutes, or says that it does not."""
    for who in CREW:
        told: str | None = None
        for seen in (s for s in follows_plan(rehearsed.record) if s.who == who):
            if (
                told is not None
                and seen.caused_by is None
                and not re.match(r"(Later|Earlier) than I said", seen.row.text)
            ):
                said_at = _told_at(told, seen.at)
                assert abs(seen.at - said_at) <= 11 * MIN, seen.row.text
            told = seen.row.text.split("\n")[-1]


def _told_at(line: str, near: dt.datetime) -> dt.datetime:
    found = re.match(r"Next: (?:\w{3} )?(\d\d):(\d\d)", line)
    assert found, line
    local_day = near.astimezone(scene.CLOCK)
    return local(local_day.day, int(found[1]), int(found[2]))


def cautions_of(record: Record, who: str) -> list[list[str]]:
    """Return the cautions in each message on somebody's screen, as they were read."""
    mine = (seen.row.text.split("\n") for seen in record.seen if seen.who == who)
    return [[line for line in shown if line.startswith("Careful: ")] for shown in mine]


@pytest.mark.parametrize("who", CREW)
def test_ten_cautions_at_most_and_never_two_in_a_message(rehearsed: Rehearsed, who: str) -> None:
    """What a person saw of cautions in a cook by day: eight to ten, one in a message or none, twenty words each."""
    told = cautions_of(rehearsed.record, who)
    assert {len(found) for found in told} == {0, 1}
    every = [line.removeprefix("Careful: ") for found in told for line in found]
    assert 8 <= len(every) <= 10
    assert [line for line in every if len(line.split()) > 20] == []


def test_the_gravest_cautions_of_the_rehearsal_are_those_told(rehearsed: Rehearsed) -> None:
    """Carbon monoxide comes with the lighting and again with the shutdown; nothing else comes twice; of what a cook by
    day has no room for nothing is graver than what it tells.
    """
    every = [line.removeprefix("Careful: ") for found in cautions_of(rehearsed.record, INES) for line in found]
    names = [next(name for name, words in CAUTIONS.items() if words() == line) for line in every if line in _plain()]
    assert sorted(names) == ["ash", "ban", "co", "co", "hold", "hot", "minimum", "raw", "site", "unattended"]


def _plain() -> set[str]:
    return {words() for words in CAUTIONS.values()}


@pytest.mark.parametrize("who", CREW)
def test_few_messages_from_meat_on_to_plate(rehearsed: Rehearsed, who: str) -> None:
    """The program sends one person at most fourteen messages of its own accord from meat on to plate, and some."""
    assert 7 <= len(own_accord(rehearsed.record, who)) <= MOST_MESSAGES


def test_few_messages_also_when_reports_bring_the_next_thing_to_do(rehearsed: Rehearsed) -> None:
    """The limit holds for Tomas even if whatever asks him something counts, also when a line of Ines brought it."""
    asked = [s for s in on_to_plate(rehearsed.record, TOMAS) if s.row.choices and s.caused_by != TOMAS]
    assert len(asked) <= MOST_MESSAGES + 5


# --- the cook itself ------------------------------------------------------------------------------------------------


def test_things_are_done_in_order(rehearsed: Rehearsed) -> None:
    """Meat on, wrap decided, pulled, boxed, read, sliced, food out: in this order."""
    record = rehearsed.record
    wrapped_at = next(f.happened_at for f in record.facts if isinstance(f.body, Wrapped))
    read_at = max(
        f.happened_at for f in record.facts
        if isinstance(f.body, Reading) and f.body.slot is Slot.CORE and f.happened_at < done_at(record, "serve")
    )  # fmt: skip
    times = [
        done_at(record, "light"), done_at(record, "meat_on"), wrapped_at, done_at(record, "pull"),
        done_at(record, "box_meat"), read_at, done_at(record, "slice"), done_at(record, "serve"),
    ]  # fmt: skip
    assert times == sorted(set(times))


def test_dinner_is_on_time(rehearsed: Rehearsed) -> None:
    """The food is out at six, within five minutes, and nobody was ever told that it would be late."""
    record = rehearsed.record
    assert abs(done_at(record, "serve") - scene.DINNER_AT) <= 5 * MIN
    assert [s.row.text for s in record.seen if ": late by" in s.row.text or "not measured as safe" in s.row.text] == []


def test_nothing_is_served_unmeasured(rehearsed: Rehearsed) -> None:
    """The safe minimum is told when it is measured, and the meat is read again before it is sliced."""
    record = rehearsed.record
    told = first_with(record, INES, "Safe minimum passed")
    assert done_at(record, "meat_on") < told.at < done_at(record, "pull")
    read = [
        f.body.value_c for f in record.facts
        if isinstance(f.body, Reading) and f.body.slot is Slot.CORE and done_at(record, "box_meat") < f.happened_at
    ]  # fmt: skip
    assert 1 <= len(read) <= 3  # on opening, and before when the vent was long
    assert min(read) > 63.0


def test_tenderness_decides(rehearsed: Rehearsed) -> None:
    """The meat is felt until it slides in; only then is the pull asked for."""
    record = rehearsed.record
    feels = [f.body.feel.value for f in record.facts if isinstance(f.body, Felt)]
    assert feels[-1] == "tender"
    assert set(feels[:-1]) <= {"tight", "almost"}
    assert feels[:-1]
    felt_at = max(f.happened_at for f in record.facts if isinstance(f.body, Felt))
    assert first_with(record, INES, "Pull it now").at == felt_at


# --- what people told -----------------------------------------------------------------------------------------------


def test_the_stall_is_told_while_the_meat_stands_still(rehearsed: Rehearsed) -> None:
    """The stall is announced calmly, after readings that hardly rise, and so is its end; a slip may end it for a
    minute.
    """
    record = rehearsed.record
    said = [s for s in record.seen if s.who == INES and "The stall has begun" in s.row.text]
    over = [s for s in record.seen if s.who == INES and "the stall is over" in s.row.text]
    assert 1 <= len(said) == len(over) <= 2
    assert said[0].at < over[-1].at < done_at(record, "pull")


def test_a_move_of_later_prompts_is_announced(rehearsed: Rehearsed) -> None:
    """When the meat runs slower or faster, both are told what moved, by how much and how dinner stands."""
    for who in CREW:
        moves = [s.row.text for s in rehearsed.record.seen if s.who == who and "The meat runs " in s.row.text]
        assert len(moves) >= 2
        for text in moves:
            assert "Dinner " in text
            spans = re.findall(r"\([+-](?:(\d+) h)? ?(?:(\d+) min)?\)", text)
            assert spans
            assert all(60 * int(h or 0) + int(m or 0) >= 30 for h, m in spans)


def test_a_slip_of_the_fingers_is_put_right(rehearsed: Rehearsed) -> None:
    """A number typed wrong is corrected by one line; the log keeps both."""
    record = rehearsed.record
    line = next(t for t in record.typed if t.line.startswith("sorry "))
    right, wrong = (int(number) for number in re.findall(r"\d+", line.line))
    fixed = [f.body for f in record.facts if isinstance(f.body, Corrected)]
    assert len(fixed) == 1
    old = next(f.body for f in record.facts if f.id == fixed[0].of)
    assert isinstance(old, Reading)
    assert isinstance(fixed[0].body, Reading)
    assert [round(one.value_c * 1.8 + 32) for one in (fixed[0].body, old)] == [right, wrong]
    answer = next(s for s in record.seen if s.at == line.at and s.who == line.who)
    assert answer.row.text.startswith(f"Changed: meat {right} F")


def test_a_late_reply_is_dated_by_when_it_was_so(rehearsed: Rehearsed) -> None:
    """Figures told twenty minutes late with their time stand in the log at that time."""
    record = rehearsed.record
    line = next(t for t in record.typed if re.search(r" at \d\d:\d\d$", t.line))
    hour, minute = (int(n) for n in line.line[-5:].split(":"))
    readings = [f for f in record.facts if isinstance(f.body, Reading) and f.recorded_at == line.at]
    assert len(readings) == 2
    assert {f.happened_at for f in readings} == {local(19, hour, minute)}
    assert line.at - local(19, hour, minute) >= 15 * MIN


def test_not_yet_is_asked_again_and_skip_is_not(rehearsed: Rehearsed) -> None:
    """What is not yet so comes back; what is skipped does not."""
    record = rehearsed.record
    put_off = next(f for f in record.facts if isinstance(f.body, PutOff) and f.body.step == "box_meat")
    assert isinstance(put_off.body, PutOff)
    boxes = [s for s in record.seen if s.who == TOMAS and "into the box" in without_next(s.row.text)]
    assert [s.at for s in boxes][-1] == put_off.body.until
    skipped = [f.body.step for f in record.facts if isinstance(f.body, StepSkipped)]
    assert skipped == ["heat_parts_in"]
    assert len([s for s in record.seen if s.who == INES and "Deflector" in s.row.text]) == 1


def test_a_number_told_early_is_not_asked_for_again(rehearsed: Rehearsed) -> None:
    """After a reading that nobody asked for, the question that was about to come does not come."""
    record = rehearsed.record
    line = next(t for t in record.typed if re.fullmatch(r"meat \d+", t.line))
    soon = [s for s in record.seen if line.at < s.at <= line.at + 30 * MIN and s.who == INES and s.caused_by is None]
    assert [s.row.text for s in soon if "Read the meat" in s.row.text or "Read pit and meat" in s.row.text] == []


def test_a_letter_stands_for_a_choice(rehearsed: Rehearsed) -> None:
    """In the terminal a choice is taken by its letter."""
    record = rehearsed.record
    line = next(t for t in record.typed if re.fullmatch(r"[a-z]", t.line))
    done = [f.body.step for f in record.facts if isinstance(f.body, StepDone) and f.recorded_at == line.at]
    assert done == ["leftovers"]


def test_every_line_was_understood(rehearsed: Rehearsed) -> None:
    """Nothing the crew typed was left as a riddle."""
    assert [s.row.text for s in rehearsed.record.seen if "I did not get" in s.row.text] == []
