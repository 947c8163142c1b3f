"""Whoever looks at the bark, of any cut, also one that somebody invents in a file: asked at most three times, again
after 6 C or 40 minutes, and never after "bare"; and no data file contradicts another.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.cook import Beginning, Changes, Report, assess, begin, decide, ring
from scheduler.cuts import Cut
from scheduler.cuts.own import join_own
from scheduler.facts import Asked, Body, Fact, Planned, Reading, Serving, ServingKind, Slot, StepDone, Wrap, Wrapped
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.prompts import step_of
from tests.catalogue import CUTS
from tests.properties.play import CATALOGUE

MOST_ASKED = 3
AGAIN_C, AGAIN_MIN = 6.0, 40.0
START = dt.datetime(2026, 9, 12, 6, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


# --- cuts that somebody invents ---------------------------------------------------------------------------------------

TOUGH = tuple(cut.id for cut in CUTS.cuts if cut.doneness == "feel")
ALL = tuple(cut.id for cut in CUTS.cuts)


@st.composite
def entries(draw: st.DrawFn, likes: tuple[str, ...] = ALL) -> str:
    """Draw an entry of an own file: like a built-in cut, some figures changed, sensibly or not."""
    like = CUTS.get(draw(st.sampled_from(likes)))
    near = st.floats(-8.0, 8.0).map(lambda by: round(by, 1))
    lines = ["[[cuts]]", 'name = "mine"', f'like = "{like.id}"']
    for figure in ("bark_look_c", "wrap_until_c", "start_testing_c", "spritz_until_c", "wood_until_c"):
        value = getattr(like, figure)
        if value is not None and draw(st.booleans()):
            lines.append(f"{figure} = {value + draw(near):g}")
    if draw(st.booleans()):
        wraps = draw(st.lists(st.sampled_from([wrap.value for wrap in Wrap]), min_size=1, max_size=4))
        lines += [f"wraps = {wraps!r}", f"usual_wrap = {wraps[0]!r}", f"duration_wrap = {wraps[-1]!r}"]
    if draw(st.booleans()):
        times = sorted(draw(st.lists(st.floats(0.3, 40.0), min_size=3, max_size=3)))
        lines.append("duration_h = {{ low = {:.2f}, typical = {:.2f}, high = {:.2f} }}".format(*times))
    if draw(st.booleans()):
        lines.append(f"target_c = {{ typical = {like.target_c.typical + draw(near):g} }}")
    if draw(st.booleans()):
        lines.append(f'safety_class = "{draw(st.sampled_from(sorted(CUTS.safety)))}"')
    return "\n".join(lines) + "\n"


@settings(max_examples=200)
@given(text=entries() | st.text(max_size=60) | entries().map(lambda entry: entry.replace("=", ":", 1)))
def test_no_file_stops_the_program(text: str) -> None:
    """Whatever stands in an own file, the built-in cuts are there as they were; what is left out is complained of."""
    found = join_own(CUTS, text)
    assert found.cuts.cuts[: len(CUTS.cuts)] == CUTS.cuts
    assert found.cuts.safety == CUTS.safety
    assert len(found.cuts.cuts) == len(CUTS.cuts) + len(found.own)
    assert found.own or found.complaints or "cuts" not in text
    assert all(complaint.why for complaint in found.complaints)


@settings(max_examples=200)
@given(text=entries())
def test_an_own_cut_that_is_taken_is_as_sound_as_a_built_in_one(text: str) -> None:
    """It is safe where it is usually served, its wrap window is a window, and its spritz ends before the feel."""
    for cut in join_own(CUTS, text).own:
        assert cut.target_c.typical >= round(CUTS.minimum_c(cut))
        assert cut.bark_look_c < cut.wrap_until_c <= cut.start_testing_c <= cut.target_c.low
        assert cut.spritz_until_c is None or cut.spritz_until_c < cut.start_testing_c
        assert cut.usual_wrap in cut.wraps


# --- plays ------------------------------------------------------------------------------------------------------------


class Look:
    """A cook of one piece, from meat on; it counts how often somebody is asked about the bark."""

    def __init__(self, cut: Cut, catalogue: Catalogue, wrap: Wrap | None = None) -> None:
        self.cut, self.catalogue = cut, catalogue
        self.now = START
        pit_c = cut.pit_c.typical
        plan = Planned(
            cut=cut.id, serving=Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC"), pit_low_c=pit_c,
            pit_high_c=pit_c, wrap=wrap,
        )  # fmt: skip
        begun = begin(
            Beginning(cook="c1", planned=plan), by="Ines", now=START, seed="s", message="m0", catalogue=catalogue
        )
        assert isinstance(begun, Changes)
        self.facts: tuple[Fact, ...] = begun.facts
        self.turns = 0
        self.told(StepDone(step="light"))
        self.now += 60 * MINUTE
        self.told(StepDone(step="meat_on"))

    def told(self, body: Body) -> bool:
        """Report something, of a reading also that the spot is the right one; return whether it was taken."""
        self.turns += 1
        report = Report(body=body, happened_at=self.now, by="Ines", message=f"m{self.turns}", sure=True)
        result = decide(self.facts, (report,), now=self.now, seed=f"i{self.turns}", catalogue=self.catalogue)
        if isinstance(result, Changes):
            self.facts = (*self.facts, *result.facts)
        return isinstance(result, Changes)

    def wait(self, minutes: float, every: float = 20.0) -> None:
        """Let time pass, with the bell rung now and then as the store would."""
        end = self.now + minutes * MINUTE
        while self.now < end:
            self.now = min(end, self.now + every * MINUTE)
            for _ in range(4):
                self.turns += 1
                seed = f"r{self.turns}"
                rung = ring(self.facts, now=self.now, seed=seed, catalogue=self.catalogue).facts
                if not rung:
                    break
                self.facts = (*self.facts, *rung)

    def asked(self) -> list[dt.datetime]:
        """Return when somebody was asked about the bark, each time that a message did."""
        return [
            fact.recorded_at
            for fact in self.facts
            if isinstance(fact.body, Asked)
            for key in fact.body.prompts
            if step_of(key) == "bark_check"
        ]

    def due_at(self) -> dt.datetime | None:
        """Return when the bark is looked at next, None when it is not."""
        prompt = assess(self.facts, self.catalogue, self.now).prompt("bark_check")
        return None if prompt is None else prompt.due_at


@dataclasses.dataclass(frozen=True)
class Deed:
    """Something done beside a cook: how long it took, how much the core has risen since, and what was said then."""

    minutes: int
    rise_c: float
    said: str | None


DEEDS = st.lists(
    st.builds(
        Deed,
        minutes=st.sampled_from((10, 30, 60, 120)),
        rise_c=st.sampled_from((0.0, 1.5, 4.0, 7.0)),
        said=st.sampled_from((None, None, "not_yet", "not_yet", "not_yet", "core", "core", "set", "bare", "foil")),
    ),
    min_size=2,
    max_size=9,
)


def _say(look: Look, deed: Deed, core_c: float) -> None:
    match deed.said:
        case "core":
            look.told(Reading(slot=Slot.CORE, value_c=core_c))
        case "bare":
            look.told(Wrapped(wrap=Wrap.NONE))
        case "foil":
            look.told(Wrapped(wrap=Wrap.FOIL))
        case "not_yet" | "set":
            look.told(StepDone(step="bark_check", outcome=deed.said))


@settings(max_examples=20)
@given(text=entries(), name=st.sampled_from(ALL), deeds=DEEDS)
def test_nobody_is_asked_about_the_bark_more_than_three_times(text: str, name: str, deeds: list[Deed]) -> None:
    """Whatever is said or not said, three messages at most ask for it; none after bare or a wrap, and none of a cut
    that goes by temperature.
    """
    joined = join_own(CUTS, text)
    cut = joined.own[0] if joined.own else CUTS.get(name)
    look = Look(cut, CATALOGUE.model_copy(update={"cuts": joined.cuts}))
    core_c = cut.bark_look_c - 6.0
    look.wait(30)
    look.told(Reading(slot=Slot.CORE, value_c=max(5.0, core_c)))
    final_at = None
    for deed in deeds:
        look.wait(deed.minutes)
        core_c = min(cut.start_testing_c - 1.0, core_c + deed.rise_c)
        _say(look, deed, max(5.0, core_c))
        if deed.said in {"bare", "foil"} and final_at is None:
            final_at = look.now
    look.wait(240)
    asked = look.asked()
    assert len(asked) <= (MOST_ASKED if cut.asks_bark else 0)
    assert final_at is None or all(at <= final_at for at in asked)


@settings(max_examples=15)
@given(
    like=st.sampled_from([cut.id for cut in CUTS.cuts if cut.asks_bark]), wait=st.integers(15, 39), rise=st.booleans()
)
def test_not_yet_asks_again_after_six_degrees_or_forty_minutes(like: str, wait: int, rise: bool) -> None:
    """Forty minutes after "not yet" it is due at the latest; once the core is read 6 C higher, within five minutes of
    that reading.
    """
    cut = CUTS.get(like)
    if cut.bark_look_c + AGAIN_C >= cut.wrap_until_c:
        return
    look = Look(cut, CATALOGUE)
    look.wait(30 * cut.duration_h.typical, every=90)
    look.told(Reading(slot=Slot.CORE, value_c=cut.bark_look_c))
    look.wait(1)
    assert look.asked() or look.due_at() is not None
    look.told(StepDone(step="bark_check", outcome="not_yet"))
    said_at = look.now
    due_at = look.due_at()
    assert due_at is not None
    assert said_at < due_at <= said_at + AGAIN_MIN * MINUTE
    if rise:
        look.now += wait * MINUTE
        look.told(Reading(slot=Slot.CORE, value_c=cut.bark_look_c + AGAIN_C + 0.1))
        due_at = look.due_at()
        assert due_at is not None
        assert due_at <= max(look.now, said_at + 5 * MINUTE)


@pytest.mark.parametrize("cut", [cut for cut in CUTS.cuts if cut.asks_bark], ids=lambda cut: cut.id)
def test_bare_to_the_end_is_final(cut: Cut) -> None:
    """Decided bare, at the look or with the plan, nothing asks about bark or wrap for the rest of the cook."""
    look = Look(cut, CATALOGUE)
    look.wait(60, every=60)
    look.told(Reading(slot=Slot.CORE, value_c=cut.bark_look_c))
    look.told(Wrapped(wrap=Wrap.NONE))
    look.wait(300, every=60)
    assert look.asked() == []
    planned = Look(cut, CATALOGUE, wrap=Wrap.NONE)
    planned.wait(60, every=60)
    planned.told(Reading(slot=Slot.CORE, value_c=cut.bark_look_c + 1))
    planned.wait(300, every=60)
    assert planned.asked() == []
