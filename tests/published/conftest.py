"""The shipped rulebook for checks of printed values, and one rule's finding on a few lines of YAML."""

from __future__ import annotations

import copy
from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.installation.binding import bind
from checker.reporting.reports import report_on
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook


@pytest.fixture(scope="session")
def shipped() -> Rulebook:
    return load_rulebook()


@pytest.fixture(scope="session")
def ask(shipped: Rulebook) -> Callable[..., Finding]:
    """ask("family/rule", section="{field: value}", ...): the one finding of that rule."""

    def finding(rule: str, **sections: str) -> Finding:
        lines = {"job": "{stage: plan}", "mount": "{kind: side-post}", **sections}
        text = "".join(f"{name}: {body}\n" for name, body in lines.items())
        # The other rules are left out: a check of one printed value need not run them all.
        only = copy.copy(shipped)
        only.rules = tuple(r for r in shipped.rules if r.name == rule)
        report = report_on(only, bind(text.encode(), "printed.yaml"))
        found = [f for f in report.findings if f.rule == rule]
        assert len(found) == 1, f"{rule}: {len(found)} findings"
        return found[0]

    return finding
