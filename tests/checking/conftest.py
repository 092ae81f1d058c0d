"""One rule of a test's own, asked about one description."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from checker.checking.judging import judge
from checker.findings import Finding
from checker.grades import Grade
from checker.installation.record import Installation
from checker.reporting.reports import report_on
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]


@pytest.fixture
def ask(load: Load, rule_text: RuleText, describe: Describe) -> Callable[..., Finding]:
    """The one finding of a rule made of the parts given, on a description."""

    def finding(parts: str, description: str = "", **says: str) -> Finding:
        text = rule_text(parts)
        for grade, sentence in says.items():
            text = text.replace(
                f"{grade}: {grade[0] if grade != 'confirm' else 'f'}",
                f"{grade}: {json.dumps(sentence)}",
                1,
            )
        book = load({"load/shelf.yaml": text})
        report = report_on(book, describe(description))
        (found,) = (f for f in report.findings if f.rule == "load/shelf")
        judged = judge(book, describe(description))
        told = [] if found.grade is Grade.NOT_APPLICABLE else [found.grade]
        assert [a.grade for a in judged.answers if a.rule == "load/shelf"] == told
        return found

    return finding
