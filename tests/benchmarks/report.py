"""Prints what answers cost on this machine: `python -m tests.benchmarks.report`.

Medians of a forecast, of the record of a long log, the start of the chat to its greeting, what its imports take, peak
memory. Nothing is asserted.
"""

from __future__ import annotations

import datetime as dt
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator

from scheduler.facts import Body, Fact, Planned, Reading, Serving, ServingKind, Slot, StepDone
from scheduler.forecast import model
from scheduler.safety import findings
from scheduler.safety.trail import trail
from scheduler.state import fold
from tests.benchmarks.cooks import CASES, Case
from tests.benchmarks.long_log import CORES, FACTS, OVER_AT, long_log
from tests.benchmarks.test_forecast_speed import answered
from tests.catalogue import CUTS
from tests.integration.program_process import Process
from tests.unit.scheduler.logbook import CATALOGUE

ROUNDS = 40
STARTS = 7
GREETING = re.compile(r"Hello")
SLOWEST = 14

MEMORY = """
import resource
from tests.benchmarks.report import planned_and_read
planned_and_read()
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def milliseconds(case: Case) -> tuple[float, float]:
    """Return the median and the ninth decile of a fresh forecast [ms]."""
    answered(case)
    times = []
    for _ in range(ROUNDS):
        model.forget()
        began = time.perf_counter()  # noqa: TID251 - a benchmark takes the time
        answered(case)
        times.append(1000.0 * (time.perf_counter() - began))  # noqa: TID251 - a benchmark takes the time
    return statistics.median(times), statistics.quantiles(times, n=10)[-1]


def seconds_for_the_record() -> float:
    """Return the median time for the trail of a long log, from which the record of an event is made [s]."""
    facts, times = long_log(), []
    for _ in range(STARTS):
        began = time.perf_counter()  # noqa: TID251 - a benchmark takes the time
        trail(facts, CATALOGUE.cuts, OVER_AT)
        times.append(time.perf_counter() - began)  # noqa: TID251 - a benchmark takes the time
    return statistics.median(times)


def seconds_to_greeting(*, terminal: bool) -> float:
    """Return the median time from starting `slowbell chat` on a fresh folder to its first word [s]."""
    times = []
    for _ in range(STARTS):
        with tempfile.TemporaryDirectory() as folder:
            began = time.perf_counter()  # noqa: TID251 - a benchmark takes the time
            chat = Process(
                "--data", folder, "--zone", "Etc/UTC", "--as", "Ines", "chat", module="bot", terminal=terminal
            )
            chat.matches(GREETING)
            times.append(time.perf_counter() - began)  # noqa: TID251 - a benchmark takes the time
            chat.kill()
    return statistics.median(times)


def slowest_imports(module: str = "bot.__main__") -> list[tuple[float, str]]:
    """Return what importing the program costs most, (milliseconds with all it imports, name), slowest first."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", f"import {module}"], capture_output=True, text=True, check=True
    )
    lines = [line.removeprefix("import time:").split("|") for line in done.stderr.splitlines() if "|" in line]
    found = [(int(total) / 1000.0, name.strip()) for _, total, name in lines if total.strip().isdigit()]
    return sorted(found, reverse=True)[:SLOWEST]


def planned_and_read() -> None:
    """Do what a day's cook does to memory: the prior of every plan, then a forecast after each of forty readings."""
    for case in CASES:
        for count in range(1, case.readings + 1):
            answered(Case(name=case.name, cut=case.cut, curve=case.curve, readings=count))


def _log(cores: int) -> tuple[Fact, ...]:
    """Return a cook with so many core readings in ten hours, half of them named, and as many of the pit."""
    start_at = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
    plan = Planned(
        cut="pork_butt",
        serving=Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC"),
        pit_low_c=121.0,
        pit_high_c=121.0,
    )
    told: list[tuple[float, Body]] = [(0.0, plan), (0.0, StepDone(step="meat_on"))]
    for n in range(cores):
        minutes = 1.0 + 600.0 * n / cores
        told.append((minutes, Reading(slot=Slot.CORE, value_c=20.0 + 60.0 * n / cores, spot="flat" if n % 2 else None)))
        told.append((minutes + 0.5, Reading(slot=Slot.PIT, value_c=120.0)))
    times = [start_at + dt.timedelta(minutes=minutes) for minutes, _body in told]
    return tuple(
        Fact(id=f"f{n}", cook="c", piece="p1", happened_at=at, recorded_at=at, by="Ines", body=body)
        for n, (at, (_minutes, body)) in enumerate(zip(times, told, strict=True))
    )


def safety(cores: int, *, record: bool) -> float:
    """Return what asking every rule once costs on a log of so many cores, or the trail of the record [s of work]."""
    log = _log(cores)
    state, now = fold(log), log[-1].recorded_at
    cut = CUTS.get("pork_butt")
    began = time.process_time()  # a benchmark takes the time
    if record:
        trail(log, CUTS, now)
    else:
        findings(state, cut, CUTS, now)
    return time.process_time() - began


def peak_mb() -> float:
    """Return the peak resident memory of a process that has planned and read [MB]."""
    done = subprocess.run([sys.executable, "-c", MEMORY], capture_output=True, text=True, check=True)
    return int(done.stdout.strip()) / 1024.0


def report() -> Iterator[str]:
    """Give the report line by line."""
    yield f"{os.cpu_count()} cores; load {os.getloadavg()[0]:.1f}"
    for case in CASES:
        middle, slow = milliseconds(case)
        yield f"{case.name:36s} median {middle:6.1f} ms, one in ten above {slow:6.1f}"
    yield f"record, {FACTS} facts, {CORES} cores      {seconds_for_the_record():6.2f} s"
    for terminal, where in ((False, "plain"), (True, "terminal")):
        yield f"chat to greeting, {where:18s} {seconds_to_greeting(terminal=terminal):6.2f} s"
    for cores in (400, 800):
        yield f"safety findings, {cores} cores         {1000.0 * safety(cores, record=False):6.0f} ms"
    for cores in (200, 400):
        yield f"record's trail, {cores} cores, {2 * cores} facts  {safety(cores, record=True):6.2f} s"
    yield f"peak memory, planned and read      {peak_mb():6.0f} MB"
    for total, name in slowest_imports():
        yield f"import {name:40s} {total:7.1f} ms"


def main() -> None:
    """Print the report."""
    for line in report():
        print(line, flush=True)  # noqa: T201 - the report is printed


if __name__ == "__main__":
    main()
