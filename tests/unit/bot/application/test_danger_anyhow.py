"""Danger is heard however it comes in: typed, in an edited message, under a picture, from a guest, among several cooks.

What the words are is tested in the room of conversation; the cards in that of messages.
"""

from __future__ import annotations

import dataclasses

import pytest

from bot.chat import Address, Attachment, IncomingKind, OutgoingKind
from bot.commands import DANGERS
from bot.messages.board import board
from bot.messages.figures import Voice
from bot.messages.handover import handover_card
from scheduler.facts import Noted, PhotoKept, Reading, Slot, Troubled, Wrapped
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, group, on, window

LANE = group("Lane")
BRISKET = "brisket 12 lb, dinner 23:30, pit 250F"


def told_of(kitchen: PlayedKitchen, of: type) -> list[object]:
    """Return what of one kind was told, in order."""
    return [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, of)]


def loud(sent: list[Heard]) -> set[str]:
    """Return the rooms that heard something urgent."""
    return {one.room.chat for one in sent if one.outgoing.urgent}


def picture(kitchen: PlayedKitchen, name: str, caption: str, room: Address | None = None) -> list[Heard]:
    """Send a picture with words under it."""
    seen = Attachment(file="p1", media_type="image/jpeg", size_bytes=9)
    sent = kitchen.incoming(name, room or chat(name), IncomingKind.PHOTO, text=caption)
    return kitchen.does(dataclasses.replace(sent, attachment=seen))


@pytest.fixture
def crew(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Return a brisket in the group at noon, with Ines who leads, Tomas on watch and the guest Zoe."""
    kitchen.invite("0123456789abcdef", "owner")
    kitchen.say("Ines", "/start 0123456789abcdef", room=chat("Ines"))
    kitchen.does(kitchen.incoming("Ines", LANE, IncomingKind.ARRIVED))
    kitchen.say("Ines", BRISKET, room=LANE)
    kitchen.mutter("Ines", "no guests at risk", room=LANE)
    for name, role in (("Tomas", "watch"), ("Zoe", "guest")):
        kitchen.invite(f"code-of-{name}-1234", role)
        kitchen.say(name, f"/start code-of-{name}-1234", room=chat(name))
    kitchen.until(on("07:00"))
    kitchen.mutter("Ines", "meat on", room=LANE)
    kitchen.until(on("12:00"))
    return kitchen


EVERYWHERE = {"-lane", "ines", "tomas", "zoe"}


def test_danger_in_an_edited_message_is_loud_everywhere(crew: PlayedKitchen) -> None:
    """A number that becomes "grease fire" by an edit gets the card in every room; nothing that was typed is lost."""
    crew.mutter("Ines", "meat 140", room=LANE)
    message = crew.last_message
    sent = crew.edit(message, "Ines", "meat 140, grease fire", room=LANE)
    assert loud(sent) == EVERYWHERE
    assert Troubled(problem="grease_fire") in told_of(crew, Troubled)
    assert crew.edit(message, "Ines", "meat 140, grease fire.", room=LANE) == []


def test_an_edit_adds_what_it_tells(ribs: PlayedKitchen) -> None:
    """What an edit tells beside the number is taken as well: the pit, a wrap; a corrected number is corrected too."""
    ribs.until(on("11:00"))
    ribs.say("Ines", "meat 150")
    ribs.edit(ribs.last_message, "Ines", "meat 152, pit 270")
    pit = told_of(ribs, Reading)[-1]
    assert isinstance(pit, Reading)
    assert (pit.slot, round(pit.value_c)) == (Slot.PIT, 132)
    ribs.later(1)
    ribs.say("Ines", "meat 155")
    ribs.edit(ribs.last_message, "Ines", "meat 155, wrapped in paper")
    assert told_of(ribs, Wrapped)


def test_an_edit_that_says_nothing_is_kept(ribs: PlayedKitchen) -> None:
    """Words by which an edit replaces a number and which nobody understands are kept as a note."""
    ribs.until(on("11:00"))
    ribs.say("Ines", "meat 150")
    ribs.edit(ribs.last_message, "Ines", "well that was odd somehow")
    assert Noted(text="well that was odd somehow", understood=False) in told_of(ribs, Noted)


@pytest.mark.parametrize("text", ["grease fire", "Tomas burned his hand badly", "es brennt!"])
def test_danger_under_a_picture_is_loud_everywhere(crew: PlayedKitchen, text: str) -> None:
    """A picture of the fire with "grease fire" under it gets the card in every room; the picture is kept."""
    assert loud(picture(crew, "Tomas", text)) == EVERYWHERE
    assert told_of(crew, PhotoKept)


def test_a_question_under_a_picture_is_answered(crew: PlayedKitchen) -> None:
    """What stands under a picture is taken as if it had been typed."""
    (answer,) = [one for one in picture(crew, "Tomas", "what next") if one.sort == "answer"]
    assert "The picture is kept." in answer.text
    assert "Next" in answer.text


def test_a_picture_is_kept_although_its_number_is_refused(planned: PlayedKitchen) -> None:
    """Before the meat is on a number of it is refused; the picture is not lost."""
    picture(planned, "Ines", "meat 120", window("Ines"))
    assert len(told_of(planned, PhotoKept)) == 1


def test_no_sign_alone_while_a_caution_stands(crew: PlayedKitchen) -> None:
    """A reading under a caution is answered in words: a thumb would read as all being well."""
    crew.mutter("Tomas", "meat 100", room=LANE)
    crew.until(on("13:30"))
    views = crew.situation.views
    assert any(one.level != "note" for v in views for one in crew.situation.seen_from(v.piece).findings(crew.now))
    sent = crew.mutter("Tomas", "meat 112", room=LANE)
    assert not [one for one in sent if one.outgoing.kind is OutgoingKind.REACTION]
    assert [one for one in sent if one.sort == "answer"]


@pytest.mark.parametrize("text", ["kid fell in the coals", "hut is on fire", "im moving it into the shed, it rains"])
def test_a_guest_may_shout_at_night(crew: PlayedKitchen, text: str) -> None:
    """Danger that a guest tells in private at one at night is loud in every room, the number in the first lines."""
    crew.until(on("01:00", 1))
    sent = crew.mutter("Zoe", text, room=chat("Zoe"))
    assert loud(sent) == EVERYWHERE
    assert all("112 in Europe" in one.text for one in sent if one.outgoing.urgent)


def test_what_a_guest_may_not_report_goes_to_the_watch_unconfirmed(crew: PlayedKitchen) -> None:
    """A reading, and that the fire is out, come to whoever looks after it; nothing is taken as told; the fire loud."""
    before = len(told_of(crew, Reading))
    sent = crew.mutter("Zoe", "meat 100", room=chat("Zoe"))
    assert any("Zoe" in one.text and "meat 100" in one.text and one.room.chat != "zoe" for one in sent)
    assert len(told_of(crew, Reading)) == before
    crew.until(on("01:00", 1))
    sent = crew.mutter("Zoe", "fire is out", room=chat("Zoe"))
    others = [one for one in sent if one.room.chat != "zoe" and "fire is out" in one.text]
    assert others
    assert not any(one.outgoing.silent for one in others)
    assert Troubled(problem="fire_out") not in told_of(crew, Troubled)


def test_two_cooks_never_make_a_danger_wait(crew: PlayedKitchen) -> None:
    """With two cooks in a room nobody is asked which one the fire is about; the rooms of both hear it."""
    crew.say("Ines", "new cook: 3 racks spareribs, dinner 19:00, pit 250F", room=LANE)
    sent = crew.mutter("Tomas", "grease fire", room=LANE)
    assert loud(sent) >= EVERYWHERE
    assert not any("which cook" in one.text.casefold() for one in sent)


def test_the_fire_is_out_leaves_a_burn_as_it_is(crew: PlayedKitchen) -> None:
    """A burned child and a grease fire: "fire is out" ends the fire, told where it was told; the burn ends by name."""
    crew.until(on("01:00", 1))
    crew.mutter("Zoe", "kid burned her hand", room=chat("Zoe"))
    crew.mutter("Tomas", "grease fire", room=chat("Tomas"))
    sent = crew.mutter("Tomas", "fire is out", room=chat("Tomas"))
    assert "burn" in crew.situation.state.troubles
    assert "grease_fire" not in crew.situation.state.troubles
    assert {one.room.chat for one in sent if "does not burn any more" in one.text} == EVERYWHERE
    (answer,) = [one for one in crew.mutter("Tomas", "all good", room=chat("Tomas")) if one.sort == "answer"]
    assert "a burn" in answer.text
    assert "burn" in crew.situation.state.troubles
    crew.mutter("Tomas", "the burn is looked after", room=chat("Tomas"))
    assert "burn" not in crew.situation.state.troubles


@pytest.mark.parametrize("what", sorted(DANGERS))
def test_every_danger_stands_until_it_is_over(what: str, ribs: PlayedKitchen) -> None:
    """Each danger of the catalogue has people first and a button that ends it."""
    problem = ribs.situation.catalogue.remedies.problem(what)
    assert problem is not None
    assert problem.danger


def test_food_left_out_has_its_rule(crew: PlayedKitchen) -> None:
    """Food that stood out is answered with the two hours, the one of a hot day, and the bin."""
    answer = crew.say("Tomas", "I think the meat has been out for 3 hours", room=chat("Tomas"))
    assert "over 2 h (1 h on a hot day" in answer.text


def test_a_caution_taken_back_is_told_where_it_was_told(crew: PlayedKitchen) -> None:
    """At three at night a low reading is cautioned loud in the group; its undoing is said there as well."""
    crew.until(on("12:50"))
    crew.mutter("Tomas", "meat 90", room=chat("Tomas"))
    crew.until(on("13:20"))
    cautioned = crew.mutter("Tomas", "meat 91", room=chat("Tomas"))
    where = {one.room.chat for one in cautioned if one.outgoing.urgent}
    if where:
        sent = crew.mutter("Tomas", "undo", room=chat("Tomas"))
        assert where <= {one.room.chat for one in sent if "Caution taken back" in one.text}


def test_an_allergy_keeps_its_name_and_stands_on_the_board(crew: PlayedKitchen) -> None:
    """Whoever says "I am allergic" is named; board and the card of a handover name it, with a danger that stands."""
    crew.mutter("Zoe", "I am allergic to nuts", room=chat("Zoe"))
    crew.mutter("Tomas", "burned my hand", room=chat("Tomas"))
    voice = Voice(zone="UTC", unit="F", now=crew.now)
    for text in (board(crew.situation, voice).text, handover_card(crew.situation, voice)):
        assert "Allergies: nuts (Zoe)." in text
        assert "Danger told and not over: a burn." in text
