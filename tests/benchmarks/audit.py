"""Ratios for an audit: against the bare parse, itself, pint, and a bare interpreter.

    python tests/benchmarks/audit.py [--jobs N] [ONLY ...]

Makes N descriptions (10 000 unless told otherwise, seeded, 3 % of them broken) in a
temporary folder and prints each ratio beside its target, all measured in this one run.
ONLY names the parts to run: parse, again, sizes, rules, pint, cold. Times are processor
time, so that other work on the machine disturbs little; where the clock counts it says so.
"""

from __future__ import annotations

import argparse
import contextlib
import dataclasses
import gc
import os
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

import yaml

HERE = Path(__file__).resolve().parent
TOP = HERE.parents[1]
sys.path[:0] = [str(HERE), str(HERE.parent), str(TOP)]

from generator import Generator  # noqa: E402

from checker.audit.jobs import Job, find_jobs  # noqa: E402
from checker.audit.running import Auditor  # noqa: E402
from checker.checking.judging import judge  # noqa: E402
from checker.checking.outcomes import Values, check, outcome_of  # noqa: E402
from checker.errors import Mistakes  # noqa: E402
from checker.installation.binding import bind  # noqa: E402
from checker.installation.record import Installation  # noqa: E402

SEED, BROKEN, CHANGED = 1, 0.03, 0.01
BATCH = 100
PARTS = ("parse", "again", "sizes", "rules", "pint", "cold")
PIECES = ("import yaml, jsonschema, rich.table", "pass")
PLAN = TOP / "fixtures" / "turning-cell-side-post.yaml"


class Cost(NamedTuple):
    """What a child process cost: processor and clock time in seconds, peak memory in MB."""

    work: float
    clock: float
    peak: float


def child(*arguments: str) -> Cost:
    """Run Python with these arguments to its end."""
    return children(arguments)


def children(*calls: Sequence[str]) -> Cost:
    """Run Python with each of these arguments at once, to the end of the last."""
    # Byte code may be kept, as it is wherever the program is installed.
    settings = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    settings["PYTHONPATH"] = str(TOP)
    start = time.perf_counter()
    nothing = [(os.POSIX_SPAWN_OPEN, n, os.devnull, os.O_RDWR, 0) for n in (1, 2)]
    running = [
        os.posix_spawn(sys.executable, [sys.executable, *call], settings, file_actions=nothing)
        for call in calls
    ]
    work = peak = 0.0
    for process, call in zip(running, calls, strict=True):
        _, status, used = os.wait4(process, 0)
        if os.waitstatus_to_exitcode(status) not in (0, 1, 3):
            raise SystemExit(f"python {' '.join(call)} ended with {status}")
        work += used.ru_utime + used.ru_stime
        peak = max(peak, used.ru_maxrss / 1024)
    return Cost(work, time.perf_counter() - start, peak)


def audit(folder: Path, *options: str) -> Cost:
    """The whole command, its result written to a file."""
    return audits(folder, options)


def audits(folder: Path, *runs: Sequence[str]) -> Cost:
    """The whole command with each of these options at once, their results written to files."""
    with tempfile.TemporaryDirectory() as place:
        return children(
            *(
                ("-m", "checker", "audit", str(folder), "--format", "jsonl", "-o", str(Path(place) / f"{i}.jsonl"), *options)
                for i, options in enumerate(runs)
            )
        )  # fmt: skip


def line(what: str, measured: str, ratio: float, target: str) -> None:
    """One result: what, its figures, the ratio, the target."""
    print(f"{what:<36}{measured:>22}{ratio:8.2f}  {target}", flush=True)


def used(function: Callable[[], object]) -> float:
    """The processor time of one call, in seconds."""
    start = time.process_time()
    function()
    return time.process_time() - start


def best(function: Callable[[], object], seconds: float) -> float:
    """The shortest processor time of one call from as many as fit."""
    shortest, until = float("inf"), time.perf_counter() + seconds
    while time.perf_counter() < until:
        shortest = min(shortest, used(function))
    return shortest


# --- the parts ------------------------------------------------------------------


def against_the_parse(jobs: list[Job]) -> None:
    """Audit and bare parse of the same files, batch by batch in turn, in this process."""
    auditor = Auditor()
    for _ in auditor.run(jobs[:BATCH]):
        pass
    # The audit has Python look for garbage rarely; so does the parse beside it.
    gc.set_threshold(200_000)
    parse = bound = judged = 0.0
    for i in range(0, len(jobs), BATCH):
        batch = jobs[i : i + BATCH]
        parse += used(lambda batch=batch: [bare_parse(job.path) for job in batch])
        bound += used(lambda batch=batch: [bound_or_none(Path(job.path)) for job in batch])
        judged += used(lambda batch=batch: list(auditor.run(batch)))
    each = 1e3 / len(jobs)
    line("bare parse, C loader", f"{parse * each:.2f} ms a job", 1.0, "")
    line("read, check the fields, bind", f"{bound * each:.2f} ms a job", bound / parse, "")
    line(
        "audit by all rules, one process", f"{judged * each:.2f} ms a job", judged / parse, "<= 2.0"
    )


def bare_parse(path: str) -> None:
    """What reading a file costs any program that loads YAML through libyaml."""
    with contextlib.suppress(yaml.YAMLError, UnicodeDecodeError):  # The broken ones.
        yaml.load(Path(path).read_bytes(), Loader=yaml.CSafeLoader)


def bound_or_none(path: Path) -> Installation | None:
    """The description bound to its fields, or None for a broken one."""
    try:
        return bind(path.read_bytes(), str(path))
    except Mistakes:
        return None


def once_more(folder: Path, count: int) -> None:
    """The same audit again with a few files changed, and by two processes."""
    memory = str(folder.parent / "memory.sqlite")
    first = audit(folder, "--memory", memory)
    made = Generator(SEED, broken=BROKEN)
    for number in range(0, count, int(1 / CHANGED)):
        one = made.one(number, edition=1)
        (folder / one.name).write_bytes(one.data)
    second = audit(folder, "--memory", memory)
    figures = f"{second.work:.2f} of {first.work:.2f} s"
    line("again with 1 % changed", figures, second.work / first.work, "<= 0.15")
    alone, two = audit(folder), audit(folder, "-j", "2")
    figures = f"{alone.clock:.1f} to {two.clock:.1f} s"
    line("two processes, by the clock", figures, alone.clock / two.clock, ">= 1.8")
    # Work that looks through much memory gains less from a second processor than a loop does.
    apart = audits(folder, ("--part", "1/2"), ("--part", "2/2"))
    figures = f"{alone.clock:.1f} to {apart.clock:.1f} s"
    line(
        "  two commands, half the jobs each",
        figures,
        alone.clock / apart.clock,
        "what the machine gives",
    )
    line("  two loops that share nothing", "", gain_of_two(), "")
    figures = f"{two.work:.1f} for {alone.work:.1f} s"
    line("  processor time of both", figures, two.work / alone.work, "")


def gain_of_two() -> float:
    """How much faster two busy processes are than one after the other, on this machine now."""
    loop = [sys.executable, "-c", "for i in range(30_000_000): pass"]
    start = time.perf_counter()
    for _ in range(2):
        os.waitpid(os.posix_spawn(sys.executable, loop, os.environ), 0)
    apart = time.perf_counter() - start
    start = time.perf_counter()
    for process in [os.posix_spawn(sys.executable, loop, os.environ) for _ in range(2)]:
        os.waitpid(process, 0)
    return apart / (time.perf_counter() - start)


def by_size(count: int) -> None:
    """Cost and peak memory of the whole command from a hundred jobs up."""
    print("    jobs    ms a job    s in all    peak MB")
    peaks = {}
    for size in (100, 300, 1_000, 3_000, 10_000):
        if size > count:
            break
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place) / "jobs"
            Generator(SEED, broken=BROKEN).write(folder, size)
            cost = audit(folder)
        peaks[size] = cost.peak
        print(
            f"{size:8}{cost.work / size * 1e3:12.2f}{cost.work:12.1f}{cost.peak:11.1f}", flush=True
        )
    if 10_000 in peaks:
        figures = f"{peaks[10_000]:.0f} to {peaks[1_000]:.0f} MB"
        line("peak memory, 10 000 to 1 000 jobs", figures, peaks[10_000] / peaks[1_000], "<= 1.2")


def by_rules(jobs: list[Job]) -> None:
    """Cost of judging bound descriptions against the number of rules."""
    bound = [one for job in jobs[:200] if (one := bound_or_none(Path(job.path))) is not None]
    whole = Auditor().checker.rulebook
    print("\n   rules    ms a job    us a rule and job")
    for share in (8, 4, 2, 1):
        rules = whole.rules[::share]
        rulebook = dataclasses.replace(whole, rules=rules, _readers={})
        took = best(lambda rulebook=rulebook: [judge(rulebook, one) for one in bound], 4.0)
        each = took / len(bound)
        print(f"{len(rules):8}{each * 1e3:12.2f}{each / len(rules) * 1e6:14.2f}", flush=True)
    print()


def against_pint() -> None:
    """All rules on floats against the same formulas on pint quantities."""
    from pint_formulas import evaluator, with_units  # noqa: PLC0415 - the one part that needs pint

    rulebook = Auditor().checker.rulebook
    installation = bind(PLAN.read_bytes(), str(PLAN))
    record = installation.record
    outcomes = [o for o in check(rulebook, installation) if o.why is None and o.demand is not None]
    quantities = with_units(record.values, record.layout)

    def on_floats() -> None:
        values = Values(rulebook, record.values)
        for outcome in outcomes:
            outcome_of(outcome.rule, values, outcome.member)

    floats = best(on_floats, 3.0)
    for what, twins, target in (
        (f"{len(outcomes)} answers, the same on pint", True, ">= 100"),
        ("  functions on bare magnitudes", False, ""),
    ):
        on_pint = evaluator(rulebook, outcomes, twins=twins)
        slow = best(lambda on_pint=on_pint: on_pint(quantities, record.layout), 5.0)
        line(what, f"{floats * 1e3:.2f} to {slow * 1e3:.0f} ms", slow / floats, target)


def from_cold() -> None:
    """A command from its first instruction to its last, the compiled rulebook being there."""
    commands = {
        "check": ("-m", "checker", "check", str(PLAN)),
        "--version": ("-m", "checker", "--version"),
        **{piece: ("-c", piece) for piece in PIECES},
    }
    costs = {name: child(*arguments) for name, arguments in commands.items()}
    for _ in range(15):
        for name, arguments in commands.items():
            costs[name] = min(costs[name], child(*arguments))
    for name, piece, target in (("check", PIECES[0], "<= 1.3"), ("--version", PIECES[1], "<= 3")):
        figures = f"{costs[name].work * 1e3:.0f} to {costs[piece].work * 1e3:.0f} ms"
        line(
            f"cold {name}, to '{piece[:16]}'", figures, costs[name].work / costs[piece].work, target
        )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--jobs", type=int, default=10_000)
    parser.add_argument("only", nargs="*", choices=[*PARTS, []], metavar="ONLY")
    given = parser.parse_args()
    wanted = given.only or PARTS
    with tempfile.TemporaryDirectory() as kept:
        # A folder of its own: others at work here would push its rulebooks out of the usual one.
        Path(kept).chmod(0o700)
        os.environ["MISTWRIGHT_CACHE"] = kept
        measure(wanted, given.jobs)


def measure(wanted: Sequence[str], count: int) -> None:
    """Measure and print these parts."""
    with tempfile.TemporaryDirectory() as place:
        # The rulebooks of all overlays that occur are compiled before anything is measured.
        Generator(SEED).write(Path(place) / "jobs", 200)
        audit(Path(place) / "jobs")
    print(f"{'measured in this run':<36}{'':>22}{'ratio':>8}  target")
    if "sizes" in wanted:
        # First: a child's peak memory counts this process's too, as far as it has grown.
        by_size(count)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "jobs"
        if {"parse", "again", "rules"} & set(wanted):
            Generator(SEED, broken=BROKEN).write(folder, count)
            jobs = find_jobs((str(folder),), ())
        if "parse" in wanted:
            against_the_parse(jobs)
        if "pint" in wanted:
            against_pint()
        if "cold" in wanted:
            from_cold()
        if "again" in wanted:
            once_more(folder, count)
        if "rules" in wanted:
            by_rules(jobs)


if __name__ == "__main__":
    main()
