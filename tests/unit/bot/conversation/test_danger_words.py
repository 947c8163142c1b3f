"""What people shout when somebody is in danger, in four languages, and near relatives that are no danger.

The cards that answer it belong to `bot.messages`.
"""

from __future__ import annotations

import dataclasses

import pytest

from bot.commands import DANGERS, OF_PEOPLE, Trouble, TroubleOver
from bot.conversation.context import Context
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import setting

COOKING = "stage=cooking unit=F pit_target=250F last_core=150F@13:00 on=07:00"
SETTING_UP = "stage=none unit=F"

TOLD: dict[str, tuple[str, ...]] = {
    "building_fire": (
        "hut is on fire",
        "the hut is on fire!!",
        "house on fire",
        "the shed caught fire",
        "garage is burning",
        "smoke in the house",
        "smoke coming out of the roof",
        "flames in the kitchen",
        "kitchen fire",
        "tent went up in flames",
        "roof is alight",
        "die Hütte brennt",
        "Haus brennt!",
        "Rauch im Haus",
        "la casa se quema",
        "se quema el cobertizo",
        "la maison brûle",
        "cabane en feu",
    ),
    "fire_spreads": (
        "chimney sparks set the hedge alight",
        "hedge is on fire",
        "the fence is burning",
        "grass is alight",
        "fire is spreading",
        "flames have spread to the tree",
        "it set fire to the tablecloth",
        "Hecke brennt",
        "der Zaun brennt",
        "la haie brûle",
    ),
    "grease_fire": ("flames under the lid", "flames in the smoker", "fat fire", "Fett brennt"),
    "gas_smell": (
        "I smell gas",
        "smells like gas here",
        "gas leak",
        "the propane bottle is leaking",
        "gas bottle on fire",
        "es riecht nach Gas",
        "Gasgeruch",
        "huele a gas",
        "odeur de gaz",
    ),
    "guest_ill": ("someone is being sick", "a guest is puking", "kid is sick", "Wren übergibt sich", "está vomitando"),
    "collapsed": (
        "someone collapsed",
        "grandpa is unconscious",
        "he's not breathing",
        "heart attack",
        "she is not responding",
        "Oma ist bewusstlos",
        "er atmet nicht",
        "se desmayó",
        "il ne respire plus",
    ),
    "choking": ("somebody is choking", "Gast erstickt", "se está ahogando"),
    "burn": (
        "Bashir burned himself",
        "burned my hand",
        "toddler touched the grill",
        "bad burn",
        "hand in the coals",
        "Bashir hat sich verbrannt",
        "hab mich verbrannt",
        "Hand verbrannt",
        "me quemé",
        "se ha quemado la mano",
        "Wren s'est brûlé",
    ),
    "burn_severe": (
        "kid fell in the coals",
        "Tomas fell into the fire",
        "she tripped and fell onto the grill",
        "his sleeve is on fire",
        "hair caught fire",
        "Kind in die Glut gefallen",
        "die Hose brennt",
        "se ha caído en las brasas",
        "il est tombé dans le feu",
    ),
    "cut": (
        "I cut my finger",
        "Kim sliced her thumb open",
        "cut off the tip of his finger",
        "bleeding badly",
        "won't stop bleeding",
        "hab mich geschnitten",
        "in den Finger geschnitten",
        "me corté el dedo",
    ),
    "cooker_indoors": (
        "it is in the shed now",
        "grill is in the garage",
        "the smoker is under the awning",
        "we moved the grill into the tent",
        "moved it into the shed",
        "Grill steht jetzt in der Garage",
        "der Smoker ist im Zelt",
        "la parrilla está en el garaje",
        "le barbecue est dans le garage",
    ),
    "cooker_moving": (
        "im moving it into the shed, it rains",
        "moving the grill into the garage",
        "we'll bring the smoker inside",
        "putting it under the porch",
        "can I move the grill into the garage?",
        "wir stellen den Grill in die Garage",
        "den Smoker unter das Vorzelt schieben",
    ),
    "co_symptom": (
        "headache",
        "dizzy at the cooker",
        "my head hurts",
        "feeling sick and dizzy",
        "Kopfschmerzen",
        "mir ist schlecht",
        "mir ist schwindelig",
        "estoy mareado",
        "mal à la tête",
    ),
    "children_near": (
        "child at the fire",
        "kids are playing near the fire",
        "Kinder am Feuer",
        "niños jugando cerca del fuego",
    ),
    "danger_unclear": (
        "fire!!",
        "FIRE!",
        "fire fire",
        "🔥🔥🔥",
        "help fire",
        "feuer",
        "Feuer!!",
        "es brennt!",
        "fuego",
        "au feu",
        "call an ambulance",
        "call 911",
        "someone is hurt",
        "ruf die Feuerwehr",
        "the sofa thing is on fire",
    ),
}

NO_DANGER = (
    "fire is lit",
    "burnt ends",
    "this is fire",
    "smoke is thin",
    "fire is good",
    "fire looks good",
    "the fire is hot",
    "wood is on fire",
    "chunk is on fire",
    "coals are burning well",
    "charcoal is burning nicely",
    "no fire",
    "fire is out",
    "fire ban?",
    "burn ban lifted",
    "cut the brisket",
    "cut it into slices",
    "I cut the fat off",
    "slicing now",
    "sick brisket",
    "that's sick",
    "sick of waiting",
    "gas is low",
    "gas grill at 250",
    "house is full",
    "the tent is up",
    "kids are asleep",
    "meat fell into the fire",
    "a rib fell into the coals",
    "probe fell into the coals",
    "the meat is in the house",
    "I'm in the garage",
    "no smoke in the house",
    "nobody got hurt",
    "nobody is hurt",
    "lid is in the way",
    "he is on his way",
    "smoked fish fingers",
    "the bark is badly burnt",
    "fat is rendering",
    "flame is blue",
    "meat is bleeding",
    "grill is outside the garage",
    "we moved it out of the garage",
    "never move it into the garage",
    "put the ribs in the kitchen",
    "salad is in the kitchen",
    "moving it to the cooler",
    "what if the hut is on fire",
    "Fleisch verbrannt",
    "Fleisch geschnitten",
    "se quemó la carne",
    "Feuer ist an",
    "das Feuer brennt",
    "Feuer brennt gut",
    "Kohle ist alle",
    "meat 165",
    "165",
    "smoke is blue",
    "pit 250",
    "🔥",
    "fire",
    "don't burn yourself",
    "you guys are on fire",
    "the crew is up",
    "Tomas is up",
    "he isn't sick",
    "no gas smell",
    "headcount is 12",
    "ahead of time",
    "the kids want ribs",
    "12 kids coming",
    "spread the coals",
    "set the table",
)


def standing(*problems: str) -> Context:
    """Return the context of a cook in which these problems were told and are not over."""
    return dataclasses.replace(setting(COOKING), troubles=problems)


def dangers(text: str, here: str) -> list[str]:
    """Return the dangers that a text tells of."""
    return [one.what for one in read(text, setting(here)) if isinstance(one, Trouble) and one.what in DANGERS]


@pytest.mark.parametrize(("text", "what"), [(text, what) for what, texts in TOLD.items() for text in texts])
def test_danger_is_heard_in_short_words(text: str, what: str) -> None:
    """Whoever shouts is understood, while a cook runs and before one is set up, and nothing else is read in it."""
    assert dangers(text, COOKING) == [what]
    assert dangers(text, SETTING_UP) == [what]


@pytest.mark.parametrize("text", NO_DANGER)
def test_near_relatives_are_no_danger(text: str) -> None:
    """Words of the trade and of the table call nobody."""
    assert dangers(text, COOKING) == []


def test_it_burns_while_the_fire_is_lit_is_no_alarm() -> None:
    """In German "es brennt" answers the question whether the fire is lit; shouted it is an alarm even then."""
    here = setting("stage=fire unit=C", "light")
    assert not any(isinstance(one, Trouble) and one.what in DANGERS for one in read("es brennt", here))
    assert read("es brennt!", here) == (Trouble(what="danger_unclear", text="es brennt!"),)


@pytest.mark.parametrize("what", sorted(OF_PEOPLE))
@pytest.mark.parametrize("text", ["fire is out", "all good", "fine", "it's over", "stopped", "fixed"])
def test_a_danger_about_somebody_does_not_end_by_the_way(text: str, what: str) -> None:
    """No word about the fire, nor "fine", ends what was told of a person."""
    ends = read(text, standing(what))
    assert TroubleOver(what=what) not in ends
    if text == "fire is out":
        assert ends == (Trouble(what="fire_out", text=text),)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("the burn is looked after", "burn"),
        ("burn is fine", "burn"),
        ("his hand is fine", "burn"),
        ("headache is gone", "co_symptom"),
        ("everybody is out", "cooker_indoors"),
        ("it's outside again", "cooker_indoors"),
        ("she breathes again", "choking"),
        ("he is awake", "collapsed"),
        ("bleeding has stopped", "cut"),
        ("the guest is better", "guest_ill"),
        ("ambulance is here", "burn_severe"),
        ("nobody is hurt", "danger_unclear"),
    ],
)
def test_words_about_it_end_it(text: str, what: str) -> None:
    """A danger about somebody ends by words about just that."""
    assert read(text, standing(what)) == (TroubleOver(what=what),)


@pytest.mark.parametrize("what", ["grease_fire", "building_fire", "fire_spreads"])
def test_the_fire_is_out_ends_what_burned(what: str) -> None:
    """While fat, a hedge or a house burns, "the fire is out" is about that, not about the burn told beside it."""
    assert read("fire is out", standing("burn", what)) == (TroubleOver(what=what),)
