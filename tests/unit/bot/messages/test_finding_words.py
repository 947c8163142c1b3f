"""Every safety finding has words, whatever is known of it: level, number and limit, what to do now, what ends it."""

from __future__ import annotations

import ast
import datetime as dt
import itertools
import re
from pathlib import Path

import pytest

from bot.messages.figures import Voice
from bot.messages.findings import WORDS, Told, finding_text, found_text, standing_text
from bot.messages.findings.told import limit_text
from scheduler.facts import Edition
from scheduler.safety import Finding, FindingLevel
from scheduler.safety.register import REGISTER

ROOT = Path(__file__).parents[4]
NOW = dt.datetime(2026, 8, 15, 15, 50, tzinfo=dt.UTC)
VOICES = tuple(Voice(zone="UTC", unit=unit, now=NOW) for unit in ("F", "C"))

MOST_WORDS, MOST_SENTENCES = 45, 3

DO_NOW = frozenset(
    "act do eat get heat keep let look put read reheat serve thaw throw turn".split()  # noqa: SIM905 - a row of words
)
"""Verbs that a sentence about what to do begins with."""

STOPS = re.compile(r"[.?!](?= [A-Z]|$)")


def _findings(rule: str, level: FindingLevel) -> list[Finding]:
    """Return findings of a rule with everything known, nothing known, and the longest numbers."""
    whole = Finding(
        rule=rule, level=level, found_c=58.89, limit_c=60.0, found_min=145.0, limit_min=120.0, spot="end by the bone",
        since=NOW - dt.timedelta(days=2), until=NOW + dt.timedelta(minutes=20), edition=Edition.FOOD_CODE,
    )  # fmt: skip
    return [
        whole,
        Finding(rule=rule, level=level),
        Finding(rule=rule, level=level, limit_c=62.8, limit_min=4320.0, found_min=6000.0, edition=Edition.CONSUMER),
        Finding(rule=rule, level=level, found_c=62.72, limit_c=62.8, since=NOW, edition=Edition.STRICTER),
        Finding(rule=rule, level=level, found_c=70.0, limit_c=62.8, until=NOW + dt.timedelta(minutes=3)),
    ]


ALL = [
    pytest.param(finding, voice, id=f"{finding.rule}-{finding.level.value}-{number}-{voice.unit}")
    for rule, level in itertools.product(sorted(WORDS), FindingLevel)
    for number, finding in enumerate(_findings(rule, level))
    for voice in VOICES
]


def _written_rules() -> set[str]:
    """Return the rule of every `Finding(...)`, and of every stage of cooling, written in scheduler/safety."""
    found = set()
    for path in (ROOT / "scheduler" / "safety").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id in {"Finding", "CoolingStage"}
            ):
                rules = [k.value for k in node.keywords if k.arg == "rule"]
                found |= {
                    rule.value for rule in rules if isinstance(rule, ast.Constant) and isinstance(rule.value, str)
                }
    return found


def test_every_rule_has_words() -> None:
    """Each rule that the code finds has words: nobody is ever left with a rule and no text."""
    written = _written_rules()
    assert {"minimum_not_measured", "pit_cold", "two_hours_out"} <= written
    assert written - set(WORDS) == set()


def test_every_word_belongs_to_a_rule() -> None:
    """Words are of rules that stand in the register and that the code finds: none is left over."""
    assert set(WORDS) - {rule.id for rule in REGISTER} == set()
    assert set(WORDS) - _written_rules() == set()


@pytest.mark.parametrize(
    ("floor_c", "said"), [(57.2, "near its floor of 135 F (57.2 C)."), (60.0, "near its floor of 140 F (60 C).")]
)
def test_the_floor_that_counts_is_the_one_said(floor_c: float, said: str) -> None:
    """Under the Food Code 58 C is near 135 F; 140 F would be said of a number under it."""
    near = Finding(
        rule="held_act_now", level=FindingLevel.CAUTION, found_c=58.0, limit_c=63.0, floor_c=floor_c, since=NOW
    )
    assert found_text(near, VOICES[1]).endswith(said)


@pytest.mark.parametrize(("finding", "voice"), ALL)
def test_a_finding_is_short_and_whole(finding: Finding, voice: Voice) -> None:
    """At most 45 words in at most three sentences, the level first, no exclamation, no gap where nothing is known."""
    text = finding_text(finding, voice)
    assert len(text.split()) <= MOST_WORDS, f"{len(text.split())} words: {text}"
    assert len(STOPS.findall(text)) <= MOST_SENTENCES, text
    assert text.startswith({"stop": "Stop: ", "caution": "Caution: ", "note": "Note: "}[finding.level.value])
    assert "!" not in text
    assert "None" not in text
    assert "{" not in text
    assert "  " not in text
    assert text.endswith(".")


@pytest.mark.parametrize(("finding", "voice"), ALL)
def test_a_finding_says_what_to_do_and_what_ends_it(finding: Finding, voice: Voice) -> None:
    """The second sentence begins with a verb to do now, the last says what ends it."""
    words = WORDS[finding.rule](Told(finding=finding, voice=voice))
    assert words.do.split()[0].casefold() in DO_NOW, words.do
    assert words.ends.endswith(("ends this", "ends this, or throwing it away", "(a house rule)", "is intact")) or (
        "ends this" in words.ends
    )
    assert words.ends in standing_text(finding, voice)


@pytest.mark.parametrize("rule", sorted(WORDS))
def test_what_is_not_known_is_never_said_as_a_number(rule: str) -> None:
    """Without any reading no temperature is said as found: it is "not measured", or the rule is about time alone."""
    unknown = Finding(rule=rule, level=FindingLevel.STOP, limit_c=60.0, limit_min=120.0)
    text = found_text(unknown, VOICES[0])
    assert re.findall(r"\d+(?:[.]\d)? [CF]", text.replace("140 F (60 C)", "")) == []


def test_the_published_fahrenheit_comes_first() -> None:
    """A limit is said in Fahrenheit as it was published, with Celsius to a tenth, whatever the room speaks."""
    assert limit_text(62.8) == "145 F (62.8 C)"
    assert limit_text(73.9) == "165 F (73.9 C)"
    assert limit_text(60.0) == "140 F (60 C)"
    assert limit_text(57.2, Edition.FOOD_CODE) == "135 F (57.2 C, Food Code)"
    held = Finding(rule="held_under_floor", level=FindingLevel.STOP, found_c=59.0, limit_c=60.0, since=NOW)
    assert finding_text(held, VOICES[1]).startswith("Stop: held meat at 59 C, under 140 F (60 C) since 15:50.")


@pytest.mark.parametrize("rule", sorted(one.id for one in REGISTER if one.worst is FindingLevel.STOP))
def test_a_stop_never_offers_to_serve(rule: str) -> None:
    """Whatever is known: what to do about a stop bids nobody serve or eat as it is; it may only forbid it."""
    for finding in _findings(rule, FindingLevel.STOP):
        said = WORDS[rule](Told(finding=finding, voice=VOICES[0])).do
        bids = re.sub(r"(?:[Dd]o not|[Ll]et nobody) (?:serve|eat|keep serving)|before anyone eats", "", said)
        assert re.findall(r"\b(?:serve|eat)s?\b", bids, re.IGNORECASE) == [], said


def test_held_meat_under_its_floor_is_reheated_or_thrown_away() -> None:
    """The two ways that are left; serving it as it is, is none."""
    held = Finding(rule="held_under_floor", level=FindingLevel.STOP, found_c=59.0, limit_c=60.0, since=NOW)
    said = finding_text(held, VOICES[0])
    assert "Reheat it covered to 165 F (74 C); later, bin it." in said


def test_nobody_is_named_for_140_f_who_was_not_read() -> None:
    """Hot holding at 140 F was read in an army card and New York's code; the USDA is remembered only, and not named."""
    for rule in ("held_under_floor", "served_under_floor", "held_not_read"):
        for edition, whose in ((Edition.CONSUMER, "US Army, New York"), (Edition.FOOD_CODE, "Food Code")):
            found = Finding(rule=rule, level=FindingLevel.STOP, found_c=50.0, limit_c=60.0, since=NOW, edition=edition)
            text = finding_text(found, VOICES[0])
            assert f"140 F (60 C, {whose})" in text
            assert "USDA" not in text


def test_a_tenth_under_the_limit_is_seen() -> None:
    """A reading just under a limit is never rounded up to it in words."""
    low = Finding(rule="minimum_not_measured", level=FindingLevel.STOP, found_c=62.7, limit_c=62.8)
    assert found_text(low, VOICES[1]) == "Stop: 62.7 C at the coldest spot, it needs 145 F (62.8 C)."
    assert found_text(low, VOICES[0]) == "Stop: 144.9 F at the coldest spot, it needs 145 F (62.8 C)."


def test_a_reading_that_passes_waits_only_for_its_rest() -> None:
    """Served within its rest: told as that, not as a number under a limit that it has passed."""
    resting = Finding(rule="minimum_not_measured", level=FindingLevel.STOP, found_c=63.0, limit_c=62.8, since=NOW)
    assert found_text(resting, VOICES[1]) == "Stop: 63 C was read, but its rest is not over."
