"""Names of cuts as people write them at the head of a log, against every cut that the forecast knows."""

from __future__ import annotations

import pytest

from scheduler.cut_names import name_key, words_of
from scheduler.cuts import Cut
from tests.catalogue import CUTS

MEANT = {
    "beef_chuck_ribs": (
        "beef short ribs", "Beef Short-Ribs", "shortribs", "beef ribs", "4-bone beef short ribs", "boneless short ribs",
        "chuck short ribs", "chuck short rib plate", "a rack of beef short ribs", "beef_chuck_ribs",
    ),
    "beef_plate_ribs": (
        "plate ribs", "Beef Plate Short Ribs", "3-bone beef ribs", "3 bone plate", "dino ribs",
        "plate",
    ),
    "brisket_packer": (
        "brisket", "Briskets", "briskit", "a whole brisket", "whole packer brisket", "6 kg brisket",
        "the good brisket from Wren", "beef brisket", "prime brisket", "USDA Prime brisket 14 lb",
        "brisket (point + flat)", "corned beef brisket", "brisket and ribs", "wagyu briskit",
    ),
    "brisket_flat": ("brisket flat", "flat", "brisket, flat cut, trimmed", "prime first cut brisket"),
    "brisket_point": ("point", "brisket point end"),
    "pork_butt": (
        "pork butt", "Pork Butts", "Boston butt", "boston-butt", "butt, Boston, bone-in", "pork shoulder",
        "shoulder of pork", "bone-in pork shoulder", "pork shoulder roast", "pulled pork", "porkbutt", "pork_butt",
    ),
    "whole_pork_shoulder": ("whole pork shoulder",),
    "pork_picnic": ("picnic ham", "pork picnic shoulder"),
    "spareribs_stl": ("pork ribs", "spare ribs", "St. Louis ribs", "St Louis style spareribs"),
    "baby_back_ribs": ("baby backs", "babyback ribs", "Back Ribs"),
    "chuck_roast": ("chuck roast", "roast, chuck", "chuck"),
    "tri_tip": ("tri-tip", "TRITIP", "tri tips"),
    "beef_cheeks": ("beef cheeks",),
    "prime_rib": ("prime rib", "standing rib roast, bone-in", "ribeye roast", "rib eye roast, boneless"),
    "pork_loin": ("pork loin",),
    "pork_belly": ("belly", "pork-belly slab"),
    "lamb_shoulder": ("lamb shoulder", "shoulder of lamb"),
    "leg_of_lamb": ("leg of lamb", "lamb leg, bone-in"),
    "whole_chicken": ("chicken", "whole chicken", "half chicken", "roaster", "roaster chicken", "roasted chicken"),
    "spatchcock_chicken": ("spatchcocked chicken",),
    "chicken_thighs": ("chicken thighs",),
    "whole_turkey": ("turkey", "Whole Turkey 14 lb"),
    "turkey_breast": ("turkey breast",),
    "fresh_ham": ("fresh ham", "leg of pork"),
    "duck": ("a duck",),
    "sausages": ("sausages", "pork sausages"),
    "salmon_side": ("side of salmon", "salmon fillet, skin-on"),
}  # fmt: skip
TABLE = [(text, cut) for cut, texts in MEANT.items() for text in texts]


def test_the_table_is_long_and_speaks_of_every_cut() -> None:
    """Sixty names at least, and no cut of the catalogue without one."""
    assert len(TABLE) >= 60
    assert set(MEANT) == {cut.id for cut in CUTS.cuts}


@pytest.mark.parametrize(("text", "cut"), TABLE)
def test_a_name_is_read_kindly(text: str, cut: str) -> None:
    """Case, hyphens, plurals, the order of words, small slips and extra words do not matter."""
    found = CUTS.named(text)
    assert found is not None
    assert found.id == cut


@pytest.mark.parametrize(
    "text",
    [
        "", "  ", "ribs", "pork", "beef", "lamb", "rack of lamb", "beef back ribs", "pork cheeks", "veal shoulder",
        "rack of ribs", "country style ribs", "roast", "Sunday roast", "beef roast", "spatchcock turkey", "rump roast",
        "top round", "eye of round", "sirloin roast", "beef tenderloin", "chuck steak",
        "pork tenderloin", "rib eye", "cured ham", "turkey thighs", "turkey legs",
        "chicken wings", "turkey sausages", "goose", "trout", "brisket burger", "something nice",
    ],
)  # fmt: skip
def test_what_is_no_cut_or_might_be_two_names_none(text: str) -> None:
    """Other animals, other pieces of a known animal, and a bare "ribs" (beef or pork?) are not guessed at."""
    assert CUTS.named(text) is None


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_every_name_in_the_files_finds_its_cut(cut: Cut) -> None:
    """The names of a cut, as they stand and shouted, mean that cut."""
    for name in (cut.id, cut.name, *cut.also_called):
        for text in (name, name.upper()):
            found = CUTS.named(text)
            assert found is not None, text
            assert found.id == cut.id, text


def test_without_the_other_cuts_a_whole_shoulder_is_the_known_one() -> None:
    """What is named depends on what there is: where only one shoulder is known, it is meant."""
    few = CUTS.model_copy(update={"cuts": tuple(cut for cut in CUTS.cuts if cut.id != "whole_pork_shoulder")})
    found = few.named("whole pork shoulder")
    assert found is not None
    assert found.id == "pork_butt"


def test_words_lose_case_accents_hyphens_and_plural() -> None:
    """Names are compared by plain words; a short word and a double s keep their s."""
    assert words_of("Tri-Tips, Größe 3, bass's") == ("tri", "tip", "grosse", "3", "bass")
    assert name_key("ribs, Beef") == name_key("beef rib") == "beef rib"
