"""Stops in words: each in a message of its own, named while it stands, its end said once. Never softened.

What a stop is, and whether it stands, is judged elsewhere.
"""

from __future__ import annotations

import dataclasses

from bot.commands import Discard, ReadAgain
from bot.messages.bin_stops import READ_AGAIN, orders_bin
from bot.messages.figures import Voice
from bot.messages.findings import finding_text, found_text, limit_text, standing_text, still_text
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.naming import named, names_of, piece_name
from bot.messages.words import _
from scheduler.cook import Changes, Found, Situation, StopOver, Taken
from scheduler.facts import Discarded
from scheduler.safety import Finding, FindingLevel


def stop_message(changes: Changes, voice: Voice) -> Message:
    """Return the stops that are told now, with their buttons; of several pieces each by its name."""
    found = [e for e in changes.events if isinstance(e, Found) and e.finding.level is FindingLevel.STOP]
    found = sorted(found, key=lambda one: not orders_bin(one.finding))
    standing = [(piece, one) for piece, one in standing_stops(changes.after, voice) if orders_bin(one)]
    thrown = {piece for piece, _one in standing}
    texts, rows = [], []
    for one in found:
        over = not orders_bin(one.finding) and bool(thrown & {one.piece, None})
        text = _no_order(one.finding, voice) if over else finding_text(one.finding, voice)
        texts.append(named(changes.after, one.piece, text))
        rows.append(_row(one, changes.after, bin_only=over))
    return Message(text=lines(*dict.fromkeys(texts)), choices=_each_once(rows))


def _each_once(rows: list[tuple[Option, ...]]) -> tuple[tuple[Option, ...], ...]:
    """Return rows of buttons in which no button stands twice, the longest row first."""
    seen: list[Option] = []
    kept = []
    for row in sorted(rows, key=len, reverse=True):
        fresh = tuple(option for option in row if option not in seen)
        seen += fresh
        kept += [fresh] if fresh else []
    return tuple(kept)


def _no_order(finding: Finding, voice: Voice) -> str:
    """Return a stop of food that another stop orders into the bin: what was found, and no second order."""
    return _("{found} Throw it away all the same: the other stop stands.").format(found=found_text(finding, voice))


def _row(one: Found, situation: Situation, *, bin_only: bool = False) -> tuple[Option, ...]:
    thrown = (named(situation, one.piece, _("Thrown away")), Discard(piece=one.piece))
    again = (named(situation, one.piece, _("Read again")), ReadAgain(piece=one.piece))
    if bin_only or orders_bin(one.finding):
        return (thrown,)
    return (thrown, again) if one.finding.unread or one.finding.rule in READ_AGAIN else (thrown,)


def standing_stops(situation: Situation, voice: Voice) -> list[tuple[str | None, Finding]]:
    """Return the stops that stand now, each with the piece that it is about (None: there is only one)."""
    views = situation.views if situation.focus is None else (situation.view(situation.focus),)
    named_of = {view.piece: view.piece if situation.several else None for view in views}
    return [
        (None if one.whole else named_of[v.piece], one) for v in views for one in situation.stops_of(v.piece, voice.now)
    ]


def standing_lines(situation: Situation, voice: Voice, told: str = "") -> list[str]:
    """Return that stops still stand and what ends them: what every message says, but for what is `told` in it.

    Of several stops of one piece the gravest is named and the others are counted; asking "is it safe" lists them all.
    """
    mine: dict[str | None, list[Finding]] = {}
    for piece, one in standing_stops(situation, voice):
        if found_text(one, voice) not in told and one not in mine.setdefault(piece, []):
            mine[piece].append(one)
    texts = []
    for piece, stops in mine.items():
        worst = sorted(stops, key=lambda one: not orders_bin(one))
        if len(worst) == 1:
            texts.append(named(situation, piece, standing_text(worst[0], voice)))
        elif worst:
            texts.append(named(situation, piece, _counted(worst, voice)))
    return list(dict.fromkeys(texts))


def _counted(stops: list[Finding], voice: Voice) -> str:
    """Return the gravest of several stops in one line, how many more there are, and the one order."""
    first = still_text(stops[0], voice)
    if orders_bin(stops[0]):
        return _("{first}, and {more} more: throw it away.").format(first=first, more=len(stops) - 1)
    return _('{first}, and {more} more: "is it safe" says what ends them.').format(first=first, more=len(stops) - 1)


def board_lines(situation: Situation, voice: Voice) -> list[str]:
    """Return the stops that stand, in one sentence each: the first thing on the board."""
    found = [named(situation, piece, found_text(one, voice)) for piece, one in standing_stops(situation, voice)]
    return list(dict.fromkeys(found))


DIFFER = "spots_differ"
"""The caution that follows the reading it is about, and that a receipt which says the same replaces."""


NOT_INTACT = "not_intact"
"""The note of the stricter minimum: whoever tells what was done to the meat hears that minimum in the answer."""


def riding_text(changes: Changes, voice: Voice, *, differing: bool = False, said: str = "") -> str:
    """Return the cautions and notes that ride in this message, gravest first, each once with the pieces it is about.

    That two readings differ stands after the reading: it is returned alone (`differing`), or everything but it. The
    note of the stricter minimum is left out of a message that has that minimum in what is `said` already.
    """
    found: dict[str, list[str]] = {}
    for event in changes.events:
        meant = isinstance(event, Found) and (event.finding.rule == DIFFER) is differing
        if isinstance(event, Found) and meant and event.finding.level is not FindingLevel.STOP:
            if says_minimum(event.finding, said):
                continue
            found.setdefault(finding_text(event.finding, voice), []).append(event.piece or "")
    if not changes.after.several:
        return lines(*found)
    return lines(
        *(
            _("{pieces}: {text}").format(pieces=capital(names_of(changes.after, tuple(pieces))), text=text)
            if all(pieces)
            else text
            for text, pieces in found.items()
        )
    )


def says_minimum(finding: Finding, said: str) -> bool:
    """Return whether a finding is the note of the stricter minimum and a text says that minimum already."""
    return finding.rule == NOT_INTACT and limit_text(finding.limit_c) in said


def without_discarded(reported: Changes, rung: Changes) -> Changes:
    """Return what was reported without the discarding that the end of a stop tells already, with time and name."""
    over = {e.piece for e in rung.events if isinstance(e, StopOver) and e.how == "discarded"}
    several = rung.after.several
    events = tuple(
        e
        for e in reported.events
        if not (isinstance(e, Taken) and isinstance(e.body, Discarded) and (e.piece if several else None) in over)
    )
    return dataclasses.replace(reported, events=events)


def over_text(changes: Changes, voice: Voice) -> str:
    """Return that stops are over, and how each ended; those of a piece that ended in one way in one sentence."""
    ended: dict[StopOver, list[str]] = {}
    for event in changes.events:
        if isinstance(event, StopOver):
            ended.setdefault(dataclasses.replace(event, rule=""), []).append(event.rule)
    texts = [named(changes.after, e.piece, _over(e, voice, count=len(set(rules)))) for e, rules in ended.items()]
    return lines(*dict.fromkeys(texts))


def lifted_text(lifted: tuple[tuple[str, Finding], ...], situation: Situation, voice: Voice) -> str:
    """Return that cautions which were told stand no more, since what raised them was taken back: nothing was read."""
    words = _("Caution taken back: {found} What was told for it no longer counts; nothing was read instead.")
    return lines(
        *dict.fromkeys(
            named(situation, piece if situation.several else None, words.format(found=found_text(one, voice)))
            for piece, one in lifted
            if one.rule != "spots_differ"  # a reading that settles two others was read: nothing is taken back
        )
    )


def _over(event: StopOver, voice: Voice, *, count: int) -> str:
    at = voice.clock(event.at)
    by = event.by or _("somebody")
    how = {
        "discarded": _("thrown away, told by {by} at {at}").format(by=by, at=at),
        "corrected": _("ended by {by}'s correction at {at}").format(by=by, at=at),
        "reading": ""
        if event.found_c is None
        else _("{found} at {at}").format(found=voice.temp(event.found_c, fine=True), at=at),
        "intact": _("ended by {by}'s word at {at} that the meat is intact").format(by=by, at=at),
        "done": _("ended by what {by} told at {at}").format(by=by, at=at),
        "time": _("its time has passed, {at}").format(at=at),
    }[event.how]
    which = (
        _("That stop is over: {how}."),
        _("Both stops are over: {how}."),
        _("All those stops are over: {how}."),
    )[min(count, 3) - 1]
    text = which.format(how=how)
    if event.how == "discarded":
        text = _("{text} Nobody eats it.").format(text=text)
    return _("{text} Another one still stands.").format(text=text) if event.others else text


def read_again_text(situation: Situation, voice: Voice) -> str:
    """Say what to read again, and that the number is all it takes."""
    limits = [one.limit_c for _piece, one in standing_stops(situation, voice) if one.limit_c is not None]
    example = voice.temp(max(limits)) if limits else _("165 F")
    return _("Read the coldest spot, off bone and fat, and type the number by itself, like {example}.").format(
        example=example
    )


def only_a_number() -> str:
    """Say kindly to somebody who waves a stop off what ends it."""
    return _(
        "I understand, but only a number or throwing it away ends a stop. Was the number wrong? Type the right one."
    )


def nothing_stands() -> str:
    """Say that no stop stands."""
    return _("No stop stands now.")


def who_may_discard(name: str, *, here: bool = False) -> str:
    """Say kindly to a helper or guest that somebody else records it: `here`, or in another room, where it was asked."""
    if here:
        return _("Thank you, {name}. Whoever leads the fire records that.").format(name=name)
    return _("Thank you, {name}. Whoever leads the fire has to record that; I have told them.").format(name=name)


def somebody_says_discarded(name: str, situation: Situation, piece: str | None) -> Message:
    """Tell whoever leads what a helper or guest said, with the button that records it."""
    what = _("the meat") if piece is None else piece_name(situation.view(piece))
    return Message(
        text=_("{name} says that {what} was thrown away. Is it so? One tap records it with your name.").format(
            name=name, what=what
        ),
        choices=(((_("Thrown away"), Discard(piece=piece)),),),
    )


def discarded_line(situation: Situation, voice: Voice) -> str:
    """Return that meat was thrown away, when and who told it; nothing when it was not."""
    thrown = situation.state.discarded
    if not thrown:
        return ""
    return _("Thrown away at {time} (told by {name}): nobody eats it.").format(
        time=voice.clock(thrown[-1].at), name=thrown[-1].by or _("somebody")
    )


def left_standing(situation: Situation, voice: Voice) -> Message:
    """Return what stands about a cook that is over, that nobody eats it, and the button that records its end."""
    named_of = {view.piece: view.piece if situation.several else None for view in situation.views}
    found = [
        named(situation, None if one.whole else named_of[piece], found_text(one, voice))
        for piece, one in situation.left_standing
    ]
    text = lines(*dict.fromkeys(found), _("That cook is over, and this still stands: nobody eats it. Throw it away."))
    return Message(text=text, choices=(((_("Thrown away"), Discard()),),))


def closing_line(situation: Situation, voice: Voice, *, by_itself: bool = False) -> str:
    """Return what stands when a cook is called off, or ends `by_itself`: the food is still not safe.

    `situation` is the last one before the end.
    """
    stops = board_lines(situation, voice)
    called_off = _("Calling off does not make it safe: nobody eats it.")
    ended = _("The end of this cook does not make it safe: nobody eats it.")
    return lines(*stops, ended if by_itself else called_off) if stops else ""
