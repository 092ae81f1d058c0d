"""The report as JUnit XML, for what shows test results.

There is no official standard; the form is what the strictest common schema accepts.
``stop`` and ``correct`` are failures, ``confirm`` an error (a skipped case would look
green), ``advise`` passes with a note, what does not apply is skipped with its reason.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple
from xml.sax.saxutils import escape, quoteattr

from checker.findings import Finding, Report
from checker.grades import Grade

__all__ = ["SuiteCase", "case_of", "head", "render", "suite", "tail", "xml_text"]

# What XML 1.0 cannot hold, even escaped; and what it discourages.
_BAD = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufdcf\ufdf0-\ufffd\U00010000-\U0010ffff]"
)


class SuiteCase(NamedTuple):
    """One rule's answer: its class, its name, its grade and its sentence."""

    classname: str
    name: str
    grade: Grade
    message: str
    text: str


def render(report: Report) -> str:
    """The report as one JUnit document."""
    label = report.reference or report.description
    cases = [
        case_of(f, f"{label}.{f.family}", f.rule + (f" [{f.subject}]" if f.subject else ""))
        for f in report.findings
    ]
    return head() + suite(report.description, cases, _properties(report)) + tail()


def head() -> str:
    """What stands before the first suite."""
    return '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="mistwright">\n'


def tail() -> str:
    """What stands behind the last suite."""
    return "</testsuites>\n"


def suite(name: str, cases: Iterable[SuiteCase], properties: dict[str, str]) -> str:
    """One description's suite."""
    listed = list(cases)
    failures = sum(c.grade in (Grade.STOP, Grade.CORRECT) for c in listed)
    errors = sum(c.grade is Grade.CONFIRM for c in listed)
    skipped = sum(c.grade is Grade.NOT_APPLICABLE for c in listed)
    out = [
        f'  <testsuite name={_attribute(name)} tests="{len(listed)}" failures="{failures}" errors="{errors}" skipped="{skipped}" time="0.000">',
        "    <properties>",
        *(
            f"      <property name={_attribute(k)} value={_attribute(v)}/>"
            for k, v in properties.items()
        ),
        "    </properties>",
    ]
    seen: dict[tuple[str, str], int] = {}
    for case in listed:
        # Readers keep only the first of two cases of one name.
        times = seen[case.classname, case.name] = seen.get((case.classname, case.name), 0) + 1
        shown = case.name if times == 1 else f"{case.name} #{times}"
        out.append(
            f'    <testcase classname={_attribute(case.classname)} name={_attribute(shown)} time="0.000"'
            + _inner(case)
        )
    out.append("  </testsuite>")
    return "\n".join(out) + "\n"


def case_of(finding: Finding, classname: str, name: str) -> SuiteCase:
    """The case of one finding."""
    return SuiteCase(classname, name, finding.grade, finding.sentence, _text(finding))


def xml_text(text: str) -> str:
    """A text with what XML cannot hold made visible.

    >>> xml_text("a" + chr(27) + "b")
    'a#x1Bb'
    """
    return _BAD.sub(lambda m: f"#x{ord(m[0]):02X}", text)


def _inner(case: SuiteCase) -> str:
    body = escape(xml_text(case.text))
    message = _attribute(case.message)
    match case.grade:
        case Grade.STOP | Grade.CORRECT:
            return (
                f'><failure type="{case.grade.word}" message={message}>{body}</failure></testcase>'
            )
        case Grade.CONFIRM:
            return f'><error type="confirm" message={message}>{body}</error></testcase>'
        case Grade.NOT_APPLICABLE:
            return f"><skipped message={message}/></testcase>"
        case Grade.ADVISE:
            return f"><system-out>{body}</system-out></testcase>"
    return "/>"


def _text(finding: Finding) -> str:
    lines = [finding.sentence]
    lines += [
        f"{m.file}:{m.line}:{m.column}: {m.path} is not stated. {m.where}" for m in finding.missing
    ]
    lines += [f"{f.file}:{f.line}:{f.column}: {f.path} {f.text}" for f in finding.fields[:12]]
    lines += [f"try: {r.sentence}" for r in finding.remedies]
    lines += [*finding.remarks, f"caution: {finding.caution}"]
    return "\n".join(lines)


def _properties(report: Report) -> dict[str, str]:
    return {
        "verdict": report.verdict.value, "stage": report.stage, "tool-version": report.tool,
        "rulebook": report.rulebook, "description": report.digest, "local": ", ".join(report.overlays),
    }  # fmt: skip


def _attribute(text: str) -> str:
    return quoteattr(xml_text(text), {"\n": "&#10;", "\t": "&#9;", "\r": "&#13;"})
