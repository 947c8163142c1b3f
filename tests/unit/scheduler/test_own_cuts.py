"""A person's own cuts: what an entry takes over, what is complained of and how, and that nothing else is lost."""

from __future__ import annotations

import pytest

from scheduler.cuts import Cut, Cuts
from scheduler.cuts.own import Joined, id_of, join_own
from scheduler.forecast import fit, fitted
from tests.catalogue import CUTS

EARLY = """
start_testing_c = 58
stall_c = [50, 55]
bark_look_c = 50
wrap_until_c = 56
spritz_until_c = 55
wood_until_c = 50
"""
RIBS = """
[[cuts]]
name = "Wren's ribs"
like = "beef_chuck_ribs"
also_called = ["harvest ribs"]
mass_kg = { typical = 2.3 }
duration_h = { typical = 6.75 }
"""


def joined(text: str) -> Joined:
    """Return the built-in cuts joined with this file."""
    return join_own(CUTS, text)


def one(text: str) -> Cut:
    """Return the only own cut of a file that is right."""
    found = joined(text)
    assert found.complaints == ()
    (cut,) = found.own
    return cut


def why(text: str) -> str:
    """Return the only complaint about a file, as entry and reason; the built-in cuts are all there."""
    found = joined(text)
    assert found.cuts == CUTS
    (complaint,) = found.complaints
    return f"{complaint.entry}: {complaint.why}"


def like(figures: str, of: str = "pork_butt") -> str:
    """Return an entry that is like a built-in cut but for these figures."""
    return f'[[cuts]]\nname = "Mine"\nlike = "{of}"\n{figures}\n'


# --- what an entry takes over -----------------------------------------------------------------------------------------


def test_what_is_not_stated_is_that_of_the_cut_it_is_like() -> None:
    """Stated figures count, a table may be stated in part, and everything else is inherited."""
    mine, built_in = one(RIBS), CUTS.get("beef_chuck_ribs")
    assert (mine.mass_kg.low, mine.mass_kg.typical, mine.mass_kg.high) == (1.4, 2.3, 2.7)
    changed = {"id", "name", "also_called", "like", "several", "mass_kg", "duration_h", "basis"}
    assert mine.model_dump(exclude=changed) == built_in.model_dump(exclude=changed)


def test_names_and_id_are_its_own() -> None:
    """No name is taken over; the id comes from the name when none is stated."""
    mine = one(RIBS)
    assert (mine.id, mine.name, mine.also_called) == ("own_wrens_ribs", "Wren's ribs", ("harvest ribs",))
    assert one(like('id = "shoulder_of_bashir"')).id == "shoulder_of_bashir"


def test_the_basis_says_which_figures_are_whose() -> None:
    """Whoever reads it later knows what was measured here and what the trade says."""
    assert one(RIBS).basis.startswith("own figures: duration_h, mass_kg; the rest as beef_chuck_ribs: common practice")
    assert "cooked_share" in CUTS.get("brisket_packer").sources
    mine = one(like("cooked_share = { low = 0.50, typical = 0.55, high = 0.60 }", of="brisket_packer"))
    assert "cooked_share" not in mine.sources
    assert "edible_share" in mine.sources


def test_it_is_found_by_its_names_beside_all_others() -> None:
    """The catalogue has one cut more, found by id and by each name; the built-in ones are found as before."""
    cuts = joined(RIBS).cuts
    assert len(cuts.cuts) == len(CUTS.cuts) + 1
    assert cuts.get("own_wrens_ribs").like == "beef_chuck_ribs"
    for name in ("Wren's ribs", "harvest ribs"):
        found = cuts.named(name)
        assert found is not None
        assert found.id == "own_wrens_ribs"
    assert cuts.own == {"own_wrens_ribs"}


def test_a_name_of_ones_own_goes_before_a_saying() -> None:
    """Some call plate ribs dinosaur bones; whoever has a cut of that very name means that."""
    assert CUTS.named("dinosaur bones") is not None
    own = joined('[[cuts]]\nid = "bones"\nname = "Dinosaur bones"\nlike = "beef_chuck_ribs"\n')
    found = own.cuts.named("dinosaur bones")
    assert found is not None
    assert found.id == "bones"


def test_a_cut_may_be_stated_in_full() -> None:
    """Without `like` every figure is needed; all of them make a cut."""
    figures = CUTS.get("duck").model_dump(mode="json") | {"id": "goose", "name": "goose", "also_called": []}
    assert one(_toml(figures)).name == "goose"


def _toml(figures: dict[str, object]) -> str:
    def value(of: object) -> str:
        if isinstance(of, dict):
            return "{ " + ", ".join(f"{key} = {value(one)}" for key, one in of.items()) + " }"
        if isinstance(of, list | tuple):
            return "[" + ", ".join(map(value, of)) + "]"
        return str(of).lower() if isinstance(of, bool) else repr(of)

    return "[[cuts]]\n" + "\n".join(f"{key} = {value(of)}" for key, of in figures.items() if of is not None)


# --- the forecast of an own cut ---------------------------------------------------------------------------------------


def test_unchanged_figures_have_the_fit_of_the_cut_it_is_like() -> None:
    """What the forecast depends on is the same, so the recorded fit is taken: to the last bit the same forecast."""
    mine = one(like("salt_pct = 0.8"))
    assert fit.of_cut(mine) == fit.of_cut(CUTS.get("pork_butt"))


def test_changed_figures_are_fitted_at_first_use() -> None:
    """A shoulder that takes 14 h here is forecast at about 14 h: 10, 50 and 90 % within 8, 3 and 8 %."""
    mine = one(like("duration_h = { low = 10.5, typical = 14.0, high = 18.5 }"))
    assert fitted.figures(mine) != fitted.RECORDED["pork_butt"].figures
    low, middle, high = fit.durations_h(mine, fit.of_cut(mine).anchor)
    assert low == pytest.approx(10.5, rel=0.08)
    assert middle == pytest.approx(14.0, rel=0.03)
    assert high == pytest.approx(18.5, rel=0.08)


# --- complaints -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (like("mas_kg = { typical = 4 }"), "Mine: mas_kg: no figure has this name; did you mean mass_kg?"),
        (like('mass_kg = { typical = "big" }'), "Mine: mass_kg.typical: 'big' needs a number"),
        (like("mass_kg = 4"), "Mine: mass_kg: 4 needs a table, such as { low = 1.5"),
        (like("mass_kg = { low = 9 }"), "Mine: mass_kg: low 9, typical 3.8 and high 5 are not in order"),
        (like("mass_kg = { low = 4, typical = 4.2 }"), "Mine: duration_kg 3.8 must lie within mass_kg, 4 to 5"),
        (like("thickness_m = { low = 90, typical = 95, high = 99 }"), "Mine: thickness_m is in metres"),
        (like("pit_c = { low = 225, typical = 250, high = 275 }"), "Mine: pit_c is in Celsius"),
        (like("target_c = { low = 195, typical = 203, high = 207 }"), "Mine: target_c is a core in Celsius"),
        (like("stall_c = [1, 2, 3]"), "Mine: stall_c: has too many figures"),
        (like('wraps = ["sack"]'), "Mine: wraps.0: 'sack' is none of 'none', 'paper', 'foil' or 'boat'"),
        (like('holds = "ever"'), "Mine: holds: 'ever' is none of 'well', 'a_little' or 'not'"),
        (like("forgiving = 9"), "Mine: forgiving: 9 cannot be; it must be less than or equal to 5"),
        (like("spritz_until_c = 95"), "Mine: spritz_until_c 95 must be below start_testing_c 89"),
        (like("bark_look_c = 86"), "Mine: bark_look_c 86 must be below wrap_until_c 85"),
        (like("wood_until_c = 95"), "Mine: wood_until_c 95 must not be above start_testing_c 89"),
        (like("rest_max_heated_min = 60"), "Mine: rests must go up"),
        (like("edible_share = { typical = 0.9 }"), "Mine: edible_share: low 0.4, typical 0.9 and high 0.55"),
        (like('sources = { colour = "seen" }'), "Mine: sources names no figure of a cut: colour"),
        (like("", of="pork_but"), "Mine: like: there is no built-in cut 'pork_but'; did you mean pork_butt"),
        (like("", of="zebra"), "Mine: like: there is no built-in cut 'zebra'; there are beef_chuck_ribs,"),
        ('[[cuts]]\nname = "Mine"', 'are missing; with a line such as like = "brisket_packer" they come from that cut'),
        ('[[cuts]]\nlike = "duck"', "cut no. 1: id, name are missing"),
        (like('id = "Bad id"'), "Mine: id: 'Bad id' cannot be; small letters, figures and _"),
        (like('id = "duck"'), "Mine: id: duck is the id of 'whole duck' already"),
        (like('also_called = ["brisket"]'), "Mine: 'brisket' is what 'whole brisket' is called already"),
        ("cuts = 3", ": each cut begins with a line [[cuts]]"),
        ("[[cuts]\n", ": this is not TOML, "),
        ("colour = 1", ": 'colour' means nothing here"),
    ],
)
def test_a_complaint_says_entry_figure_and_what_would_work(text: str, told: str) -> None:
    """Each mistake is named so that a cook can put it right, and takes nothing of the built-in cuts away."""
    assert told in why(text)


@pytest.mark.parametrize(
    ("figures", "of", "told"),
    [
        ('safety_class = "intact_beef"', "whole_chicken", "safety_class 'intact_beef' is none of poultry"),
        ("target_c = { low = 66, typical = 70, high = 79 }", "whole_chicken", "under the safe minimum of poultry"),
        ("target_c = { low = 70, typical = 74, high = 79 }", "whole_chicken", "under the safe minimum of poultry"),
        ("target_c = { low = 54, typical = 57, high = 66 }", "prime_rib", "under the safe minimum of intact_beef"),
        (EARLY, "pork_butt", "under the safe minimum of intact_pork"),
    ],
)  # fmt: skip
def test_nothing_is_planned_under_its_safe_minimum(figures: str, of: str, told: str) -> None:
    """The usual target is no lower than the published minimum; of poultry and minced meat not even the lowest is."""
    assert told in why(like(figures, of=of))


def test_the_safe_minimums_are_not_changed_by_a_file() -> None:
    """A table of safety is refused in words, and the published figures stay."""
    assert "no file changes them" in why("[safety.poultry]\nminimum_f = 100\nrest_min = 0\nsource = 'me'\n")


def test_one_broken_entry_takes_no_other_away() -> None:
    """The entries before and after it count, and it is named."""
    found = joined(RIBS + like("mass_kg = 4") + '[[cuts]]\nname = "Tomas bird"\nlike = "whole_chicken"\n')
    assert [cut.name for cut in found.own] == ["Wren's ribs", "Tomas bird"]
    assert [complaint.entry for complaint in found.complaints] == ["Mine"]


def test_two_entries_of_one_name_are_told_apart_in_words() -> None:
    """The first one counts; the second is told whose name it has."""
    found = joined(RIBS + RIBS)
    assert len(found.own) == 1
    assert 'is the id of "Wren\'s ribs" already' in found.complaints[0].why


def test_ids_are_plain() -> None:
    """Letters, figures and underscores, whatever the name holds."""
    assert id_of("Wren's ribs, 4-bone!") == "own_wrens_ribs_4_bone"
    assert id_of("é") == "own"


def test_cuts_of_past_cooks_are_got_and_never_named() -> None:
    """A log may speak of a cut that left the file: it is still had by its id, and nobody is offered it."""
    mine = one(RIBS)
    cuts: Cuts = CUTS.model_copy(update={"past": (mine,)})
    assert cuts.get(mine.id) == mine
    assert cuts.named("harvest ribs") is None
