"""The command `backtest`: each log read, replayed and reported, one after the other.

A log that cannot be used is named and does not stop the others.
"""

from __future__ import annotations

import dataclasses
import json
import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from bot.backtest import report
from bot.backtest.kinds import all_cuts, nearest, stand_in
from bot.backtest.log import Log, Notice
from bot.backtest.reading import read_log
from bot.backtest.replay import Asked, replay
from bot.backtest.targets import BadTarget, Target, read_targets
from bot.messages import backtest as words
from scheduler.cuts import Cut, Cuts

DONE, FAILED, WRONGLY_CALLED, INTERRUPTED = 0, 1, 2, 130
PROGRESS_EVERY = 100
"""So many forecasts take some seconds."""
LARGEST_BYTES = 20_000_000
"""A log of seconds over two days is a tenth of this."""
_NO_TEXT = frozenset(range(8))
"""Bytes that no text holds."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Unreadable:
    """Why a file cannot be read, in a word that `bot.messages.backtest` knows."""

    why: str


def main(files: Sequence[str], *, targets: list[str] | None = None, as_json: bool = False) -> int:
    """Report on each log; return 0, 1 when a log could not be used, 2 when a target is none, 130 when broken off."""
    wanted = read_targets(targets)
    if isinstance(wanted, BadTarget):
        print(words.bad_target(wanted.given), file=sys.stderr)
        return WRONGLY_CALLED
    try:
        return _report(files, wanted, as_json=as_json)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:  # nobody reads any more (`| head`); Python would complain once more at its own end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE


def _report(files: Sequence[str], targets: Sequence[Target], *, as_json: bool) -> int:
    cuts = all_cuts()
    cooks: list[dict[str, object]] = []
    used = 0
    for file in files:
        log = _log(file)
        if log is None:
            continue
        cut = _cut(file, log, cuts)
        asked = replay(log, cut, [target.temp_c for target in targets])
        cook = tuple(_watched(file, asked) if sys.stderr.isatty() else asked)
        if as_json:
            cooks.append(report.as_values(file, targets, cook))
        else:
            print("\n".join([*([""] if used else []), *report.as_lines(file, log, cut, targets, cook)]), flush=True)
        used += 1
    if as_json:
        print(json.dumps({"cooks": cooks}, allow_nan=False))
    return DONE if used == len(files) else FAILED


def _watched(file: str, asked: Iterator[Asked]) -> Iterator[Asked]:
    """Pass forecasts on, and say on standard error how many there were so far."""
    for done, one in enumerate(asked, start=1):
        if done % PROGRESS_EVERY == 0:
            print(words.progress(file, done), file=sys.stderr, flush=True)
        yield one


def _log(file: str) -> Log | None:
    """Return the log in a file and name what could not be used of it; None when that is everything."""
    text = _text(Path(file))
    if isinstance(text, _Unreadable):
        print(words.unreadable(file, text.why), file=sys.stderr)
        return None
    log = read_log(text)
    if isinstance(log, Notice):
        for one in log.because:
            print(words.notice(file, one.trouble.value, one.line, one.words), file=sys.stderr)
        print(words.notice(file, log.trouble.value, log.line, log.words), file=sys.stderr)
        return None
    for one in log.notices:
        print(words.notice(file, one.trouble.value, one.line, one.words), file=sys.stderr)
    if log.skipped:
        print(words.skipped(file, log.skipped), file=sys.stderr)
    return log


def _cut(file: str, log: Log, cuts: Cuts) -> Cut:
    """Return the cut of a log, or the one that stands in for it, which is said."""
    cut = None if log.head.cut is None else cuts.named(log.head.cut)
    if cut is not None:
        return cut
    near = nearest(log.head, cuts)
    if near is not None:
        print(words.nearest(file, log.head.cut or "", near.cut.name, assumed=near.assumed), file=sys.stderr)
        return near.cut
    cut = stand_in(log.head, cuts)
    print(words.stand_in(file, log.head.cut, cut.name), file=sys.stderr)
    return cut


def _text(path: Path) -> str | _Unreadable:
    """Return the text of a file, or why it cannot be had."""
    try:
        if path.is_file() and path.stat().st_size > LARGEST_BYTES:
            return _Unreadable(why="too_large")
        data = path.read_bytes()
    except OSError as error:
        kinds = {FileNotFoundError: "missing", NotADirectoryError: "missing", IsADirectoryError: "folder"}
        why = kinds.get(type(error)) or ("forbidden" if isinstance(error, PermissionError) else "failed")
        return _Unreadable(why=why)
    except ValueError:  # a name that no file can have
        return _Unreadable(why="missing")
    try:
        if data.startswith((b"\xff\xfe", b"\xfe\xff")):  # what spreadsheets call Unicode text
            return data.decode("utf-16")
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        if _NO_TEXT.intersection(data):
            return _Unreadable(why="binary")
        try:
            return data.decode("cp1252")  # what spreadsheets of Western Europe save
        except UnicodeDecodeError:
            return _Unreadable(why="encoding")
    return _Unreadable(why="binary") if "\0" in text else text
