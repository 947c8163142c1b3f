"""Papers: the plan as a calendar file and as one printed page. Data in, bytes out.

It must not read a clock, a file of anybody's, or the database, and it words nothing: words are made in `bot.messages`.
"""

from bot.papers.calendar import calendar_file
from bot.papers.page import page
from bot.papers.sheet import PlanSheet, sheet_of

__all__ = ["PlanSheet", "calendar_file", "page", "sheet_of"]
