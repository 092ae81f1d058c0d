"""What the tests of the outputs share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from checker.findings import Finding, Report
from checker.grades import Grade

ROOT = Path(__file__).parents[2]


@pytest.fixture
def normal() -> Callable[[Report], Report]:
    """A report without what changes with every version: the version, digests, this machine's paths."""

    def normalised(report: Report) -> Report:
        name = Path(report.description).name
        findings = tuple(_named(f, report.description, name) for f in report.findings)
        counts = {g.word: 0 for g in Grade} | report.counts
        return report._replace(tool="0.0.0", rulebook="0" * 64, digest="0" * 64, description=name, findings=findings, counts=counts
        )  # fmt: skip

    return normalised


def _named(finding: Finding, path: str, name: str) -> Finding:
    fields = tuple(f._replace(file=name) if f.file == path else f for f in finding.fields)
    missing = tuple(m._replace(file=name) if m.file == path else m for m in finding.missing)
    return finding._replace(fields=fields, missing=missing)
