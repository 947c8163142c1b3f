"""Ways to say that food was thrown away, and words that only sound like it: a wrong one would end a stop."""

from __future__ import annotations

import pytest

from bot.commands import Discard
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import at, plain, setting

SETTINGS = (
    "unit=F last_core=171F@13:10 pit_target=250F on=06:00 cut=whole_chicken",
    "unit=F last_core=171F@13:10 pit_target=250F on=06:00 pieces=brisket_packer,whole_chicken",
    "unit=F last_core=171F@13:10 pit_target=250F on=06:00 stop=stands",
    "unit=F stage=after chilling=yes",
)
"""One piece on the fire, two, a stop, food put away."""

THROWN = [
    "threw it all away", "threw all of it away", "threw it all out", "chucked the lot", "chucked it all",
    "chucked everything", "chucked it out", "binned the leftovers", "binned it all", "binned the rest",
    "binned the lot", "all gone in the bin", "it's all in the bin", "it all went in the bin",
    "it has gone in the bin", "gone in the bin", "went straight in the bin", "straight into the trash",
    "it's in the trash now", "put it in the bin", "put it all in the bin", "into the bin it went", "tossed it",
    "tossed it all", "tossed the whole thing", "tossed out the leftovers", "tossed the leftovers out", "dumped it",
    "dumped it all", "dumped everything in the trash", "trashed it", "we've thrown it away", "i threw the lot out",
    "threw away the leftovers", "threw out the rest", "thrown away", "thrown it out", "all thrown away",
    "everything thrown out", "everything got thrown away", "the lot has been binned", "the leftovers are in the bin",
    "leftovers in the bin", "leftovers binned", "leftovers thrown away", "meat thrown away", "meat is in the bin",
    "meat's in the bin", "the meat went in the garbage", "discarded it", "discarded", "all discarded",
    "got rid of it", "got rid of the meat", "we got rid of it all", "disposed of it", "disposed of the meat",
    "scrapped it", "ditched the lot", "fed it to the bin", "sadly binned it", "ok, binned it", "had to throw it away",
    "had to bin it", "we had to throw it all out", "we ended up binning it", "ended up throwing it out",
    "it's gone, in the bin", "yes it's been thrown away", "yep, binned", "done, threw it out", "binned it at 18:10",
    "threw it out 10 min ago", "threw it out at 6", "weggeworfen", "in den mull", "tirado a la basura",
    "jete a la poubelle", "threw it away, sorry", "threw the chicken in the bin", "threw it in the trash",
    "chucked it in the bin", "it is thrown away",
]  # fmt: skip

NOT_THROWN = [
    "should we throw it away?", "don't throw it away", "we will bin it", "going to bin it", "binned the ash",
    "threw the ash out", "threw the thermometer away", "chucked more wood on", "chucked a log on",
    "threw on another log", "threw some wood in", "tossed in two chunks", "dumped the ash", "dumped the coals in",
    "dumped the lit coals", "tossed the salad", "threw the foil away", "binned the foil", "got rid of the ash",
    "got rid of the smoke", "threw a towel over it", "do i have to bin it", "have to throw it away?",
    "we did not throw it out", "never threw it out", "threw it on", "threw it back on", "chucked it on the grill",
    "put it in the box", "put it in the fridge", "tossed it in the fridge", "threw it in the oven",
    "dumped the water", "trashed the drip pan", "emptied the bin", "binned the packaging", "threw the wrapper away",
    "binned the wrapping", "threw away the giblets", "threw the neck out", "binned the trimmings",
    "threw out the marinade", "binned the gloves", "threw out the bones", "threw half of it away",
    "threw some of it out", "threw it in", "chucked it in", "bin it", "throw it away", "chicken in the bin bag",
    "tossed it over",
]  # fmt: skip


@pytest.mark.parametrize("text", THROWN)
def test_thrown_away_in_many_words(text: str) -> None:
    """Each is heard as discarding, with one piece and with two, on the fire, while a stop stands, and afterwards."""
    for here in SETTINGS:
        said = read(text, setting(here))
        assert len(said) == 1
        assert isinstance(said[0], Discard), plain(said)


@pytest.mark.parametrize("text", NOT_THROWN)
def test_what_only_sounds_like_it(text: str) -> None:
    """Questions, plans, parts of it, and everything else that goes into a bin or onto a fire discard nothing."""
    for here in SETTINGS:
        assert not any(isinstance(one, Discard) for one in read(text, setting(here)))


@pytest.mark.parametrize(
    ("text", "clock"),
    [("threw it out 10 min ago", "13:45"), ("binned it at 13:10", "13:10"), ("threw it all away at 1", "13:00")],
)
def test_when_it_was_thrown_away(text: str, clock: str) -> None:
    """A time beside it is when it was; without one it is now."""
    (said,) = read(text, setting(SETTINGS[0]))
    assert isinstance(said, Discard)
    assert said.at == at(clock)
    (now,) = read("threw it out", setting(SETTINGS[0]))
    assert isinstance(now, Discard)
    assert now.at is None


def test_all_of_it_and_which_piece() -> None:
    """Of several pieces the named one, or all of them."""
    assert plain(read("threw it all away", setting(SETTINGS[1]))) == "thrown away, all of it"
    assert plain(read("the chicken went in the bin", setting(SETTINGS[1]))) == "thrown away p2"


@pytest.mark.parametrize("asked", ["two_hour", "leftover_expire"])
def test_other_things_in_the_bin_answer_no_question_about_food(asked: str) -> None:
    """While leftovers are asked about "binned" is an answer; ash, bones and trimmings in the bin are none."""
    here = SETTINGS[3]
    assert plain(read("binned", setting(here, asked))) in ("done two_hour, thrown", "done leftover_expire, binned")
    for text in ("binned the ash", "binned the bones", "trashed the trimmings"):
        said = plain(read(text, setting(here, asked)))
        assert "thrown" not in said
        assert "binned" not in said


@pytest.mark.parametrize("asked", ["two_hour", "leftovers", "leftover_expire", "ash"])
def test_a_sentence_is_discarding_whatever_is_asked(asked: str) -> None:
    """Leftovers in the bin are not leftovers put away."""
    for text in ("threw it out", "leftovers in the bin", "leftovers thrown away", "binned the leftovers"):
        assert plain(read(text, setting(SETTINGS[3], asked))) == "thrown away"
