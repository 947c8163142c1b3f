"""The cook as a picture in the chat: on request, and with the messages in which people decide."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from bot.application.pictures import MOST_CAPTION_UNITS, is_caption
from bot.conversation.parsing.commands import command
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, on, window

CODE = "picture-1"
ASKED = (
    "chart",
    "/chart",
    "Picture please",
    "show me",
    "can I see a chart",
    "send me a picture of the brisket",
    "Bild",
    "zeig mir ein Bild",
    "graph",
)
NOT_ASKED = ("here is a picture", "show me the plan", "chart 165", "I took a picture of it", "the fan is on", "print")


@pytest.fixture
def messenger(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Return ribs planned by Ines in a private chat of the messenger, the cooker clean."""
    kitchen.invite(CODE, "owner")
    kitchen.say("Ines", f"/start {CODE}", room=chat("Ines"))
    kitchen.say("Ines", "7 racks of short ribs, dinner 18:00, pit 275", room=chat("Ines"))
    kitchen.say("Ines", "cooker clean", room=chat("Ines"))
    return kitchen


def on_the_fire(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Let the meat go on at 08:40."""
    kitchen.until(on("08:40"))
    for text in ("no ban", "lit at 7:40", "thin", "pit 270", "probe in", "meat is on", "raw side washed"):
        kitchen.mutter("Ines", text, room=chat("Ines"))
    return kitchen


def picture_of(heard: Heard) -> Image.Image:
    """Return the picture that came with a message."""
    assert heard.outgoing.document is not None
    assert heard.outgoing.document.media_type == "image/png"
    return Image.open(io.BytesIO(heard.outgoing.document.data))


def drawn(sent: list[Heard]) -> list[Heard]:
    """Return the messages that came with a picture."""
    return [h for h in sent if h.outgoing.document is not None and h.outgoing.document.media_type == "image/png"]


@pytest.mark.parametrize("text", ASKED)
def test_words_that_ask_for_a_picture(text: str) -> None:
    """In English and German, as a command and in plain words."""
    asked = command(text)
    assert getattr(asked, "topic", None) == "chart"


@pytest.mark.parametrize("text", NOT_ASKED)
def test_words_that_ask_for_something_else(text: str) -> None:
    """Only whole texts are wishes for a picture."""
    assert getattr(command(text), "topic", None) != "chart"


@pytest.mark.parametrize(
    ("text", "dark"), [("dark chart", True), ("chart in dark", True), ("dunkles Bild", True), ("light picture", False)]
)
def test_dark_and_light_can_be_asked_for(text: str, dark: bool) -> None:
    """Whoever wants it dark or light says so."""
    assert getattr(command(text), "dark", None) is dark


def test_whoever_asks_gets_a_picture_with_its_words(messenger: PlayedKitchen) -> None:
    """One message: the picture, and what it says in words short enough for a caption; nothing is written to the log."""
    on_the_fire(messenger)
    before = messenger.cook.version
    answer = messenger.say("Ines", "chart", room=chat("Ines"))
    image = picture_of(answer)
    assert image.width == 1080
    assert image.height > 1.4 * image.width
    assert answer.lines[0].startswith("Dinner 18:00: ")
    assert "off the fire" in answer.text
    assert answer.last.startswith("Next: ")
    assert len(answer.text) <= MOST_CAPTION_UNITS
    assert messenger.cook.version == before
    assert len(drawn(messenger.new)) == 1


def test_the_name_of_the_file_names_nobody(messenger: PlayedKitchen) -> None:
    """It says which cook, and when."""
    document = messenger.say("Ines", "chart", room=chat("Ines")).outgoing.document
    assert document is not None
    assert document.name == f"slowbell-{messenger.cook.id}-chart-{messenger.now:%m%d-%H%M}.png"


def test_a_terminal_gets_it_as_a_file_when_asked(ribs: PlayedKitchen) -> None:
    """A window gets the same answer; the file goes into the folder like every paper."""
    answer = ribs.say("Ines", "chart")
    assert answer.room == window("Ines")
    assert picture_of(answer).format == "PNG"


def corner_of(heard: Heard) -> int:
    """Return how light the ground of a picture is, 0 to 255."""
    found = picture_of(heard).convert("L").resize((1, 1), box=(0, 0, 6, 6)).tobytes()
    return found[0]


def test_it_is_dark_at_night_and_light_by_day(messenger: PlayedKitchen) -> None:
    """Where nobody says, the hour says: in bed a white picture blinds."""
    assert corner_of(messenger.say("Ines", "chart", room=chat("Ines"))) == 255
    dark = corner_of(messenger.say("Ines", "dark chart", room=chat("Ines")))
    assert dark < 40
    messenger.now = on("23:00")
    assert corner_of(messenger.say("Ines", "chart", room=chat("Ines"))) == dark


def test_the_pull_comes_with_a_picture(messenger: PlayedKitchen) -> None:
    """The message that asks for the pull carries one picture, with the same buttons and words; no message is added."""
    on_the_fire(messenger)
    for clock, value in (("11:00", "150"), ("12:30", "180"), ("13:30", "198")):
        messenger.until(on(clock))
        messenger.mutter("Ines", f"{value} F meat", room=chat("Ines"))
    messenger.mutter("Ines", "tender all over", room=chat("Ines"))
    sent = [*messenger.new, *messenger.later(60)]
    pulls = [heard for heard in sent if "Pull" in heard.text and heard.outgoing.kind == "message" and heard.labels]
    assert pulls
    assert drawn(pulls)[:1]
    assert all(len(heard.text) <= MOST_CAPTION_UNITS for heard in drawn(sent))


def test_a_verdict_that_turns_comes_with_a_picture(messenger: PlayedKitchen) -> None:
    """The message that tells that dinner is late now shows it."""
    on_the_fire(messenger)
    messenger.until(on("13:00"))
    messenger.mutter("Ines", "120 F meat", room=chat("Ines"))
    told = [heard for heard in messenger.new if "may be late" in heard.text and heard.outgoing.kind == "message"]
    assert told
    assert len(drawn(told)) == 1


def test_the_wrap_decision_comes_with_a_picture_once(messenger: PlayedKitchen) -> None:
    """Looking at the bark shows how the cook stands; asked again, it does not show it again."""
    on_the_fire(messenger)
    messenger.until(on("12:50"))
    messenger.mutter("Ines", "165 F meat", room=chat("Ines"))
    asked = [h for h in [*messenger.new, *messenger.until(on("14:40"))] if "Look at the bark" in h.text and h.labels]
    assert [h.text.startswith("Still open") for h in asked[:2]] == [False, True]
    assert [h.outgoing.document is not None for h in asked[:2]] == [True, False]


def test_a_window_is_not_filled_with_files(ribs: PlayedKitchen) -> None:
    """In a terminal no picture comes by itself: it would only be a line about a file."""
    sent = ribs.until(on("18:30"))
    assert sent
    assert drawn(sent) == []


def test_a_plain_reading_brings_no_picture(messenger: PlayedKitchen) -> None:
    """Pictures come at decisions, not with every number."""
    on_the_fire(messenger)
    messenger.until(on("10:10"))
    messenger.mutter("Ines", "115 F meat", room=chat("Ines"))
    assert drawn(messenger.new) == []


def test_a_picture_that_fails_holds_no_words_back(
    messenger: PlayedKitchen, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """When drawing fails, the message goes without the picture, and the log says so."""
    on_the_fire(messenger)
    messenger.until(on("13:00"))

    def broken(*_args: object, **_more: object) -> object:
        raise ValueError("no ink")

    monkeypatch.setattr("bot.papers.issue.chart_png", broken)
    messenger.mutter("Ines", "120 F meat", room=chat("Ines"))
    assert any("may be late" in heard.text for heard in messenger.new)
    assert drawn(messenger.new) == []
    assert "could not be drawn" in caplog.text


def test_the_last_cook_is_drawn_when_none_runs(messenger: PlayedKitchen) -> None:
    """After the end the chart of the cook that is over is given, and before any cook none."""
    on_the_fire(messenger)
    messenger.until(on("13:40"))
    for text in ("203 F meat", "tender all over", "pulled"):
        messenger.mutter("Ines", text, room=chat("Ines"))
    messenger.mutter("Ines", "end the cook", room=chat("Ines"))
    for label in ("Yes, call it off", "Yes"):
        if any(label in heard.labels for heard in messenger.new):
            messenger.tap("Ines", label, room=chat("Ines"))
    if not messenger.store.open_cooks():
        assert picture_of(messenger.say("Ines", "chart", room=chat("Ines"))).format == "PNG"


def test_without_any_cook_there_is_nothing_to_draw(kitchen: PlayedKitchen) -> None:
    """Asked before anything was planned, the answer is the usual one, without a picture."""
    kitchen.opens("Ines")
    answer = kitchen.say("Ines", "chart")
    assert answer.outgoing.document is None


def test_words_too_long_for_a_caption_go_without() -> None:
    """A caption has at most 1024 UTF-16 units, and some are kept for the name of the cook before it."""
    assert is_caption("x" * 960)
    assert not is_caption("x" * 961)
    assert not is_caption("🔥" * 481)
