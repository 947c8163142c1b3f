"""The same question gives the same answer, in this process and in another; importing the room loads no numerics."""

from __future__ import annotations

import subprocess
import sys

from scheduler.forecast import Forecast, forecast, model
from tests.unit.scheduler.forecast.questions import STALLED, after, cut, question, read

PRINT = """
from tests.unit.scheduler.forecast.test_replay import answers
print(answers())
"""


def _asked() -> Forecast:
    return forecast(question(cut("brisket_packer"), mass_kg=5.5, readings=read(*STALLED)))


def answers() -> str:
    """Return a forecast written out to the last bit."""
    outlook = _asked()
    times = [outlook.crossing(level_c).quantile(p / 10) for level_c in (60.0, 82.0, 95.0) for p in range(1, 10)]
    return repr((times, [outlook.core_c(after(hour)).hex() for hour in (2, 7, 9, 20)]))


def test_a_replay_is_equal_to_the_last_bit() -> None:
    """Nothing is kept between two answers that could change the second."""
    first = answers()
    model.forget()
    assert answers() == first


def test_another_process_gives_the_same_answer() -> None:
    """No clock, no global dice, no order of hashing enters a forecast."""
    other = subprocess.run([sys.executable, "-c", PRINT], capture_output=True, text=True, check=True)
    assert other.stdout.strip() == answers()


def test_the_room_is_imported_without_numerics() -> None:
    """A chat that asks for no forecast does not wait for numpy."""
    code = "import sys, scheduler.forecast; print('numpy' in sys.modules)"
    assert subprocess.check_output([sys.executable, "-c", code], text=True).strip() == "False"


def test_a_forecast_names_its_cook_and_piece() -> None:
    """Every answer says whose it is."""
    outlook = _asked()
    assert (outlook.cook, outlook.piece) == ("harvest supper", "first")
