"""Tolerances, estimates and unusual values: the grade that then stands."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.checking.outcomes import Values, check
from checker.checking.tolerances import Tolerances
from checker.findings import Finding
from checker.grades import Grade
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.reporting.reports import report_on
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]


COMPARE = "compare: {demand: shelf.mass, limit: shelf.capacity}\n"
GRADES = (
    COMPARE
    + "expect: {stop: demand <= limit, correct: demand <= 0.9 * limit, advise: demand <= 0.8 * limit}"
)


@pytest.mark.parametrize(
    ("mass", "grade", "worst"),
    [
        ("70 kg", Grade.MET, None),
        ("70 kg ± 5 kg", Grade.MET, Grade.MET),
        ("75 kg ± 10 kg", Grade.ADVISE, Grade.ADVISE),
        ("75 kg ± 20 kg", Grade.CONFIRM, Grade.CORRECT),
        ("75 kg ± 30 kg", Grade.CONFIRM, Grade.STOP),
        ("85 kg ± 10 kg", Grade.CONFIRM, Grade.CORRECT),
        ("95 kg ± 10 kg", Grade.CORRECT, Grade.STOP),
        ("105 kg ± 10 kg", Grade.STOP, None),
        ("60..100 kg", Grade.CONFIRM, Grade.CORRECT),
    ],
)
def test_what_is_met_at_the_stated_value_only_is_not_met(
    ask: Callable[..., Finding], mass: str, grade: Grade, worst: Grade | None
) -> None:
    found = ask(GRADES, f"shelf: {{mass: {mass}, capacity: 100 kg}}")
    assert found.grade is grade
    assert (found.worst.grade if found.worst else None) is worst
    if worst is not None and worst < grade:
        assert "measure shelf.mass more closely" in found.sentence


def test_the_measurement_that_matters_most_is_the_one_to_tighten(
    ask: Callable[..., Finding],
) -> None:
    found = ask(GRADES, "shelf: {mass: 75 kg ± 0.1 kg, capacity: 100 kg ± 30 kg}")
    assert found.worst is not None
    assert found.worst.tighten == "shelf.capacity"
    assert found.worst.demand is not None
    assert (found.worst.demand.text, found.worst.limit.text) == ("75.1 kg", "70 kg")  # type: ignore[union-attr]


def test_a_tolerance_of_what_a_rule_does_not_read_is_nothing_to_it(
    ask: Callable[..., Finding],
) -> None:
    found = ask(GRADES, "shelf: {mass: 70 kg, capacity: 100 kg, reach: 1 m ± 0.5 m}")
    assert found.worst is None


def test_the_tolerance_of_one_member_is_nothing_to_another(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    text = "boxes: [{name: a, kind: open, mass: 20 kg ± 9 kg}, {name: b, kind: open, mass: 20 kg}]"
    found = [
        f for f in report_on(small_rulebook, describe(text)).findings if f.rule == "load/box-mass"
    ]
    assert [f.grade for f in found] == [Grade.CONFIRM, Grade.MET]
    assert [f.worst is None for f in found] == [False, True]


def test_what_would_apply_inside_the_tolerances_is_not_passed_over(
    ask: Callable[..., Finding],
) -> None:
    parts = (
        "parameters:\n  far: {value: 1 m, why: w, basis: {source: statics, clause: c, confidence: checked}}\n"
        f"applies: shelf.reach > far\n{GRADES}"
    )
    heavy = "mass: 120 kg, capacity: 100 kg"
    assert ask(parts, f"shelf: {{reach: 0.9 m, {heavy}}}").grade is Grade.NOT_APPLICABLE
    found = ask(parts, f"shelf: {{reach: 0.9 m ± 0.2 m, {heavy}}}")
    assert found.grade is Grade.CONFIRM
    assert found.sentence.startswith("At the stated values this does not apply")
    assert ask(parts, f"shelf: {{reach: 0.9 m ± 0.05 m, {heavy}}}").grade is Grade.NOT_APPLICABLE
    light = "mass: 10 kg, capacity: 100 kg"
    assert ask(parts, f"shelf: {{reach: 0.9 m ± 0.2 m, {light}}}").grade is Grade.NOT_APPLICABLE


def test_what_cannot_be_computed_inside_the_tolerances_is_not_met(
    ask: Callable[..., Finding],
) -> None:
    parts = "working:\n  x: {formula: shelf.pull / shelf.reach, unit: N/m}\ncompare: {demand: x * 0, limit: x, unit: N/m}\nexpect: {correct: demand <= limit}"
    found = ask(parts, "shelf: {pull: 5 N, reach: 0.5 m ± 0.5 m}")
    assert found.grade is Grade.CONFIRM
    assert "cannot be computed" in found.sentence


# A rule that adds and takes away four toleranced fields; every one pulls in one direction.
SIGNED = """\
title: T
protects: P
parameters:
  most: {value: 60 kg, why: w, basis: {source: statics, clause: c, confidence: checked}}
working:
  pulled: {formula: shelf.pull / standard_gravity, unit: kg}
  x: {formula: shelf.mass - shelf.capacity + sum(b.mass for b in boxes) - pulled, unit: kg}
compare: {demand: x, limit: most}
expect: {correct: demand <= limit}
says: {correct: c, met: m}
basis: [{source: statics, clause: c, confidence: checked}]
caution: c
cases: [{name: a, grade: met}]
"""


@pytest.fixture(scope="session")
def signed(tmp_path_factory: pytest.TempPathFactory, small_layout: Layout) -> Rulebook:
    root = tmp_path_factory.mktemp("signed")
    for name, text in (
        ("sources/s.yaml", "statics: {title: S, publisher: P}\n"),
        ("load/x.yaml", SIGNED),
    ):
        (root / name).parent.mkdir()
        (root / name).write_text(text)
    return load_rulebook([root], shipped=False, layout=small_layout)


spreads = st.tuples(st.integers(30, 60), st.integers(0, 30))


@given(st.tuples(spreads, spreads, spreads, spreads))
def test_the_worst_corner_is_found(
    signed: Rulebook, describe: Describe, stated: tuple[tuple[int, int], ...]
) -> None:
    """For a rule that is monotone in each field the corners decide, whatever the directions."""
    mass, capacity, box, pull = (f"{value} kg ± {spread} kg" for value, spread in stated)
    pull = f"{stated[3][0] * 9.80665} N ± {stated[3][1] * 9.80665} N"
    installation = describe(
        f"shelf: {{mass: {mass}, capacity: {capacity}, pull: {pull}}}\nboxes: [{{name: a, mass: {box}}}]"
    )
    (outcome,) = check(signed, installation)
    values = Values(signed, installation.record.values)
    found = Tolerances(installation, values).worst_case(outcome)
    corners = [
        sum(
            sign * (value + end * spread)
            for sign, (value, spread), end in zip((1, -1, 1, -1), stated, ends, strict=True)
        )
        for ends in product((-1, 1), repeat=4)
    ]
    if found is None:
        assert all(spread == 0 for _, spread in stated)
    else:
        assert found.outcome.demand == pytest.approx(max(corners), abs=1e-9)
        assert (found.outcome.grade is Grade.MET) == (max(corners) <= 60)
    # Everything is put back as it was.
    (again,) = check(signed, installation)
    assert again.demand == outcome.demand


@pytest.mark.parametrize(
    ("stage", "mass", "parts", "grade"),
    [
        ("fitted", "{is: 10 kg, origin: estimated}", GRADES, Grade.CONFIRM),
        ("fitted", "{is: 85 kg, origin: estimated}", GRADES, Grade.CONFIRM),
        ("fitted", "{is: 95 kg, origin: estimated}", GRADES, Grade.CORRECT),
        ("fitted", "{is: 105 kg, origin: estimated}", GRADES, Grade.STOP),
        ("fitted", "{is: 10 kg, origin: measured}", GRADES, Grade.MET),
        ("fitted", "10 kg", GRADES, Grade.MET),
        ("plan", "{is: 10 kg, origin: estimated}", GRADES, Grade.MET),
        (
            "fitted",
            "{is: 10 kg, origin: estimated}",
            COMPARE + "expect: {correct: demand <= limit}",
            Grade.MET,
        ),
    ],
)
def test_an_estimate_under_a_stop_is_confirmed_once_fitted(
    ask: Callable[..., Finding], stage: str, mass: str, parts: str, grade: Grade
) -> None:
    found = ask(parts, f"job: {{stage: {stage}}}\nshelf: {{mass: {mass}, capacity: 100 kg}}")
    assert found.grade is grade
    if grade is Grade.CONFIRM:
        assert "rests on an estimate (shelf.mass)" in found.sentence


def test_an_estimate_behind_a_derived_value_counts(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    text = "job: {stage: fitted}\nshelf: {mass: 20 kg, capacity: 100 kg}\nboxes: [{name: a, kind: shut, mass: {is: 10 kg, origin: estimated}}]"
    (found,) = (
        f for f in report_on(small_rulebook, describe(text)).findings if f.rule == "load/capacity"
    )
    assert found.grade is Grade.CONFIRM
    assert "boxes[0].mass" in found.sentence


@pytest.mark.parametrize(
    ("shelf", "asked"),
    [
        ("mass: 2800 kg", "shelf.mass"),
        ("mass: 0.5 kg", "shelf.mass"),
        ("mass: 150 kg ± 60 kg", "shelf.mass"),
        ("friction: 14", "shelf.friction"),
        ("friction: 1 %", "shelf.friction"),
        ("warmth: 80 degC", "shelf.warmth"),
        ("mass: 200 kg", None),
        ("pull: 1e15 N", None),
    ],
)
def test_an_unusual_value_is_asked_about_and_not_refused(
    small_rulebook: Rulebook, describe: Describe, shelf: str, asked: str | None
) -> None:
    report = report_on(small_rulebook, describe(f"shelf: {{{shelf}}}"))
    found = [f for f in report.findings if f.rule == "description/plausible-values"]
    assert [f.subject for f in found] == ([asked] if asked else [])
    assert all(f.grade is Grade.CONFIRM for f in found)
    assert all("usually lies between" in f.sentence for f in found)
