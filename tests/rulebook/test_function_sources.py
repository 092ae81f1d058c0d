"""What a formula rests on through the functions it calls: found, kept, and enough to refuse a stop."""

from __future__ import annotations

import doctest
import importlib
import sys
from collections.abc import Callable
from types import FrameType
from typing import Any

import pytest

from checker.errors import Mistakes
from checker.formulas.functions import engineering_names, function
from checker.rulebook.function_sources import functions_behind, recalled, source_of_function
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import CONFIDENCES, Rulebook
from checker.rulebook.register import register

Load = Callable[[dict[str, str]], Rulebook]
RuleText = Callable[[str], str]


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    return load_rulebook()


def test_every_function_says_how_far_its_source_was_read() -> None:
    for name in engineering_names():
        stated = source_of_function(name)
        assert stated.confidence in CONFIDENCES, name
        assert stated.does, name
        assert stated.text, name


def test_what_a_function_calls_while_it_runs_stands_behind_it() -> None:
    """Every example of every docstring, watched: what was called is what the code was seen to call."""
    modules = {
        name: f"checker.engineering.{module}" for name, module in engineering_names().items()
    }
    codes = {function(name).__code__: name for name in modules}
    called: dict[str, set[str]] = {}
    running: list[str] = []

    def watch(frame: FrameType, event: str, _: Any) -> None:
        name = codes.get(frame.f_code)
        if name is None:
            return
        if event == "call":
            for outer in running:
                called.setdefault(outer, set()).add(name)
            running.append(name)
        elif event == "return":
            running.pop()

    runner = doctest.DocTestRunner(verbose=False)
    for path in sorted(set(modules.values())):
        module = importlib.import_module(path)
        for test in doctest.DocTestFinder(recurse=False).find(module) + [
            found
            for name in module.__all__
            for found in doctest.DocTestFinder(recurse=False).find(
                getattr(module, name), name, module=module, globs=dict(vars(module))
            )
        ]:
            before = sys.getprofile()
            sys.setprofile(watch)
            try:
                runner.run(test, out=lambda _: None)
            finally:
                sys.setprofile(before)
                running.clear()
    assert len(called) > 40
    for outer, inner in called.items():
        assert inner - {outer} <= set(functions_behind(outer)), outer


def test_a_function_that_was_read_may_call_one_that_was_not() -> None:
    assert source_of_function("combined_normal_stress").confidence == "checked"
    assert [one.name for one in recalled(["combined_normal_stress"])] == ["bending_stress"]
    # One from memory stands for what it calls; it is not said of each anew.
    assert "tip_stiffness" in functions_behind("tip_stiffness_flexible_base")
    names = [one.name for one in recalled(["tip_stiffness_flexible_base"])]
    assert names == ["tip_stiffness_flexible_base"]
    assert recalled(["bore_area"]) == ()


def test_the_register_knows_functions_behind_functions(shipped: Rulebook) -> None:
    there = {e.rule: e for e in register(shipped) if e.kind == "function"}
    called = {name for rule in shipped.rules for name in rule.uses.functions}
    called |= {name for derived in shipped.order for name in derived.uses.functions}
    assert set(there) == called | {inner for name in called for inner in functions_behind(name)}
    assert "friction_factor" not in called
    assert "airflow/duct-loss" in there["friction_factor"].used_by


def test_rules_are_marked_as_the_register_has_it(shipped: Rulebook) -> None:
    weak = {
        name
        for entry in register(shipped)
        if entry.kind == "function" and entry.confidence == "from-memory"
        for name in entry.used_by
    }
    behind = {
        rule.name: (rule, *(shipped.order[i] for i in rule.derived)) for rule in shipped.rules
    }
    assert {name for name, owners in behind.items() if any(o.recalled for o in owners)} == weak
    assert weak <= {rule.name for rule in shipped.rules if rule.remembered}
    assert {"load/post-bending", "load/transit", "drainage/drain-capacity"} <= weak
    # Where nothing but geometry and laws of physics is called, nothing is said.
    assert not {"load/host-capacity", "airflow/duct-loss", "drainage/drain-slope"} & weak


FIGURES = """\
parameters:
  m: {value: 10 N*m, basis: {source: statics, clause: c, confidence: checked}, why: w}
  z: {value: 1000 mm3, basis: {source: statics, clause: c, confidence: checked}, why: w}
  n: {value: 10 N, basis: {source: statics, clause: c, confidence: checked}, why: w}
  s: {value: 100 mm2, basis: {source: statics, clause: c, confidence: checked}, why: w}
  most: {value: 235 MPa, basis: {source: statics, clause: c, confidence: checked}, why: w}
"""
FORMULAS = {
    "called": "bending_stress(m, z) <= most",
    "behind a function that was read": "combined_normal_stress(n, s, m, z, m, z) <= most",
    "behind a derived value": "derived.stress <= most",
}
STRESS = f"title: Stress\n{FIGURES}result: {{formula: 'bending_stress(m, z)', unit: MPa}}\nbasis: [{{source: statics, clause: c, confidence: checked}}]\n"


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_a_stop_on_a_function_from_memory_is_refused(
    load: Load, rule_text: RuleText, formula: str
) -> None:
    def files(grade: str, more: str = "") -> dict[str, str]:
        parts = f"{FIGURES}expect: {{{grade}: '{formula}'}}{more}"
        return {"derived/stress.yaml": STRESS, "load/shelf.yaml": rule_text(parts)}

    with pytest.raises(Mistakes) as raised:
        load(files("stop"))
    (mistake,) = raised.value.mistakes
    assert mistake.what == "'stop' rests on a figure that is not checked"
    assert mistake.found == "the function 'bending_stress' is 'from-memory'"
    assert load(files("stop", "\ndanger: It falls.")).rules[0].remembered
    assert load(files("correct")).rules[0].remembered


def test_a_stop_on_a_function_that_was_read_needs_no_danger(
    load: Load, rule_text: RuleText
) -> None:
    book = load({"load/shelf.yaml": rule_text(f"{FIGURES}expect: {{stop: 'm / z <= most'}}")})
    assert not book.rules[0].remembered
    assert book.rules[0].recalled == ()
