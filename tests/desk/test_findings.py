"""The desk's findings are the command line's, whatever was kept from the keystroke before."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from checker.desk.keeping import Keeper
from checker.desk.looking import Window
from checker.desk.told import finding_told, identified, values_of
from checker.desk.typed import bound, read_typed
from checker.grades import Grade
from checker.installation.record import Installation
from checker.reporting.reports import open_findings

FIXTURES = Path(__file__).parents[2] / "fixtures"
WHOLE = sorted(p for p in FIXTURES.rglob("*.yaml") if ".fitted." not in p.name)
FEW = [FIXTURES / "wall-bracket-old-lathe.yaml", FIXTURES / "defective" / "thin-panel-behind-strong-bolt.yaml", FIXTURES / "turning-cell-side-post-fitted.yaml"]  # fmt: skip
Tree = dict[str, Any]
Mangle = Callable[[Tree, random.Random], None]


def as_told(answer: dict[str, Any], bodies: dict[str, Any] | None = None) -> list[dict[str, Any]]:
    found = answer["bodies"] if bodies is None else bodies
    return [found[name] for name in answer["order"]]


def _same(path: Path, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    report = checker.report(str(path), working=False)
    wanted = [f for f in report.findings if f.grade < Grade.MET]
    answer = Window(checker).check(tree_of(path.read_bytes()), None, 0)
    assert as_told(answer) == [finding_told(f) for f in sorted(wanted, key=lambda f: f.grade)]
    assert answer["verdict"] == report.verdict.value
    assert answer["counts"] == report.counts


@pytest.mark.parametrize("path", FEW, ids=lambda p: p.stem)
def test_the_findings_are_those_of_the_command_line(path: Path, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    _same(path, checker, tree_of)


@pytest.mark.slow
@pytest.mark.parametrize("path", WHOLE, ids=lambda p: p.stem)
def test_the_findings_of_every_fixture_are_those_of_the_command_line(path: Path, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    _same(path, checker, tree_of)


@pytest.mark.parametrize("name", ["turning-cell-side-post", pytest.param("grinder-roof-plate", marks=pytest.mark.slow), pytest.param("milling-floor-stand-inch", marks=pytest.mark.slow)])  # fmt: skip
def test_a_plan_and_its_site_file_come_to_what_the_command_line_says(name: str, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    from checker.desk.fitted import beside  # noqa: PLC0415

    plan, site = FIXTURES / f"{name}.yaml", FIXTURES / "fitted" / f"{name}.fitted.yaml"
    report = checker.report(str(plan), str(site), working=False)
    under = tree_of(plan.read_bytes())
    over = beside(tree_of(site.read_bytes()), under, checker.rulebook.layout.root)
    window = Window(checker)
    answer = window.check(over, under, 0)
    wanted = [f for f in report.findings if f.grade < Grade.MET]
    told = [finding_told(f) for f in sorted(wanted, key=lambda f: f.grade)]
    for one in (*told, *as_told(answer)):
        one["fields"].sort(key=lambda f: f["path"])  # By file and line, and the page has neither.
    assert as_told(answer) == told
    assert (answer["verdict"], answer["counts"]) == (report.verdict.value, report.counts)
    moved = window.around()["moved"]
    assert [(m["path"], m["planned"], m["fitted"]) for m in moved] == [(m.path, m.planned, m.fitted) for m in report.moved]  # fmt: skip
    assert [[f"{g['rule']}: {g['was']} -> {g['now']}" for g in m["grades"]] for m in moved] == [list(m.grades) for m in report.moved]  # fmt: skip


def _kept_is_fresh(path: Path, changes: int, checker: Any, tree_of: Callable[[bytes], Tree], mangle: Mangle) -> None:  # fmt: skip
    chance = random.Random(path.name)
    layout = checker.rulebook.layout
    start = tree_of(path.read_bytes())
    tree, keeper = copy.deepcopy(start), Keeper()
    compared = 0
    for i in range(changes):
        if i % 12 == 11:
            tree = copy.deepcopy(start)
        mangle(tree, chance)
        record = bound(read_typed(tree, layout, "page"), layout)
        if record is None:
            continue
        one = Installation(record, "page", "")
        rulebook = checker.rulebook_for(one)
        kept = [finding_told(f) for f in keeper.answers(rulebook, one).findings]
        assert kept == [finding_told(f) for f in open_findings(rulebook, one)]
        compared += 1
    assert compared > changes / 2


@pytest.mark.parametrize("path", FEW, ids=lambda p: p.stem)
def test_what_is_kept_between_keystrokes_is_what_a_fresh_check_finds(path: Path, checker: Any, tree_of: Callable[[bytes], Tree], mangle: Mangle) -> None:  # fmt: skip
    _kept_is_fresh(path, 8, checker, tree_of, mangle)


@pytest.mark.slow
@pytest.mark.parametrize("path", FEW, ids=lambda p: p.stem)
def test_what_is_kept_over_many_keystrokes_is_what_a_fresh_check_finds(path: Path, checker: Any, tree_of: Callable[[bytes], Tree], mangle: Mangle) -> None:  # fmt: skip
    _kept_is_fresh(path, 40, checker, tree_of, mangle)


def test_only_what_changed_is_told_again(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    tree = tree_of(FEW[0].read_bytes())
    window = Window(checker)
    bodies = window.check(tree, None, 0)["bodies"]
    tree["collector"]["mass"] = "55 kg"
    later = window.check(tree, None, 1)
    assert len(later["bodies"]) < len(later["order"])
    together = {**bodies, **later["bodies"]}
    assert as_told(later, together) == as_told(Window(checker).check(tree, None, 0))
    # A page that missed an answer is told what it missed.
    assert set(window.check(tree, None, 1)["bodies"]) == set(later["bodies"])
    assert window.check(tree, None, 2)["bodies"] == {}


def test_a_page_that_forgot_or_was_forgotten_is_told_all_again(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(FEW[0].read_bytes())
    window = Window(checker)
    first = window.check(tree, None, 0)
    # Nothing can be checked for a moment: the page has dropped everything by then.
    kind = tree["mount"].pop("kind")
    assert window.check(tree, None, 1)["order"] == []
    tree["mount"]["kind"] = kind
    again = window.check(tree, None, 2)
    assert as_told(again) == as_told(first)
    # A window that was forgotten here begins to count anew.
    assert as_told(Window(checker).check(tree, None, 40)) == as_told(first)


def test_a_mistake_leaves_no_verdict_and_the_other_findings(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(FEW[1].read_bytes())
    tree["job"]["planned_on"] = "tomorrow"
    answer = Window(checker).check(tree, None, 0)
    assert answer["verdict"] == ""
    assert [e["path"] for e in answer["entries"]] == ["job.planned_on"]
    assert "stop" in {b["grade"] for b in answer["bodies"].values()}


def test_the_working_of_a_finding_is_the_reports(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    path = FEW[1]
    window = Window(checker)
    answer = window.check(tree_of(path.read_bytes()), None, 0)
    name = answer["order"][0]
    detail = window.detail(name)
    finding = next(f for f in checker.report(str(path)).findings if f.rule == answer["bodies"][name]["rule"] and f.sentence == answer["bodies"][name]["sentence"])  # fmt: skip
    assert [w["result"] for w in detail["working"]] == [w.result for w in finding.working]
    assert [b["clause"] for b in detail["basis"]] == [b.clause for b in finding.basis]


def test_needed_fields_and_drawings_stand_around_it(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    from checker.asking.starting import needs_of  # noqa: PLC0415
    from checker.drawing.elevation import draw_elevation  # noqa: PLC0415
    from checker.drawing.fan_chart import draw_fan_chart  # noqa: PLC0415

    path = FEW[2]
    window = Window(checker)
    window.check(tree_of(path.read_bytes()), None, 0)
    around = window.around()
    report = checker.report(str(path), working=False)
    assert [v["svg"] for v in around["views"]] == [v.svg for v in draw_elevation(report.geometry, report.findings).views]  # fmt: skip
    assert around["curves"] == draw_fan_chart(report.curves)
    assert window.answers is not None
    assert set(around["needs"]) == set(needs_of(checker.rulebook, window.answers.installation))


def test_findings_of_one_name_are_told_apart(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(FEW[1].read_bytes())
    tree["mount"]["fixings"] = [copy.deepcopy(tree["mount"]["fixings"][0]) for _ in range(3)]
    record = bound(read_typed(tree, checker.rulebook.layout, "page"), checker.rulebook.layout)
    assert record is not None
    named = identified(Keeper().answers(checker.rulebook, Installation(record, "page", "")).findings)  # fmt: skip
    assert len({name for name, _ in named}) == len(named)


def test_a_remedy_that_bounds_is_told_as_a_value() -> None:
    assert values_of("at least 3/8 in") == ["3/8 in"]
    assert values_of("true") == ["true"]
