"""Where things lie on the picture of a chart."""

from __future__ import annotations

import dataclasses
import itertools

import pytest

from bot.papers.chart import chart_png
from bot.papers.chart_drawing import Box, Drawing, Label
from bot.papers.chart_layout import LEAST_HIGH, placed
from bot.papers.chart_paint import painted
from bot.papers.chart_scale import LEFT, RIGHT, WIDE, across
from bot.papers.chart_type import SMALLEST, covers, printable
from bot.papers.chart_values import Tone
from scheduler.facts import PieceAdded
from tests.unit.bot.papers.charts import brisket, chart, drawn, one_read, picture, renamed, ribs
from tests.unit.bot.papers.papers import A_LONG_NAME, SIX
from tests.unit.bot.papers.records import tell
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, at, dinner, planned

MOST_BYTES = 300_000


def overlaps(drawing: Drawing) -> list[tuple[Label, Label]]:
    """Return every two labels that lie over one another, but for letters inside dots."""
    outside = [label for label in drawing.labels if not label.inside]
    return [(a, b) for a, b in itertools.combinations(outside, 2) if a.box.over(b.box)]


def outside(drawing: Drawing) -> list[Label]:
    """Return every label that leaves the picture."""
    whole = Box(left=0, top=0, right=drawing.width, bottom=drawing.height)
    return [label for label in drawing.labels if not label.box.within(whole)]


def several(*cuts: str) -> Logbook:
    """Return a cook of ribs and of these cuts, planned at the start."""
    log = Logbook(planned())
    for number, cut in enumerate(cuts, start=2):
        tell(log, PieceAdded(cut=cut), 1, piece=f"p{number}")
    return log


def crowded() -> Logbook:
    """Return ribs with forty readings by eight people, nine minutes apart."""
    log = ribs(60)
    names = ("Ines", "Tomas", "Wren", "Bashir", "Ida", "Tilda", "Willem", "Bo")
    for number in range(40):
        one_read(log, 65 + 9 * number, 5 + 85 * (number / 40) ** 0.7, by=names[number % 8])
    return log


def ready() -> Logbook:
    """Return ribs whose dinner follows the meat."""
    log = Logbook(planned(serving=WHEN_READY))
    log.done("light", 0)
    log.done("meat_on", 60)
    return log


COOKS = {
    "planned": (Logbook(planned()), 5.0),
    "meat on": (ribs(60), 61.0),
    "one reading": (ribs(150), 152.0),
    "in the middle": (ribs(335), 340.0),
    "pulled": (ribs(500), 520.0),
    "over": (ribs(), 800.0),
    "forty readings": (crowded(), 430.0),
    "a stall of six hours": (brisket(), 865.0),
    "late": (brisket(600, hours_to_dinner=12), 610.0),
    "after dinner time": (brisket(600, hours_to_dinner=8), 640.0),
    "thirty hours": (brisket(700, hours_to_dinner=30), 710.0),
    "long names": (renamed(ribs(425), A_LONG_NAME, "شيماء بنت عبد الرحمن", "中文 中文"), 430.0),
    "two pieces": (several("whole_chicken"), 5.0),
    "seven pieces": (several(*SIX), 5.0),
    "when ready": (ready(), 70.0),
}  # fmt: skip


@pytest.fixture(params=COOKS)
def cook(request: pytest.FixtureRequest) -> tuple[Logbook, float]:
    """Each invented cook with the instant at which it is drawn."""
    return COOKS[request.param]


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("unit", ["C", "F"])
def test_no_words_lie_over_others_or_leave_the_picture(cook: tuple[Logbook, float], unit: str, dark: bool) -> None:
    """Whatever is cooked, each label has its own room."""
    made = drawn(*cook, unit=unit, dark=dark)
    assert overlaps(made) == []
    assert outside(made) == []


def test_words_can_be_read_on_a_phone(cook: tuple[Logbook, float]) -> None:
    """The picture stands upright, fills a phone, and no words on it are small."""
    made = drawn(*cook)
    assert made.width == WIDE
    assert LEAST_HIGH <= made.height <= 2.4 * WIDE
    assert min(label.size for label in made.labels if not label.inside) >= SMALLEST


def test_every_word_has_letters_of_the_font(cook: tuple[Logbook, float]) -> None:
    """Nothing is drawn as an empty box."""
    assert all(covers(letter) for label in drawn(*cook).labels for letter in label.text if letter != " ")


def test_a_dot_lies_at_its_time_and_temperature() -> None:
    """Dots lie in order of time from left to right, and a warmer core lies higher."""
    sheet = chart(ribs(425), 430)
    made = placed(sheet)
    dots = [shape for shape in made.shape("dot") if shape.points[0][1] < made.shape("pit")[0].points[0][1] - 60]
    middles = [(min(x for x, _ in dot.points) + max(x for x, _ in dot.points)) / 2 for dot in dots]
    assert middles == pytest.approx([across(sheet).x(dot.at) for dot in sheet.pieces[0].readings], abs=1.0)
    heights = [min(y for _, y in dot.points) for dot in dots]
    assert heights == sorted(heights, reverse=True)


def test_people_have_shapes_of_their_own() -> None:
    """The first six people differ by shape, and the letters stand in each dot that has room."""
    made = drawn(ribs(425), 430)
    people = made.shape("person")
    forms = {tuple((round(x - p.points[0][0]), round(y - p.points[0][1])) for x, y in p.points) for p in people}
    assert len(forms) == len(people) == 3
    assert [label.text for label in made.label("sign")][:5] == ["I", "T", "W", "T", "I"]


def test_the_newest_reading_of_a_crowd_is_large() -> None:
    """Of forty dots the newest has its letters; the others give way, and none is left out."""
    sheet = chart(crowded(), 430)
    made = placed(sheet)
    assert len(made.shape("dot")) == 40
    in_plot = made.label("sign")[: -len(sheet.people)]
    assert in_plot[-1].text == sheet.people[sheet.pieces[0].readings[-1].person or 0].sign


def test_the_window_lies_on_the_dinner_line_before_dinner() -> None:
    """On time: the lens ends left of dinner, on its line, and the rest it needs ends at dinner."""
    sheet = chart(ribs(425), 430)
    made = placed(sheet)
    (lens,), (line,) = made.shape("window"), made.shape("dinner_line")
    height = line.points[0][1]
    xs, ys = [x for x, _ in lens.points], [y for _, y in lens.points]
    assert max(xs) < across(sheet).x(sheet.dinner_at) == RIGHT
    assert (min(ys) + max(ys)) / 2 == pytest.approx(height)
    (rest,) = made.shape("rest")
    assert max(x for x, _ in rest.points) == RIGHT


def test_a_late_window_reaches_beyond_dinner() -> None:
    """Late: the lens lies right of the dinner line, and what is after dinner is hatched."""
    sheet = chart(brisket(600, hours_to_dinner=12), 610)
    made = placed(sheet)
    (lens,) = made.shape("window")
    assert max(x for x, _ in lens.points) > across(sheet).x(sheet.dinner_at)
    assert made.shape("late")


def test_a_window_is_cut_at_the_edge_not_narrowed() -> None:
    """A window that runs beyond the picture ends blunt: nobody takes the edge for its end."""
    sheet = chart(ribs(425), 430)
    window = sheet.pieces[0].window
    assert window is not None
    piece = dataclasses.replace(sheet.pieces[0], window=dataclasses.replace(window, late=None))
    (lens,) = placed(dataclasses.replace(sheet, pieces=(piece,))).shape("window")
    at_edge = [y for x, y in lens.points if x == RIGHT]
    assert len(at_edge) >= 2
    assert max(at_edge) - min(at_edge) > 10


def test_the_fan_spans_meat_on_to_the_edge() -> None:
    """The forecast begins where the meat went on and ends at the right edge."""
    sheet = chart(ribs(335), 340)
    (fan,) = placed(sheet).shape("fan")
    xs = [x for x, _ in fan.points]
    assert min(xs) == pytest.approx(across(sheet).x(at(60)))
    assert max(xs) == pytest.approx(RIGHT)
    assert min(xs) > LEFT


def test_the_line_of_now_lies_at_now() -> None:
    """The dashed line of the present lies where the present is; at the end of a cook there is none."""
    sheet = chart(ribs(335), 340)
    xs = {x for shape in placed(sheet).shape("now") for x, _ in shape.points if len({p[0] for p in shape.points}) == 1}
    assert xs == {across(sheet).x(at(340))}
    assert drawn(ribs(), 800).shape("now") == ()


def test_stall_wrap_lids_and_pit_are_drawn() -> None:
    """Each has a shape, and its meaning stands at the foot."""
    made = drawn(brisket(700), 705)
    assert made.shape("stall")
    assert made.label("stall")[0].text == "stall"
    made = drawn(ribs(500), 520)
    assert made.shape("wrap")
    assert [label.text for label in made.label("deed")] == ["paper"]
    assert made.shape("lid")
    assert made.shape("pit")
    told = [label.text for label in made.label("legend")]
    assert {"lid open", "wrapped", "meat on", "off the fire", "pit, as wanted", "Ines", "Tomas", "Wren"} <= set(told)


def test_each_way_that_dinner_stands_has_a_sign_of_its_own() -> None:
    """On time is a disc, unsure a square, late a triangle: none is told by colour alone."""
    sheet = chart(ribs(335), 340)
    corners = {}
    for tone in (Tone.GOOD, Tone.UNSURE, Tone.BAD):
        made = placed(dataclasses.replace(sheet, tone=tone))
        corners[tone] = len(made.shape(f"tone_{tone.value}")[0].points)
    assert len(set(corners.values())) == 3


def test_the_same_chart_is_the_same_file() -> None:
    """Two drawings of one chart are equal to the byte, and the file is small."""
    first, second = (painted(placed(chart(ribs(425), 430))) for _ in range(2))
    assert first == second
    assert len(first) < MOST_BYTES


def test_the_picture_is_what_was_placed() -> None:
    """The file has the size of the drawing, its ground, and ink where the dinner line is."""
    for dark, ground in ((False, (255, 255, 255)), (True, (14, 18, 23))):
        sheet = chart(ribs(335), 340, dark=dark)
        image = picture(sheet)
        made = placed(sheet)
        assert image.size == (made.width, made.height)
        assert image.getpixel((3, 3)) == pytest.approx(ground, abs=3)
        (line,) = made.shape("dinner_line")
        x, y = round(line.points[0][0] + 40), round(line.points[0][1])
        pixel = image.getpixel((x, y))
        assert isinstance(pixel, tuple)
        assert sum(abs(a - b) for a, b in zip(pixel, ground, strict=True)) > 400


def test_long_pictures_stay_small_files(cook: tuple[Logbook, float]) -> None:
    """Every picture is sent in a moment, on a poor connection, too."""
    assert len(chart_png(chart(*cook))) < MOST_BYTES


def test_unknown_letters_become_question_marks() -> None:
    """What the font lacks is said to be missing, and marks that draw nothing go."""
    assert printable("Wren 中\u200e Åsa\n🔥 x") == "Wren ? Åsa ? x"


def test_a_window_of_dinner_is_a_bar_and_is_not_late() -> None:
    """Dinner from one time to another: a thick bar on the dinner line, and nothing is hatched before its end."""
    log = Logbook(planned(serving=dinner(600, window=90)))
    log.done("light", 0)
    log.done("meat_on", 60)
    one_read(log, 240, 60.0, by="Ines")
    sheet = chart(log, 245)
    made = placed(sheet)
    (meal,) = made.shape("meal")
    assert min(x for x, _ in meal.points) == pytest.approx(across(sheet).x(at(600)))
    assert max(x for x, _ in meal.points) == pytest.approx(across(sheet).x(at(690)))
    assert made.shape("late") == ()
