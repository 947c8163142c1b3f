"""What `slowbell plan` prints: the plan as text, why a prompt is due, what cannot be used and what would work instead.

Words only; figures come from the plan.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from bot.messages.answers import headline
from bot.messages.capacity import capacity_note
from bot.messages.dinner import dinner_line
from bot.messages.feeding import shopping_lines
from bot.messages.figures import Voice, span
from bot.messages.plans import side_by_side, snag_lines
from bot.messages.steps import all_step_ids, step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.alternatives import Alternative
from scheduler.planning.backward import Backward
from scheduler.planning.prompts import Why
from scheduler.planning.steps import MOMENTS


def report(situation: Situation, offered: tuple[Alternative, ...], assumed: tuple[str, ...], voice: Voice) -> list[str]:
    """Return a plan as lines of text: each piece, the ways to do it, and every step."""
    found: list[str] = []
    for view in situation.views:
        seen, plan = situation.seen_from(view.piece), view.outlook.plan
        assert plan is not None, "a plan has nothing on the fire"
        found += [headline(seen, voice), dinner_line(seen, voice), *_times(plan, voice)]
        found += [*snag_lines(plan, view.cut, voice), ""]
    if room := capacity_note(situation):
        found += [room, ""]
    buying = shopping_lines(situation)
    found += [*buying, ""] if buying else []
    ways = side_by_side(offered, voice).text
    found += [*ways.split("\n"), ""] if ways else []
    found.append(_("Every step:"))
    for at, step, piece in situation.courses():
        whose = _(" ({piece})").format(piece=_(situation.view(piece).name)) if situation.several and piece else ""
        found.append(f"{voice.clock(max(at, voice.now))}  {step_words(step.id).name}{whose}")
    notes = [assumption(name) for name in assumed]
    return [*found, *([""] if notes else []), *notes]


def _times(plan: Backward, voice: Voice) -> list[str]:
    """Return the start, the pull and the plate with their doubt."""
    likely = _("beyond 30 h") if plan.pull.likely is None else voice.about(plan.pull.likely)
    found = [
        _("Light {light}, meat on {on}.").format(light=voice.about(plan.light_at), on=voice.about(plan.on_at)),
        _("Off the fire: {window}, likely {likely}.").format(window=voice.window(plan.pull), likely=likely),
    ]
    if plan.late_probability is not None:
        late = round(100 * plan.late_probability)
        found.append(_("Late: {late} in 100. Rest: about {rest}.").format(late=late, rest=span(plan.rest)))
    return found


def why_text(why: Why, voice: Voice) -> str:
    """Return why a prompt is due when it is."""
    length = span(dt.timedelta(minutes=abs(why.minutes or 0)))
    event = "" if why.event is None else _event(why.event)
    match why.kind:
        case "before_serving" if (why.minutes or 0) < 0:
            return _("{span} after people eat").format(span=length)
        case "before_serving":
            return _("{span} before people eat").format(span=length)
        case "core":
            return _("when the meat is near {core}").format(core="?" if why.core_c is None else voice.temp(why.core_c))
        case "repeat":
            return _("{span} after the last time").format(span=length)
        case "held":
            return _("when held meat may be down to its limit")
        case "put_off":
            return _("put off until then")
        case "gate":
            return _("before: {event}").format(event=event)
        case "rising" if why.pit_c is not None:
            return _("when the rising pit passes {pit}").format(pit=voice.temp(why.pit_c))
        case "watch":
            return _("{span} before the watch changes").format(span=length)
        case "after" if not why.minutes:
            return _("with: {event}").format(event=event)
        case "after" | "cut" if (why.minutes or 0) < 0:
            return _("{span} before: {event}").format(span=length, event=event)
        case "after" | "cut" | "rising":
            return _("{span} after: {event}").format(span=length, event=event)


def _event(event: str) -> str:
    if event in MOMENTS:
        return _("the work of the day before")
    return step_words(event).name if event in all_step_ids() else event.replace("_", " ")


def assumption(name: str) -> str:
    """Say what was taken as usual because nobody said it."""
    texts = {
        "mass": _("Nobody said how heavy: taken as usual for the cut (--mass 6kg tells)."),
        "pit": _("Nobody said how hot: taken as usual for the cut (--pit 250F tells)."),
    }
    return texts[name]


# --- what cannot be used ---------------------------------------------------------------------------------------------

_TROUBLE: dict[str, Callable[[], str]] = {
    "cut": lambda: _("I do not know the cut {given}. I know: {known}."),
    "mass": lambda: _("--mass {given}: that is no mass of one piece. Say it with its unit: 6kg, 13lb or 900g."),
    "thickness": lambda: _("--thickness {given}: that is no thickness. Say it with its unit: 7.5cm, 3in or 75mm."),
    "count": lambda: _("--count {given}: how many like pieces, a whole number from 1 to 60."),
    "pit": lambda: _("--pit {given}: that is no pit. Say it with its unit: 250F, 121C, or a band like 250-275F."),
    "wrap": lambda: _("--wrap {given}: it is none, paper, foil or boat."),
    "wrap_of_cut": lambda: _("--wrap {given}: that cut is not wrapped so; leave it out, or say none."),
    "serve": lambda: _(
        "--serve {given}: that is no dinner. Say day and time like 2026-08-15T18:00, a window like "
        "2026-08-15T18:00/19:00, or when-ready."
    ),
    "no_serve": lambda: _("When do people eat? Say --serve 2026-08-15T18:00, or --serve when-ready."),
    "no_cut": lambda: _("What is cooking? Say --cut brisket, or --file PLAN.toml."),
    "both": lambda: _("Say the pieces with --cut or with --file, not with both."),
    "zone": lambda: _("There is no time zone called {given}; give one like Europe/Lisbon with --zone."),
    "now": lambda: _("--now {given}: that is no time. Say it like 2026-08-14T09:00."),
    "cooker": lambda: _("--cooker {given}: I know ceramic, kettle, offset, drum and cabinet, and the cards you wrote."),
    "guests": lambda: _("--guests {given}: how many eat, adults or adults+children, like 24 or 24+6."),
    "confidence": lambda: _("--confidence {given}: how sure dinner shall be, from 0.5 to 0.99."),
    "file_missing": lambda: _("--file {given}: there is no such file, or it cannot be read."),
    "file_no_toml": lambda: _("--file {given}"),
    "file_field": lambda: _("--file: {given}"),
    "cards": lambda: _("{given}"),
    "terminal": lambda: _("A page is no text: send it into a file, like slowbell plan ... --format page > plan.pdf"),
}


def unusable(trouble: str, given: str, known: Sequence[str] = (), piece: int | None = None) -> str:
    """Say what cannot be used, and what would work."""
    shown = given if trouble.startswith(("file_no", "file_field", "cards")) else repr(given) if given else given
    text = _TROUBLE[trouble]().format(given=shown, known=", ".join(known))
    return text if piece is None else _("Piece {piece}: {text}").format(piece=piece, text=text)
