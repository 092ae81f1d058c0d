"""The fitting sheet: every figure the one its rule works out, nothing missing without a word."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from pytest_regressions.file_regression import FileRegressionFixture

from checker.absent import Absent
from checker.checking.outcomes import Values
from checker.errors import Mistakes
from checker.formulas.lacking import evaluate
from checker.installation.binding import bind
from checker.installation.record import Installation
from checker.output.sheet import render_markdown, render_text
from checker.reporting.fitting_sheet import PARTS, Sheet, sheet_for
from checker.reporting.sheet_lines import Entry
from checker.reporting.wording import Wording
from checker.rulebook.model import Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER
from checker.running import Checker
from checker.units import Unit

DATA = Path(__file__).parents[1] / "data"
FIXTURES = Path(__file__).parents[2] / "fixtures"
MAIN = sorted(path.name for path in FIXTURES.glob("*.yaml"))
DEFECTIVE = sorted(path.name for path in (FIXTURES / "defective").glob("*.yaml"))
TURNING = "turning-cell-side-post.yaml"
EMPTY = b"job: {stage: plan}\nmount: {kind: side-post}\n"


@cache
def the_checker() -> Checker:
    return Checker()


def entries(sheet: Sheet) -> Iterator[tuple[str, Entry]]:
    for part in sheet.parts:
        for entry in part.entries:
            yield part.name, entry


@cache
def drawn(name: str) -> tuple[Sheet, Installation, Rulebook]:
    data = (FIXTURES / name).read_bytes()
    installation = bind(data, name)
    rulebook = the_checker().rulebook_for(installation)
    return sheet_for(rulebook, installation), installation, rulebook


def sheet_of(description: Any) -> Sheet:
    data = description if isinstance(description, bytes) else json.dumps(description).encode()
    installation = bind(data, "sheet.yaml")
    return sheet_for(the_checker().rulebook_for(installation), installation)


def turning() -> dict[str, Any]:
    """The description as plain data, to take something out of."""
    found: dict[str, Any] = yaml.load((FIXTURES / TURNING).read_bytes(), _Plain)
    return found


class _Plain(yaml.SafeLoader):
    """Reads ``on`` as the word that it is; only true and false are flags."""


_Plain.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in found if not tag.endswith(":bool")]
    for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
_Plain.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("(true|false)$"), ["t", "f"])


def text_of(sheet: Sheet, part: str) -> str:
    return "\n".join(entry.text for name, entry in entries(sheet) if name == part)


# --- the sheet as it is held in the hand ---------------------------------------


def test_the_turning_cell(file_regression: FileRegressionFixture) -> None:
    text = render_text(drawn(TURNING)[0])
    text = re.sub(r"mistwright \S+, rulebook \w+, description \w+", "mistwright", text)
    file_regression.check(
        text, extension=".txt", encoding="utf-8", fullpath=DATA / "turning-cell.sheet.txt"
    )


def test_two_printed_pages() -> None:
    # A page of 80 columns in eight points holds some hundred lines.
    assert len(render_text(drawn(TURNING)[0]).splitlines()) <= 200


@pytest.mark.parametrize("name", MAIN)
def test_eighty_columns(name: str) -> None:
    assert max(len(line) for line in render_text(drawn(name)[0]).splitlines()) <= 80


@pytest.mark.parametrize("name", MAIN)
def test_markdown_has_every_line_with_its_rule(name: str) -> None:
    sheet = drawn(name)[0]
    lines = [line for line in render_markdown(sheet).splitlines() if "[ ]" in line]
    shown = list(entries(sheet))
    assert len(lines) == len(shown)
    for line, (_, entry) in zip(lines, shown, strict=True):
        assert f"`{entry.rule}" in line


@pytest.mark.slow
@pytest.mark.parametrize("name", DEFECTIVE)
def test_defective_ones_are_drawn(name: str) -> None:
    sheet, *_ = drawn(f"defective/{name}")
    text = render_text(sheet)
    assert max(len(line) for line in text.splitlines()) <= 80
    check_figures(f"defective/{name}")


@pytest.mark.parametrize("name", MAIN)
def test_every_part_is_there(name: str) -> None:
    assert [part.name for part in drawn(name)[0].parts] == list(PARTS)


def test_the_rules_by_number() -> None:
    sheet = drawn(TURNING)[0]
    text = render_text(sheet)
    body, _, index = text.partition("RULES BEHIND THE LINES")
    joined = " ".join(index.split())
    families = dict(
        re.findall(r"([a-z-]+)/ (.*?)(?= [a-z-]+/ | \* Reference not| Figures are)", joined)
    )
    named = {
        int(number): f"{family}/{rule}"
        for family, rules in families.items()
        for number, rule in (one.split() for one in rules.split(", "))
    }
    assert set(named.values()) == {entry.rule for _, entry in entries(sheet)}
    flat = " ".join(body.split())
    for _, entry in entries(sheet):
        number = next(number for number, rule in named.items() if rule == entry.rule)
        assert f"{' '.join(entry.text.split())} ({number}" in flat


# --- each figure is that of its rule's working ------------------------------------


def check_figures(name: str) -> int:
    """Read every figure of a sheet back and hold it against its rule, worked out line by line."""
    sheet, installation, rulebook = drawn(name)
    values = Values(rulebook, installation.record.values)
    wording = Wording(installation, rulebook)
    figures = 0
    for part, entry in entries(sheet):
        rule = rulebook.rule(entry.rule)
        assert rule is not None, entry.rule
        line = rule.sheet[entry.line]
        assert line.part == part
        if not entry.complete:
            assert "State " in entry.text or entry.text.endswith(".")
            continue
        members: list[int | None] = list(entry.members) or [None]
        each = {
            one: [_Figure.of(one, rule, m, values, wording, installation) for m in members]
            for one in PLACEHOLDER.findall(line.line)
        }
        match = re.fullmatch(_pattern(line.line, each), entry.text)
        assert match is not None, (entry, line.line)
        shown = iter(match.groups())
        for one, found in each.items():
            if found[0].kind == "words":
                continue
            text = next(shown)
            figures += 1
            if one == "members":
                assert text == str(len(entry.members))
            elif one in line.sums:
                found[0].assert_shown(text, sum(figure.value for figure in found))
            else:
                for figure in found:
                    figure.assert_shown(text, figure.value)
    return figures


def _pattern(line: str, each: dict[str, list[_Figure]]) -> str:
    """A line as a pattern: its words as they must stand, a group for each figure."""
    pattern = re.escape(" ".join(line.split()))
    for name, figures in each.items():
        words = list(dict.fromkeys(str(figure.value) for figure in figures))
        text = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
        # The words to choose from are printed without their hyphens.
        group = re.escape(text).replace(r"\-", "[- ]") if figures[0].kind == "words" else "(.+?)"
        # A name that stands twice is read once.
        pattern = pattern.replace(re.escape(f"{{{name}}}"), group, 1)
    return pattern


class _Figure:
    """What one name of a line stands for, worked out formula by formula, apart from the sheet."""

    def __init__(self, value: Any, unit: Unit | None, kind: str) -> None:
        self.value, self.unit, self.kind = value, unit, kind

    @classmethod
    def of(
        cls,
        name: str,
        rule: Rule,
        member: int | None,
        values: Values,
        wording: Wording,
        installation: Installation,
    ) -> _Figure:
        values.work_out(rule.derived)
        names = {**values.rulebook.names, "S": values.S, "D": values.D}
        record = installation.record
        if rule.each is not None and member is not None:
            names[f"m_{rule.each.variable}"] = values.S[rule.each.field.slot][member]
        if name == "subject":
            assert rule.subject is not None
            return cls(evaluate(rule.subject.source, names), None, "words")
        if name == "members":
            return cls(0, None, "count")
        if name in rule.parameters:
            parameter = rule.parameters[name]
            unit = parameter.unit and wording.unit(parameter.unit)
            return cls(parameter.value, unit, "parameter")
        for line in (*rule.lines, *(side for side in (rule.demand, rule.limit) if side)):
            names[f"v_{line.name}"] = evaluate(line.formula.source, names)
            if line.name == name:
                value = names[f"v_{name}"]
                if line.unit is None:
                    return cls(value, None, "words" if isinstance(value, str) else "date")
                return cls(value, wording.unit(line.unit), "quantity")
        if name.startswith("derived."):
            derived = values.rulebook.derived[name.removeprefix("derived.")]
            unit = derived.result.unit
            return cls(values.D[derived.index], unit and wording.unit(unit), "quantity")
        if rule.each is not None and name.startswith(f"{rule.each.variable}."):
            assert member is not None
            record, name = record.members[rule.each.field.slot][member], name.partition(".")[2]
        field = record.layout.leaf(name)
        assert field is not None, name
        fact = record.facts[field.slot]
        assert fact is not None, name
        kind = "words" if field.type in ("text", "choice") else field.type
        return cls(record.values[field.slot], fact.unit, kind)

    def assert_shown(self, text: str, value: Any) -> None:
        assert not isinstance(value, Absent)
        if self.kind == "date":
            assert date.fromisoformat(text) == date(1970, 1, 1) + timedelta(seconds=value)
        elif self.kind == "flag" or isinstance(value, bool):
            assert text == ("yes" if value else "no")
        else:
            number, least = _read(text)
            unit = self.unit
            assert unit is None or unit.shown in text or unit.symbol in text
            read = number if unit is None else number * unit.factor + unit.offset
            step = least * (1 if unit is None else unit.factor)
            assert abs(read - value) <= step / 2 * (1 + 1e-9) + 1e-9 * abs(value), (text, value)


def _read(text: str) -> tuple[float, float]:
    """The number in front of a text, and the size of its last digit."""
    match = re.match(r"(?:(\d+) )?(\d+)/(\d+)(?= )|(\d+)(?:\.(\d+))?", text)
    assert match is not None, text
    if match[3]:
        return float(match[1] or 0) + int(match[2]) / int(match[3]), 0.0
    return float(f"{match[4]}.{match[5] or 0}"), 10.0 ** -len(match[5] or "")


@pytest.mark.parametrize("name", MAIN)
def test_each_figure_is_that_of_its_rule(name: str) -> None:
    assert check_figures(name) > 60


def test_no_figure_stands_in_a_line_itself() -> None:
    for rule in the_checker().rulebook.rules:
        for line in rule.sheet:
            assert not re.search(r"\d", PLACEHOLDER.sub("", line.line)), (rule.name, line.line)


# --- hold points -----------------------------------------------------------------


@pytest.mark.parametrize("name", MAIN)
def test_hold_points_in_the_order_of_work(name: str) -> None:
    sheet, _, rulebook = drawn(name)
    found = [entry for part, entry in entries(sheet) if part == "hold"]
    orders = [rulebook.rule(e.rule).sheet[e.line].order for e in found]  # type: ignore[union-attr]
    assert orders == sorted(orders)
    wanted = [
        "work-controls/isolation-locked",
        "work-controls/proved-dead",
        "work-controls/behind-the-panel",
        "work-controls/covers-before-cutting",
        "work-controls/swarf-removed",
        "load/tightening-torque",
        "handover/electrical-tests-recorded",
        "handover/drain-poured",
        "handover/fan-direction",
        "handover/smoke-proof",
    ]
    rules = [entry.rule for entry in found]
    places = [rules.index(rule) for rule in wanted]
    assert places == sorted(places)


# --- what is missing is asked for --------------------------------------------------


def test_an_empty_description_asks_in_every_part() -> None:
    sheet = sheet_of(EMPTY)
    asking = {part for part, entry in entries(sheet) if entry.asks}
    # Who signs and what is asked at handover stands whatever is stated.
    assert asking >= set(PARTS) - {"sign"}
    layout = bind(EMPTY, "empty.yaml").record.layout
    for _, entry in entries(sheet):
        assert entry.complete is not bool(entry.asks)
        for path in entry.asks:
            assert layout.by_path.get(path) is not None, path
            assert entry.text.count("State ") == 1


def test_a_missing_torque_is_asked_of_its_own_group() -> None:
    description = turning()
    del description["mount"]["fixings"][0]["torque"]
    sheet = sheet_of(description)
    asked = [e for part, e in entries(sheet) if part == "tighten" and e.asks]
    assert [e.asks for e in asked] == [("mount.fixings[0].torque",)]
    assert asked[0].text.startswith("M12 8.8: ____ by torque wrench")
    # The other group of the same size keeps its own line.
    assert "M12 8.8: 70 N·m by torque wrench" in text_of(sheet, "tighten")


def test_an_unknown_condition_is_asked_for_too() -> None:
    description = turning()
    del description["mount"]["fixings"][2]["kind"]
    drill = [e for part, e in entries(sheet_of(description)) if part == "drill" and e.asks]
    assert {e.rule for e in drill} >= {"load/hole-size", "load/tapping-drill"}
    assert all(e.asks[0] == "mount.fixings[2].kind" for e in drill)


STATED = re.compile(r"stated\(")


@pytest.mark.parametrize(
    "path",
    ["mount.fixings", "mount.post", "duct", "drain", "cable", "gauge", "lifting", "seals", "work", "collector.motor", "collector.filters"],
)  # fmt: skip
def test_no_line_vanishes_with_its_figures(path: str) -> None:
    full, _, rulebook = drawn(TURNING)
    description = turning()
    section = description
    *above, last = path.split(".")
    for name in above:
        section = section[name]
    del section[last]
    left = {(part, entry.rule) for part, entry in entries(sheet_of(description))}
    for part, entry in entries(full):
        rule = rulebook.rule(entry.rule)
        assert rule is not None
        texts = [rule.applies.text if rule.applies else ""]
        texts += [c.text for line in rule.sheet if (c := line.condition) is not None]
        if not any(STATED.search(text) for text in texts):
            assert (part, entry.rule) in left, entry


def test_what_a_rule_refuses_is_marked() -> None:
    description = turning()
    description["mount"]["fixings"][0]["torque"] = "120 N*m"
    sheet = sheet_of(description)
    wrong = [e for part, e in entries(sheet) if part == "tighten" and e.grade]
    assert [(e.grade, e.members) for e in wrong] == [("correct", (0,))]
    text = " ".join(render_text(sheet).split())
    assert re.search(r"\[!\] M12 8\.8: 120 N·m .*?\(\d+\*?: correct\)", text)


def test_a_plan_has_what_only_the_finished_work_can_show() -> None:
    plan, _, rulebook = drawn(TURNING)
    later = [e for _, e in entries(plan) if rulebook.rule(e.rule).stages == ("fitted",)]  # type: ignore[union-attr]
    assert {"handover/smoke-proof", "electrical-protection/insulation-resistance"} <= {
        e.rule for e in later
    }
    # A test sheet that nobody has written yet is no field that the plan lacks.
    assert not any(path.startswith("records.") for e in later for path in e.asks)


# --- alike members share a line ------------------------------------------------------

SHARED = """\
each: box in boxes
subject: box.name
working:
  twice: {formula: 2 * box.mass, unit: kg}
expect: {correct: box.mass > 0}
sheet:
  - {part: kit, sum: [twice], line: "{members} boxes {box.kind}, {twice}: {subject}."}
  - {part: set, if: box.mass > 0, line: "{subject} at {box.mass}."}
"""


def boxes(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
    text: str,
) -> Sheet:
    rulebook = load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(SHARED)})
    return sheet_for(rulebook, describe(text))


def test_members_share_a_line_and_their_sums(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(load, rule_text, describe, "boxes: [{name: a, kind: open, mass: 1 kg}, {name: b, kind: shut, mass: 2 kg}, {name: c, kind: open, mass: 3.5 kg}]")  # fmt: skip
    assert text_of(sheet, "kit") == "2 boxes open, 9 kg: a and c.\n1 boxes shut, 4 kg: b."
    assert text_of(sheet, "set") == "a at 1 kg.\nb at 2 kg.\nc at 3.5 kg."


def test_a_member_that_lacks_a_figure_stands_alone(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(
        load,
        rule_text,
        describe,
        "boxes: [{name: a, kind: open, mass: 1 kg}, {name: b, kind: open}]",
    )
    assert text_of(sheet, "kit").splitlines() == [
        "1 boxes open, 2 kg: a.",
        "1 boxes open, ____: b. State boxes[1].mass.",
    ]
    assert "b at ____. State boxes[1].mass." in text_of(sheet, "set")


def test_a_list_that_is_not_stated_is_asked_for(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(load, rule_text, describe, "job: {stage: plan}")
    assert text_of(sheet, "kit") == "Shelf: State boxes."


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('{part: kit, sum: [box.mass], line: "{subject}"}', "write {box.mass} in the line"),
        ('{part: kit, sum: [box.kind], line: "{box.kind}"}', "name a number"),
        ('{part: kit, sum: [nothing], line: "{subject} {nothing}"}', "stands for nothing"),
        ('{part: kit, line: "{member} boxes"}', "stands for nothing"),
    ],
)
def test_sums_that_cannot_be(
    load: Callable[..., Rulebook], rule_text: Callable[[str], str], line: str, said: str
) -> None:
    parts = SHARED.partition("sheet:")[0] + f"sheet:\n  - {line}\n"
    with pytest.raises(Mistakes) as refused:
        load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(parts)})
    assert said in str(refused.value)


def test_a_sum_needs_a_list(load: Callable[..., Rulebook], rule_text: Callable[[str], str]) -> None:
    parts = 'expect: {correct: shelf.mass > 0}\nsheet:\n  - {part: kit, sum: [shelf.mass], line: "{shelf.mass}"}\n'
    with pytest.raises(Mistakes) as refused:
        load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(parts)})
    assert "the rule needs 'each'" in str(refused.value)
