"""Papers as they are given out: the file with its name, and the fact that keeps what was on it.

Nothing is sent and nothing is stored here.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from bot.chat import Document
from bot.makers import Paper, PaperKind
from bot.messages.figures import Voice
from bot.papers.calendar import calendar_file
from bot.papers.chart import chart_png
from bot.papers.chart_sheet import chart_sheet_of
from bot.papers.page import page
from bot.papers.record import record_of
from bot.papers.record_file import record_csv
from bot.papers.record_page import record_pdf
from bot.papers.sheet import sheet_of
from scheduler.cook import Situation
from scheduler.facts import Fact, PaperIssued

_MAKERS = {"page": (page, "pdf", "application/pdf"), "calendar": (calendar_file, "ics", "text/calendar")}


def make_paper(
    paper: PaperKind, situation: Situation, *, now: dt.datetime, log: tuple[Fact, ...], unit: str | None = None
) -> Paper:
    """Return the plan or the record on paper as of `now`; each kind of paper is counted by itself, from 0.

    The name of the file says which cook and which issue, and nothing of anybody.
    """
    issued = tuple(fact.body for fact in log if isinstance(fact.body, PaperIssued))
    sequence = sum(one.paper == paper for one in issued)
    name = f"slowbell-{situation.state.cook}-{paper}-{sequence + 1}"
    if paper == "record":
        record = record_of(log, situation.catalogue, now)
        return Paper(
            document=Document(name=f"{name}.pdf", media_type="application/pdf", data=record_pdf(record)),
            issued=PaperIssued(paper=paper, sequence=sequence, milestones=()),
            also=Document(name=f"{name}.csv", media_type="text/csv", data=record_csv(record)),
        )
    sheet = sheet_of(situation, now, sequence, issued=issued, unit=unit)
    make, ending, media_type = _MAKERS[paper]
    return Paper(
        document=Document(name=f"{name}.{ending}", media_type=media_type, data=make(sheet)),
        issued=PaperIssued(
            paper=paper, sequence=sequence, milestones=sheet.issued if paper == "calendar" else sheet.milestones
        ),
    )


def make_chart(situation: Situation, *, log: tuple[Fact, ...], voice: Voice, dark: bool | None) -> Document:
    """Return the cook as a picture as of `voice.now`; where nobody said, it is dark at night: it is looked at in bed.

    The name of the file says which cook and when, and nothing of anybody.
    """
    local = voice.now.astimezone(ZoneInfo(voice.zone))
    night = not _DAY[0] <= local.hour < _DAY[1]
    sheet = chart_sheet_of(situation, log, voice, dark=night if dark is None else dark)
    name = f"slowbell-{situation.state.cook}-chart-{local:%m%d-%H%M}.png"
    return Document(name=name, media_type="image/png", data=chart_png(sheet))


_DAY = (6, 21)
"""Hours of the day at which a picture is light unless somebody asks for a dark one: house rule."""
