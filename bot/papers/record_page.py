"""The record as printed pages: A4 upright, black on white, the heads of tables repeated, every page counted.

It must not drop a row: what does not fit goes to the next page.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence

from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from bot.messages import record as words
from bot.papers.letters import BOLD, lacking, printable
from bot.papers.record import EventRecord, RecordPiece, RecordRow
from bot.papers.record_blocks import Block, Gap, Head, Lines, Sign, Table, TableRow, Write

WIDTH, HEIGHT = A4
"""210 by 297 mm (ISO 216), in points of 1/72 inch."""
MARGIN = 34.0
FOOT = 16.0
"""Room for the foot of a page [pt]."""
ROOM = WIDTH - 2 * MARGIN
SMALL = 7.5

_PIECES = (0.30, 0.18, 0.24, 0.28)
_LOG = (0.06, 0.20, 0.15, 0.19, 0.065, 0.085, 0.25)
_FINDINGS = (0.12, 0.09, 0.44, 0.35)
_LIMITS = (0.25, 0.23, 0.52)


def record_pdf(record: EventRecord) -> bytes:
    """Return the record as a PDF of as many A4 pages as it needs, the same bytes for the same record."""
    pages = laid_out(record)
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=A4, invariant=1, pageCompression=1)
    canvas.setTitle(printable(f"{words.title()}, {record.cook}"))
    canvas.setAuthor("Slowbell")
    for number, blocks in enumerate(pages, start=1):
        top = HEIGHT - MARGIN
        for block in blocks:
            block.draw(canvas, MARGIN, top)
            top -= block.height
        canvas.setFont(BOLD, SMALL)
        foot = printable(words.page_of(number, len(pages), record.cook))
        canvas.drawRightString(WIDTH - MARGIN, MARGIN - FOOT + 4.0, foot)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def laid_out(record: EventRecord) -> list[list[Block]]:
    """Return the blocks of each page from its top; none is higher than a page."""
    full = HEIGHT - 2 * MARGIN
    pages: list[list[Block]] = [[]]
    left = full
    for part in _parts(record):
        for again, group in _groups(part):
            if sum(block.height for block in group) > left and pages[-1]:
                pages.append([*again])
                left = full - sum(block.height for block in again)
            pages[-1] += group
            left -= sum(block.height for block in group)
    return pages


def _groups(part: Block | Table) -> Iterator[tuple[tuple[Block, ...], tuple[Block, ...]]]:
    """Yield (what is repeated where a page begins with it, blocks that stay together) of a part.

    The head of a table, and a row that leads others, never stand last on a page.
    """
    if not isinstance(part, Table):
        yield (), (part,)
        return
    kept: list[Block] = [part.title, part.head] if part.title is not None else [part.head]
    day: tuple[Block, ...] = ()
    for row in part.rows:
        if isinstance(row, TableRow) and row.leads:
            kept.append(row)
            day = (row,)
            continue
        if kept:
            again = () if part.head in kept else (part.head,)
            yield again, (*kept, row)
        else:
            yield (part.head, *day), (row,)
        kept = []


def _parts(record: EventRecord) -> list[Block | Table]:
    names = words.headings()
    told = tuple(f"{label}: {text}" for label, text in record.told)
    parts: list[Block | Table] = [
        Head(text=words.title(), size=16.0),
        Lines(lines=(words.made_line(record.cook, record.made_at, record.zone),), room=ROOM, size=8.0),
        Gap(height=4.0),
        *(Write(labels=labels, room=ROOM) for labels in words.blanks()),
        Gap(height=6.0),
        Head(text=names["told"], size=10.0),
        Lines(lines=told, room=ROOM, size=8.5),
        Gap(height=6.0),
        _table(names["pieces"], names["piece_columns"], _PIECES, [_piece_cells(one) for one in record.pieces]),
        Gap(height=8.0),
        *_log(record, names),
        Gap(height=8.0),
        *_findings(record, names),
        Gap(height=8.0),
    ]
    if record.missing:
        parts += [Head(text=names["missing"], size=10.0), *_each(record.missing), Gap(height=8.0)]
    rows = [(name, words.limit_words(bound), bound.source) for name, bound in record.limits]
    parts += [_table(names["limits"], names["limit_columns"], _LIMITS, rows), Gap(height=6.0)]
    notes = (*words.notes(), *((names["letters"],) if _has_unknown_letters(record) else ()))
    parts += [*_each(notes), Gap(height=10.0), Sign(left=names["sign"], right=names["date"], room=ROOM)]
    return parts


def _each(texts: Sequence[str]) -> list[Block]:
    return [Lines(lines=(text,), room=ROOM, size=8.0, dash=True) for text in texts]


def _table(title: str, columns: str, shares: tuple[float, ...], rows: Sequence[tuple[str, ...]]) -> Table:
    return Table(
        title=Head(text=title, size=10.0),
        head=_head(columns, shares),
        rows=tuple(TableRow(cells=cells, shares=shares, room=ROOM, size=SMALL) for cells in rows),
    )


def _head(columns: str, shares: tuple[float, ...]) -> TableRow:
    return TableRow(cells=tuple(columns.split("|")), shares=shares, room=ROOM, size=SMALL, bold=True)


def _piece_cells(piece: RecordPiece) -> tuple[str, ...]:
    minimum = f"{piece.safety_class}: {words.limit_words(piece.minimum)}, {piece.rest}"
    return (piece.what, piece.treated, minimum, piece.coldest)


def _findings(record: EventRecord, names: dict[str, str]) -> list[Block | Table]:
    if not record.findings:
        return [Head(text=names["raised"], size=10.0), Lines(lines=(names["none_raised"],), room=ROOM, size=8.5)]
    many = len(record.pieces) > 1
    rows = []
    for one in record.findings:
        what = f"{one.piece}: {one.rule}" if many and one.piece else one.rule
        numbers = f" ({one.numbers})" if one.numbers else ""
        rows.append((words.stamp(one.at, record.zone), one.level, f"{what}{numbers}; {one.told}", one.ended))
    return [_table(names["raised"], names["raised_columns"], _FINDINGS, rows)]


def _log(record: EventRecord, names: dict[str, str]) -> list[Block | Table]:
    title = Head(text=names["log"], size=10.0)
    if not record.rows:
        return [title, Lines(lines=(names["empty"],), room=ROOM, size=8.5)]
    many = len(record.pieces) > 1
    rows: list[Block] = []
    date = ""
    for row in record.rows:
        day = words.day(row.at, record.zone)
        if day != date:
            date = day
            rows.append(TableRow(cells=(day,), shares=(1.0,), room=ROOM, size=SMALL, bold=True, leads=True))
        rows.append(
            TableRow(
                cells=_log_cells(row, record.zone, many=many), shares=_LOG, room=ROOM, size=SMALL,
                bold_cells=frozenset({4}) if row.fails else frozenset() if row.is_reading else frozenset({1}),
                struck=row.struck,
            )
        )  # fmt: skip
    return [Table(title=title, head=_head(names["log_columns"], _LOG), rows=tuple(rows))]


def _log_cells(row: RecordRow, zone: str, *, many: bool) -> tuple[str, ...]:
    what = row.what + (f", {row.spot}" if row.spot else "")
    if many and row.piece:
        what = f"{row.piece}: {what}"
    read = "" if row.value_c is None else words.both(row.value_c, row.spread_c)
    limit = "" if row.bound is None else words.limit_words(row.bound)
    if row.is_reading and not limit:
        limit = words.no_limit()
    remarks = "; ".join(text for text in (row.action, *row.remarks) if text)
    return (words.clock(row.at, zone), what, read, limit, row.meets if row.is_reading else "", row.by, remarks)


def _has_unknown_letters(record: EventRecord) -> bool:
    said = [text for _label, text in record.told] + [piece.what for piece in record.pieces]
    said += [text for row in record.rows for text in (row.by, row.spot, row.piece, *row.remarks, row.action)]
    said += [one.ended for one in record.findings]
    return any(lacking(text) for text in said)
