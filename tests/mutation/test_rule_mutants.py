"""The mutation run of rules on a rulebook of one rule: what is noticed, what survives, what fails it."""

from __future__ import annotations

import ast
from collections.abc import Callable
from pathlib import Path

import pytest
from formula_mutants import slips
from judging_rules import Bench
from reachable import equality
from rule_mutants import table_mutants

import rules as script
from checker.installation.fields import Layout

RULE = """\
title: Shelf
protects: People below.
applies: shelf.mass > nothing
parameters:
  nothing: {value: 1 kg, basis: {source: statics, clause: c, confidence: checked}, why: Least.}
  share: {value: 0.8, basis: {source: statics, clause: c, confidence: checked}, why: Room.}
compare: {demand: shelf.mass, limit: shelf.capacity}
expect: {correct: demand <= limit, advise: demand <= share * limit}
says: {correct: c, advise: a, met: m, not-applicable: n}
basis: [{source: statics, clause: c, confidence: checked}]
caution: Mind it.
example: {shelf: {mass: 20 kg, capacity: 50 kg}}
cases:
  - {name: light, grade: met}
"""
# 0.8 of 50 kg is 40 kg.
GOOD = """\
  - {name: nothing on it, given: {shelf.mass: 1 kg}, grade: not-applicable}
  - {name: next to nothing, given: {shelf.mass: 1.01 kg}, grade: met}
  - {name: hardly anything, given: {shelf.mass: 0.99 kg}, grade: not-applicable}
  - {name: at the share, given: {shelf.mass: 40 kg}, grade: met}
  - {name: over the share, given: {shelf.mass: 40.1 kg}, grade: advise}
  - {name: at the limit, given: {shelf.mass: 50 kg}, grade: advise, limit: 50 kg}
  - {name: over the limit, given: {shelf.mass: 50.1 kg}, grade: correct}
"""


@pytest.fixture
def bench(rules_in: Callable[[dict[str, str]], Path], small_layout: Layout) -> Callable[..., Bench]:
    def made(cases: str) -> Bench:
        folder = rules_in({"load/shelf.yaml": RULE + cases})
        return Bench([folder], shipped=False, layout=small_layout)

    return made


def run(bench: Bench, tmp_path: Path, listed: str = "", *arguments: str) -> int:
    register = tmp_path / "survivors.yaml"
    register.write_text(listed, encoding="utf-8")
    return script.main(["--jobs", "1", *arguments], bench, register)


def test_good_cases_notice_every_wrong_version(
    bench: Callable[..., Bench], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(bench(GOOD), tmp_path) == 0
    out = capsys.readouterr().out
    assert "100.0%" in out
    assert "every survivor is accounted for" in out


def test_a_survivor_that_is_not_listed_fails_the_run(
    bench: Callable[..., Bench], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(bench(""), tmp_path, "", "--least", "0") == 1
    out = capsys.readouterr().out
    assert "survived, and not listed: load/shelf | parameters.share | 0.8 +2%" in out
    # One case on a light shelf cannot tell a limit that is passed from one that is met.
    assert "survived, and not listed: load/shelf | expect.correct | always holds" in out


def test_survivors_that_are_listed_let_the_run_pass_unless_the_rate_is_low(
    bench: Callable[..., Bench], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    weak = bench("")
    run(weak, tmp_path)
    lines = [line for line in capsys.readouterr().out.splitlines() if "not listed: " in line]
    keys = [line.partition("not listed: ")[2].split(" | ") for line in lines]
    assert keys
    listed = "load/shelf:\n" + "".join(
        f"  - {{at: {at}, change: {change!r}, reason: not worth a case}}\n"
        for _, at, change in keys
    )
    assert run(weak, tmp_path, listed, "--least", "0") == 0
    assert run(weak, tmp_path, listed) == 1
    assert "95% is asked" in capsys.readouterr().out
    # The same list beside cases that notice them all.
    assert run(bench(GOOD), tmp_path, listed) == 1
    assert "listed, but it does not survive" in capsys.readouterr().out


def test_a_run_without_a_wrong_version_fails(
    bench: Callable[..., Bench], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(bench(GOOD), tmp_path, "", "--family", "noise") == 1
    assert "no wrong version was tried" in capsys.readouterr().out


def test_an_entry_without_a_reason_is_refused(bench: Callable[..., Bench], tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no reason"):
        run(bench(GOOD), tmp_path, "load/shelf: [{at: applies, change: x, reason: ''}]")


def test_a_case_that_fails_on_the_rule_as_it_stands_fails_the_run(
    bench: Callable[..., Bench], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wrong = "  - {name: wrong, given: {shelf.mass: 60 kg}, grade: met}\n"
    assert run(bench(GOOD + wrong), tmp_path) == 1
    assert "a case fails on the rule as it stands: load/shelf: wrong" in capsys.readouterr().out


def changes(text: str, **given: object) -> set[str]:
    columns = {"size": ("fine", "coarse")}
    return {s.change for s in slips(text, columns, equality({}, {}))}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a <= b", {"a <= b -> a < b", "a <= b -> a >= b"}),
        ("a == 'x'", {"a == 'x' -> a != 'x'"}),
        (
            "a in ['x', 'y']",
            {
                "a in ['x', 'y'] -> a not in ['x', 'y']",
                "a in [...] without 'x'",
                "a in [...] without 'y'",
            },
        ),
        ("a and b", {"without 'and a'", "without 'and b'"}),
        ("not a", {"not a -> a"}),
        ("a + b", {"a + b -> a", "a + b -> b"}),
        ("a - b", {"a - b -> a"}),
        ("a / b", {"a / b -> a"}),
        ("min(a, b)", {"min(a, b) -> max"}),
        ("a if c else b", {"always a, whether c or not", "always b, whether c or not"}),
        ("table.size.fine(a)", {"table.size.fine -> table.size.coarse"}),
    ],
)
def test_every_kind_of_slip(text: str, expected: set[str]) -> None:
    assert changes(text) == expected


def test_a_slip_leaves_the_rest_of_the_formula_alone() -> None:
    found = {s.formula for s in slips("(a + b) * c <= d", {}, equality({}, {}))}
    assert "(a + b) * c < d" in found
    assert "a * c <= d" in found
    assert all(ast.parse(f) for f in found)


def test_equality_is_only_asked_for_where_it_can_be_reached() -> None:
    data = {"working": {"far": {"formula": "post_stress(a, b)"}, "near": {"formula": "a + 2 * b"}}}
    can = equality(data, {})
    compare = lambda text: ast.parse(text, mode="eval").body  # noqa: E731
    assert can(compare("near <= limit"))
    assert not can(compare("far <= limit"))
    assert not can(compare("a ** 2 <= limit"))


def test_what_a_number_between_two_rows_takes_is_changed() -> None:
    data = {"keys": {"size": {"unit": "mm", "between": "next-higher"}, "kind": None}}
    found = [m.change for m in table_mutants("table.size", data)]
    assert found == ["next-higher -> next-lower", "next-higher -> exact"]
