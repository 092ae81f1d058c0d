"""Ratios for one installation: reading against the bare parse, evaluating against pint.

    python tests/benchmarks/one_installation.py [DESCRIPTION] [FAMILY]

Prints the best of many runs, all in this one process. Targets: reading (parse,
validate, bind) at most 3 times the C loader's bare parse; evaluating the load rules at
least 50 times faster than the same formulas on pint quantities.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import yaml

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

from pint_formulas import evaluator, with_units  # noqa: E402

from checker.checking.outcomes import Values, check, outcome_of  # noqa: E402
from checker.installation.binding import bind  # noqa: E402
from checker.rulebook import load_rulebook  # noqa: E402


def best(function: Callable[[], object], seconds: float = 1.0) -> float:
    """The shortest time of one call, in seconds, from as many as fit."""
    shortest = float("inf")
    until = time.perf_counter() + seconds
    while time.perf_counter() < until:
        start = time.perf_counter()
        function()
        shortest = min(shortest, time.perf_counter() - start)
    return shortest


def main() -> None:
    """Measure and print."""
    path = Path(sys.argv[1] if len(sys.argv) > 1 else "fixtures/turning-cell-side-post.yaml")
    family = sys.argv[2] if len(sys.argv) > 2 else "load"
    data = path.read_bytes()
    rulebook = load_rulebook()
    installation = bind(data, str(path))

    parse = best(lambda: yaml.load(data, Loader=yaml.CSafeLoader))
    compose = best(lambda: yaml.compose(data, Loader=yaml.CSafeLoader))
    reading = best(lambda: bind(data, str(path)))

    layout = installation.record.layout
    outcomes = [
        o
        for o in check(rulebook, installation)
        if o.rule.family == family and o.grade.word in ("met", "advise", "correct", "stop")
    ]
    on_pint = evaluator(rulebook, outcomes)
    quantities = with_units(installation.record.values, layout)
    programs = on_pint(quantities, layout)

    def on_floats() -> None:
        values = Values(rulebook, installation.record.values)
        for outcome in outcomes:
            outcome_of(outcome.rule, values, outcome.member)

    floats = best(on_floats)
    pint_time = best(lambda: on_pint(quantities, layout), 3.0)
    print(
        f"{path}: {len(data.splitlines())} lines, {len(outcomes)} answers of family '{family}', {programs} formulas groups"
    )
    print(f"bare parse, C loader             {parse * 1e6:9.0f} us")
    print(
        f"parse, validate and bind         {reading * 1e6:9.0f} us   {reading / parse:6.2f} x the C loader (target <= 3)"
    )
    print(
        f"                                                {reading / compose:6.2f} x its compose alone"
    )
    print(f"evaluate on floats               {floats * 1e6:9.0f} us")
    print(
        f"the same formulas on pint        {pint_time * 1e6:9.0f} us   {pint_time / floats:6.1f} x slower (target >= 50)"
    )


if __name__ == "__main__":
    main()
