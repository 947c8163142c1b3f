"""The record in the chat: both files to whoever asks, also of a cook that is over; offered when a public meal ends."""

from __future__ import annotations

import csv
import io

import pypdf

from bot.ports import Apply, CookWrite
from scheduler.facts import CareTold, Fact, PaperIssued
from tests.fakes.kitchen import Heard, PlayedKitchen, on


def files(kitchen: PlayedKitchen) -> dict[str, bytes]:
    """Return name and bytes of every file that was sent since the last action."""
    found = [heard.outgoing.document for heard in kitchen.new]
    return {one.name: one.data for one in found if one is not None}


def issued(kitchen: PlayedKitchen) -> list[PaperIssued]:
    """Return what the log says of records, oldest first."""
    bodies = [fact.body for fact in kitchen.cook.facts]
    return [body for body in bodies if isinstance(body, PaperIssued) and body.paper == "record"]


def made_public(kitchen: PlayedKitchen) -> None:
    """Write down that the meal is a public one."""
    cook, now = kitchen.cook, kitchen.now
    fact = Fact(
        id="public", cook=cook.id, piece=None, happened_at=now, recorded_at=now, by="Ines", body=CareTold(public=True)
    )
    write = CookWrite(cook=cook.id, expected_version=cook.version, facts=(fact,))
    assert kitchen.store.apply(Apply(now=now, cooks=(write,)))


def eaten(kitchen: PlayedKitchen) -> list[Heard]:
    """Cook the ribs to the end; return what was sent at last."""
    kitchen.until(on("15:00"))
    for text in ("203", "tender", "pulled"):
        kitchen.say("Ines", text)
    kitchen.until(on("18:00"))
    kitchen.say("Ines", "served")
    kitchen.until(on("19:30"))
    kitchen.say("Ines", "food away")
    sent: list[Heard] = []
    for _step in range(40):
        if not kitchen.store.open_cooks():
            break
        sent = kitchen.later(6 * 60)
    return sent


def test_both_files_come_to_whoever_asks(ribs: PlayedKitchen) -> None:
    """A PDF with a word what to do with it and when the next message comes, and the same as CSV."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/98")
    answer = ribs.say("Tomas", "temperature log")
    name = f"slowbell-{ribs.cook.id}-record-1"
    assert set(files(ribs)) == {f"{name}.pdf", f"{name}.csv"}
    first = next(heard for heard in ribs.new if heard.outgoing.document is not None)
    assert first.lines[0] == "The temperature log of this cook, no. 1, to print."
    assert first.last.startswith("Next: ")
    assert answer.room == first.room
    rows = list(csv.DictReader(io.StringIO(files(ribs)[f"{name}.csv"].decode("utf-8-sig"), newline="")))
    assert [row["by"] for row in rows if row["value_f"] == "98.0"] == ["Ines"]
    assert len(pypdf.PdfReader(io.BytesIO(files(ribs)[f"{name}.pdf"])).pages) >= 1


def test_records_are_counted_by_themselves(ribs: PlayedKitchen) -> None:
    """A page does not make the record the second; a second record does."""
    for text in ("page", "record", "record"):
        ribs.say("Ines", text)
    assert [one.sequence for one in issued(ribs)] == [0, 1]


def test_a_record_never_grows_old(planned: PlayedKitchen) -> None:
    """It tells what was, so a moved dinner offers no new one."""
    planned.say("Ines", "record")
    assert "print a new one" not in planned.say("Ines", "dinner at 19:30").text


def test_the_record_of_a_cook_that_is_over_can_be_had(ribs: PlayedKitchen) -> None:
    """An officer may ask a week later: the newest cook of the room is meant."""
    cook = ribs.cook.id
    eaten(ribs)
    assert not ribs.store.open_cooks()
    ribs.say("Ines", "record")
    assert set(files(ribs)) == {f"slowbell-{cook}-record-1.pdf", f"slowbell-{cook}-record-1.csv"}
    assert not ribs.store.open_cooks()


def offers(kitchen: PlayedKitchen) -> list[str]:
    """Return who was offered a record, message by message."""
    return [heard.room.chat for heard in kitchen.heard if 'type "record" for the temperature log' in heard.text]


def test_a_public_meal_ends_with_the_offer_of_a_record(ribs: PlayedKitchen) -> None:
    """One line, once for each of the crew, in the message that says that the food is away; not again days later."""
    made_public(ribs)
    eaten(ribs)
    assert sorted(offers(ribs)) == ["ines", "tomas"]


def test_a_private_meal_ends_without_it(ribs: PlayedKitchen) -> None:
    """Nobody at home is offered papers for an officer."""
    eaten(ribs)
    assert offers(ribs) == []


def test_where_nothing_was_cooked_there_is_no_record(kitchen: PlayedKitchen) -> None:
    """Asking before any cook is answered with words."""
    kitchen.opens("Ines")
    assert kitchen.say("Ines", "record").outgoing.document is None
