"""NFPA 51B: fire watch after hot work."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


# NFPA 51B, 2019 edition, as public permit templates print it: 60 minutes, prolonged to three hours
# where the permit says so. Confidence: checked.
@pytest.mark.parametrize(
    ("watch", "grade"), [("60 min", "met"), ("59 min", "correct"), ("3 h", "met")]
)
def test_one_hour(ask: Callable[..., Finding], watch: str, grade: str) -> None:
    found = ask(
        "work-controls/fire-watch", work=f"{{hot_work: {{done: true, watch_after: {watch}}}}}"
    )
    assert found.grade.word == grade


# Many texts print "NFPA 51B, 30 minutes", the figure of older editions: it is not met here.
def test_the_older_half_hour_does_not_pass(ask: Callable[..., Finding]) -> None:
    found = ask("work-controls/fire-watch", work="{hot_work: {done: true, watch_after: 30 min}}")
    assert found.grade.word != "met"
