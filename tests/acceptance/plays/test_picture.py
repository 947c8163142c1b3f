"""A cook shown as a picture, on every stage: asked for in a chat, and with the message in which dinner turned."""

from __future__ import annotations

import datetime as dt

from tests.fakes.kitchen import on
from tests.fakes.stages import MessengerStage, Stage


def on_the_fire(stage: Stage) -> None:
    """Let Ines plan ribs, and put them on at 08:40."""
    stage.comes("Ines")
    stage.says("Ines", "7 racks of short ribs, dinner 18:00, pit 275")
    stage.says("Ines", "cooker clean")
    stage.until(on("08:40"))
    for text in ("no ban", "lit at 7:40", "thin", "pit 270", "probe in", "meat is on", "raw side washed"):
        stage.says("Ines", text)


def test_whoever_asks_sees_the_cook(stage: Stage) -> None:
    """The answer says in words what the picture shows; a photo on the messenger, a file in a window."""
    on_the_fire(stage)
    stage.until(on("09:00"))
    stage.says("Ines", "show me")
    newest = stage.screen("Ines")[-1]
    assert "Dinner 18:00: " in newest
    assert "off the fire" in newest
    if stage.name == "terminal":
        assert "-chart-" in newest
        assert ".png" in newest
    if isinstance(stage, MessengerStage):
        (photo,) = [seen for seen in stage.fake.messages(stage.fake.private("Ines")) if seen.photo]
        assert photo.text.startswith("Dinner 18:00: ")


def test_a_turn_of_dinner_comes_with_one_picture(stage: Stage) -> None:
    """On the messenger the message that tells that dinner may be late is a photo with its buttons; elsewhere words."""
    on_the_fire(stage)
    stage.until(on("13:00"))
    stage.says("Ines", "120 F meat")
    assert "may be late" in stage.all_seen("Ines")
    assert "Do nothing" in stage.labels("Ines")
    if isinstance(stage, MessengerStage):
        photos = [seen for seen in stage.fake.messages(stage.fake.private("Ines")) if seen.photo]
        assert len(photos) == 1
        assert "may be late" in photos[0].text
        assert "Do nothing" in photos[0].labels
    stage.taps("Ines", "Do nothing")


def test_a_button_below_a_picture_says_who_pressed_it(stage: Stage) -> None:
    """The look at the bark comes with a chart; pressed, its words say who did what, and the buttons of it are gone."""
    on_the_fire(stage)
    stage.until(on("12:50"))
    stage.says("Ines", "165 F meat")
    stage.until(on("13:40"))
    assert "Look at the bark" in stage.all_seen("Ines")
    label = "Wrapped in paper"
    stage.taps("Ines", label)
    stage.until(stage.now + dt.timedelta(minutes=1))  # an edit waits for its pace
    if stage.changes_messages:
        asked = next(text for text in stage.screen("Ines") if "Look at the bark" in text)
        assert "\nInes: " in asked
        assert len(asked.encode("utf-16-le")) // 2 <= 1024
    if isinstance(stage, MessengerStage):
        (photo,) = [seen for seen in stage.fake.messages(stage.fake.private("Ines")) if "Look at the bark" in seen.text]
        assert photo.photo
        assert not [one for one in photo.labels if one == label]
        assert stage.fake.calls("editMessageCaption")
