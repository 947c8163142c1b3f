"""Pictures that people send: kept with the step that is open, their words read, and no answer by themselves."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from bot.chat import Attachment, IncomingKind, OutgoingKind
from scheduler.facts import Slot
from scheduler.units import f_from_c
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window


@pytest.fixture
def kitchen(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which the bark is asked for."""
    played = PlayedKitchen(tmp_path, on("06:00"))
    played.opens("Ines")
    played.say("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    played.say("Ines", "no guests at risk")
    played.now = on("07:00")
    played.say("Ines", "meat on")
    played.until(on("13:00"))
    played.say("Ines", "pit 250, meat 163")
    played.until(on("14:00"))
    return played


def sends(kitchen: PlayedKitchen, caption: str = "", kind: IncomingKind = IncomingKind.PHOTO) -> list[Heard]:
    """Return what is sent when Ines sends a picture."""
    sent = kitchen.incoming("Ines", window("Ines"), kind, text=caption)
    return kitchen.does(dataclasses.replace(sent, attachment=Attachment(file="f1", media_type="image/jpeg")))


def test_a_picture_is_kept_with_the_open_step_and_answers_nothing(kitchen: PlayedKitchen) -> None:
    """The bytes are asked for under a name that tells nothing; the bark is still to be answered, with its buttons."""
    open_before = {prompt.step.id for prompt in kitchen.situation.waiting}
    sent = sends(kitchen)
    (fetch,) = [one for one in sent if one.outgoing.kind is OutgoingKind.FETCH]
    assert "ines" not in fetch.text.casefold()
    (photo,) = kitchen.situation.state.photos
    assert photo.step in open_before
    assert {prompt.step.id for prompt in kitchen.situation.waiting} == open_before
    answer = next(one for one in sent if one.sort == "answer")
    assert answer.text.startswith("Picture kept with: ")
    assert "Still to answer: " in answer.text
    assert answer.labels


def test_what_is_written_under_it_is_read(kitchen: PlayedKitchen) -> None:
    """A number in the caption is a reading like any other."""
    sends(kitchen, "meat 166")
    core = kitchen.situation.state.last(Slot.CORE)
    assert core is not None
    assert round(f_from_c(core.value_c)) == 166
    assert len(kitchen.situation.state.photos) == 1


def test_they_are_listed_when_asked_for(kitchen: PlayedKitchen) -> None:
    """When, with what, of whom."""
    assert kitchen.say("Ines", "photos").text.startswith("No pictures yet.")
    sends(kitchen)
    assert "(Ines)" in kitchen.say("Ines", "photos").text


def test_a_voice_note_gets_one_kind_sentence(kitchen: PlayedKitchen) -> None:
    """It cannot be heard; what would work is said."""
    answer = next(one for one in sends(kitchen, kind=IncomingKind.VOICE) if one.sort == "answer")
    assert answer.text.startswith("I cannot listen to voice notes. Type it short, like 178")
