"""Local overlays: which one wins, what is refused, what is printed, and what they may touch."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from checker.errors import Mistakes
from checker.findings import Report
from checker.installation.binding import bind
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.reporting.reports import report_on
from checker.rulebook.cases import run_cases
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook
from checker.running import Checker

RulesIn = Callable[[dict[str, str]], Path]
Describe = Callable[[str], Installation]

FIXTURES = Path(__file__).parents[2] / "fixtures"
SHELF = """\
title: Shelf
protects: People below.
parameters:
  share: {value: 0.8, basis: {source: statics, clause: c, confidence: checked}, why: w}
  reserve: {value: 1 kg, basis: {source: statics, clause: c, confidence: checked}, why: w}
compare: {demand: shelf.mass + reserve, limit: share * shelf.capacity, unit: kg}
expect: {stop: demand <= limit}
says: {stop: "{demand} on {limit}.", met: "{demand} on {limit}."}
basis: [{source: statics, clause: c, confidence: checked}]
caution: Mind it.
cases: [{name: one, given: {shelf: {mass: 1 kg, capacity: 10 kg}}, grade: met}]
"""
MASS = "shelf: {mass: 40 kg, capacity: 100 kg}"


def overlay(parameter: str, value: str, rule: str = "load/shelf", source: str = "memory") -> str:
    return (
        "title: Local\nreplace:\n"
        f"  - {{rule: {rule}, parameter: {parameter}, value: {value}, why: local, "
        f"basis: {{source: {source}, clause: '1', confidence: checked}}}}\n"
    )


@pytest.fixture
def shelf(rules_in: RulesIn, small_layout: Layout) -> Callable[..., Rulebook]:
    """A rulebook of one rule under overlays given by name, in their order."""

    def loaded(overlays: dict[str, str], *local: str) -> Rulebook:
        files = {"families.yaml": "load: Load\n", "load/shelf.yaml": SHELF}
        files |= {f"local/{name}.yaml": text for name, text in overlays.items()}
        return load_rulebook([rules_in(files)], shipped=False, layout=small_layout, local=local)

    return loaded


class TestPrecedence:
    """Later overlays win over earlier ones, and each change names the value it replaced."""

    @pytest.mark.parametrize(
        ("local", "share"),
        [((), 0.8), (("a",), 0.5), (("b",), 0.3), (("a", "b"), 0.3), (("b", "a"), 0.5)],
    )
    def test_the_last_one_wins(
        self, shelf: Callable[..., Rulebook], local: tuple[str, ...], share: float
    ) -> None:
        book = shelf({"a": overlay("share", "0.5"), "b": overlay("share", "0.3")}, *local)
        (rule,) = book.rules
        assert rule.parameters["share"].value == share
        assert len(rule.changes) == len(local)

    def test_each_change_says_what_it_replaced(self, shelf: Callable[..., Rulebook]) -> None:
        book = shelf({"a": overlay("share", "0.5"), "b": overlay("share", "0.3")}, "a", "b")
        first, second = book.rules[0].changes
        assert "share is 0.5 instead of 0.8" in first
        assert "share is 0.3 instead of 0.5" in second

    def test_another_parameter_is_left(self, shelf: Callable[..., Rulebook]) -> None:
        book = shelf({"a": overlay("share", "0.5"), "b": overlay("reserve", "3 kg")}, "a", "b")
        found = {name: p.value for name, p in book.rules[0].parameters.items()}
        assert found == {"share": 0.5, "reserve": 3.0}

    def test_the_basis_is_the_overlay_s(self, shelf: Callable[..., Rulebook]) -> None:
        book = shelf({"a": overlay("share", "0.5")}, "a")
        assert book.rules[0].parameters["share"].basis.source.title == "A remembered page"

    def test_place_then_house_then_caller(self) -> None:
        text = "job: {stage: plan, jurisdiction: US, local: aldermere}\nmount: {kind: side-post}\n"
        book = Checker(local=("EU",)).rulebook_for(bind(text.encode(), "job.yaml"))
        assert book.overlays == ("US", "aldermere", "EU")
        # The caller's EU sets the interval, and the place's switch is still printed.
        due = next(r for r in book.rules if r.name == "handover/examination-due")
        assert due.parameters["longest"].value == 12
        assert due.switched_off


class TestRefused:
    """What an overlay cannot mean is refused with its file, its place and a way out."""

    @pytest.mark.parametrize(
        ("text", "what"),
        [
            (overlay("shar", "0.5"), "has no parameter 'shar'"),
            (overlay("share", "0.5 kg"), "changes its dimension"),
            (overlay("reserve", "1 m"), "changes its dimension"),
            (overlay("reserve", "2"), "changes its dimension"),
            (overlay("share", "true"), "changes its dimension"),
            (overlay("share", "0.5", rule="load/shelff"), "there is no rule 'load/shelff'"),
            (overlay("share", "0.5", source="nowhere"), "nowhere"),
            (overlay("reserve", "1,5 kg").replace("1,5 kg", "'1,5 kg'"), "decimal comma"),
        ],
    )
    def test_with_its_place(self, shelf: Callable[..., Rulebook], text: str, what: str) -> None:
        with pytest.raises(Mistakes) as caught:
            shelf({"a": text}, "a")
        (mistake,) = caught.value.mistakes
        assert what in mistake.what
        assert mistake.place.file.endswith("local/a.yaml")
        assert mistake.place.line is not None
        assert mistake.place.line >= 3

    def test_not_where_it_is_not_asked_for(self, shelf: Callable[..., Rulebook]) -> None:
        assert shelf({"a": overlay("shar", "0.5")}).rules[0].changes == ()


class TestSwitchedOff:
    """A rule that can stop a job and is switched off is still printed, with who said so and why."""

    OFF = (
        "title: Local\nswitch_off:\n"
        "  - {rule: load/shelf, why: Shelves are the landlord's., "
        "basis: {source: memory, clause: '1', confidence: from-memory}}\n"
    )

    def test_is_printed(self, shelf: Callable[..., Rulebook], describe: Describe) -> None:
        heavy = describe("shelf: {mass: 150 kg, capacity: 100 kg}")
        on = report_on(shelf({}), heavy)
        off = report_on(shelf({"a": self.OFF}, "a"), heavy)
        assert [f.grade.word for f in on.findings] == ["stop"]
        (found,) = off.findings
        assert found.grade.word == "not-applicable"
        assert "Switched off by the local overlay a: Shelves are the landlord's." in found.sentence
        assert any("load/shelf is switched off" in change for change in off.changes)

    def test_an_earlier_switch_is_not_undone_by_a_later_value(
        self, shelf: Callable[..., Rulebook], describe: Describe
    ) -> None:
        book = shelf({"a": self.OFF, "b": overlay("share", "0.1")}, "a", "b")
        (found,) = report_on(book, describe(MASS)).findings
        assert found.grade.word == "not-applicable"


@pytest.fixture(scope="module")
def checker() -> Checker:
    return Checker()


def _answers(report: Report) -> dict[tuple[str, str | None], tuple[object, ...]]:
    return {(f.rule, f.subject): (f.grade, f.demand, f.limit, f.sentence) for f in report.findings}


def _different(one: Report, other: Report) -> set[str]:
    left, right = _answers(one), _answers(other)
    return {rule for rule, subject in left.keys() | right.keys() if left.get((rule, subject)) != right.get((rule, subject))}  # fmt: skip


def _touched(book: Rulebook, field: str) -> set[str]:
    return {r.name for r in book.rules if r.changes or field in r.fields}


class TestOneDescriptionInTwoPlaces:
    """Two places answer differently only where an overlay or a rule names the place."""

    @pytest.mark.parametrize(
        ("fixture", "other"),
        [
            ("turning-cell-side-post", "US"),
            ("turning-cell-side-post-fitted", "US"),
            ("turning-cell-side-post-fitted", "EU"),
        ],
    )
    def test_place(self, checker: Checker, fixture: str, other: str) -> None:
        text = (FIXTURES / f"{fixture}.yaml").read_text(encoding="utf-8")
        assert "jurisdiction: GB" in text
        reports, touched = [], set()
        for place in ("GB", other):
            data = text.replace("jurisdiction: GB", f"jurisdiction: {place}").encode()
            installation = bind(data, "job.yaml")
            book = checker.rulebook_for(installation)
            touched |= _touched(book, "job.jurisdiction")
            reports.append(report_on(book, installation))
        different = _different(*reports)
        assert different
        assert different <= touched

    def test_wiring_code(self, checker: Checker) -> None:
        text = (FIXTURES / "turning-cell-side-post.yaml").read_text(encoding="utf-8")
        assert "wiring_code: iec" in text
        reports, touched = [], set()
        for code in ("iec", "nec"):
            installation = bind(
                text.replace("wiring_code: iec", f"wiring_code: {code}").encode(), "job.yaml"
            )
            book = checker.rulebook_for(installation)
            touched |= {r.name for r in book.rules if "supply.wiring_code" in r.fields}
            reports.append(report_on(book, installation))
        different = _different(*reports)
        assert "electrical-protection/overload-setting" in different
        assert different <= touched

    def test_no_electrical_rule_asks_for_the_place(self, checker: Checker) -> None:
        # The wiring code decides there, so that a US machine in Europe is judged by one code.
        asked = [
            r.name
            for r in checker.rulebook.rules
            if r.name.startswith("electrical-protection/") and "job.jurisdiction" in r.fields
        ]
        assert asked == []


class TestShipped:
    """The overlays that come with the tool."""

    @pytest.mark.parametrize("name", ["GB", "EU", "US", "aldermere"])
    def test_loads(self, checker: Checker, name: str) -> None:
        book = checker.rulebooks.with_overlays((name,))
        assert book.overlays == (name,)

    @pytest.mark.parametrize("name", ["GB", "EU", "US"])
    def test_a_place_rests_on_what_was_read(self, checker: Checker, name: str) -> None:
        # A value from memory may not take a limit's place; only a switch may say that it is one.
        for rule in checker.rulebooks.with_overlays((name,)).rules:
            for change in rule.changes:
                assert rule.switched_off or change.endswith("; checked)"), change

    def test_the_house_adds_a_rule(self, checker: Checker) -> None:
        # Read afresh: what is kept from an earlier run has no cases.
        book = load_rulebook(local=("aldermere",))
        (rule,) = (r for r in book.rules if r.name == "electrical-protection/house-trip-class")
        assert [result.complaint for result in run_cases(rule, book)] == ["", "", ""]
        assert all(r.name != rule.name for r in checker.rulebook.rules)
