"""Who may come in, and what each may do: the terminal, codes and links, strangers, and a group of helpers."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

from bot.chat import Address, IncomingKind
from bot.crew import Role
from scheduler.facts import Discarded
from tests.fakes.kitchen import PlayedKitchen, chat, group, on, window
from tests.unit.bot.application.conftest import RIBS

CODE = "0123456789abcdef"
ALLOTMENT = group("Allotment")
PRIVATE = "This is a private kitchen. Ask its owner for a link; it lets one person in."
SPENT = "That code is spent or too old. Ask for a new one."


def roles(kitchen: PlayedKitchen) -> dict[str, Role]:
    """Return everybody's role, by name."""
    return {person.name: person.role for person in kitchen.store.people()}


@pytest.fixture
def owned(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen on the messenger whose owner is Ines."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"), link_prefix="https://example.org/bell?start=")
    kitchen.invite(CODE, "owner")
    kitchen.say("Ines", f"/start {CODE}", room=chat("Ines"))
    return kitchen


@pytest.fixture
def running(owned: PlayedKitchen) -> PlayedKitchen:
    """Return the same with ribs planned in the private chat of Ines."""
    owned.say("Ines", RIBS, room=chat("Ines"))
    owned.say("Ines", "cooker clean", room=chat("Ines"))
    return owned


@pytest.fixture
def grouped(owned: PlayedKitchen) -> PlayedKitchen:
    """Return the same with ribs planned in a group that Ines added the bot to."""
    owned.does(owned.incoming("Ines", ALLOTMENT, IncomingKind.ARRIVED))
    owned.say("Ines", RIBS, room=ALLOTMENT)
    owned.say("Ines", "cooker clean", room=ALLOTMENT)
    return owned


def link_code(kitchen: PlayedKitchen) -> str:
    """Return a fresh code that Ines asked for."""
    text = kitchen.say("Ines", "invite", room=chat("Ines")).text
    found = re.search(r"https://example\.org/bell\?start=(\S+)", text)
    assert found
    return found.group(1)


# --- the terminal ---------------------------------------------------------------------------------------------------


def test_the_first_at_the_terminal_is_the_owner_the_next_leads_the_fire(kitchen: PlayedKitchen) -> None:
    """Whoever can open the data folder is trusted: the first one owns it, others may do everything about a cook."""
    kitchen.opens("Ines")
    kitchen.opens("Tomas")
    assert roles(kitchen) == {"Ines": Role.OWNER, "Tomas": Role.FIRE_LEAD}


def test_two_people_of_one_name_can_be_told_apart(owned: PlayedKitchen) -> None:
    """The second Ines gets a number, so that echoes name who it was."""
    owned.opens("Ines")
    assert set(roles(owned)) == {"Ines", "Ines 2"}


def test_who_comes_later_is_told_where_things_stand(planned: PlayedKitchen) -> None:
    """A window opened while a cook runs is told what comes next, and hears from then on."""
    hello = planned.opens("Wren")
    assert "Dinner 18:00: on time" in hello.text
    assert hello.last.startswith("Next: ")
    planned.say("Ines", "dinner at 7")
    assert planned.told("Wren")[0].text.startswith("Ines: Dinner moved to 19:00.")


# --- codes and links --------------------------------------------------------------------------------------------------


def test_the_owner_comes_in_by_the_console_code(owned: PlayedKitchen) -> None:
    """The code of the console makes the owner, greets by name and asks what is cooking."""
    assert roles(owned) == {"Ines": Role.OWNER}
    assert owned.heard[-1].text.startswith("Hello Ines. You are the owner here now; the code is spent.")
    assert "What is cooking?" in owned.heard[-1].text


@pytest.mark.parametrize("text", ["{}", "join {}", "/start {}", "/join {}"])
def test_a_code_may_be_said_in_four_ways(kitchen: PlayedKitchen, text: str) -> None:
    """By its link, after join, or all by itself."""
    kitchen.invite(CODE, "owner")
    assert "You are the owner here now" in kitchen.say("Ines", text.format(CODE), room=chat("Ines")).text


def test_a_code_is_spent_by_its_first_use(owned: PlayedKitchen) -> None:
    """The second person with the same code is told that it is spent, and stays a stranger."""
    assert owned.say("Tomas", f"/start {CODE}", room=chat("Tomas")).text == SPENT
    assert set(roles(owned)) == {"Ines"}


def test_a_code_expires(kitchen: PlayedKitchen) -> None:
    """A code older than its day lets nobody in."""
    kitchen.invite(CODE, "owner", hours=24)
    kitchen.now = on("06:01", 1)
    assert kitchen.say("Ines", f"/start {CODE}", room=chat("Ines")).text == SPENT
    assert roles(kitchen) == {}


def test_a_link_lets_one_person_in_who_follows_the_cook(running: PlayedKitchen) -> None:
    """By a link somebody joins the running cook: told how it stands, with a board, and echoes from then on."""
    code = link_code(running)
    hello = running.say("Tomas", f"/start {code}", room=chat("Tomas"))
    assert hello.text.startswith("Hello Tomas. You are in.")
    assert hello.last.startswith("Next: ")
    assert any(heard.sort == "board" and heard.room == chat("Tomas") for heard in running.new)
    assert roles(running)["Tomas"] is Role.WATCH
    running.say("Ines", "dinner at 7", room=chat("Ines"))
    assert running.told(chat("Tomas"))[0].text.startswith("Ines: Dinner moved to 19:00.")
    running.say("Tomas", "lit", room=chat("Tomas"))
    assert running.told(chat("Ines"))[0].text.startswith("Tomas: Lit")
    assert running.say("Wren", f"/start {code}", room=chat("Wren")).text == SPENT


def test_the_owner_stays_the_owner_with_another_code(owned: PlayedKitchen) -> None:
    """A known person who opens a link keeps their role."""
    owned.say("Ines", f"/start {link_code(owned)}", room=chat("Ines"))
    assert roles(owned) == {"Ines": Role.OWNER}


def test_invite_ends_with_what_comes_next(running: PlayedKitchen) -> None:
    """While a cook runs the answer to invite ends like every other one, and a terminal is told its own way in."""
    assert running.say("Ines", "invite", room=chat("Ines")).last.startswith("Next: ")


def test_who_is_here(planned: PlayedKitchen) -> None:
    """The people can be asked for, with what each of them is."""
    assert planned.say("Ines", "who is here").lines[0] == "Here: Ines (owner), Tomas (fire lead)."


# --- strangers --------------------------------------------------------------------------------------------------------


def test_a_stranger_gets_one_sentence_and_nothing_else(running: PlayedKitchen) -> None:
    """To /start one sentence; to everything else silence; nothing of the cook, and nothing is written down."""
    room = chat("Wren")
    assert [heard.text for heard in running.mutter("Wren", "/start", room=room)] == [PRIVATE]
    length = len(running.cook.facts)
    for text in ("how long", "178", "pulled", "invite", "undo", "wrongcode", "stop"):
        assert running.mutter("Wren", text, room=room) == []
    assert running.does(running.incoming("Wren", room, IncomingKind.ARRIVED)) == []
    assert running.edit("m3", "Wren", "178", room=room) == []
    assert len(running.cook.facts) == length
    assert set(roles(running)) == {"Ines"}
    running.until(on("08:00"))
    assert running.told(room) == []


def test_strangers_in_a_group_of_strangers(owned: PlayedKitchen) -> None:
    """In a group that nobody here belongs to not a word is said, not even hello."""
    elsewhere = group("Elsewhere")
    assert owned.does(owned.incoming("Wren", elsewhere, IncomingKind.ARRIVED)) == []
    assert owned.mutter("Wren", "/start", room=elsewhere) == []
    assert owned.mutter("Wren", "how long", room=elsewhere) == []


# --- a group ----------------------------------------------------------------------------------------------------------


def test_a_group_is_greeted_by_whoever_may_start(owned: PlayedKitchen) -> None:
    """Added by the owner, the bot says in one breath what it does there."""
    sent = owned.does(owned.incoming("Ines", ALLOTMENT, IncomingKind.ARRIVED))
    assert [heard.text.split(".")[0] for heard in sent] == ["Hello"]


def test_members_of_the_group_may_report(grouped: PlayedKitchen) -> None:
    """Whoever writes in the group is a helper: may ask and report."""
    grouped.until(on("07:30"))
    assert grouped.say("Bashir", "lit", room=ALLOTMENT).lines[0] == "Lit, 07:30."
    assert "Dinner 18:00" in grouped.say("Bashir", "how long", room=ALLOTMENT).text
    assert roles(grouped)["Bashir"] is Role.HELPER


@pytest.mark.parametrize("text", ["dinner at 7", "pit to 250"])
def test_what_a_helper_may_not_decide_is_asked(grouped: PlayedKitchen, text: str) -> None:
    """Dinner and pit are for whoever decides, who is asked; whoever said it hears who, until when, and what else."""
    before = grouped.situation.state.serving, grouped.situation.state.pit
    answer = grouped.say("Bashir", text, room=ALLOTMENT)
    assert answer.lines[0].startswith("Ines decides that, and is asked now: ")
    assert answer.lines[1].startswith("Answer by ")
    (asked,) = grouped.told(chat("Ines"), "lever")
    assert asked.text.startswith("Bashir asks: ")
    assert asked.labels == ("Yes", "No")
    assert (grouped.situation.state.serving, grouped.situation.state.pit) == before


@pytest.mark.parametrize("text", ["only decisions", "call it off", "invite"])
def test_a_helper_may_not_decide(grouped: PlayedKitchen, text: str) -> None:
    """How much is told, calling off and inviting need more: said kindly, with who may, and nothing changed."""
    length = len(grouped.cook.facts)
    answer = grouped.say("Bashir", text, room=ALLOTMENT)
    assert answer.lines[0].startswith("As helper you cannot change that here: Ines decides about ")
    assert answer.lines[1] == (
        "Nothing has changed. You can always ask how long, and always say if somebody is in danger."
    )
    assert len(grouped.cook.facts) == length


def test_chatter_is_kept_without_a_word(grouped: PlayedKitchen) -> None:
    """What people say to one another is kept in the log and not answered."""
    sent = grouped.mutter("Bashir", "lovely weather for it", room=ALLOTMENT)
    assert [heard for heard in sent if heard.sort != "board"] == []
    assert grouped.cook.facts[-1].body.kind == "noted"


def test_chatter_while_nothing_cooks(owned: PlayedKitchen) -> None:
    """With nothing cooking, talk in a group brings no questions."""
    owned.does(owned.incoming("Ines", ALLOTMENT, IncomingKind.ARRIVED))
    assert owned.mutter("Bashir", "lovely weather for it", room=ALLOTMENT) == []


def test_what_is_no_text_is_said_to_be_unreadable(running: PlayedKitchen) -> None:
    """A photo or a voice note is answered in one sentence."""
    sent = running.does(running.incoming("Ines", chat("Ines"), IncomingKind.OTHER))
    assert sent[0].lines[0] == "I can only read text so far. Type what it shows, please."
    assert sent[0].last.startswith("Next: ")


# --- rooms that go and come -------------------------------------------------------------------------------------------


def test_a_room_that_left_hears_nothing_until_it_is_back(running: PlayedKitchen) -> None:
    """Blocked: silence in that room, the others go on. Back: told how things stand, and reached again."""
    running.say("Tomas", f"/start {link_code(running)}", room=chat("Tomas"))
    running.does(running.incoming("Tomas", chat("Tomas"), IncomingKind.LEFT))
    sent = running.until(on("08:20"))
    assert {heard.room for heard in sent} == {chat("Ines")}
    back = running.does(running.incoming("Tomas", chat("Tomas"), IncomingKind.ARRIVED))
    assert any("Light the fire" in heard.text or "light the fire" in heard.text for heard in back)
    running.say("Ines", "lit", room=chat("Ines"))
    assert running.told(chat("Tomas"))[0].text.startswith("Ines: Lit, 08:20.")


def test_a_group_that_moved_is_followed(grouped: PlayedKitchen) -> None:
    """A group that became a supergroup has a new address: the cook goes on there, and the old one hears nothing."""
    new = Address(transport="telegram", chat="-100allotment")
    grouped.does(dataclasses.replace(grouped.incoming("Ines", ALLOTMENT, IncomingKind.MOVED), moved_to=new))
    rooms = {heard.room for heard in grouped.until(on("08:20"))}
    assert new in rooms
    assert ALLOTMENT not in rooms
    assert grouped.say("Bashir", "lit", room=new).lines[0] == "Lit, 08:20."


def test_a_cook_of_the_terminal_is_no_business_of_the_messenger(planned: PlayedKitchen) -> None:
    """Who joins on the messenger does not see a cook that runs in terminals only."""
    planned.invite(CODE, "watch")
    hello = planned.say("Bashir", f"/start {CODE}", room=chat("Bashir"))
    assert "Dinner" not in hello.text
    planned.until(on("08:20"))
    assert {heard.room for heard in planned.new} == {window("Ines"), window("Tomas")}


# --- thrown away, told in a group -------------------------------------------------------------------------------------


def test_discarding_told_by_a_helper_is_one_tap_for_the_lead(grouped: PlayedKitchen) -> None:
    """In a group: thanked by name, asked in the same loud message with the button; a helper's tap records nothing."""
    answer = grouped.say("Wren", "threw it out", room=ALLOTMENT)
    assert answer.lines[0] == "Thank you, Wren. Whoever leads the fire records that."
    assert "Wren says that the meat was thrown away. Is it so? One tap records it with your name." in answer.text
    assert (answer.outgoing.urgent, answer.outgoing.silent) == (True, False)
    grouped.tap("Wren", "Thrown away", room=ALLOTMENT)
    cook = grouped.cook.id
    assert not grouped.situation.state.discarded
    told = grouped.tap("Ines", "Thrown away", room=ALLOTMENT)
    assert told.lines[0].startswith("Thrown away, nobody eats it")
    kept = grouped.store.cook(cook)
    assert kept is not None
    assert [fact.by for fact in kept.facts if isinstance(fact.body, Discarded)] == ["Ines"]
