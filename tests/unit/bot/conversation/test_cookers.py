"""What is said of the cooker, the charcoal and the thermometer."""

from __future__ import annotations

import pytest

from bot.commands import Draft
from bot.conversation.interpreter import read
from scheduler.facts import CookerKind, ReadBy, Slot
from tests.unit.bot.conversation.spoken import plain, setting

NONE = "stage=none unit=F now=09:00"


def drafted(text: str) -> Draft:
    """Return everything that a text of a set-up says, in one draft."""
    said: dict[str, object] = {}
    for intent in read(text, setting(NONE)):
        assert isinstance(intent, Draft)
        said |= {name: value for name, value in intent if value not in (None, ()) and name != "kind"}
    return Draft(**said)  # type: ignore[arg-type]  # fields of drafts


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("on the kettle", "cooker kettle"),
        ("on the old kettle", "cooker kettle called the old kettle"),
        ("old kettle", "cooker kettle called the old kettle"),
        ("cooker: big blue", "cooker drum called Big Blue"),
        ("using my barrel today", "cooker drum"),
        ("it's the offset smoker", "cooker offset"),
        ("loaded 3 kg of charcoal", "charcoal in 3.00 kg"),
        ("2.5 kg lump in", "charcoal in 2.50 kg"),
        ("filled it with 4 lb briquettes", "charcoal in 1.81 kg"),
        ("charcoal: 3 kg", "charcoal in 3.00 kg"),
        ("added another 1.5 kg charcoal", "done refuel + charcoal added 1.50 kg"),
        ("topped up with 1 kg", "done refuel + charcoal added 1.00 kg"),
        ("loaded 4 kg charcoal and lit", "done light + charcoal in 4.00 kg"),
        ("lit at 8:50, 4 kg of lump in", "done light at 08:50 + charcoal in 4.00 kg"),
        ("wire", "read by wire"),
        ("the probe stays in", "read by wire"),
        ("i use a hand thermometer", "read by hand"),
        ("instant-read only", "read by hand"),
        ("no thermometer", "read by none"),
        ("we don't have a thermometer", "read by none"),
    ],
)
def test_while_a_cook_runs(text: str, understood: str) -> None:
    """A whole text about the cooker, the charcoal or the reader is understood as such."""
    assert plain(read(text, setting("stage=before unit=F now=09:00"))) == understood


@pytest.mark.parametrize(
    "text",
    [
        "bought 6 kg charcoal",
        "need 3 kg of charcoal",
        "2 kg of charcoal left",
        "3 kg of charcoal?",
        "how much charcoal",
    ],
)
def test_charcoal_that_is_not_in_the_cooker_is_no_charcoal_in_it(text: str) -> None:
    """What is bought, needed, left or asked about was not put in."""
    assert "charcoal in" not in plain(read(text, setting("stage=fire unit=F now=09:00")))


def test_a_bare_mass_answers_an_open_question_about_charcoal() -> None:
    """With the refuel open "1.5 kg" was added; with nothing open it is none of the charcoal."""
    assert plain(read("1.5 kg", setting("unit=F now=13:55", "refuel"))) == "done refuel + charcoal added 1.50 kg"
    assert "charcoal" not in plain(read("1.5 kg", setting("unit=F now=13:55")))


@pytest.mark.parametrize(
    "text", ["meat on the kettle at 11:00", "the kettle lid was open, 250", "chicken drum sticks", "171"]
)
def test_a_cooker_in_passing_changes_nothing(text: str) -> None:
    """Only a text that is about the cooker chooses one while a cook runs."""
    assert "cooker" not in plain(read(text, setting("unit=F now=13:55 last_core=166F@13:10")))


@pytest.mark.parametrize(
    ("text", "kind", "card"),
    [
        ("brisket 6 kg on the old kettle, dinner 18:00, pit 250", CookerKind.KETTLE, "the old kettle"),
        ("brisket 6 kg, dinner 18:00, pit 250, kettle", CookerKind.KETTLE, None),
        ("brisket 6 kg, dinner 18:00, pit 250, on the kettle", CookerKind.KETTLE, None),
        ("brisket 6 kg, dinner 18:00, pit 250, using the barrel", CookerKind.DRUM, None),
        ("brisket 6 kg, big blue, dinner 18:00, pit 250", CookerKind.DRUM, "Big Blue"),
    ],
)
def test_a_set_up_names_its_cooker(text: str, kind: CookerKind | None, card: str | None) -> None:
    """In one sentence with everything else, which is understood as without it."""
    draft = drafted(text)
    assert (draft.cut, draft.mass_kg) == ("brisket_packer", 6.0)
    assert draft.pit_low_c == pytest.approx(121.1, abs=0.1)
    assert draft.serving is not None
    assert draft.unknown_cut is None
    found = draft.cooker
    assert ((None, None) if found is None else (found.cooker, found.card)) == (kind, card)


def test_a_set_up_says_how_the_meat_is_read() -> None:
    """A hand thermometer beside the rest is no food and no pit."""
    draft = drafted("brisket 6 kg, dinner 18:00, pit 250, no thermometer")
    assert (draft.cut, draft.read_by, draft.ignored) == ("brisket_packer", ReadBy.NONE, ())


def test_since_when_it_is_on_is_kept_beside_the_cooker() -> None:
    """The name of a cooker does not take the time away: "on the kettle since 11" says two things."""
    draft = drafted("brisket on the kettle since 7:00, dinner 18:00")
    assert draft.cooker is not None
    assert draft.on_at is not None


def test_a_pit_that_rises_is_no_clock_time() -> None:
    """While the lighting is open "pit 200" is the pit, not two in the morning; a bare "900" still is the time."""
    assert plain(read("pit 200", setting("stage=before unit=F now=09:05", "light"))) == "reading pit 93.3"
    assert plain(read("900", setting("stage=before unit=F now=09:05", "light"))) == "done light at 09:00"


def test_a_dial_is_a_pit_read_in_the_lid() -> None:
    """The dial shows the pit, marked as read from the dial; "pit 240" is not."""
    for text, spot in (("dial 240", "dial"), ("240 on the dial", "dial"), ("lid says 240", "dial"), ("pit 240", None)):
        (intent,) = read(text, setting("unit=F now=13:55 last_core=166F@13:10 pit_target=250F"))
        assert intent.kind == "report", text
        (value,) = intent.values
        assert (value.slot, value.spot) == (Slot.PIT, spot), text
