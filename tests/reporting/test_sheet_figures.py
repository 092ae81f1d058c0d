"""Each figure of a fitting sheet is the one that its rule works out, formula by formula."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

import pytest
from sheets import DEFECTIVE, MAIN, drawn, entries, the_checker

from checker.absent import Absent
from checker.checking.outcomes import Values
from checker.formulas.lacking import evaluate
from checker.installation.record import Installation
from checker.output.sheet import render_text
from checker.reporting.wording import Wording
from checker.rulebook.model import Rule
from checker.rulebook.soundness import PLACEHOLDER
from checker.units import Unit


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


@pytest.mark.slow
@pytest.mark.parametrize("name", DEFECTIVE)
def test_defective_ones_are_drawn(name: str) -> None:
    sheet, *_ = drawn(f"defective/{name}")
    text = render_text(sheet)
    assert max(len(line) for line in text.splitlines()) <= 80
    check_figures(f"defective/{name}")
